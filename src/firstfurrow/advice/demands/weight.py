"""Weight and grip: the mass on driven wheels that a pull needs, and that may hold a load back."""

from __future__ import annotations

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.mechanics.towing import mass_to_hold
from firstfurrow.reasoning import NoSolutionError, Step


class NoGripError(ValueError):
    """The slope is too steep for the grip of the surface; carries the demand's hookup and name."""

    def __init__(self, hookup: str, name: str, reason: str) -> None:
        super().__init__(reason)
        self.hookup = hookup
        self.name = name


def mass(rig: Rig) -> Demand | None:
    """Mass to pull one hookup, and to hold it back where it rolls without brakes; None when it pulls nothing.

    Raises
    ------
    NoGripError
        When no mass is enough on this slope and surface.
    """
    if rig.pull is None:
        return None
    desk = rig.desk
    key = (rig.key, "mass")
    top = desk.kept(key)
    if top is None:
        tongue = rig.sized.size.tongue or rig.variant.tongue or rig.kind.tongue
        pressed = (
            desk.figure((rig.key, "tongue", "low"), tongue, rig.title("pressed_on"), at="low")
            if rig.trailed and tongue is not None
            else desk.constant(desk.say("nothing_pressed_on"), 0, "kg")
        )
        pulling = mass_of_pull(desk, rig.id, rig.name, rig.pull, pressed)
        unbraked = rig.rolls and not rig.item.brakes
        holding = hold(desk, rig.name, rig.gross, road=False) if unbraked and rig.gross is not None else None
        top = desk.keep(key, larger(desk, rig.name, pulling, holding))
    notes = (rig.title("holding"),) if rig.rolls and not rig.item.brakes else ()
    return Demand("mass", rig.id, rig.name, top.value, top, notes)


def mass_of_pull(desk: Desk, hookup: str, name: str, pull: Step, pressed: Step) -> Step:
    """Mass for a pull, on the planned surface and slope, with all wheels driven.

    Raises
    ------
    NoGripError
        When no mass is enough.
    """
    surface = desk.plan.surface
    try:
        return desk.ledger.work(
            mass_for_pull, desk.say("mass_for_pull", item=name), pull=pull,
            grip=desk.pick_cell(surface, "surfaces", "grip"), pressed_on=pressed,
            driven_share=desk.choice("driven_share_four"),
            rolling=desk.pick_cell(surface, "surfaces", "rolling"), angle=desk.angle(),
        )  # fmt: skip
    except NoSolutionError as reason:
        raise NoGripError(hookup, name, str(reason)) from None


def hold(desk: Desk, name: str, towed: Step, *, road: bool) -> Step:
    """Mass that may hold back a load without brakes: on any slope or road as heavy as the load, else less."""
    steep = desk.plan.slope_up.value > desk.book.choice("flat_slope").planning
    ratio = desk.choice("unbraked_ratio_slope" if steep or road else "unbraked_ratio_flat")
    return desk.ledger.work(mass_to_hold, desk.say("mass_to_hold", item=name), towed=towed, ratio=ratio)


def larger(desk: Desk, name: str, pulling: Step, holding: Step | None) -> Step:
    """The larger of both masses."""
    if holding is None:
        return pulling
    return desk.ledger.greatest(desk.say("pull_and_hold", item=name), {"pulling": pulling, "holding": holding})
