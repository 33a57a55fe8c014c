"""The load of a tongue from a bathroom scale, straight or under a beam."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, both, measuring_of
from firstfurrow.book.model import Book
from firstfurrow.mechanics.measuring import share_on_tongue, tongue_on_beam, tongue_on_scale
from firstfurrow.quantities import format_number


def find(book: Book, readings: Readings) -> Finding:
    """The load of the tongue."""
    tell = Teller(book)
    number = {step: value for step, value in readings.items() if isinstance(value, float)}
    other: tuple[str, ...] = (tell("tongue_else"),)
    care = (tell("tongue_care"),)
    beam = readings.get("way") == "beam"
    if "reading" not in number:
        return Finding((tell("tongue_none"),), other, (tell("tongue_next_reading"),), care)
    if beam and not {"beam", "arm"} <= number.keys():
        return Finding((tell("tongue_none_lever"),), other, (tell("tongue_next_distances"),), care)
    if beam and number["arm"] > number["beam"]:
        return Finding((tell("tongue_beyond"),), other, (tell("tongue_next_distances"),), care)
    tare = number.get("board_only", 0.0)
    if number["reading"] < tare:
        return Finding((tell("tongue_up"),), other, (tell("tongue_next_tare"),), care)
    if beam:
        load = tongue_on_beam(reading=number["reading"], board_only=tare, beam=number["beam"], arm=number["arm"])
    else:
        load = tongue_on_scale(reading=number["reading"], board_only=tare)
    what = [tell("tongue_is", load=_mass(round(load)))]
    if beam:
        what.append(_lever(tell, number, tare))
    if "way" not in readings:
        other = (tell("tongue_way_open"), *other)
    next_ = []
    if "board_only" not in number:
        what.append(tell("tongue_no_tare"))
        next_.append(tell("tongue_next_tare"))
    what += _share(book, tell, load, number.get("mass"))
    if "mass" not in number:
        next_.append(tell("tongue_next_mass"))
    next_.append(tell("tongue_next_loaded"))
    return Finding(tuple(what), other, tuple(next_), care)


def _lever(tell: Teller, number: dict[str, float], tare: float) -> str:
    spans = {step: both(number[step], "m", "length") for step in ("beam", "arm")}
    return tell("tongue_lever", reading=_mass(number["reading"]), tare=_mass(tare), **spans)


def _share(book: Book, tell: Teller, load: float, mass: float | None) -> Iterator[str]:
    if mass is None:
        return
    figures = measuring_of(book).figures
    share = share_on_tongue(load=load, mass=mass)
    least, most, usual = (figures[f"{name}_share"] for name in ("least", "most", "usual"))
    yield tell("tongue_share", share=_percent(share))
    if share < least.planning:
        yield tell("tongue_share_low", least=_percent(least.planning), grade=tell.grade(least))
    if share > most.planning:
        yield tell("tongue_share_high", most=_percent(most.planning), grade=tell.grade(most))
    yield tell("tongue_share_usual", usual=_percent(usual.planning), grade=tell.grade(usual))


def _mass(kg: float) -> str:
    return both(kg, "kg")


def _percent(value: float) -> str:
    return f"{format_number(value, 1)} %"
