"""Couplers of oil hoses: family by the face, size by the stamp and by the tip of the male half."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from firstfurrow.advice.measuring.matching import Candidate, Probe, Way, column, match
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, both, length, limit, measuring_of
from firstfurrow.book.model import Book, Row

TABLE = "couplers"
USUAL, FLUSH = "quick_coupler", "flush_face"  # rows of that table
NOT_READ = ("none", "other")  # stamps that name no size
NORTH = "north"


def find(book: Book, readings: Readings) -> Finding:
    """The family and the size of a coupler for oil."""
    tell = Teller(book)
    face, stamp = readings.get("face"), readings.get("stamp")
    rows = tuple(row for row in _rows(book) if face is None or row.words["face"] == face)
    stamped = None if stamp is None or stamp in NOT_READ else tuple(r for r in rows if r.words["stamp"] == stamp)
    probes = tuple(_probes(book, readings))
    by_tip = Named(tell, "coupler", rows, probes, ("nose",), (USUAL,))
    named = by_tip
    if stamped is not None and any(c.row in stamped for c in by_tip.best + by_tip.others):
        named = Named(tell, "coupler", stamped, probes, ("nose",), (USUAL,))
    found = _what(book, readings, named, stamped)
    care = (tell("coupler_half"), tell("coupler_pressure"))
    return Finding(tuple(found), tuple(_other(tell, readings, named)), tuple(_next(tell, readings, named)), care)


def _rows(book: Book) -> Iterator[Row]:
    """The usual size, with its tip, then every other one that the book knows."""
    measuring = measuring_of(book)
    usual = book.tables[TABLE][USUAL]
    figures = {**usual.figures, "nose": measuring.figures["nose"]}
    yield replace(usual, figures=figures, words={**usual.words, "face": "tip", "stamp": "half"})
    yield from measuring.lookalikes.get("coupler", ())


def _probes(book: Book, readings: Readings) -> Iterator[Probe]:
    nose, tape = readings.get("nose"), limit(book, "tape")
    if isinstance(nose, float):
        yield Probe("nose", "nose", nose, (Way(column("nose"), tape, tape, tape),))


# ------------------------------------------------------------------- what it is


def _what(book: Book, readings: Readings, named: Named, stamped: tuple[Row, ...] | None) -> Iterator[str]:
    tell = named.tell
    if not named.probes and not stamped:
        yield from _family(book, tell, readings, stamped)
    elif stamped is None:
        yield from named.what()
    elif not named.probes:
        yield from _by_stamp(book, tell, stamped)
    elif not named.best or not all(c.row in stamped for c in named.best):
        yield from _clash(tell, named, stamped)
    else:
        yield from named.what()
        yield tell("coupler_both_say")
    one = _one(named, stamped)
    if one is not None:
        yield from _size(book, tell, one)
    if readings.get("face") == "flat":
        yield _rated(book, tell)


def _family(book: Book, tell: Teller, readings: Readings, stamped: tuple[Row, ...] | None) -> Iterator[str]:
    """Neither stamp nor tip names a size: the family alone."""
    if stamped is not None:
        yield tell("coupler_stamp_strange")
    face = readings.get("face")
    if face == "flat":
        yield tell("coupler_family_flat", name=book.tables[TABLE][FLUSH].name)
    elif face == "tip":
        yield tell("coupler_family_tip")
    else:
        yield tell("coupler_open")


def _by_stamp(book: Book, tell: Teller, stamped: tuple[Row, ...]) -> Iterator[str]:
    if len(stamped) == 1:
        yield tell("likely", name=stamped[0].name)
        return
    yield tell("coupler_stamp_says", names=Named(tell, "coupler", stamped, (), (), (USUAL,)).names(_all(stamped)))
    usual = next((row for row in stamped if row.id == USUAL), None)
    if usual is not None:
        size = usual["size"]
        yield tell("coupler_first", size=length(size.planning), grade=tell.grade(size))


def _clash(tell: Teller, named: Named, stamped: tuple[Row, ...]) -> Iterator[str]:
    stamp = named.names(_all(stamped))
    if named.best and stamped:
        yield tell("coupler_clash", stamp=stamp, tip=named.names(named.best))
    elif stamped:
        yield tell("coupler_clash_nothing", stamp=stamp, tip=length(named.probes[0].value))
    else:
        yield tell("coupler_stamp_strange")
        yield from named.what()


def _all(rows: tuple[Row, ...]) -> tuple[Candidate, ...]:
    return match(rows, ())


def _one(named: Named, stamped: tuple[Row, ...] | None) -> Row | None:
    """The single coupler that stamp and tip leave."""
    if named.one is not None and (stamped is None or named.one.row in stamped):
        return named.one.row
    if not named.probes and stamped is not None and len(stamped) == 1:
        return stamped[0]
    return None


def _size(book: Book, tell: Teller, row: Row) -> Iterator[str]:
    size = row["size"]
    yield tell("coupler_size", size=length(size.planning), grade=tell.grade(size))
    if row.id == USUAL:
        yield tell("coupler_usual")
    elif row.words.get("family") == NORTH:
        yield tell("coupler_north")
    elif row.words["face"] == "tip":
        yield tell("coupler_not_usual", size=length(book.tables[TABLE][USUAL]["size"].planning))


def _rated(book: Book, tell: Teller) -> str:
    pressure = book.tables[TABLE][FLUSH]["pressure"]
    low, high = (both(value, pressure.unit, "pressure") for value in (pressure.low, pressure.high))
    return tell("coupler_rated", low=low, high=high, grade=tell.grade(pressure))


# ------------------------------------------------------- what else, and what next


def _other(tell: Teller, readings: Readings, named: Named) -> Iterator[str]:
    yield from named.other()
    if readings.get("face") != "flat":
        yield tell("coupler_else_north")
    yield tell("coupler_else_flat")


def _next(tell: Teller, readings: Readings, named: Named) -> Iterator[str]:
    if readings.get("face") is None:
        yield tell("coupler_next_face")
    if readings.get("stamp") is None:
        yield tell("coupler_next_stamp")
    if not named.probes:
        yield tell("coupler_next_nose")
    elif len(named.best) != 1:
        yield tell("coupler_next_calliper")
    yield tell("coupler_next_try")
    if named.from_memory:
        yield tell("next_memory")
    elif readings.get("face") == "flat":
        yield tell("next_manual")
