"""The heaviest other thing on wheels, which is no implement of the list: what it asks of the tractor."""

from __future__ import annotations

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.demands.drawbar import drawbar_class
from firstfurrow.advice.demands.shaft import rated
from firstfurrow.advice.demands.weight import driven_wheels, mass_of_pull
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.plan import Tow
from firstfurrow.mechanics.draft import towed_pull
from firstfurrow.mechanics.drawbar import tongue_load
from firstfurrow.mechanics.power import climb_power, drawbar_power, shaft_power_of_pull
from firstfurrow.reasoning import Step

HOOKUP = "tow"


def mass(desk: Desk, tow: Tow) -> Demand:
    """Mass to pull it.

    Raises
    ------
    NoGripError
        When no mass is enough on this slope and surface.
    """
    name = desk.say("tow_name")
    top = desk.kept("tow_mass_needed") or desk.keep(
        "tow_mass_needed", mass_of_pull(desk, HOOKUP, name, _pull(desk, tow), _nothing(desk))
    )
    return Demand("mass", HOOKUP, name, top.value, top)


def _nothing(desk: Desk) -> Step:
    return desk.constant(desk.say("nothing_pressed_on"), 0, "kg")


def power(desk: Desk, tow: Tow, setting: Setting) -> Demand:
    """Drawbar work as PTO power: rolling, and uphill the grade of load and tractor at the slow end of its speed."""
    name = desk.say("tow_name")
    key = ("tow_power", setting.key)
    top = desk.kept(key)
    if top is None:
        figure = desk.book.choice("tow_speed")
        speed = (
            desk.must_to_comfortable("tow_speed", figure, desk.say("climb_speed", item=name))
            if desk.steep
            else desk.choice("tow_speed")
        )
        towed = desk.ledger.work(drawbar_power, desk.say("towed_power", item=name), pull=_pull(desk, tow), speed=speed)
        moving = {"towed": towed}
        climb = towed
        if desk.steep:
            moving["tractor"] = desk.ledger.work(
                climb_power, desk.say("climb", item=name), mass=setting.mass, angle=desk.angle(), speed=speed
            )
            # Uphill it is planned slower; the level parts of the same way are driven at the usual speed.
            level_pull = desk.ledger.work(
                towed_pull, desk.say("towed_level", item=name), mass=_mass(desk, tow),
                rolling=desk.pick_cell(desk.plan.surface, "surfaces", "rolling"), angle=desk.flat(),
            )  # fmt: skip
            level = desk.ledger.work(
                drawbar_power, desk.say("towed_level_power", item=name), pull=level_pull, speed=desk.choice("tow_speed")
            )
            uphill = desk.ledger.sum(desk.say("moving_power", item=name), moving)
            climb = desk.ledger.greatest(desk.say("moving_most", item=name), {"uphill": uphill, "level": level})
        work = desk.ledger.work(
            shaft_power_of_pull, desk.say("shaft_power_of_pull", item=name),
            draft_power=desk.constant(desk.say("no_draft"), 0, "kW"), reserve=desk.choice("reserve_draft"),
            climb=climb,
            ratio=desk.ratio(),
        )  # fmt: skip
        top = desk.keep(key, rated(desk, name, work))
    return Demand("pto_power", HOOKUP, name, top.value, top)


def demands(desk: Desk, tow: Tow, setting: Setting) -> tuple[Demand, ...]:
    """Power, pull, vertical load and drawbar class; the mass is apart because it may have no answer."""
    name = desk.say("tow_name")
    asked = power(desk, tow, setting)
    pull = _pull(desk, tow)
    found = [asked, Demand("drawbar_pull", HOOKUP, name, pull.value, pull)]
    if tow.axles == "one_axle":
        tongue = desk.ledger.work(
            tongue_load, desk.say("tongue", item=name), mass=_mass(desk, tow), share=desk.choice("tongue_share")
        )
        found.append(Demand("drawbar_vertical", HOOKUP, name, tongue.value, tongue))
    class_of = drawbar_class(desk, asked.top)
    if class_of is not None:
        found.append(Demand("drawbar_class", HOOKUP, name, class_of[1].value, class_of[1]))
    found.append(driven_wheels(desk, HOOKUP, name, pull, _nothing(desk), loader=False))
    return tuple(found)


def _mass(desk: Desk, tow: Tow) -> Step:
    return desk.fact(tow.mass, desk.say("tow_mass"))


def _pull(desk: Desk, tow: Tow) -> Step:
    return desk.kept("tow_pull") or desk.keep(
        "tow_pull",
        desk.ledger.work(
            towed_pull, desk.say("towed", item=desk.say("tow_name")), mass=_mass(desk, tow),
            rolling=desk.pick_cell(desk.plan.surface, "surfaces", "rolling"), angle=desk.angle(),
        ),
    )  # fmt: skip
