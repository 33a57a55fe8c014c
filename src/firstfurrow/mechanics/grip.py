"""Grip: the mass on driven wheels that a pull needs."""

from __future__ import annotations

import math

from firstfurrow.reasoning import NoSolutionError, formula


@formula(
    "max(pull * 1000 / 9.80665 - grip * pressed_on, 0) / "
    "(grip * driven_share * cos(angle) - (1 - driven_share) * rolling * cos(angle) - sin(angle))",
    unit="kg", digits=0, raises="pull rolling angle", lowers="grip pressed_on driven_share",
)  # fmt: skip
def mass_for_pull(
    pull: float, grip: float, pressed_on: float, driven_share: float, rolling: float, angle: float
) -> float:
    """Tractor mass in kg, in working order, whose driven wheels can pull `pull` up a slope.

    Parameters
    ----------
    pull : kN at the hitch, grade and rolling of what is towed included
    grip : net traction ratio of the surface (the driven wheels' own rolling is taken out already)
    pressed_on : kg that the tool or the tongue puts on the driven wheels
    driven_share : share of the tractor's weight on driven wheels, 1 for four driven wheels
    rolling : motion resistance ratio of the wheels that are not driven
    angle : slope in degrees, pulling uphill

    Examples
    --------
    5.88 kN on level firm ground at 0.40 with four driven wheels: the 1500 kg tractor of the table of largest pulls.

    >>> round(mass_for_pull(pull=5.884, grip=0.40, pressed_on=0, driven_share=1, rolling=0.058, angle=0))
    1500

    Raises
    ------
    NoSolutionError
        When the grip cannot even hold the tractor itself on the slope: no mass is enough.
    """
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    left = grip * driven_share * cosine - (1 - driven_share) * rolling * cosine - sine
    if left <= 0:
        raise NoSolutionError("the wheels cannot grip enough to climb this slope at all, however heavy the tractor is")
    return max(pull * 1000 / 9.80665 - grip * pressed_on, 0) / left
