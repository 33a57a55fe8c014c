"""Speed: how slowly the tractor must be able to go with the shaft at its full speed."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.facts import decimals
from firstfurrow.advice.rig import Rig


def demands(rig: Rig) -> Iterator[Demand]:
    """The slow end of the working speed of what the shaft turns while it travels, and of what is pulled at a crawl."""
    speed = rig.kind.speed
    if speed is None:
        return
    creeps = rig.kind.pull is not None and speed.planning < rig.desk.book.choice("creep_below").planning
    if rig.shaft is None and not creeps:
        return  # what is only carried or pushed may go slowly for a moment, and works faster
    if any(f.supply == "own_pump" for f in rig.oil):
        return  # its shaft turns a pump, and mostly while the tractor stands
    desk = rig.desk
    step = desk.ledger.leaf(
        "table", rig.title("slowest"), speed.low, speed.unit, decimals(speed.low), grade=speed.grade,
        source=speed.source, where=speed.where, derived_from=speed.derived_from, note=speed.note,
    )  # fmt: skip
    drive = "slow_creep" if speed.low < desk.book.choice("creep_below").planning else "slow_usual"
    yield Demand("slow_speed", rig.id, rig.name, step.value, step, (rig.title(drive),))
