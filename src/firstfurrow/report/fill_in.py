"""Things to fill in by hand as lines of text: a number, blanks, boxes to tick, lines to write on."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from firstfurrow.report.blocks import Blank, FillIn, Tick

ROOM, WIDE_ROOM = 10, 22  # signs between the brackets of a blank
SHORT = 28  # signs of a label; boxes stand side by side where no label is longer
LEAST_LINE = 20  # signs to write on behind a label, else the line begins below it
APART = "   "
INDENT = 5  # behind the number


def side_by_side(ticks: Sequence[Tick]) -> bool:
    """Whether the boxes read better in rows than one below the other.

    >>> side_by_side((Tick("flat"), Tick("slopes"))), side_by_side((Tick("soft ground, mud or deep sand"),))
    (True, False)
    """
    return all(len(tick.label) <= SHORT for tick in ticks)


def fill_lines(block: FillIn, width: int) -> list[str]:
    """The lines of text, none longer than `width` where the words allow it."""
    return list(_lines(block, width))


def _lines(block: FillIn, width: int) -> Iterator[str]:
    number = f"{block.number:>{INDENT - 2}}. " if block.number else ""
    indent = " " * len(number)
    apart = any(blank.lead for blank in block.blanks)  # each with words of its own: one below the other
    blanks = "" if apart else " ".join(map(_blank, block.blanks))
    asked = f"{block.ask} ({block.id})" if block.id else block.ask
    if blanks and len(number + asked + APART + blanks) <= width:
        yield number + asked + blanks.rjust(width - len(number + asked))
        blanks = ""
    elif asked:
        yield from _wrapped(asked, width, number, indent)
    if block.lead:
        yield from _wrapped(block.lead, width, indent)
    if blanks:
        yield ""  # a pen needs twice the height of a line of print
        yield from _wrapped(blanks, width, indent)
    for blank in block.blanks if apart else ():
        yield ""
        yield from _wrapped(_blank(blank), width, indent)
    yield from _boxes(block.ticks, width, indent)
    for note in block.notes:
        yield from _wrapped(note, width, indent)
    for label in block.lines:
        yield ""
        *above, last = _wrapped(label, width, indent) or [""]
        yield from above
        lead = f"{last} " if last else indent
        if width - len(lead) < LEAST_LINE:
            yield last
            lead = indent
        yield lead + "_" * (width - len(lead))


def _blank(blank: Blank) -> str:
    inside = blank.written.ljust(ROOM) if blank.written else "_" * (WIDE_ROOM if blank.wide else ROOM)
    return " ".join(filter(None, (blank.lead, f"[{inside}]", blank.unit)))


def _boxes(ticks: Sequence[Tick], width: int, indent: str) -> Iterator[str]:
    """The boxes, side by side as far as they go where the labels are short."""
    rows = side_by_side(ticks)
    line = indent
    for tick in ticks:
        part = f"[{'x' if tick.on else ' '}] {tick.label}"
        if not rows:
            yield from _wrapped(part, width, indent, f"{indent}    ")
            continue
        if line.strip() and len(line) + len(part) > width:
            yield line.rstrip()
            line = indent
        line += part + APART
    if rows and ticks:
        yield line.rstrip()


def _wrapped(text: str, width: int, first: str, rest: str | None = None) -> list[str]:
    behind = first if rest is None else rest
    return textwrap.wrap(text, width, initial_indent=first, subsequent_indent=behind, break_on_hyphens=False)
