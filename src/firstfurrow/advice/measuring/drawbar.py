"""The drawbar: its class from the pin or its hole, from the bar itself, and from the power at the shaft."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.matching import Candidate, Probe, Way, column, match
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, length, limit, measuring_of
from firstfurrow.asking.wording import listed
from firstfurrow.book.model import Book, Figure, Row
from firstfurrow.mechanics.measuring import share_of_hole
from firstfurrow.quantities import format_number

TABLE = "drawbar_classes"
BAR_KNOWN = ("1", "2")  # classes of whose bar a figure is published: those with the same pin


def find(book: Book, readings: Readings) -> Finding:
    """The class of the drawbar."""
    tell = Teller(book)
    rows = tuple(book.tables[TABLE].rows.values())
    named = Named(tell, "drawbar", rows, tuple(_probes(book, rows, readings)), ("pin", "bar", "power"))
    alone = named.probes and all(probe.only_rules_out for probe in named.probes)
    what, one = [tell("drawbar_bar_alone")] if alone else [*named.what()], named.one
    what += _bar(book, named)
    what += _width(book, tell, readings)
    rings = one.row.words.get("rings", ()) if one is not None else ()
    if rings:
        what.append(tell("drawbar_rings", rings=listed(rings, "or")))
    other = named.other()
    if named.best and not other:
        other = (tell("else_none"),)
    next_ = [*named.next()]
    if {c.row.id for c in _against(named)} & {c.row.id for c in _by_pin(named)}:
        next_.insert(0, tell("drawbar_next_sleeve"))
    if not named.from_memory:
        next_.append(tell("next_manual"))
    return Finding(tuple(what), other, tuple(next_), (tell("drawbar_limit"), tell("drawbar_low")))


def _probes(book: Book, rows: tuple[Row, ...], readings: Readings) -> Iterator[Probe]:
    tape = limit(book, "tape")
    pin, hole, bar, power = (readings.get(step) for step in ("pin", "hole", "bar_thickness", "power"))
    if isinstance(pin, float):
        yield Probe("pin", "drawbar_pin", pin, (Way(column("pin"), tape, limit(book, "wear_pin"), tape),))
    if isinstance(hole, float):
        play = limit(book, "drawbar_play")
        yield Probe("pin", "drawbar_hole", hole, (Way(column("pin"), play, 0.0, play),))
    if isinstance(bar, float):
        thickest = measuring_of(book).figures["bar_thickest"]

        def most(row: Row) -> Figure | None:
            return thickest if row.id in BAR_KNOWN else None

        yield Probe("bar", "bar", bar, (Way(most, tape, 0.0, 0.0, most=True),))
    if isinstance(power, float):
        yield Probe("power", "power", power, (_by_power(rows, power),))


def _by_power(rows: tuple[Row, ...], power: float) -> Way:
    """The smallest class that goes to this power fits; any other one is only close."""
    smallest = next((row.id for row in rows if row["power_most"].planning >= power), "")
    return Way(column("power_most"), 0.0, 0.0, 0.0, only=smallest)


# -------------------------------------------------------------------- the bar


def _against(named: Named) -> tuple[Candidate, ...]:
    """The classes that the bar rules out."""
    return tuple(c for c in named.candidates if any(m.fit == "no" and m.probe.part == "bar" for m in c.marks))


def _by_pin(named: Named) -> tuple[Candidate, ...]:
    """The classes that the pin or its hole names."""
    pins = [probe for probe in named.probes if probe.part == "pin"]
    return tuple(c for c in match(named.rows, pins) if c.possible)


def _bar(book: Book, named: Named) -> Iterator[str]:
    """Whether the bar says the same as the pin."""
    bar = next((probe for probe in named.probes if probe.part == "bar"), None)
    if bar is None:
        return
    tell, figure = named.tell, measuring_of(book).figures["bar_thickest"]
    slots = {"measured": length(bar.value), "figure": length(figure.planning), "grade": tell.grade(figure)}
    against, by_pin = {c.row.id for c in _against(named)}, _by_pin(named)
    if against:
        yield tell("drawbar_bar_says", names=named.names(_against(named)), **slots)
        if {c.row.id for c in by_pin} & against:
            yield tell("drawbar_bar_more", names=named.names(by_pin))
    elif by_pin and all(c.row.id in BAR_KNOWN for c in by_pin):
        yield tell("drawbar_bar_agrees", **slots)
    elif by_pin:
        yield tell("drawbar_bar_open", measured=slots["measured"], name=named.names(by_pin))


def _width(book: Book, tell: Teller, readings: Readings) -> Iterator[str]:
    """A hole that takes up most of the bar; otherwise the width tells no class."""
    width, most = readings.get("bar_width"), measuring_of(book).figures["hole_share"]
    pin = next((v for v in (readings.get("pin"), readings.get("hole")) if isinstance(v, float)), None)
    if not isinstance(width, float):
        return
    share = 0.0 if pin is None else round(share_of_hole(bore=pin, width=width))
    if share > most.planning:
        shares = {"share": f"{format_number(share, 0)} %", "most": f"{format_number(most.planning, 0)} %"}
        yield tell("drawbar_drilled", measured=length(width), grade=tell.grade(most), **shares)
    else:
        yield tell("drawbar_width", measured=length(width))
