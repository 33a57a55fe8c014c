"""Axle loads that owners reported (common practice, no source that could be cited)."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.balance import front_axle_load
from firstfurrow.quantities import convert

pytestmark = pytest.mark.practice


def test_sixteen_hundred_pounds_between_the_axles() -> None:
    """726 kg with its centre 62.5 % of the wheelbase behind the front axle: 600 lb in front and 1000 lb behind."""
    mass = convert(1600, "lb", "kg")
    front = front_axle_load(
        front=mass, ahead=-0.625 * 1.6, wheelbase=1.6, front_axle=0, rear=0, overhang=0, reach=0,
    )  # fmt: skip
    assert mass == pytest.approx(726, abs=0.5)
    assert convert(front, "kg", "lb") == pytest.approx(600)
    assert convert(mass - front, "kg", "lb") == pytest.approx(1000)
    assert (round(front), round(mass - front)) == (272, 454)
