"""The walk-around sheet: stops in the order walked, numbered boxes to fill in by hand, to be typed in afterwards."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Sequence

from firstfurrow.book.model import Book
from firstfurrow.book.walk_around import Box, boxes, unit_of
from firstfurrow.quantities import Units

WIDTH = 80
BLANK = "[__________]"
TICK = "[ ] "
SEVERAL = 3  # blanks where several may be written
APART = "   "
INDENT = " " * 5  # behind the number of a box

Say = Callable[..., str]


def walk_around_sheet(book: Book, units: Units | None = None) -> str:
    """The text of the sheet; without `units` both are printed behind a box, and one is struck out."""
    return "\n".join(_lines(book, units)) + "\n"


def _lines(book: Book, units: Units | None) -> Iterator[str]:
    def say(id_: str, **slots: object) -> str:
        return book.messages[f"report.{id_}"].format(**slots)

    assert book.round is not None
    yield say("sheet_title").upper()
    yield ""
    yield from _wrapped(say("sheet_head"))
    yield from _wrapped(say("sheet_bring", what=", ".join(book.round.bring)))
    yield ""
    for caution in book.round.cautions:
        yield from _wrapped(caution, "! ")
    yield ""
    for line in ("sheet_name", "sheet_day"):
        yield say(line) + " " + "_" * (WIDTH - len(say(line)) - 1)
        yield ""
    stop = None
    for box in boxes(book):
        if box.stop is not stop:
            stop = box.stop
            yield from ("", stop.title.upper(), "-" * WIDTH)
            yield from _wrapped(stop.look)
            for caution in stop.cautions:
                yield from _wrapped(caution, "! ")
            yield ""
        yield from _box(book, say, box, units)
        yield ""
    yield from _wrapped(say("sheet_foot"))


def _box(book: Book, say: Say, box: Box, units: Units | None) -> Iterator[str]:
    key = box.key
    head = f"{box.number:3}. {key.name}"
    blanks = "" if key.words else _blanks(book, say, box, units)
    if blanks and len(head) + len(APART) + len(blanks) <= WIDTH:
        yield head + blanks.rjust(WIDTH - len(head))
    else:
        yield from _wrapped(key.name, f"{box.number:3}. ", INDENT)
        if blanks:
            yield blanks.rjust(WIDTH)
    if key.words:
        yield from _ticks([word.label for word in key.words])
    many = say("sheet_many") if key.many else ""
    yield from _wrapped(say("sheet_what", what=key.what, where=key.where) + many, INDENT)


def _blanks(book: Book, say: Say, box: Box, units: Units | None) -> str:
    wanted: tuple[Units, ...] = ("us", "metric") if units is None else (units,)
    names = dict.fromkeys(unit_of(book, box.key, each) for each in wanted)
    unit = say("sheet_or").join(name for name in names if name)
    if not box.key.words and box.key.dimension is None:
        return BLANK + "[" + "_" * (len(BLANK) - 2) + "]"  # a print, such as a size, is longer than a number
    return " ".join([*[BLANK] * (SEVERAL if box.key.many else 1), *([unit] if unit else [])])


def _ticks(labels: Sequence[str]) -> Iterator[str]:
    """The words to tick, side by side as far as they go."""
    line = INDENT
    for label in labels:
        part = TICK + label
        if line.strip() and len(line) + len(part) > WIDTH:
            yield line.rstrip()
            line = INDENT
        line += part + APART
    yield line.rstrip()


def _wrapped(text: str, first: str = "", rest: str | None = None) -> list[str]:
    behind = " " * len(first) if rest is None else rest
    return textwrap.wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=behind, break_on_hyphens=False, break_long_words=False
    )
