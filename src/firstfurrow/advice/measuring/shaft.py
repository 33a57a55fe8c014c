"""The turning shaft: its type from the grooves and the thickness."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.matching import Probe, Way, column
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, both, length, limit, measuring_of
from firstfurrow.book.model import Book

TABLE = "shaft_types"
MID = "mid"


def find(book: Book, readings: Readings) -> Finding:
    """The type of the shaft."""
    tell = Teller(book)
    rows = tuple(book.tables[TABLE].rows.values()) + tuple(measuring_of(book).lookalikes.get("shaft", ()))
    if readings.get("place") == "rear":
        rows = tuple(row for row in rows if row.id != MID)
    named = Named(tell, "shaft", rows, tuple(_probes(book, readings)), ("splines", "diameter"))
    what, next_ = [*named.what()], [*named.next()]
    one = named.one
    if one is not None:
        what += _speed(tell, book, one.row.id)
    other = named.other()
    if named.best and not other:
        other = (tell("else_none"),)
    if not named.from_memory:
        next_.append(tell("next_manual"))
    return Finding(tuple(what), other, tuple(next_), (tell("shaft_adapter"),))


def _probes(book: Book, readings: Readings) -> Iterator[Probe]:
    grooves, thickness = readings.get("grooves"), readings.get("thickness")
    if isinstance(grooves, int | float):
        slip = limit(book, "groove_slip") if grooves > limit(book, "grooves_sure") else 0.0
        yield Probe("splines", "splines", float(grooves), (Way(column("splines"), 0.0, slip, slip),))
    if isinstance(thickness, float):
        tape = limit(book, "tape")
        yield Probe("diameter", "diameter", thickness, (Way(column("diameter"), tape, tape, tape),))


def _speed(tell: Teller, book: Book, row_id: str) -> Iterator[str]:
    row = book.tables[TABLE].rows.get(row_id)
    if row is None:
        yield tell("shaft_odd")
        return
    speed, most, distance = (row.figures.get(c) for c in ("speed", "speed_most", "pin_distance"))
    if speed is not None:
        yield tell("shaft_speed", speed=both(speed.planning, speed.unit))
    if most is not None:
        yield tell("shaft_most", speed=both(most.planning, most.unit))
    if distance is not None:
        yield tell("shaft_pin_distance", distance=length(distance.planning), grade=tell.grade(distance))
