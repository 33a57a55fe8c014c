"""Couplers for oil by face, stamp and tip; couplings for loads by their sort and size."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.matching import Probe, Way, column
from firstfurrow.advice.measuring.naming import Named
from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, both, length, limit, measuring_of
from firstfurrow.book.model import Book, Row

TABLE = "couplers"
SORTS = ("ball", "hook", "clevis", "piton")


def find_oil(book: Book, readings: Readings) -> Finding:
    """The size of a coupler for oil."""
    tell, rows = Teller(book), book.tables[TABLE]
    care = (tell("coupler_half"), tell("coupler_pressure"))
    face = readings.get("face")
    if face == "flat":
        flat = rows["flush_face"]
        rated = flat["pressure"]
        low, high = (both(value, rated.unit, "pressure") for value in (rated.low, rated.high))
        text = tell("coupler_flat", name=flat.name, low=low, high=high, grade=tell.grade(rated))
        return Finding((text,), (tell("coupler_else_flat"),), (tell("coupler_next_stamp"), tell("next_manual")), care)
    usual, tip = rows["quick_coupler"], measuring_of(book).figures["nose"]
    size = usual["size"]
    says = {_by_stamp(readings), _by_nose(book, readings)} - {None}
    what: list[str] = []
    nose = readings.get("nose")
    if len(says) == 1:
        what.append(tell(f"coupler_{says.pop()}", name=usual.name, size=length(size.planning), grade=tell.grade(size)))
    else:
        what.append(tell("coupler_clash" if says else "coupler_open"))
    if isinstance(nose, float):
        grade = tell.grade(tip)
        what.append(tell("coupler_nose", measured=length(nose), figure=length(tip.planning), grade=grade))
    next_ = []
    if face is None:
        next_.append(tell("coupler_next_face"))
    if _by_stamp(readings) is None:
        next_.append(tell("coupler_next_stamp"))
    if nose is None:
        next_.append(tell("coupler_next_nose"))
    next_.append(tell("coupler_next_try"))
    return Finding(tuple(what), (tell("coupler_else_flat"),), tuple(next_), care)


def _by_stamp(readings: Readings) -> str | None:
    return {"half": "usual", "larger": "larger", "smaller": "smaller"}.get(str(readings.get("stamp")))


def _by_nose(book: Book, readings: Readings) -> str | None:
    value = readings.get("nose")
    if not isinstance(value, float):
        return None
    off = value - limit(book, "nose")
    if abs(off) <= limit(book, "tape"):
        return "usual"
    return "larger" if off > 0 else "smaller"


def find_load(book: Book, readings: Readings) -> Finding:
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
