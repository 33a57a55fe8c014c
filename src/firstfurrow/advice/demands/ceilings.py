"""Slope and ceilings: the side slope that it must stand on, and the gate and door that it must pass."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.mechanics.envelope import room_left


def demands(desk: Desk) -> Iterator[Demand]:
    """Side slope, width and height; what was not measured makes no demand."""
    plan = desk.plan
    if plan.side_slope is not None:
        step = desk.fact(plan.side_slope, desk.say("side_slope"))
        yield Demand("side_slope", "space", desk.say("your_land"), step.value, step)
    for fact, margin, requirement, title in (
        (plan.gate_width, "gate_margin", "width_most", "gate"),
        (plan.door_width, "door_margin", "width_most", "door"),
        (plan.door_height, "door_height_margin", "height_most", "door_height"),
    ):
        if fact is None:
            continue
        opening = desk.fact(fact, desk.say(title))
        left = desk.ledger.work(room_left, desk.say(f"{title}_left"), opening=opening, margin=desk.choice(margin))
        yield Demand(requirement, "space", desk.say(f"{title}_name"), left.value, left)
