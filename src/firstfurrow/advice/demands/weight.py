"""Weight and grip: the mass on driven wheels that a pull needs, and whether all wheels must be driven."""

from __future__ import annotations

from firstfurrow.advice.beyond import beyond
from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.drawbar import tongue_load
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.quantities import show
from firstfurrow.reasoning import NoSolutionError, Step


class NoGripError(ValueError):
    """The slope is too steep for the grip of the surface; carries the demand's hookup and name.

    `needed` is the mass that would be enough, where there is one, beyond that of any tractor.
    """

    def __init__(self, hookup: str, name: str, reason: str, needed: Step | None = None) -> None:
        super().__init__(reason)
        self.hookup = hookup
        self.name = name
        self.needed = needed


def mass(rig: Rig) -> Demand | None:
    """Mass to pull one hookup; None when it pulls nothing.

    Raises
    ------
    NoGripError
        When no mass is enough on this slope and surface.
    """
    if rig.pull is None:
        return None
    desk = rig.desk
    key = (rig.key, "mass")
    top = desk.kept(key) or desk.keep(key, mass_of_pull(desk, rig.id, rig.name, rig.pull, pressed_on(rig)))
    return Demand("mass", rig.id, rig.name, top.value, top)


def pressed_on(rig: Rig) -> Step:
    """Weight in kg that surely rests on the driven wheels: the low end of the tongue load."""
    desk = rig.desk
    tongue = rig.sized.size.tongue or rig.variant.tongue or rig.kind.tongue
    if rig.trailed and tongue is not None:
        return desk.figure((rig.key, "tongue", "low"), tongue, rig.title("pressed_on"), at="low")
    share = rig.variant.tongue_share or rig.kind.tongue_share
    if rig.trailed and share is not None and rig.gross is not None:
        low = desk.figure((rig.key, "tongue_share", "low"), share, rig.title("kind.tongue_share"), at="low")
        key = (rig.key, "pressed_on")
        return desk.kept(key) or desk.keep(
            key, desk.ledger.work(tongue_load, rig.title("pressed_on"), mass=rig.gross, share=low)
        )
    return desk.constant(desk.say("nothing_pressed_on"), 0, "kg")


def mass_of_pull(
    desk: Desk, hookup: str, name: str, pull: Step, pressed: Step, driven: str = "driven_share_four"
) -> Step:
    """Mass for a pull, on the planned surface and slope; all wheels driven unless said otherwise.

    Raises
    ------
    NoGripError
        When no mass is enough, or only one beyond that of any tractor.
    """
    surface = desk.plan.surface
    title = "mass_for_pull" if driven == "driven_share_four" else "mass_rear_wheels"
    key = (title, hookup, pull.index)  # one that is too great is asked for again
    needed = desk.kept(key)
    if needed is None:
        try:
            needed = desk.ledger.work(
                mass_for_pull, desk.say(title, item=name), pull=pull,
                grip=desk.pick_cell(surface, "surfaces", "grip"), pressed_on=pressed,
                driven_share=desk.choice(driven), rolling=desk.pick_cell(surface, "surfaces", "rolling"),
                angle=desk.angle(),
            )  # fmt: skip
        except NoSolutionError as reason:
            raise NoGripError(hookup, name, str(reason)) from None
        desk.keep(key, needed)
    if desk.steep and driven == "driven_share_four" and needed.value > beyond(desk.book, "mass"):
        raise NoGripError(hookup, name, needed.title, needed)
    return needed


def driven_wheels(
    desk: Desk, hookup: str, name: str, pull: Step | None, pressed: Step | None, *, loader: bool
) -> Demand:
    """Two or four driven wheels, by what nobody argues about: slope, poor grip, a loader in front, or no way up.

    It does not depend on the size class, so that a heavier tractor never seems to need fewer driven wheels.
    """
    plan, book = desk.plan, desk.book
    reason, level = "wheels_two", "two"
    notes: tuple[str, ...] = ()
    if plan.slope_up.value > book.choice("two_wheel_slope").planning:
        reason, level = "wheels_slope", "four"
    elif book.tables["surfaces"].rows[plan.surface.value]["grip"].planning < book.choice("two_wheel_grip").planning:
        reason, level = "wheels_grip", "four"
    elif loader:
        reason, level = "wheels_loader", "four"
    elif pull is not None and pressed is not None:
        try:
            top = mass_of_pull(desk, hookup, name, pull, pressed, "rear_share_two_wheel")
        except NoGripError:
            reason, level = "wheels_never", "four"
        else:
            notes = (desk.say("wheels_two_mass", mass=show(top.value, "kg", plan.units), step=top.id),)
    slope = f"{plan.slope_up.value:g}"
    step = desk.ledger.words(desk.say(reason, item=name, slope=slope), level, grade="practice")
    return Demand("driven_wheels", hookup, name, level, step, notes)
