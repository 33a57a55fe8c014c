"""Tyre tread: what lawns bear and what loose or soft ground asks for."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.rig import Rig


def demands(rig: Rig) -> Iterator[Demand]:
    """The treads that a hookup allows, where it settles that at all."""
    desk = rig.desk
    allowed: tuple[str, ...]
    if rig.kind.tread == "turf":
        allowed, why = ("turf", "mixed"), "tread_turf"
    elif rig.kind.tread == "lug":
        # On ground that gives way only open lugs clear themselves and hold.
        loose = bool(desk.book.tables["surfaces"].rows[desk.plan.surface.value].words.get("lugs"))
        allowed, why = (("lug",), "tread_lug") if loose else (("mixed", "lug"), "tread_field")
    else:
        return
    step = desk.ledger.words(rig.title(why), allowed, grade="practice")
    yield Demand("tyre_tread", rig.id, rig.name, allowed, step)
