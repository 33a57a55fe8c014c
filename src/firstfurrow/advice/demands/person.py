"""The person on the seat: roll bar and belt, what a public road asks for, and a first-time driver."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig

YOU = "you"


def demands(desk: Desk, rigs: Sequence[Rig]) -> Iterator[Demand]:
    """Asked of every tractor that works at all."""
    plan, name = desk.plan, desk.say("you")
    if not rigs and plan.tow is None:
        return
    step = desk.ledger.words(desk.say("bar_and_belt"), "bar_and_belt", grade="practice")
    yield Demand("roll_bar", YOU, name, "bar_and_belt", step)
    for rig in rigs:
        if rig.kind.guard:
            step = desk.ledger.words(rig.title("guard"), "bar_belt_and_guard", grade="practice")
            yield Demand("roll_bar", rig.id, rig.name, "bar_belt_and_guard", step)
    on_road = {"never": (), "across": ("emblem",), "along": ("lights", "emblem", "mirrors")}[plan.road.value]
    other = plan.tow is not None and plan.tow.place != "fields"
    towed = other or any(rig.on_road for rig in rigs)
    kit = [*on_road, *(("lights", "emblem", "chain") if towed else ())]
    for thing in dict.fromkeys(kit):
        step = desk.ledger.words(desk.say(f"kit_{thing}"), (thing,), grade="practice")
        yield Demand("road_kit", YOU, desk.say("public_road"), (thing,), step)
    level = "trained" if plan.driver.value == "novice" else "shown"
    step = desk.ledger.words(desk.say(f"driver_{level}"), level, grade="practice")
    yield Demand("first_driver", YOU, name, level, step)
