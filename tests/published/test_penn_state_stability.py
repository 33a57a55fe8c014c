"""Where a tractor's centre of mass lies: *Tractor Overturn Hazards* (Murphy, D.), National Ag Safety Database. Read.

The same figures stand in *Tractor Stability and Instability*, Penn State Extension (in a copy). Years are not given.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.slope import centre_of_mass_ahead, rear_tip_angle
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("Tractor Overturn Hazards, National Ag Safety Database; Penn State Extension")


def test_thirty_per_cent_in_front_is_two_feet_ahead_on_a_wheelbase_of_two_metres() -> None:
    """The sources give the share and the 2 ft; the wheelbase that fits, 2.03 m, is worked out."""
    ahead = centre_of_mass_ahead(front_axle=0.30 * 3000, mass=3000, wheelbase=2.03)
    assert ahead == pytest.approx(convert(2, "ft", "m"), abs=0.005)


@pytest.mark.published("National Safe Tractor and Machinery Operation Program, task sheet 4.12 (secondary)")
def test_point_of_no_return_is_told_steeper_than_that_centre_of_mass_makes_it() -> None:
    """About 75 degrees is taught. The centre 10 in above and 24 in ahead of the rear axle makes 67: 8 degrees less.

    The lower one is the safe one.
    """
    angle = rear_tip_angle(centre_ahead=convert(24, "in", "m"), centre_height=convert(10, "in", "m"))
    assert angle == pytest.approx(67.4, abs=0.05)
    assert 75 - angle == pytest.approx(7.6, abs=0.05)
