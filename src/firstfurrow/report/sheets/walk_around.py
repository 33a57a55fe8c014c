"""The walk-around sheet: stops in the order walked, numbered boxes to fill in by hand, to be typed in afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.model import Book, OfferKey
from firstfurrow.book.walk_around import boxes, unit_of
from firstfurrow.quantities import Units
from firstfurrow.report.blocks import Blank, Block, FillIn, Heading, Paragraph, Part, Tick
from firstfurrow.report.sheets.forms import in_form
from firstfurrow.report.sheets.wording import Say, careful, either, head, made_by, saying, wanted

SEVERAL = 3  # blanks where several may be written


def walk_around_sheet(book: Book, units: Units | None = None) -> str:
    """The sheet as text; without `units` both are printed behind a box, and one is struck out."""
    return in_form(walk_around_parts(book, units), "text", encoding="ascii")


def walk_around_parts(book: Book, units: Units | None = None) -> tuple[Part, ...]:
    """The sheet as content blocks."""
    return (Part("walk", tuple(_blocks(book, units))),)


def _blocks(book: Book, units: Units | None) -> Iterator[Block]:
    say = saying(book)
    assert book.round is not None
    yield Heading(say("walk_title"), 1)
    yield head(say, say("walk_head"), units)
    yield Paragraph(say("walk_bring", what=", ".join(book.round.bring)))
    yield from careful(say, book.round.cautions)
    yield FillIn(lines=(say("walk_name"), say("walk_day")))
    stop = None
    for box in boxes(book):
        if box.stop is not stop:
            stop = box.stop
            yield Heading(stop.title)
            yield Paragraph(stop.look)
            yield from careful(say, stop.cautions)
        yield key_box(book, say, box.key, units, str(box.number))
    yield Paragraph(say("walk_foot"))
    yield made_by(book, say)


def key_box(
    book: Book, say: Say, key: OfferKey, units: Units | None, number: str, *, lines: tuple[str, ...] = ()
) -> FillIn:
    """One key of an offer to fill in: its name, room for a measure or words to tick, what it is and where to look."""
    what = say("walk_what", what=key.what, where=key.where)
    return FillIn(
        number, key.name,
        blanks=() if key.words else _blanks(book, say, key, units),
        ticks=tuple(Tick(word.label) for word in key.words),
        notes=(say("walk_several", what=what) if key.many else what,),
        lines=lines,
    )  # fmt: skip


def _blanks(book: Book, say: Say, key: OfferKey, units: Units | None) -> tuple[Blank, ...]:
    unit = either(say, (unit_of(book, key, each) for each in wanted(units)))
    count = SEVERAL if key.many else 1
    wide = key.dimension is None  # a print, such as a size, is longer than a number
    return (*[Blank(wide=wide)] * (count - 1), Blank(unit=unit, wide=wide))
