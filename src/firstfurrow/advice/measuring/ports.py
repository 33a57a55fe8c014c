"""Oil ports to sets."""

from __future__ import annotations

from firstfurrow.advice.measuring.telling import Finding, Readings, Teller
from firstfurrow.book.model import Book
from firstfurrow.mechanics.measuring import sets_of_ports
from firstfurrow.quantities import format_number


def find(book: Book, readings: Readings) -> Finding:
    """How many sets the ports are."""
    tell = Teller(book)
    care, other = (tell("ports_care"),), (tell("ports_else"),)
    ports, returns, levers = (_count(readings, step) for step in ("ports", "returns", "levers"))
    if ports is None:
        return Finding((tell("nothing"),), other, (tell("ports_next_count"),), care)
    if returns is not None and returns > ports:
        return Finding((tell("ports_more_returns"),), other, (tell("ports_next_count"),), care)
    sets = sets_of_ports(ports=ports, returns=returns or 0)
    shown = tell("ports_set") if sets == 1 else tell("ports_set_number", number=format_number(sets, 0))
    what = [tell("ports_sets", ports=ports, returns=returns or 0, sets=shown) if sets else tell("ports_none")]
    if (ports - (returns or 0)) % 2:
        what.append(tell("ports_one_left"))
    next_ = []
    if returns is None:
        what.append(tell("ports_returns_open"))
        next_.append(tell("ports_next_returns"))
    if levers is None:
        next_.append(tell("ports_next_levers"))
    elif levers < sets:
        what.append(tell("ports_levers_fewer", levers=levers))
    elif levers > sets:
        what.append(tell("ports_levers_more"))
    else:
        what.append(tell("ports_levers_same"))
    next_.append(tell("ports_next_try"))
    return Finding(tuple(what), other, tuple(next_), care)


def _count(readings: Readings, step: str) -> int | None:
    value = readings.get(step)
    return int(value) if isinstance(value, int | float) else None
