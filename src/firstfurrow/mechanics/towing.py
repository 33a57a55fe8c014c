"""Towing: the tractor mass that may hold back what is towed without brakes of its own."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("towed / ratio", unit="kg", digits=0, raises="towed", lowers="ratio", grade="practice")
def mass_to_hold(towed: float, ratio: float) -> float:
    """Tractor mass in kg for a towed mass (kg) and the greatest ratio of towed to tractor mass.

    A rule, not a proof that it stops: grip, speed and the tractor's own brakes decide that.

    >>> round(mass_to_hold(towed=2000, ratio=1.5))
    1333
    """
    return towed / ratio
