"""Ceilings: gate, door and shed, the place to turn, and what a bridge or a hauling trailer may carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.envelope import haul_left, mass_left, room_left
from firstfurrow.reasoning import Step

# Each opening: the answer, what it leaves free, the requirement that it limits.
_OPENINGS = (
    ("gate_width", "gate", "gate_margin", "width_most"),
    ("door_width", "door", "door_margin", "width_most"),
    ("door_height", "door_height", "door_height_margin", "height_most"),
    ("shed_length", "shed_length", "shed_length_margin", "length_most"),
    ("turn_room", "turn_room", "turn_margin", "turning_most"),
)


def demands(desk: Desk) -> Iterator[Demand]:
    """Width, height, length and turning; what was not measured makes no demand."""
    for question, title, margin, requirement in _OPENINGS:
        fact = getattr(desk.plan, question)
        if fact is None:
            continue
        opening = desk.fact(fact, desk.say(title))
        left = desk.ledger.work(room_left, desk.say(f"{title}_left"), opening=opening, margin=desk.choice(margin))
        yield Demand(requirement, "space", desk.say(f"{title}_name"), left.value, left)


def mass(desk: Desk, rigs: Sequence[Rig], setting: Setting) -> Iterator[Demand]:
    """Greatest mass of the bare tractor: by hauling trailer, towing vehicle and bridge."""
    plan = desk.plan
    trailer = None if plan.haul_trailer is None else desk.fact(plan.haul_trailer, desk.say("haul_trailer"))
    if trailer is not None:
        for fact, title, for_tractor in (
            (plan.haul_rating, "haul_rating", "haul_rating_tractor"),
            (plan.haul_tow_rating, "haul_tow_rating", "haul_tow_rating_tractor"),
        ):
            if fact is None:
                continue
            rating = desk.fact(fact, desk.say(title))
            payload = desk.ledger.work(haul_left, desk.say(f"{title}_left"), gross_rating=rating, trailer=trailer)
            left = _left(desk, rigs, setting, payload, plan.haul_with.value, for_tractor)
            yield _most(desk, f"{title}_name", left)
    if plan.bridge_limit is not None:
        limit = desk.fact(plan.bridge_limit, desk.say("bridge_limit"))
        left = _left(desk, rigs, setting, limit, "heaviest", "bridge_tractor")
        yield _most(desk, "bridge_name", left)


def _most(desk: Desk, name: str, left: Step) -> Demand:
    notes = () if left.value > 0 else (desk.say("nothing_left"),)
    return Demand("mass_most", "space", desk.say(name), left.value, left, notes)


def _left(desk: Desk, rigs: Sequence[Rig], setting: Setting, payload: Step, with_: str, title: str) -> Step:
    none = desk.constant(desk.say("nothing_with_it"), 0, "kg")
    loader = setting.cell("loader_mass") if setting.loader and with_ != "alone" else none
    carried = [rig.empty for rig in rigs if rig.variant.way in ("three_point", "mid_mount") and rig.empty is not None]
    tool = max(carried, key=lambda step: step.value) if carried and with_ == "heaviest" else none
    return desk.ledger.work(
        mass_left, desk.say(title), payload=payload, loader=loader, carried=tool, fluids=desk.choice("haul_fluids")
    )
