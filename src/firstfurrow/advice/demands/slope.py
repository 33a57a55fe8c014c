"""Side slope: what was said, and how wide the wheels must stand so that half of the tipping angle is enough for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.hitch import gross_mass
from firstfurrow.mechanics.slope import combined_height, track_for_side_slope, turn_speed
from firstfurrow.quantities import show
from firstfurrow.reasoning import NoSolutionError, Step


def said(desk: Desk) -> Iterator[Demand]:
    """The side slope itself: the tractor must be fit for it."""
    if desk.plan.side_slope is None:
        return
    step = desk.fact(desk.plan.side_slope, desk.say("side_slope"))
    yield Demand("side_slope", "space", desk.say("your_land"), step.value, step)


def behind(desk: Desk, rigs: Sequence[Rig]) -> bool:
    """Whether anything is carried or pulled, in front or behind: then the stricter limit across a slope holds."""
    return desk.plan.tow is not None or any(r.variant.way in ("three_point", "drawbar", "loader") for r in rigs)


def most_across(desk: Desk, rigs: Sequence[Rig]) -> float:
    """Steepest side slope in % on which work across is planned at all."""
    return desk.book.choice("side_slope_most_behind" if behind(desk, rigs) else "side_slope_most").planning


def track(desk: Desk, rigs: Sequence[Rig], setting: Setting) -> Iterator[Demand]:
    """Least track for the tractor with its driver, and with each tool carried raised."""
    slope = desk.plan.side_slope
    if slope is None or not 0 < slope.value <= most_across(desk, rigs) or not (rigs or desk.plan.tow):
        return  # beyond the limit it is refused: no track makes it fit
    ledger = desk.ledger
    angle = desk.kept("side_angle") or desk.keep(
        "side_angle",
        ledger.work(angle_of, desk.say("side_angle"), slope=desk.fact(slope, desk.say("side_slope"))),
    )  # fmt: skip
    height = ledger.work(
        combined_height, desk.say("height_with_driver"), mass=setting.cell("mass"),
        height=setting.cell("centre_height"), carried=desk.choice("operator_mass"),
        carried_height=_driver_height(desk, setting),
    )  # fmt: skip
    base = _track(desk, setting, angle, height, desk.say("track_alone"))
    if base is None:
        return
    yield Demand("track_least", "space", desk.say("your_land"), base.value, base, _notes(desk, setting, height))
    for rig in rigs:
        if not rig.mounted or rig.hung is None:
            continue
        raised = ledger.work(
            combined_height, rig.title("height_with_tool"), mass=_ready(desk, setting), height=height, carried=rig.hung,
            carried_height=desk.choice("raised_height"),
        )  # fmt: skip
        # A tool that is carried low steadies the tractor, but it is not always on.
        top = ledger.greatest(rig.title("height_most"), {"without": height, "raised": raised})
        needed = _track(desk, setting, angle, top, rig.title("track_with_tool"))
        if needed is not None:
            yield Demand("track_least", rig.id, rig.name, needed.value, needed)


def _track(desk: Desk, setting: Setting, angle: Step, height: Step, title: str) -> Step | None:
    try:
        return desk.ledger.work(
            track_for_side_slope, title, angle=angle, share=desk.choice("side_static_share"), centre_height=height,
            front_share=setting.cell("front_share"), pivot_height=setting.cell("pivot_height"),
        )  # fmt: skip
    except NoSolutionError:
        return None  # steeper than half of upright: refused


def _ready(desk: Desk, setting: Setting) -> Step:
    key = ("ready", setting.row.id)
    return desk.kept(key) or desk.keep(
        key,
        desk.ledger.work(
            gross_mass, desk.say("mass_with_driver"), empty=setting.cell("mass"), carried=desk.choice("operator_mass")
        ),
    )  # fmt: skip


def _driver_height(desk: Desk, setting: Setting) -> Step:
    return desk.ledger.sum(
        desk.say("driver_height"), {"tractor": setting.cell("centre_height"), "above": desk.choice("driver_above")}
    )


def _notes(desk: Desk, setting: Setting, height: Step) -> tuple[str, ...]:
    """The speed at which the class that stands in would tip in a turn on the level: a warning, not a requirement."""
    speed = desk.ledger.work(
        turn_speed, desk.say("turn_speed"), track=setting.cell("track"), centre_height=height,
        radius=desk.choice("turn_radius"),
    )  # fmt: skip
    units = desk.plan.units
    radius = show(desk.choice("turn_radius").value, "m", units)
    return (
        desk.say(
            "turn_caution", row=setting.name, radius=radius, speed=show(speed.value, "km/h", units), step=speed.id
        ),
    )  # fmt: skip
