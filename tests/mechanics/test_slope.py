"""Tipping sideways, in a turn and backwards: moments worked out a second way, limits, and the way back."""

from __future__ import annotations

import math

import pytest

from firstfurrow.mechanics.balance import mass_for_balance_uphill, weight_transfer
from firstfurrow.mechanics.draft import angle_of, towed_pull
from firstfurrow.mechanics.power import climb_power, drawbar_power, rolling_power
from firstfurrow.mechanics.slope import (
    centre_of_mass_ahead,
    centre_of_mass_height,
    combined_height,
    gravity_along,
    pull_to_lift_front,
    rear_tip_angle,
    side_grip_angle,
    side_tip_angle,
    side_tip_angle_pivot,
    slope_of,
    track_for_side_slope,
    turn_speed,
    turn_speed_on_slope,
)
from firstfurrow.reasoning import EITHER, FORMULAS, NoSolutionError

G = 9.80665


@pytest.mark.parametrize("angle", [0, 5, 15, 40])
def test_slope_and_angle_are_each_others_reverse(angle: float) -> None:
    assert angle_of(slope=slope_of(angle=angle)) == pytest.approx(angle)


def test_gravity_along_is_the_pull_without_rolling() -> None:
    assert gravity_along(2000, 12) == pytest.approx(towed_pull(mass=2000, rolling=0, angle=12))


@pytest.mark.parametrize("angle", [0, 4, 12])
def test_rolling_and_climbing_take_the_power_of_the_pull_that_does_both(angle: float) -> None:
    pull = towed_pull(mass=1500, rolling=0.06, angle=angle)
    apart = rolling_power(1500, 0.06, angle, speed=6) + climb_power(1500, angle, speed=6)
    assert apart == pytest.approx(drawbar_power(pull, speed=6))


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_size_alone_does_not_change_a_tipping_angle(times: float) -> None:
    assert side_tip_angle(1.2 * times, 0.75 * times) == pytest.approx(side_tip_angle(1.2, 0.75))
    small, large = (side_tip_angle_pivot(1.2 * k, 40, 0.75 * k, 0.35 * k) for k in (1, times))
    assert large == pytest.approx(small)
    assert rear_tip_angle(0.68 * times, 0.75 * times) == pytest.approx(rear_tip_angle(0.68, 0.75))


@pytest.mark.parametrize(("wheelbase", "front_share", "height", "pivot"), [(1.5, 40, 0.7, 0.3), (2.2, 30, 0.95, 0.45)])
def test_at_the_pivoting_angle_the_moment_about_the_tipping_line_is_nothing(
    wheelbase: float, front_share: float, height: float, pivot: float
) -> None:
    """Gravity about the line from the lower rear wheel's foot to the pivot, as vectors; the wheelbase has no say."""
    track = 1.3
    angle = math.radians(side_tip_angle_pivot(track, front_share, height, pivot))
    line = (wheelbase, -track / 2, pivot)  # forward, sideways down the slope, up
    arm = (wheelbase * front_share / 100, -track / 2, height)
    force = (0, math.sin(angle), -math.cos(angle))
    moment = (
        arm[1] * force[2] - arm[2] * force[1],
        arm[2] * force[0] - arm[0] * force[2],
        arm[0] * force[1] - arm[1] * force[0],
    )
    assert sum(a * b for a, b in zip(line, moment, strict=True)) == pytest.approx(0, abs=1e-12)


def test_a_pivoting_axle_tips_earlier_than_a_rigid_base() -> None:
    for front_share in (30, 40, 50):
        assert side_tip_angle_pivot(1.2, front_share, 0.75, 0.35) < side_tip_angle(1.2, 0.75)


def test_a_pivot_at_the_height_of_the_centre_of_mass_or_no_weight_in_front_makes_the_base_rigid() -> None:
    assert side_tip_angle_pivot(1.2, 40, 0.75, 0.75) == pytest.approx(side_tip_angle(1.2, 0.75))
    assert side_tip_angle_pivot(1.2, 0, 0.75, 0.35) == pytest.approx(side_tip_angle(1.2, 0.75))


def test_weight_in_front_tips_it_earlier_unless_the_pivot_lies_above_the_centre_of_mass() -> None:
    """By hand, track 1.2 m: (1 - share) / (height - share * pivot) says which way a share of 40 or 25 % turns it."""

    def tangent(share: float, centre: float, pivot: float) -> float:
        return math.tan(math.radians(side_tip_angle_pivot(1.2, share, centre, pivot)))

    def track(share: float, centre: float, pivot: float) -> float:
        return track_for_side_slope(angle=22.5, share=0.5, centre_height=centre, front_share=share, pivot_height=pivot)

    below, above = ((0, 0.75, 0.35), (40, 0.75, 0.35)), ((0, 0.4, 0.8), (25, 0.4, 0.8))
    assert [tangent(*case) for case in below] == pytest.approx([0.8, 0.36 / 0.61])
    assert [tangent(*case) for case in above] == pytest.approx([1.5, 2.25])
    assert [track(*case) for case in below] == pytest.approx([1.5, 1.22 / 0.6])
    assert [track(*case) for case in above] == pytest.approx([0.8, 0.4 / 0.75])
    for formula in (side_tip_angle_pivot, track_for_side_slope):
        assert FORMULAS[formula].directions["front_share"] == EITHER


def test_a_centre_of_mass_below_the_tipping_line_does_not_tip() -> None:
    with pytest.raises(NoSolutionError, match="does not tip"):
        side_tip_angle_pivot(track=1.2, front_share=60, centre_height=0.3, pivot_height=0.5)


