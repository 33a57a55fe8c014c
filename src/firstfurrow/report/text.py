"""Content blocks as terminal text, through rich: tables where there is room for them, lists where there is not."""

from __future__ import annotations

import io
import itertools
from collections.abc import Iterable, Sequence

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.padding import Padding
from rich.table import Table as RichTable
from rich.text import Text

from firstfurrow.quantities.harmless import harmless
from firstfurrow.report.blocks import (
    Bullets,
    Checklist,
    Contents,
    Document,
    FillIn,
    Heading,
    Paragraph,
    Picture,
    Steps,
    Table,
    Terms,
    Working,
)  # fmt: skip
from firstfurrow.report.fill_in import fill_lines

WIDEST = 100
ROOM = "____________"  # where the reader writes what is there
ROOM_FOR_A_TABLE = 64
LONG = 60  # rows
_PLAIN_SIGNS = str.maketrans({"×": "x", "÷": "/", "²": "^2", "─": "-", "–": "-", "’": "'", "•": "*"})


def render(document: Document, width: int, *, colour: bool = False, encoding: str = "utf-8") -> str:
    """The document as text of at most `width` columns, in characters that `encoding` has."""
    target = io.StringIO()
    console = Console(
        file=target, width=max(24, min(width, WIDEST)), force_terminal=colour, no_color=not colour,
        color_system="standard" if colour else None, highlight=False, markup=False, emoji=False, legacy_windows=False,
    )  # fmt: skip
    for block in document:
        _block(console, block)
    text = "\n".join(line.rstrip() for line in target.getvalue().splitlines()).rstrip() + "\n"
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        text = text.translate(_PLAIN_SIGNS).encode("ascii", "replace").decode("ascii")
    return text


def _text(text: str, style: str = "") -> Text:
    """A piece of text, without any sign that a terminal would obey."""
    return Text(harmless(text), style)


def _block(console: Console, block: object) -> None:
    if isinstance(block, Heading):
        _heading(console, block)
    elif isinstance(block, Paragraph):
        style = {"strong": "bold", "caution": "bold", "quiet": "dim"}.get(block.tone, "")
        console.print(_text(block.text, style=style))
        if block.tone != "strong":
            console.print()
    elif isinstance(block, Bullets):
        for item in block.items:
            _hanging(console, "-", _text(item, style="bold" if block.tone == "caution" else ""))
        console.print()
    elif isinstance(block, Contents):
        for number, title in enumerate(block.titles, 1):
            _hanging(console, f"{number:3}", _text(title))
        console.print()
    elif isinstance(block, Terms):
        for word, means in block.items:
            _hanging(console, "-", _text(f"{word}: {means}"))
        console.print()
    elif isinstance(block, Picture):
        console.print(_text(block.title, style="bold"))
        for line in block.says:
            _hanging(console, "-", _text(line))
        console.print()
    elif isinstance(block, Checklist):
        for row in block.rows:
            line = block.line.format(what=row.what, need=row.need, room=ROOM, check=row.check)
            _hanging(console, "-", _text(line))
        console.print()
    elif isinstance(block, FillIn):
        for line in fill_lines(block, console.width):
            console.print(_text(line))
        console.print()
    elif isinstance(block, Steps):
        for line in block.drawing:
            console.print(_text(line), no_wrap=True, crop=False)
        for number, item in enumerate(block.items, 1):
            _hanging(console, f"{number:3}", _text(item))
        console.print()
    elif isinstance(block, Table):
        _table(console, block)
    elif isinstance(block, Working):
        _working(console, block)


def _heading(console: Console, block: Heading) -> None:
    if block.level < 3:
        console.print()
    text = block.text.upper() if block.level == 1 else block.text
    console.print(_text(text, style="bold"))
    if block.level < 3:
        console.print(_text(("=" if block.level == 1 else "-") * min(len(text), console.width), style="bold"))
    if block.level == 1:
        console.print()


def _hanging(console: Console, label: str, *parts: Text) -> None:
    """A label and the text beside it; further parts stand below the first, a little further in.

    Folded by rich and set by hand: a grid of two columns for each of a thousand lines takes three times as long.
    """
    lines: list[Text] = []
    for number, part in enumerate(parts):
        beside = len(label) + 1 + (2 if number else 0)
        for line in part.wrap(console, console.width - beside):
            lines.append(Text.assemble(" " * beside if lines else f"{label} ", line))
    console.print(Text("\n").join(lines), no_wrap=True, overflow="ignore", crop=False)


def _table(console: Console, block: Table) -> None:
    if console.width < ROOM_FOR_A_TABLE:
        for row in block.rows:
            console.print(_text(row[0], style="bold"))
            for header, cell in zip(block.headers[1:], row[1:], strict=True):
                if cell:
                    console.print(Padding(_text(f"{header}: {cell}"), (0, 0, 0, 2)))
        console.print()
        return
    if len(block.rows) > LONG:
        _long_table(console, block)
    else:
        console.print(_rich_table(block.headers, block.rows))
    console.print()


def _rich_table(headers: Sequence[str], rows: Iterable[Sequence[str]], *, head: bool = True) -> RichTable:
    table = RichTable(
        box=SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 1), header_style="bold", show_header=head
    )
    for index, header in enumerate(headers):
        table.add_column(_text(header), ratio=3 if index == 0 else 2, overflow="fold")
    for row in rows:
        table.add_row(*(_text(cell) for cell in row))
    table.expand = True
    return table


def _long_table(console: Console, block: Table) -> None:
    """The same look for thousands of rows: only the head, and rows that must be folded, go through rich.

    The columns are as wide whatever stands in them, so a row of single signs shows where each one begins and ends.
    """
    console.print(_rich_table(block.headers, ()))
    signs = [chr(ord("a") + index) for index in range(len(block.headers))]
    with console.capture() as seen:
        console.print(_rich_table(block.headers, [[sign * WIDEST for sign in signs]], head=False))
    line = seen.get().splitlines()[0]
    starts, widths = [line.index(sign) for sign in signs], [line.count(sign) for sign in signs]

    def plain(row: Sequence[str]) -> str | None:
        if any(not c.isascii() or not c.isprintable() or len(c) > w for c, w in zip(row, widths, strict=True)):
            return None
        return "".join(c.ljust(end - start) for c, start, end in zip(row, starts, [*starts[1:], line_end], strict=True))

    line_end = starts[-1] + widths[-1]
    for fits, rows in itertools.groupby(block.rows, lambda row: plain(row) is not None):
        if fits:
            console.file.writelines(f"{plain(row)}\n" for row in rows)
        else:
            console.print(_rich_table(block.headers, rows, head=False))


def _working(console: Console, block: Working) -> None:
    """Each step: number, title and result; below it the formula in names, with numbers, and who says so."""
    for line in block.lines:
        lead = line.title if line.numbers is not None or not line.result else f"{line.title}: {line.result}"
        parts = [_text(lead), *(_text(extra) for extra in (line.formula, line.numbers) if extra is not None)]
        if line.origin is not None:
            parts.append(_text(f"[{line.origin}]", style="dim"))
        _hanging(console, line.id.rjust(5), *parts)
    console.print()
