"""Tyres: height from what is printed, load on one wheel, and what two axles pull together."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.tyres import net_of_axles, overall_diameter, wheel_load


@pytest.mark.parametrize("rim", [12, 24, 38])
def test_a_tyre_without_height_is_as_high_as_its_rim(rim: float) -> None:
    assert overall_diameter(rim=rim, width=0.3, height_share=0) == pytest.approx(rim * 0.0254)  # an inch is 25.4 mm


def test_a_rim_an_inch_larger_makes_the_tyre_an_inch_higher() -> None:
    small, large = (overall_diameter(rim=rim, width=0.32, height_share=0.85) for rim in (24, 25))
    assert large - small == pytest.approx(0.0254)


def test_two_wheels_carry_what_rests_on_the_axle() -> None:
    assert 2 * wheel_load(axle=1234) == pytest.approx(1234 * 9.80665 / 1000)


def test_two_axles_alike_pull_like_one() -> None:
    assert net_of_axles(front=0.4, front_load=600, rear=0.4, rear_load=900) == pytest.approx(0.4)


@pytest.mark.parametrize("front_load", [100, 600, 1400])
def test_both_axles_together_lie_between_them_and_pull_what_each_pulls(front_load: float) -> None:
    both = net_of_axles(front=0.3, front_load=front_load, rear=0.5, rear_load=900)
    assert 0.3 < both < 0.5
    assert both * (front_load + 900) == pytest.approx(0.3 * front_load + 0.5 * 900)
