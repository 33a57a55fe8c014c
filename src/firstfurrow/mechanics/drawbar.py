"""Drawbar: what a trailed load presses on the pin."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("mass * share / 100", unit="kg", digits=0, raises="mass share")
def tongue_load(mass: float, share: float) -> float:
    """Vertical load in kg on the pin from gross mass (kg) and the share that rests on the tongue (%).

    >>> tongue_load(mass=2000, share=15)
    300.0
    """
    return mass * share / 100
