"""Towing: the tractor mass that stops and holds back a load, and the outlet that works brakes on the trailer itself.

Without trailer brakes the tractor's own wheels must hold everything. Three ways of looking at it, the largest counts:
the rule of mass against mass; stopping on the steepest place with the usual grip; and on a road, stopping from speed.
On the lowest grip that the surface may have it must still slow down a little, so that it does not run away.
"""

from __future__ import annotations

from dataclasses import dataclass

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.plan import Tow
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.towing import mass_to_hold, mass_to_stop, mass_to_stop_rear
from firstfurrow.quantities import show
from firstfurrow.reasoning import NoSolutionError, Step

TOW = "tow"


class NoHoldError(ValueError):
    """No usual tractor can stop this load without trailer brakes on this slope and surface, or on a road.

    `needed` is the step with the tractor mass that it would take; None where no mass is enough. `road`: the hill on a
    road asks for it, and not the land.
    """

    def __init__(self, load: Load, needed: Step | None, *, road: bool) -> None:
        super().__init__(load.name)
        self.load = load
        self.needed = needed
        self.road = road


@dataclass(frozen=True, slots=True)
class Load:
    """Something on wheels behind the tractor."""

    hookup: str
    name: str
    mass: Step
    braked: bool
    road: bool


def load_of(rig: Rig) -> Load | None:
    """A hookup as a load on wheels; None when it does not roll."""
    if not rig.rolls or rig.gross is None:
        return None
    return Load(rig.id, rig.name, rig.gross, rig.item.brakes, road=rig.on_road)


def other_load(desk: Desk, tow: Tow) -> Load:
    """The heaviest other thing on wheels."""
    name = desk.say("tow_name")
    mass = desk.fact(tow.mass, desk.say("tow_mass"))
    return Load(TOW, name, mass, tow.brakes == "has_brakes", tow.place != "fields")


def mass(desk: Desk, load: Load) -> Demand:
    """Tractor mass that may pull this load on a slope or a road, because it can also stop it.

    Raises
    ------
    NoHoldError
        When no mass is enough without brakes on the load itself, or more than the largest size class usually has.
    """
    key = (load.hookup, "mass_towing", load.mass.index)
    top = desk.kept(key)
    if top is None:
        try:
            top = desk.keep(key, _braked(desk, load) if load.braked else _unbraked(desk, load))
        except NoSolutionError:
            raise NoHoldError(load, None, road=False) from None
    largest = list(desk.book.tables["size_classes"].rows.values())[-1]
    if not load.braked and top.value > largest["mass"].planning:
        on_road = desk.kept(_on_road(load))
        raise NoHoldError(load, top, road=on_road is not None and on_road.value >= top.value)
    notes = () if load.braked else (desk.say("holding", item=load.name),)
    return Demand("mass_towing", load.hookup, load.name, top.value, top, notes)


def _braked(desk: Desk, load: Load) -> Step:
    key = (load.hookup, "braked", load.mass.index)
    return desk.kept(key) or desk.keep(
        key,
        desk.ledger.work(
            mass_to_hold, desk.say("mass_to_lead", item=load.name), towed=load.mass, ratio=desk.choice("braked_ratio")
        ),
    )  # fmt: skip


def _unbraked(desk: Desk, load: Load) -> Step:
    plan, ledger = desk.plan, desk.ledger
    steep = plan.slope_up.value > desk.book.choice("flat_slope").planning
    ratio = desk.choice("unbraked_ratio_slope" if steep or load.road else "unbraked_ratio_flat")
    parts = {"rule": ledger.work(mass_to_hold, desk.say("mass_to_hold", item=load.name), towed=load.mass, ratio=ratio)}
    rolling = desk.pick_cell(plan.surface, "surfaces", "rolling")
    parts["stopping"] = ledger.work(
        mass_to_stop, desk.say("mass_to_stop", item=load.name), towed=load.mass,
        grip=desk.pick_cell(plan.surface, "surfaces", "grip"), rolling=rolling, angle=desk.angle(),
        deceleration=desk.choice("stop_field"),
    )  # fmt: skip
    if desk.steep:
        parts["slippery"] = ledger.work(
            mass_to_stop, desk.say("mass_to_slow", item=load.name), towed=load.mass, grip=_lowest_grip(desk),
            rolling=rolling, angle=desk.angle(), deceleration=desk.choice("stop_low_grip"),
        )  # fmt: skip
    if load.road:
        parts["road"] = _stopped_on_road(desk, load)
    return ledger.greatest(desk.say("towing_most", item=load.name), parts)


def _on_road(load: Load) -> tuple[str, str, int]:
    return load.hookup, "on_road", load.mass.index


