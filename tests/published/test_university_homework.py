"""University homework and examination items on tractors: public teaching data sets (secondary, no years)."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.power import drawbar_power
from firstfurrow.mechanics.slope import gravity_along, side_grip_angle, side_tip_angle
from firstfurrow.mechanics.traction import rolling_speed, tractive_efficiency

pytestmark = pytest.mark.published("public teaching data sets of university homework (secondary)")


def test_force_along_a_slope_of_25_degrees() -> None:
    """2000 kg: 8292 N with g 9.81."""
    assert gravity_along(mass=2000, angle=25) * 1000 == pytest.approx(8292, rel=0.0004)


def test_tractive_efficiency_from_draft_and_axle_torque() -> None:
    """Draft 30 kN, axle torque 25 kN m, wheel radius 0.7 m, slip 20 %: 67.19 %; 67.20 here."""
    efficiency = tractive_efficiency(slip=0.20, net=30, gross=25 / 0.7)
    assert 100 * efficiency == pytest.approx(67.19, abs=0.011)
    assert 100 * efficiency == pytest.approx(67.20, abs=1e-9)


def test_speed_of_a_wheel_by_gears() -> None:
    """Wheel of 1.5 m, 1200 turns through 30 to 1: 11.304 km/h is printed (with 3.14 for pi), 11.310 comes out."""
    speed = rolling_speed(diameter=1.5, revolutions=1200, ratio=30)
    assert speed == pytest.approx(11.304 * 3.14159265 / 3.14, rel=1e-6)


def test_pull_of_each_wheel_is_printed_one_per_cent_too_high() -> None:
    """35 hp of 746 W on two wheels: 4.1977 kN is printed, from a speed cut off to 3.11 m/s; 4.156 comes out."""
    speed = rolling_speed(diameter=1.5, revolutions=1200, ratio=30)
    each, printed = (35 * 0.746 / drawbar_power(pull=2, speed=kmh) for kmh in (speed, 3.11 * 3.6))
    assert each == pytest.approx(4.156, abs=0.0005)
    assert printed == pytest.approx(4.1977, abs=0.0005)
    assert printed / each - 1 == pytest.approx(0.010, abs=0.0005)


def test_slope_limit_of_a_friction_of_017() -> None:
    """About 10 degrees is printed; 9.65 here."""
    angle = side_grip_angle(grip=0.170, share=1)
    assert angle == pytest.approx(9.65, abs=0.005)
    assert round(angle) == 10


@pytest.mark.derived("worked out from the height and track of a solved examination item")
def test_small_four_wheel_drive_of_an_examination() -> None:
    """Centre at 0.85 m, track 1.25 m: 36.3 degrees."""
    assert side_tip_angle(track=1.25, centre_height=0.85) == pytest.approx(36.3, abs=0.05)
