"""Driveline: what a hydrostatic drive keeps of the power that a gear drive would bring to the wheels."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("ratio * kept", unit="", digits=3, raises="ratio kept")
def after_drive(ratio: float, kept: float) -> float:
    """Share of the shaft power that reaches the drawbar: the table's share for gears times what the drive keeps.

    >>> round(after_drive(ratio=0.77, kept=0.84), 3)
    0.647
    """
    return ratio * kept