def _stopped_on_road(desk: Desk, load: Load) -> Step:
    try:
        found = desk.ledger.work(
            mass_to_stop, desk.say("mass_to_stop_road", item=load.name), towed=load.mass,
            grip=desk.cell("surfaces", "paved", "grip"), rolling=desk.cell("surfaces", "paved", "rolling"),
            angle=_road_angle(desk), deceleration=desk.choice("stop_road"),
        )  # fmt: skip
    except NoSolutionError:
        raise NoHoldError(load, None, road=True) from None
    return desk.keep(_on_road(load), found)


def _lowest_grip(desk: Desk) -> Step:
    """The lowest grip of the surfaces that it may be, as one figure without spread."""
    key = "lowest_grip"
    found = desk.kept(key)
    if found is None:
        pick = desk.plan.surface
        rows = desk.book.tables["surfaces"].rows
        row = min((rows[r] for r in (pick.value, pick.low, pick.high)), key=lambda r: r["grip"].low)
        cell = row["grip"]
        found = desk.keep(
            key,
            desk.ledger.leaf(
                "table", desk.say("lowest_grip", row=row.name), cell.low, "", 3, grade=cell.grade, source=cell.source,
                where=cell.where, derived_from=cell.derived_from, note=cell.note, question=pick.question,
            ),
        )  # fmt: skip
    return found


def _road_angle(desk: Desk) -> Step:
    """The steepest road on which something is pulled, in degrees; it may be steeper than the buyer's own land."""
    found = desk.kept("road_angle")
    if found is None:
        slope = desk.fact(desk.plan.road_slope, desk.say("road_slope"))
        found = desk.keep("road_angle", desk.ledger.work(angle_of, desk.say("road_angle"), slope=slope))
    return found


def outlet(desk: Desk, load: Load, held: Demand | None) -> Demand | None:
    """Brakes on the load itself, worked from the tractor: where it has them, and where nothing else stops it."""
    if held is not None and not load.braked:
        return None
    why = desk.say("outlet_braked" if load.braked else "outlet_must", item=load.name)
    step = desk.ledger.words(why, "outlet", grade="practice")
    return Demand("trailer_brakes", load.hookup, load.name, "outlet", step)


def with_brakes(desk: Desk, load: Load) -> str:
    """What would be enough if the load had brakes of its own."""
    step = _braked(desk, load)
    smallest = next(iter(desk.book.tables["size_classes"].rows.values()))
    if step.value <= smallest["mass"].planning:
        return desk.say("with_brakes_any", item=load.name, step=step.id)
    return desk.say("with_brakes", item=load.name, mass=show(step.value, "kg", desk.plan.units), step=step.id)


def rear_only(desk: Desk, load: Load, setting: Setting) -> str:
    """The same stop with the rear wheels alone braked, as without front drive engaged."""
    if not _rear_can(desk, load, setting):
        return desk.say("rear_only_never", item=load.name, row=setting.name)
    key = (load.hookup, "rear_only", load.mass.index, setting.row.id)
    step = desk.kept(key) or desk.keep(key, _stopped_by_rear(desk, load, setting))
    kept = show(step.value, "kg", desk.plan.units)
    return desk.say("rear_only", item=load.name, mass=kept, step=step.id, row=setting.name)


def _stopped_by_rear(desk: Desk, load: Load, setting: Setting) -> Step:
    return desk.ledger.work(
        mass_to_stop_rear, desk.say("mass_to_stop_rear", item=load.name), towed=load.mass,
        grip=desk.pick_cell(desk.plan.surface, "surfaces", "grip"),
        rolling=desk.pick_cell(desk.plan.surface, "surfaces", "rolling"), angle=desk.angle(),
        deceleration=desk.choice("stop_field"), rear_share=setting.rear_share, wheelbase=setting.cell("wheelbase"),
        centre_height=setting.cell("centre_height"), hitch_height=setting.cell("hitch_height"),
    )  # fmt: skip


def _rear_can(desk: Desk, load: Load, setting: Setting) -> bool:
    """Tried on plain numbers first, so that no line is written for what has no solution."""
    row, surface = setting.row, desk.book.tables["surfaces"].rows[desk.plan.surface.value]
    try:
        needed = mass_to_stop_rear(
            towed=load.mass.value, grip=surface["grip"].planning, rolling=surface["rolling"].planning,
            angle=desk.angle().value, deceleration=desk.book.choice("stop_field").planning,
            rear_share=round(1 - row["front_share"].planning / 100, 2), wheelbase=row["wheelbase"].planning,
            centre_height=row["centre_height"].planning, hitch_height=row["hitch_height"].planning,
        )  # fmt: skip
    except NoSolutionError:
        return False
    return needed <= row["mass"].high  # above that no tractor of the class weighs enough
