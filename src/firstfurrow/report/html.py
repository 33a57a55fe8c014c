"""Content blocks as one HTML file that needs no network: semantic, readable aloud, and made to be printed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape

from firstfurrow.quantities.harmless import harmless
from firstfurrow.report.blocks import (
    Blank,
    Block,
    Bullets,
    Checklist,
    Contents,
    FillIn,
    Heading,
    Paragraph,
    Part,
    Picture,
    StepLine,
    Steps,
    Table,
    Terms,
    Working,
)  # fmt: skip
from firstfurrow.report.fill_in import side_by_side
from firstfurrow.report.html_style import STYLE, page_margins
from firstfurrow.report.svg import svg

TICKED = "\N{MULTIPLICATION SIGN}"
NEW_LINE = "\n"
MANY = 4  # boxes that stand in two columns
LONGEST_FOOT = 110  # signs of the title at the foot of a printed page


def html_page(title: str, parts: Sequence[Part]) -> str:
    """One page. Each part is a section with a name for its id; the first one is the sheet for the yard.

    Each part stands by itself, on paper too, and has a title of level 1 as in every other form.

    >>> "&lt;b&gt;" in html_page("<b>", (Part("a", (Paragraph("x"),)),))
    True
    """
    title = harmless(_named(title, parts))
    foot = title if len(title) <= LONGEST_FOOT else f"{title[:LONGEST_FOOT]}..."
    body = "\n".join(map(_section, parts))
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        # Nothing is loaded from anywhere, and the browser is told so.
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
        'img-src data:">\n'
        f"<title>{_text(title)}</title>\n<style>{STYLE}{page_margins(foot)}</style>\n</head>\n<body>\n"
        f"{_jump(parts[1:])}<main>\n{body}\n</main>\n</body>\n</html>\n"
    )


def _named(title: str, parts: Sequence[Part]) -> str:
    """The title with whose page it is, which the strong line below a title of level 1 says, where there is one.

    A page of one part is called like that part.
    """
    match parts[0].document[:2] if parts else ():
        case (Heading(text=own), Paragraph(tone="strong", text=name)):
            return f"{name} - {own if len(parts) == 1 else title}"
        case (Heading(text=own), *_) if len(parts) == 1:
            return own
    return title


def _jump(parts: Sequence[Part]) -> str:
    """Links to the parts that are far down, for those who do not want to read or tab through the first one."""
    firsts = [(part.ids[0], part.document[0]) for part in parts if part.document]
    links = [f'<a href="#{id_}">{_text(block.text)}</a>' for id_, block in firsts if isinstance(block, Heading)]
    return f'<header class="jump">{"<br>".join(links)}</header>\n' if links else ""


def _section(part: Part) -> str:
    kind = "sheet" if part.name == "yard" else "report"
    if part.name.startswith(("card", "key")):  # a page of its own
        kind += " apart"
    links = {block.text: id_ for id_, block in reversed(tuple(zip(part.ids, part.document, strict=True)))
             if isinstance(block, Heading) and block.level == 2}  # fmt: skip
    label, written = "", []
    for id_, block in zip(part.ids, part.document, strict=True):
        label = id_ if isinstance(block, Heading) else label
        written.append(_block(id_, block, label, links))
    first = next((n for n, block in enumerate(part.document, 1) if isinstance(block, Checklist)), None)
    if kind == "sheet" and first is not None:  # below the lines that must be there
        written[first:] = [f'<div class="rest">\n{NEW_LINE.join(written[first:])}\n</div>']
    named = f' aria-labelledby="{part.ids[0]}"' if part.document and isinstance(part.document[0], Heading) else ""
    return f'<section id="{part.name}" class="{kind}"{named}>\n{NEW_LINE.join(written)}\n</section>'


def _block(id_: str, block: Block, label: str, links: Mapping[str, str]) -> str:
    """One element with the id of its block; `label` is the id of the heading above it."""
    id_is = f'id="{id_}"'
    if isinstance(block, Heading):
        # Where a link leads, the keyboard and the voice go too.
        reached = ' tabindex="-1"' if block.level <= 2 else ""
        return f"<h{block.level} {id_is}{reached}>{_text(block.text)}</h{block.level}>"
    if isinstance(block, Paragraph):
        return f'<p {id_is} class="{block.tone}">{_text(block.text)}</p>'
    if isinstance(block, Bullets):
        return f'<ul {id_is} class="{block.tone}">{_items(block.items)}</ul>'
    if isinstance(block, Contents):
        entries = "".join(f'<li><a href="#{links[title]}">{_text(title)}</a></li>' for title in block.titles)
        return f'<nav {id_is} aria-labelledby="{label}"><ol>{entries}</ol></nav>'
    if isinstance(block, Terms):
        terms = "\n".join(f"<dt>{_text(word)}</dt> <dd>{_text(means)}</dd>" for word, means in block.items)
        return f"<dl {id_is}>{terms}</dl>"
    if isinstance(block, Picture):
        return _picture(id_, block)
    if isinstance(block, Checklist):
        return _checklist(id_, block, label)
    if isinstance(block, FillIn):
        return f'<div {id_is} class="fill">{"".join(_fill_in(block))}</div>'
    if isinstance(block, Steps):
        drawing = "\n".join(map(_text, block.drawing))
        drawn = f'<pre aria-hidden="true">{drawing}</pre>' if drawing else ""
        return f'<div {id_is} class="steps">{drawn}<ol>{_items(block.items)}</ol></div>'
    if isinstance(block, Table):
        return _table(id_, block, label)
    assert isinstance(block, Working)
    return f'<ol {id_is} class="working">{"".join(_step(line) for line in block.lines)}</ol>'


def _items(texts: Sequence[str]) -> str:
    return "".join(f"<li>{_text(text)}</li>" for text in texts)


def _picture(id_: str, block: Picture) -> str:
    """The drawing is one image; the sentences below it say the same, for every reader."""
    drawn = svg(block.drawing, block.title, id_)
    said = f'<ul id="{id_}-says" class="says">{_items(block.says)}</ul>'
    return f'<figure id="{id_}"><figcaption>{_text(block.title)}</figcaption>{drawn}{said}</figure>'


def _checklist(id_: str, block: Checklist, label: str) -> str:
    """What and what is asked for stand in one cell: so all of a line is read in one go, and fits two lines on paper."""
    head = _head(tuple(map(_text, block.headers)), ("what", "check", "room"))
    rows = "".join(
        f'<tr role="row"><th scope="row" role="rowheader">{_text(row.what)} <span class="need">{_text(row.need)}</span>'
        f'</th><td role="cell">{_text(row.check)}</td><td role="cell" class="room"></td></tr>'
        for row in block.rows
    )
    return _whole(id_, label, "checks tall", head, rows)


def _table(id_: str, block: Table, label: str) -> str:
    tall = len(block.headers) > 2
    heads = tuple(map(_text, block.headers))
    rows = []
    for first, *rest in block.rows:
        cells = (
            f'<td role="cell"{f""" data-head="{head}" """.rstrip() if tall and head else ""}>{_text(cell)}</td>'
            for head, cell in zip(heads[1:], rest, strict=True)
        )
        rows.append(f'<tr role="row"><th scope="row" role="rowheader">{_text(first)}</th>{"".join(cells)}</tr>')
    return _whole(id_, label, "figures tall" if tall else "figures", _head(heads), "".join(rows))


def _head(heads: Sequence[str], kinds: Sequence[str] = ()) -> str:
    """The header cells; these are texts of a page already."""
    classes = [f' class="{kind}"' for kind in kinds] or [""] * len(heads)
    return "".join(
        f'<th scope="col" role="columnheader"{class_}>{head}</th>' for head, class_ in zip(heads, classes, strict=True)
    )


def _whole(id_: str, label: str, kind: str, head: str, rows: str) -> str:
    """Roles are said aloud because a narrow screen shows rows as blocks, which takes them away in some browsers."""
    named = f' aria-labelledby="{label}"' if label else ""
    return (
        f'<table id="{id_}" role="table" class="{kind}"{named}>'
        f'<thead role="rowgroup"><tr role="row">{head}</tr></thead><tbody role="rowgroup">{rows}</tbody></table>'
    )


def _fill_in(block: FillIn) -> Iterator[str]:
    number = f'<span class="number">{_text(block.number)}.</span> ' if block.number else ""
    key = f' <span class="key">({_text(block.id)})</span>' if block.id else ""
    asked = f"<strong>{number}{_text(block.ask)}</strong>{key}" if block.ask else ""
    apart = any(blank.lead for blank in block.blanks)
    blanks = " ".join(map(_blank, block.blanks))
    if asked or block.blanks:
        yield f'<div class="head"><p>{asked}</p>{"" if apart else f"<p>{blanks}</p>"}</div>'
    if block.lead:
        yield f'<p class="lead">{_text(block.lead)}</p>'
    if apart:
        yield from (f"<p>{_blank(blank)}</p>" for blank in block.blanks)
    if block.ticks:
        boxes = "".join(
            f'<li><span class="box">{TICKED if tick.on else ""}</span> {_text(tick.label)}</li>'
            for tick in block.ticks
        )
        order = "rows" if side_by_side(block.ticks) else "many" if len(block.ticks) >= MANY else "few"
        yield f'<ul class="ticks {order}">{boxes}</ul>'
    yield from (f'<p class="quiet">{_text(note)}</p>' for note in block.notes)
    yield from (f'<p class="line">{_text(label)}</p>' for label in block.lines)


def _blank(blank: Blank) -> str:
    room = f'<span class="{"blank wide" if blank.wide else "blank"}">{_text(blank.written)}</span>'
    return " ".join(filter(None, (_text(blank.lead), room, _text(blank.unit))))


def _step(line: StepLine) -> str:
    return f"<li>{''.join(_step_parts(line))}</li>"


def _step_parts(line: StepLine) -> Iterator[str]:
    result = f": {_text(line.result)}" if line.result and line.formula is None and line.numbers is None else ""
    yield f"<strong>{_text(line.id)}</strong> {_text(line.title)}{result}"
    for text in (line.formula, line.numbers):
        if text is not None:
            yield f'<code class="line">{_text(text)}</code>'
    if line.origin is not None:
        yield f'<span class="line quiet">[{_text(line.origin)}]</span>'


def _text(text: str) -> str:
    """Text and nothing but text: no tag, no sign that does harm."""
    return escape(harmless(text))
