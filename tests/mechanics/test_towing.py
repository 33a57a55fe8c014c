"""Stopping without trailer brakes: forces and moments put back, limits, and how the mass grows with what is towed."""

from __future__ import annotations

import math

import pytest

from firstfurrow.mechanics.towing import grip_to_stop, mass_to_hold, mass_to_stop, mass_to_stop_rear, share_or_cap
from firstfurrow.reasoning import NoSolutionError

G = 9.80665
DOWN = {"rolling": 0.04, "angle": 8.53, "deceleration": 1.0}
SHAPE = {"rear_share": 0.6, "wheelbase": 1.6, "centre_height": 0.75, "hitch_height": 0.4}


@pytest.mark.parametrize("ratio", [0.3, 1, 2.5])
@pytest.mark.parametrize("angle", [0, 5, 12])
def test_the_grip_needed_and_the_mass_needed_are_each_others_reverse(ratio: float, angle: float) -> None:
    grip = grip_to_stop(ratio=ratio, rolling=0.03, angle=angle, deceleration=1)
    assert mass_to_stop(1000 * ratio, grip, 0.03, angle, 1) == pytest.approx(1000)


def test_all_wheels_braked_the_forces_along_the_slope_balance() -> None:
    mass, towed, grip = mass_to_stop(towed=1500, grip=0.5, **DOWN), 1500, 0.5
    angle = math.radians(DOWN["angle"])
    brakes = grip * mass * G * math.cos(angle)
    rolls = DOWN["rolling"] * (mass + towed) * G * math.cos(angle)
    assert brakes + rolls - (mass + towed) * G * math.sin(angle) == pytest.approx((mass + towed) * 1.0)


def test_rear_wheels_alone_the_moments_about_the_front_wheels_balance() -> None:
    """The load on the rear axle is worked out from the ground up in newtons; its grip then just stops the whole."""
    towed, grip = 1500, 0.6
    mass = mass_to_stop_rear(towed=towed, grip=grip, **DOWN, **SHAPE)
    angle, base = math.radians(DOWN["angle"]), SHAPE["wheelbase"]
    down, along = mass * G * math.cos(angle), mass * (G * math.sin(angle) + DOWN["deceleration"])
    push = towed * (G * math.sin(angle) - DOWN["rolling"] * G * math.cos(angle) + DOWN["deceleration"])
    rear_load = (
        down * SHAPE["rear_share"] * base - along * SHAPE["centre_height"] - push * SHAPE["hitch_height"]
    ) / base
    stops = grip * rear_load
    asked = (mass + towed) * (G * math.sin(angle) - DOWN["rolling"] * G * math.cos(angle) + DOWN["deceleration"])
    assert stops == pytest.approx(asked)


def test_rear_wheels_alone_always_ask_for_more() -> None:
    for grip in (0.45, 0.6, 0.75):
        assert mass_to_stop_rear(towed=900, grip=grip, **DOWN, **SHAPE) > 1.5 * mass_to_stop(900, grip, **DOWN)


def test_rear_wheels_that_carry_everything_at_ground_level_are_as_good_as_all() -> None:
    flat = {"rear_share": 1, "wheelbase": 1.6, "centre_height": 0, "hitch_height": 0}
    assert mass_to_stop_rear(900, 0.4, **DOWN, **flat) == pytest.approx(mass_to_stop(900, 0.4, **DOWN))


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_the_mass_is_proportional_to_what_is_towed(times: float) -> None:
    assert mass_to_hold(1000 * times, 1.5) == pytest.approx(times * mass_to_hold(1000, 1.5))
    assert mass_to_stop(1000 * times, 0.4, **DOWN) == pytest.approx(times * mass_to_stop(1000, 0.4, **DOWN))
    one, more = (mass_to_stop_rear(1000 * k, 0.6, **DOWN, **SHAPE) for k in (1, times))
    assert more == pytest.approx(times * one)


def test_what_stops_by_its_own_rolling_asks_for_no_tractor() -> None:
    gentle = {"rolling": 0.06, "angle": 2, "deceleration": 0}
    assert mass_to_stop(3000, 0.3, **gentle) == 0
    assert mass_to_stop_rear(3000, 0.3, **gentle, **SHAPE) == 0
    assert grip_to_stop(ratio=3, **gentle) == 0
    assert mass_to_stop(0, 0.4, **DOWN) == 0


@pytest.mark.parametrize("grip", [0.05, 0.16, 0.21])
def test_grip_that_cannot_stop_the_tractor_itself_has_no_solution(grip: float) -> None:
    """15 % with 1 m/s2 and rolling 0.04 asks for a grip of 0.213 of the tractor alone."""
    assert grip_to_stop(ratio=0, **DOWN) == pytest.approx(0.213, abs=0.0005)
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_to_stop(towed=0, grip=grip, **DOWN)
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_to_stop_rear(towed=0, grip=grip, **DOWN, **SHAPE)


def test_wheels_that_can_only_just_stop_the_tractor_stop_nothing_else() -> None:
    """Without grip, rolling or slope nothing is asked and nothing is left: no mass, not a division by nought."""
    level = {"rolling": 0, "angle": 0, "deceleration": 0}
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_to_stop(towed=1000, grip=0, **level)
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_to_stop_rear(towed=1000, grip=0, **level, **SHAPE)


def test_a_steep_descent_lifts_the_rear_wheels_so_far_that_no_grip_is_enough() -> None:
    with pytest.raises(NoSolutionError, match="rear wheels"):
        mass_to_stop_rear(towed=500, grip=0.75, rolling=0.04, angle=18, deceleration=2.5, **SHAPE)
    assert mass_to_stop(towed=500, grip=0.75, rolling=0.04, angle=18, deceleration=2.5) > 0


def test_a_law_that_names_a_share_and_a_cap_takes_the_smaller() -> None:
    assert share_or_cap(mass=5999, share=0.5, cap=3000) < share_or_cap(mass=6000, share=0.5, cap=3000) == 3000
    assert share_or_cap(mass=60000, share=0.5, cap=3000) == 3000
