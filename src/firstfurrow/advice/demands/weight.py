"""Weight and grip: the mass on driven wheels that a pull needs."""

from __future__ import annotations

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.reasoning import NoSolutionError, Step


class NoGripError(ValueError):
    """The slope is too steep for the grip of the surface; carries the demand's hookup and name."""

    def __init__(self, hookup: str, name: str, reason: str) -> None:
        super().__init__(reason)
        self.hookup = hookup
        self.name = name


def mass(rig: Rig) -> Demand | None:
    """Mass for the pull of one hookup; None when it pulls nothing.

    Raises
    ------
    NoGripError
        When no mass is enough on this slope and surface.
    """
    if rig.pull is None:
        return None
    desk = rig.desk
    kept = desk.kept((rig.key, "mass_for_pull"))
    if kept is not None:
        return Demand("mass", rig.id, rig.name, kept.value, kept)
    tongue = rig.sized.size.tongue or rig.variant.tongue or rig.kind.tongue
    pressed = (
        desk.figure((rig.key, "tongue", "low"), tongue, rig.title("pressed_on"), at="low")
        if rig.trailed and tongue is not None
        else desk.constant(desk.say("nothing_pressed_on"), 0, "kg")
    )
    demand = mass_of_pull(desk, rig.id, rig.name, rig.pull, pressed)
    desk.keep((rig.key, "mass_for_pull"), demand.top)
    return demand


def mass_of_pull(desk: Desk, hookup: str, name: str, pull: Step, pressed: Step) -> Demand:
    """Mass for a pull, on the planned surface and slope, with all wheels driven."""
    surface = desk.plan.surface
    try:
        top = desk.ledger.work(
            mass_for_pull, desk.say("mass_for_pull", item=name), pull=pull,
            grip=desk.pick_cell(surface, "surfaces", "grip"), pressed_on=pressed,
            driven_share=desk.choice("driven_share_four"),
            rolling=desk.pick_cell(surface, "surfaces", "rolling"), angle=desk.angle(),
        )  # fmt: skip
    except NoSolutionError as reason:
        raise NoGripError(hookup, name, str(reason)) from None
    return Demand("mass", hookup, name, top.value, top)
