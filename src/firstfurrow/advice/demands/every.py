"""All demands of one hookup, in book order."""

from __future__ import annotations

from firstfurrow.advice.demands import arms, balance, drawbar, loader, oil, shaft, weight
from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.rig import Rig


def demands_of(rig: Rig, setting: Setting) -> tuple[Demand, ...]:
    """Everything that this hookup asks of the tractor. Grip is left out where there is none (see `weight`)."""
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
    found += loader.demands(rig)
    return tuple(found)
