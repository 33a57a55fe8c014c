"""Axle loads of the size class that stands in: front weights, and what the rear axle must carry."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.balance import front_ballast, rear_axle_load
from firstfurrow.reasoning import Step


def demands(rig: Rig, setting: Setting) -> Iterator[Demand]:
    """Front weights for a mounted tool; load on the rear axle for what is mounted or presses on the drawbar."""
    desk = rig.desk
    if rig.mounted and rig.hung is not None and rig.centre is not None:
        if _needs_weights(rig, setting, rig.hung, rig.centre):
            yield _front_weights(rig, setting, rig.hung, rig.centre)
        yield _rear_axle(rig, setting, rig.hung, rig.centre)
    elif rig.trailed and rig.tongue is not None:
        yield _rear_axle(rig, setting, rig.tongue, desk.constant(desk.say("on_the_drawbar"), 0, "m"))


def _needs_weights(rig: Rig, setting: Setting, load: Step, reach: Step) -> bool:
    """Whether the unfavourable end asks for any; tried on plain numbers, so that no line is written for nothing."""
    desk, row = rig.desk, setting.row
    most, far = desk.ends(load).high, desk.ends(reach).high
    if most is None or far is None:
        return True
    mass, share = row["mass"].planning, row["front_share"].planning
    least = front_ballast(
        rear=most, overhang=row["hitch_overhang"].planning, reach=far, front_axle=mass * share / 100,
        wheelbase=row["wheelbase"].planning, empty=mass, ahead=row["front_weights_ahead"].planning,
    )  # fmt: skip
    return least > 0


def _front_weights(rig: Rig, setting: Setting, load: Step, reach: Step) -> Demand:
    desk = rig.desk
    least = desk.ledger.work(
        front_ballast, rig.title("front_ballast"), rear=load, overhang=setting.cell("hitch_overhang"), reach=reach,
        front_axle=setting.front_axle, wheelbase=setting.cell("wheelbase"), empty=setting.cell("mass"),
        ahead=setting.cell("front_weights_ahead"),
    )  # fmt: skip
    none = desk.constant(desk.say("no_weights"), 0, "kg")
    top = desk.ledger.greatest(rig.title("front_ballast_or_none"), {"weights": least, "none": none})
    return Demand("front_ballast", rig.id, rig.name, top.value, top, (rig.title("for_class", row=setting.name),))


def _rear_axle(rig: Rig, setting: Setting, load: Step, reach: Step) -> Demand:
    top = rig.desk.ledger.work(
        rear_axle_load, rig.title("rear_axle_load"), rear_axle=setting.rear_axle, rear=load,
        overhang=setting.cell("hitch_overhang"), reach=reach, wheelbase=setting.cell("wheelbase"),
    )  # fmt: skip
    return Demand("rear_axle_load", rig.id, rig.name, top.value, top, (rig.title("for_class", row=setting.name),))
