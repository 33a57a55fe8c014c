"""The drawbar: its class from the pin or its hole, and from the power at the shaft."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.matching import Probe, Way, column
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, limit
from firstfurrow.asking.wording import listed
from firstfurrow.book.model import Book, Row

TABLE = "drawbar_classes"


def find(book: Book, readings: Readings) -> Finding:
    """The class of the drawbar."""
    tell = Teller(book)
    rows = tuple(book.tables[TABLE].rows.values())
    probes = tuple(_probes(book, rows, readings))
    named = Named(tell, "drawbar", rows, probes, ("pin", "power"))
    what, one = [*named.what()], named.one
    rings = one.row.words.get("rings", ()) if one is not None else ()
    if rings:
        what.append(tell("drawbar_rings", rings=listed(rings, "or")))
    other = named.other()
    if named.best and not other:
        other = (tell("else_none"),)
    care = (tell("drawbar_limit"), tell("drawbar_low"))
    return Finding(
        tuple(what), other, named.next() if named.from_memory else (*named.next(), tell("next_manual")), care
    )


def _probes(book: Book, rows: tuple[Row, ...], readings: Readings) -> Iterator[Probe]:
    tape = limit(book, "tape")
    pin, hole, power = (readings.get(step) for step in ("pin", "hole", "power"))
    if isinstance(pin, float):
        yield Probe("pin", "drawbar_pin", pin, (Way(column("pin"), tape, limit(book, "wear_pin"), tape),))
    if isinstance(hole, float):
        play = limit(book, "drawbar_play")
        yield Probe("pin", "drawbar_hole", hole, (Way(column("pin"), play, 0.0, play),))
    if isinstance(power, float):
        yield Probe("power", "power", power, (_by_power(rows, power),))


def _by_power(rows: tuple[Row, ...], power: float) -> Way:
    """The smallest class that goes to this power fits; any other one is only close."""
    smallest = next((row.id for row in rows if row["power_most"].planning >= power), "")
    return Way(column("power_most"), 0.0, 0.0, 0.0, only=smallest)
