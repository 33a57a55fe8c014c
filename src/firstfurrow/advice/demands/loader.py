"""Loader: functions of the loader valve, and lift at the load's own centre."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.hitch import gross_mass


def demands(rig: Rig) -> Iterator[Demand]:
    """What a tool on the front loader asks."""
    if rig.variant.way != "loader":
        return
    desk = rig.desk
    if rig.kind.loader_functions:
        step = desk.ledger.leaf(
            "table", rig.title("loader_functions"), rig.kind.loader_functions, "", 0, grade="practice"
        )
        yield Demand("loader_functions", rig.id, rig.name, step.value, step)
    load = desk.fact(desk.plan.front_load, desk.say("front_load")) if desk.plan.front_load is not None else rig.load
    if load is None or rig.empty is None:
        return
    top = desk.ledger.work(gross_mass, rig.title("loader_lift"), empty=rig.empty, carried=load)
    notes: tuple[str, ...] = ()
    if rig.kind.load_centre_ahead is not None:
        ahead = rig.kind.load_centre_ahead
        notes = (rig.title("load_centre", low=f"{ahead.low:g}", high=f"{ahead.high:g}"),)
    yield Demand("loader_lift", rig.id, rig.name, top.value, top, notes)
