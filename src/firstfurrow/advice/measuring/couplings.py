"""Couplings for loads by their sort and size."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.matching import Probe, Way, column
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, limit, measuring_of
from firstfurrow.book.model import Book, Row

TABLE = "couplers"
SORTS = ("ball", "hook", "clevis", "piton")


def find(book: Book, readings: Readings) -> Finding:
    """The coupling for a trailer."""
    tell = Teller(book)
    lookalikes = tuple(measuring_of(book).lookalikes.get("coupling", ()))
    rows = tuple(row for row in book.tables[TABLE].rows.values() if row.words.get("carries") == "load")
    sort = readings.get("sort")
    probes = tuple(_probes(book, readings))
    fitting = tuple(r for r in (*rows, *lookalikes) if sort is None or _sort(r) == sort)
    if sort is not None and not probes:  # the sort alone names it
        known = next(row.name for row in fitting if row.id == sort)
        sizes = tell("next_size")
        return Finding((tell("likely", name=known),), (), (sizes, tell("next_manual")), (tell("coupling_pair"),))
    named = Named(tell, "coupling", fitting, probes, ("size",))
    next_ = [*named.next(), *([tell("next_sort")] if sort is None else []), tell("next_manual")]
    care = [tell("coupling_pair")]
    if any(c.row in lookalikes for c in named.best):
        care.append(tell("coupling_road"))
    other = named.other()
    if named.best and not other:
        other = (tell("else_none"),)
    return Finding(named.what(), other, tuple(next_), tuple(care))


def _sort(row: Row) -> str:
    return str(row.words.get("sort", row.id))


def _probes(book: Book, readings: Readings) -> Iterator[Probe]:
    tape = limit(book, "tape")
    ball, hole = readings.get("ball_size"), readings.get("ring_hole")
    if isinstance(ball, float):
        yield Probe("size", "ball", ball, (Way(column("size"), tape, limit(book, "wear_pin"), tape),))
    if isinstance(hole, float):
        yield Probe("size", "ring", hole, (Way(column("hole"), tape, tape, limit(book, "wear_hole")),))