@pytest.mark.parametrize("slope", [5, 10, 15, 20])
@pytest.mark.parametrize("share", [0.5, 0.8, 1])
def test_the_track_found_for_a_slope_tips_at_the_slope_over_the_share(slope: float, share: float) -> None:
    track = track_for_side_slope(slope, share, centre_height=0.8, front_share=40, pivot_height=0.4)
    assert side_tip_angle_pivot(track, 40, 0.8, 0.4) == pytest.approx(slope / share)


def test_up_to_an_upright_static_angle_there_is_a_track_however_wide() -> None:
    track = track_for_side_slope(angle=44.9, share=0.5, centre_height=0.8, front_share=40, pivot_height=0.4)
    assert side_tip_angle_pivot(track, 40, 0.8, 0.4) == pytest.approx(89.8)


@pytest.mark.parametrize(("slope", "share"), [(45, 0.5), (50, 0.5), (30, 0.3)])
def test_no_track_is_wide_enough_where_the_static_angle_would_be_upright(slope: float, share: float) -> None:
    with pytest.raises(NoSolutionError, match="no track"):
        track_for_side_slope(slope, share, centre_height=0.8, front_share=40, pivot_height=0.4)


@pytest.mark.parametrize(("mass", "height", "carried", "carried_height"), [(1500, 0.75, 90, 1.5), (800, 0.6, 300, 0.4)])
def test_a_common_centre_lies_between_the_two_and_does_not_care_which_is_named_first(
    mass: float, height: float, carried: float, carried_height: float
) -> None:
    common = combined_height(mass, height, carried, carried_height)
    assert min(height, carried_height) < common < max(height, carried_height)
    assert combined_height(carried, carried_height, mass, height) == pytest.approx(common)
    assert combined_height(3 * mass, height, 3 * carried, carried_height) == pytest.approx(common)
    assert combined_height(mass, height, 0, carried_height) == height


def test_on_level_ground_both_turning_speeds_are_one() -> None:
    assert turn_speed_on_slope(1.2, 0.75, 6, 0) == pytest.approx(turn_speed(1.2, 0.75, 6))


@pytest.mark.parametrize("angle", [0, 5, 10, 20])
def test_at_the_turning_speed_gravity_and_swing_point_at_the_outer_wheels(angle: float) -> None:
    """Measured along and at right angles to the ground, their sum passes the outer wheels: half the track to height."""
    speed = turn_speed_on_slope(track=1.2, centre_height=0.75, radius=6, angle=angle) / 3.6
    swing, lean = speed**2 / 6, math.radians(angle)
    outward = G * math.sin(lean) + swing * math.cos(lean)
    downward = G * math.cos(lean) - swing * math.sin(lean)
    assert outward / downward == pytest.approx(0.6 / 0.75)


def test_four_times_the_radius_lets_it_go_twice_as_fast() -> None:
    """Twice the speed is four times the tipping force."""
    assert turn_speed(1.2, 0.75, 24) == pytest.approx(2 * turn_speed(1.2, 0.75, 6))


def test_on_its_static_angle_no_turn_is_slow_enough() -> None:
    limit = side_tip_angle(1.2, 0.75)
    assert turn_speed_on_slope(1.2, 0.75, 6, limit - 0.01) < 1
    with pytest.raises(NoSolutionError, match="standing still"):
        turn_speed_on_slope(1.2, 0.75, 6, limit + 0.01)
    with pytest.raises(NoSolutionError, match="standing still"):
        turn_speed_on_slope(track=0, centre_height=0.75, radius=6, angle=0)


def test_sliding_and_tipping_follow_one_law_of_tangents() -> None:
    """Wheels whose grip is half the track over the height slide just where a rigid base tips."""
    assert side_grip_angle(grip=0.6 / 0.75, share=1) == pytest.approx(side_tip_angle(1.2, 0.75))
    assert side_grip_angle(grip=0.35, share=1.5) * 1.5 == pytest.approx(side_grip_angle(grip=0.35, share=1))


def test_the_pull_that_lifts_the_front_moves_just_the_front_axle_load() -> None:
    pull = pull_to_lift_front(mass=1500, centre_ahead=0.68, hitch_height=0.4)
    assert weight_transfer(pull, hitch_height=0.4, wheelbase=1.7) == pytest.approx(1500 * 0.68 / 1.7)


def test_up_to_the_backward_tipping_angle_a_bare_tractor_has_something_in_front() -> None:
    limit = rear_tip_angle(centre_ahead=0.4 * 1.7, centre_height=0.75)
    bare = {
        "rear": 0, "overhang": 0.6, "reach": 1, "raised": 0.8, "front": 0, "ahead": 0.9, "front_share": 40,
        "wheelbase": 1.7, "centre_height": 0.75, "kept": 0,
    }  # fmt: skip
    assert mass_for_balance_uphill(**bare, angle=limit - 0.01) == 0
    with pytest.raises(NoSolutionError, match="front wheels"):
        mass_for_balance_uphill(**bare, angle=limit + 0.01)


@pytest.mark.parametrize("height", [0.6, 0.7, 0.9])
@pytest.mark.parametrize("angle", [8, 15, 25])
def test_weighing_twice_gives_back_the_height_that_was_put_in(height: float, angle: float) -> None:
    """The tractor is turned about its rear axle by the angle, so that its centre moves back."""
    mass, wheelbase, ahead, radius = 1500, 1.7, 0.68, 0.5
    lean = math.radians(angle)
    centre = ahead * math.cos(lean) - (height - radius) * math.sin(lean)
    on_the_scale = mass * centre / (wheelbase * math.cos(lean))
    assert centre_of_mass_ahead(mass * ahead / wheelbase, mass, wheelbase) == pytest.approx(ahead)
    assert centre_of_mass_height(radius, ahead, on_the_scale, wheelbase, mass, angle) == pytest.approx(height)
