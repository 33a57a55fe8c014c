"""Power in a band, at a shaft and in a cylinder: known ends, and the geometry and the work behind the factors."""

from __future__ import annotations

import math

import pytest

from firstfurrow.mechanics.oil import cylinder_force, cylinder_volume
from firstfurrow.mechanics.power import band_place, band_place_power, shaft_torque


@pytest.mark.parametrize("placed", [band_place, band_place_power])
@pytest.mark.parametrize(
    ("place", "power"), [(-1, 12), (-0.5, 14), (-0.25, 15), (0, 16), (0.25, 18), (0.5, 20), (1, 24)]
)
def test_a_place_in_a_band_goes_by_its_own_half(placed: object, place: float, power: float) -> None:
    """From 16 it is 4 down to the low end and 8 up to the high end."""
    assert callable(placed)
    assert placed(low=12, typical=16, high=24, place=place) == pytest.approx(power)


def test_a_shaft_does_in_a_second_the_work_of_its_torque_on_its_way_round() -> None:
    """At 540 turns a minute, nine a second."""
    assert shaft_torque(power=50, speed=540) * 2 * math.pi * 9 / 1000 == pytest.approx(50, rel=1e-6)


def test_a_cylinder_two_decimetres_wide_holds_pi_litres_for_each_decimetre() -> None:
    assert cylinder_volume(bore=200, stroke=100) == pytest.approx(math.pi, rel=1e-8)


def test_a_hundred_bar_are_a_kilonewton_on_each_square_centimetre() -> None:
    """200 mm wide: 100 pi square centimetres."""
    assert cylinder_force(bore=200, pressure=100) == pytest.approx(100 * math.pi, rel=1e-8)
