"""Drawbar: pull, vertical load, class and pin, and the distance from the shaft end to the pin."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.reasoning import Step


def demands(rig: Rig, power: Demand | None) -> Iterator[Demand]:
    """Everything that a hookup asks of the drawbar; the pull also of a mounted tool."""
    if rig.pull is not None:
        yield Demand("drawbar_pull", rig.id, rig.name, rig.pull.value, rig.pull)
    if not rig.trailed:
        return
    if rig.tongue is not None:
        yield Demand("drawbar_vertical", rig.id, rig.name, rig.tongue.value, rig.tongue)
    if power is not None:
        found = drawbar_class(rig.desk, power.top)
        if found is not None:
            row, step = found
            pin = rig.desk.book.tables["drawbar_classes"].rows[row]["pin"].planning
            yield Demand("drawbar_class", rig.id, rig.name, step.value, step, (rig.title("pin", pin=f"{pin:g}"),))
    if rig.shaft is not None:
        yield from _pin_distance(rig)


def drawbar_class(desk: Desk, power: Step) -> tuple[str, Step] | None:
    """The smallest class of the table whose power covers this one."""
    for row in desk.book.tables["drawbar_classes"].rows.values():
        most = row["power_most"]
        if power.value <= most.planning:
            step = desk.ledger.leaf(
                "table", desk.say("drawbar_class", power=f"{power.value:g}", most=f"{most.planning:g}", step=power.id),
                float(row.id), "", 0, grade=most.grade, source=most.source, where=most.where, note=most.note,
            )  # fmt: skip
            return row.id, step
    return None


def _pin_distance(rig: Rig) -> Iterator[Demand]:
    shaft, desk = rig.shaft, rig.desk
    assert shaft is not None
    rows = [
        row
        for row in desk.book.tables["shaft_types"].rows.values()
        if "pin_distance" in row.figures and int(row["speed"].planning) in shaft.speeds
    ]
    if not rows:
        return
    cell = rows[0]["pin_distance"]
    value = tuple(int(row["pin_distance"].planning) for row in rows)
    shown = desk.say("or").join(str(v) for v in value)
    step = desk.ledger.words(
        rig.title("pin_distance", distance=shown), value, grade=cell.grade, source=cell.source, where=cell.where
    )
    yield Demand("shaft_to_pin", rig.id, rig.name, value, step)
