"""Content blocks as terminal text, through rich: tables where there is room for them, lists where there is not."""

from __future__ import annotations

import io

from rich.box import SIMPLE_HEAD
from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table as RichTable
from rich.text import Text

from firstfurrow.report.blocks import Bullets, Document, Heading, Paragraph, Table, Working

WIDEST = 100
ROOM_FOR_A_TABLE = 64
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


def _block(console: Console, block: object) -> None:
    if isinstance(block, Heading):
        _heading(console, block)
    elif isinstance(block, Paragraph):
        style = {"strong": "bold", "caution": "bold", "quiet": "dim"}.get(block.tone, "")
        console.print(Text(block.text, style=style))
        if block.tone != "strong":
            console.print()
    elif isinstance(block, Bullets):
        for item in block.items:
            console.print(_hanging("-", Text(item, style="bold" if block.tone == "caution" else "")))
        console.print()
    elif isinstance(block, Table):
        _table(console, block)
    elif isinstance(block, Working):
        _working(console, block)


def _heading(console: Console, block: Heading) -> None:
    if block.level < 3:
        console.print()
    text = block.text.upper() if block.level == 1 else block.text
    console.print(Text(text, style="bold"))
    if block.level < 3:
        console.print(Text(("=" if block.level == 1 else "-") * min(len(text), console.width), style="bold"))
    if block.level == 1:
        console.print()


def _hanging(label: str, body: RenderableType) -> RichTable:
    grid = RichTable.grid(padding=(0, 1))
    grid.add_column(no_wrap=True)
    grid.add_column()
    grid.add_row(label, body)
    return grid


def _table(console: Console, block: Table) -> None:
    if console.width < ROOM_FOR_A_TABLE:
        for row in block.rows:
            console.print(Text(row[0], style="bold"))
            for header, cell in zip(block.headers[1:], row[1:], strict=True):
                if cell:
                    console.print(Padding(Text(f"{header}: {cell}"), (0, 0, 0, 2)))
        console.print()
        return
    table = RichTable(box=SIMPLE_HEAD, show_edge=False, pad_edge=False, padding=(0, 1), header_style="bold")
    for index, header in enumerate(block.headers):
        table.add_column(header, ratio=3 if index == 0 else 2, overflow="fold")
    for row in block.rows:
        table.add_row(*(Text(cell) for cell in row))
    table.expand = True
    console.print(table)
    console.print()


def _working(console: Console, block: Working) -> None:
    """Each step: number, title and result; below it the formula in names, with numbers, and who says so."""
    for line in block.lines:
        lead = line.title if line.numbers is not None or not line.result else f"{line.title}: {line.result}"
        parts: list[RenderableType] = [Text(lead)]
        parts += [Padding(Text(extra), (0, 0, 0, 2)) for extra in (line.formula, line.numbers) if extra is not None]
        if line.origin is not None:
            parts.append(Padding(Text(f"[{line.origin}]", style="dim"), (0, 0, 0, 2)))
        console.print(_hanging(line.id.rjust(5), Group(*parts)))
    console.print()
