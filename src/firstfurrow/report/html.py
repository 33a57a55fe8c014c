"""Content blocks as one HTML file that needs no network: semantic, readable aloud, and made to be printed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from html import escape

from firstfurrow.report.blocks import (
    Block,
    Bullets,
    Checklist,
    Contents,
    Heading,
    Paragraph,
    Part,
    Picture,
    StepLine,
    Table,
    Terms,
    Working,
)  # fmt: skip
from firstfurrow.report.svg import svg

_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
# Black on white: it goes to paper. Nothing is said by colour alone; tones are classes with words of their own.
STYLE = """
:root { color-scheme: light; }
body { font: 11pt/1.4 Georgia, 'Times New Roman', serif; margin: 0 auto; max-width: 46rem; padding: 1rem;
  color: #000; background: #fff; }
h1 { font-size: 1.5em; margin: 0 0 .4em; } h2 { font-size: 1.2em; margin: 1.4em 0 .4em; border-bottom: 1px solid #000; }
h3 { font-size: 1em; margin: 1em 0 .3em; }
p, li { margin: .3em 0; overflow-wrap: anywhere; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
th, td { border: 1px solid #555; padding: .2em .4em; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
th[scope=row] { font-weight: normal; }
.room { min-width: 6em; }
.caution { border-left: 4px solid #000; padding-left: .6em; }
.quiet { color: #333; font-size: .9em; }
.strong { font-weight: bold; }
.working { list-style: none; padding-left: 0; } .working .line { display: block; padding-left: 2em; }
a:focus, main:focus { outline: 2px solid #000; }
@media (max-width: 40rem) { .checks thead { display: none; } .checks tr, .checks td, .checks th { display: block; }
  .checks tr { margin-bottom: .6em; } }
@page { margin: 12mm; }
@media print { body { font-size: 9pt; max-width: none; padding: 0; } .sheet { break-after: page; font-size: 8pt; }
  .sheet p, .sheet li { margin: .1em 0; } .sheet h2 { margin: .5em 0 .2em; }
  .sheet th, .sheet td { padding: .1em .3em; }
  h2, h3 { break-after: avoid; } tr, li { break-inside: avoid; } nav { display: none; } }
"""


def html_page(title: str, parts: Sequence[Part]) -> str:
    """One page. Each part is a section with a name for its id; the first one is the sheet for the yard.

    >>> "&lt;b&gt;" in html_page("<b>", (Part("a", (Paragraph("x"),)),))
    True
    """
    body = "\n".join(map(_section, parts))
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        # Nothing is loaded from anywhere, and the browser is told so.
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
        'img-src data:">\n'
        f"<title>{_text(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n{body}\n</main>\n</body>\n"
        "</html>\n"
    )


def _section(part: Part) -> str:
    kind = "sheet" if part.name == "yard" else "report"
    pairs = tuple(zip(part.ids, part.document, strict=True))
    headings = {block.text: id_ for id_, block in pairs if isinstance(block, Heading)}
    blocks = "\n".join(f'<div id="{id_}">{_block(id_, block, headings)}</div>' for id_, block in pairs)
    return f'<section id="{part.name}" class="{kind}">\n{blocks}\n</section>'


def _block(id_: str, block: Block, headings: Mapping[str, str]) -> str:
    if isinstance(block, Contents):
        entries = "".join(f'<li><a href="#{headings[title]}">{_text(title)}</a></li>' for title in block.titles)
        return f"<nav><ol>{entries}</ol></nav>"
    if isinstance(block, Terms):
        return f"<dl>{''.join(f'<dt>{_text(word)}</dt><dd>{_text(means)}</dd>' for word, means in block.items)}</dl>"
    if isinstance(block, Picture):
        return _picture(id_, block)
    if isinstance(block, Heading):
        return f"<h{block.level}>{_text(block.text)}</h{block.level}>"
    if isinstance(block, Paragraph):
        return f'<p class="{block.tone}">{_text(block.text)}</p>'
    if isinstance(block, Bullets):
        return f'<ul class="{block.tone}">{"".join(f"<li>{_text(item)}</li>" for item in block.items)}</ul>'
    if isinstance(block, Checklist):
        return _checklist(block)
    if isinstance(block, Table):
        return _table(block.headers, block.rows, "figures")
    assert isinstance(block, Working)
    return f'<ol class="working">{"".join(_step(line) for line in block.lines)}</ol>'


def _picture(id_: str, block: Picture) -> str:
    """The drawing is one image; the sentences below it say the same, for every reader."""
    said = "".join(f"<li>{_text(line)}</li>" for line in block.says)
    drawn = svg(block.drawing, block.title, id_)
    return f'<figure><figcaption>{_text(block.title)}</figcaption>{drawn}<ul class="says">{said}</ul></figure>'


def _checklist(block: Checklist) -> str:
    rows = tuple((row.what, row.need, row.check, "") for row in block.rows)
    return _table(block.headers, rows, "checks")


def _table(headers: tuple[str, ...], rows: tuple[tuple[str, ...], ...], name: str) -> str:
    head = "".join(f'<th scope="col">{_text(header)}</th>' for header in headers)
    body = "".join(
        f'<tr><th scope="row">{_text(row[0])}</th>'
        + "".join(f'<td class="room">{_text(cell)}</td>' if not cell else f"<td>{_text(cell)}</td>" for cell in row[1:])
        + "</tr>"
        for row in rows
    )
    return f'<table class="{name}"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'


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
    """Text and nothing but text: no tag, no sign that moves a cursor or turns the direction of reading."""
    return escape(_CONTROL.sub(" ", text))
