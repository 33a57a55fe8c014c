"""All demands of one hookup, in book order."""

from __future__ import annotations

from firstfurrow.advice.demands import arms, balance, drawbar, loader, oil, rear_axle, shaft, speed, tyres, weight
from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.rig import Rig


def demands_of(rig: Rig, setting: Setting) -> tuple[Demand, ...]:
    """Everything that this hookup asks of the tractor by itself.

    Grip is left out where there is none (see `weight`); what rolls is held back elsewhere (see `towing`).
    """
    found: list[Demand] = []
    power = shaft.power(rig, setting)
    if power is not None:
        found.append(power)
    found += shaft.connection(rig)
    found += oil.demands(rig)
    found += arms.demands(rig)
    found += drawbar.demands(rig, power)
    try:
        mass = weight.mass(rig)
    except weight.NoGripError:
        mass = None
    if mass is not None:
        found.append(mass)
    balanced = balance.mass(rig)
    if balanced is not None:
        found.append(balanced)
        weights = balance.front_weights(rig, balanced)
        if weights is not None:
            found.append(weights)
    pressed = weight.pressed_on(rig) if rig.pull is not None else None
    loaded = rig.variant.way == "loader"
    found.append(weight.driven_wheels(rig.desk, rig.id, rig.name, rig.pull, pressed, loader=loaded))
    found += tyres.demands(rig)
    found += rear_axle.demands(rig, setting)
    found += loader.demands(rig, setting)
    found += speed.demands(rig)
    return tuple(found)
