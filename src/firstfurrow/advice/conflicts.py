"""Conflicts and refusals: asks that no tractor meets together, and work that no tractor should do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.demands.weight import NoGripError
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.plan import Plan
from firstfurrow.advice.rig import Sized
from firstfurrow.book.model import Row
from firstfurrow.quantities import show


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two asks that cross: the two reasons side by side, and the ways out."""

    requirement: str | None
    title: str
    reasons: tuple[str, ...]
    ways_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Refusal:
    """Work that the program will not plan a tractor for: the number, the reason, the way out."""

    title: str
    reason: str
    ways_out: tuple[str, ...]
    caution: str


def conflicts_of(
    desk: Desk, plan: Plan, items: Sequence[Sized], demands: Sequence[Demand], outcomes: Mapping[str, Outcome]
) -> tuple[Conflict, ...]:
    """Hitch categories that exclude each other, jobs that cannot be done in their time, tools wider than the gate."""
    found: list[Conflict] = []
    hitch = outcomes["hitch_category"].widest
    if hitch is not None and not hitch.stated:
        apart = [d for d in demands if d.requirement == "hitch_category"]
        reasons = tuple(
            desk.say("conflict_category_one", item=d.name, tractors=desk.say("or").join(map(str, d.value)))
            for d in apart
        )
        ways = (desk.say("conflict_category_way"),)
        found.append(Conflict("hitch_category", desk.say("conflict_category"), reasons, ways))
    for sized in items:
        if sized.too_small and sized.reason is not None:
            job = sized.item.kind.area_job
            found.append(
                Conflict(
                    None, desk.say("conflict_time" if job else "conflict_load", item=sized.item.name),
                    (sized.reason,),
                    (desk.say("conflict_time_way" if job else "conflict_load_way"),),
                )
            )  # fmt: skip
    most = outcomes["width_most"].widest
    if most is not None:
        for sized in items:
            if sized.width is not None and sized.item.variant.way != "loader" and sized.width > most.stated:
                wide = show(sized.width, "m", plan.units)
                reasons = (
                    desk.say("conflict_width_tool", item=sized.item.name, wide=wide),
                    desk.say("conflict_width_gate", left=most.shown),
                )
                found.append(
                    Conflict("width_most", desk.say("conflict_width", item=sized.item.name), reasons,
                             (desk.say("conflict_width_way"),))
                )  # fmt: skip
    return tuple(found)


def no_class(desk: Desk, outcomes: Mapping[str, Outcome], largest: Row) -> Conflict:
    """What is asked for when not even the largest size class covers mass and power."""
    reasons: list[str] = []
    for id_ in ("mass", "pto_power"):
        widest = outcomes[id_].widest
        if widest is not None and widest.governed_by is not None:
            reasons.append(
                desk.say(
                    "conflict_no_class_needs", title=outcomes[id_].requirement.title, shown=widest.shown,
                    because=widest.governed_by.name,
                )
            )  # fmt: skip
    mass, power = (
        show(largest[column].planning, largest[column].unit, desk.plan.units, 0) for column in ("mass", "pto_power")
    )
    reasons.append(desk.say("conflict_no_class_has", row=largest.name, mass=mass, power=power))
    return Conflict(None, desk.say("conflict_no_class"), tuple(reasons), (desk.say("conflict_no_class_way"),))


def refusals_of(desk: Desk, plan: Plan, items: Sequence[Sized], no_grip: Sequence[NoGripError]) -> tuple[Refusal, ...]:
    """Slopes that no planned work should be done on."""
    found: list[Refusal] = []
    if plan.side_slope is not None:
        behind = plan.tow is not None or any(s.item.variant.way in ("three_point", "drawbar", "loader") for s in items)
        most = desk.book.choice("side_slope_most_behind" if behind else "side_slope_most").planning
        if plan.side_slope.value > most:
            id_ = "refusal_side_slope_behind" if behind else "refusal_side_slope"
            found.append(
                Refusal(
                    desk.say("refusal_side_slope_title"),
                    desk.say(id_, slope=f"{plan.side_slope.value:.0f}", most=f"{most:.1f}"),
                    (desk.say("refusal_side_slope_way"),), desk.say("refusal_side_slope_caution"),
                )
            )  # fmt: skip
    surface = desk.book.tables["surfaces"].rows[plan.surface.value]
    slope, grip = plan.slope_up.value, surface["grip"].planning
    # With all wheels driven a load has no answer just where the tractor alone has none.
    if (items or plan.tow is not None) and grip <= slope / 100:
        names = list(dict.fromkeys(reason.name for reason in no_grip)) or [desk.say("the_tractor_alone")]
        for name in names:
            said = desk.say("refusal_grip", slope=f"{slope:.0f}", surface=surface.name, grip=f"{grip:g}")
            found.append(
                Refusal(
                    desk.say("refusal_grip_title", item=name), said, (desk.say("refusal_grip_way"),),
                    desk.say("refusal_grip_caution"),
                )
            )  # fmt: skip
    return tuple(found)
