"""Content blocks as Markdown: the same blocks in the same order as in every other form."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from firstfurrow.quantities.harmless import one_line
from firstfurrow.report.blocks import (
    Block,
    Bullets,
    Checklist,
    Contents,
    FillIn,
    Heading,
    Paragraph,
    Part,
    Picture,
    Steps,
    Table,
    Terms,
    Working,
)  # fmt: skip

_SIGNS = re.compile(r"([\\`*_\[\]<>#|~])")
_NO_FORMULA = re.compile(r"[^\w .,;:()+\-*/×÷²=%^'\"&]|http")  # nothing else stands in a line of working

ROOM = r"\_" * 12  # where the reader writes


def markdown(parts: Sequence[Part]) -> str:
    """The text of all parts; every block is preceded by an anchor with its id."""
    blocks = [
        f'<a id="{id_}"></a>\n\n{_block(block)}'
        for part in parts
        for id_, block in zip(part.ids, part.document, strict=True)
    ]
    return "\n\n".join(blocks) + "\n"


def _block(block: Block) -> str:
    if isinstance(block, Contents):
        return "\n".join(f"{number}. {_text(title)}" for number, title in enumerate(block.titles, 1))
    if isinstance(block, Terms):
        return "\n".join(f"- **{_text(word)}**: {_text(means)}" for word, means in block.items)
    if isinstance(block, Picture):
        return "\n".join((f"**{_text(block.title)}**\n", *(f"- {_text(line)}" for line in block.says)))
    if isinstance(block, Heading):
        return f"{'#' * block.level} {_text(block.text)}"
    if isinstance(block, Paragraph):
        return f"**{_text(block.text)}**" if block.tone in ("strong", "caution") else _text(block.text)
    if isinstance(block, Bullets):
        return "\n".join(f"- {_text(item)}" for item in block.items)
    if isinstance(block, Checklist):
        return "\n".join(f"- [ ] {_text(row.what)}: {_text(row.need)}. {_text(row.check)}" for row in block.rows)
    if isinstance(block, FillIn):
        return "\n\n".join(_fill_in(block))
    if isinstance(block, Steps):
        return "\n\n".join(_steps(block))
    if isinstance(block, Table):
        return "\n".join(_table(block))
    assert isinstance(block, Working)
    return "\n".join(_working(block))


def _fill_in(block: FillIn) -> Iterator[str]:
    number = f"{_text(block.number)}. " if block.number else ""
    if block.ask:
        yield f"**{number}{_text(block.ask)}**" + (f" ({_text(block.id)})" if block.id else "")
    if block.lead:
        yield _text(block.lead)
    if block.blanks:
        yield ("\n\n" if any(blank.lead for blank in block.blanks) else "  ").join(
            " ".join(filter(None, (_text(blank.lead), _text(blank.written) or ROOM, _text(blank.unit))))
            for blank in block.blanks
        )
    if block.ticks:
        yield "\n".join(f"- [{'x' if tick.on else ' '}] {_text(tick.label)}" for tick in block.ticks)
    yield from map(_text, block.notes)
    yield from (f"{_text(label)} {ROOM * 3}".strip() for label in block.lines)


def _steps(block: Steps) -> Iterator[str]:
    if block.drawing:
        yield "\n".join(f"    {one_line(line)}" for line in block.drawing)
    yield "\n".join(f"{number}. {_text(item)}" for number, item in enumerate(block.items, 1))


def _table(block: Table) -> Iterator[str]:
    yield _row(block.headers)
    yield _row(tuple("---" for _ in block.headers), plain=True)
    for row in block.rows:
        yield _row(row)


def _row(cells: tuple[str, ...], *, plain: bool = False) -> str:
    return "| " + " | ".join(cell if plain else _text(cell) for cell in cells) + " |"


def _working(block: Working) -> Iterator[str]:
    for line in block.lines:
        result = f": {line.result}" if line.result and line.formula is None and line.numbers is None else ""
        yield f"- **{_text(line.id)}** {_text(line.title + result)}"
        for text in (line.formula, line.numbers):
            if text is not None:
                yield f"  <br>`{_NO_FORMULA.sub(' ', text)}`"
        if line.origin is not None:
            yield f"  <br>[{_text(line.origin)}]"


def _text(text: str) -> str:
    """Text and nothing but text: the signs of Markdown and of HTML are taken at their face."""
    return _SIGNS.sub(r"\\\1", one_line(text)).replace("&", "&amp;")
