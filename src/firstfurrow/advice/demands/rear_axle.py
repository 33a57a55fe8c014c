"""What the rear axle of the size class that stands in must carry."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.balance import rear_axle_load
from firstfurrow.reasoning import Step


def demands(rig: Rig, setting: Setting) -> Iterator[Demand]:
    """Load on the rear axle for what is mounted or presses on the drawbar."""
    desk = rig.desk
    if rig.mounted and rig.hung is not None and rig.centre is not None:
        yield _rear_axle(rig, setting, rig.hung, rig.centre)
    elif rig.trailed and rig.tongue is not None:
        yield _rear_axle(rig, setting, rig.tongue, desk.constant(desk.say("on_the_drawbar"), 0, "m"))


def _rear_axle(rig: Rig, setting: Setting, load: Step, reach: Step) -> Demand:
    top = rig.desk.ledger.work(
        rear_axle_load, rig.title("rear_axle_load"), rear_axle=setting.rear_axle, rear=load,
        overhang=setting.cell("hitch_overhang"), reach=reach, wheelbase=setting.cell("wheelbase"),
    )  # fmt: skip
    return Demand("rear_axle_load", rig.id, rig.name, top.value, top, (rig.title("for_class", row=setting.name),))
