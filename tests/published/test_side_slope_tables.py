"""Tables of tipping angles, turning speeds and sliding angles, worked out beforehand (derived, not published)."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.slope import (
    rear_tip_angle,
    side_grip_angle,
    side_tip_angle,
    side_tip_angle_pivot,
    slope_of,
    track_for_side_slope,
    turn_speed,
    turn_speed_on_slope,
)

pytestmark = pytest.mark.derived("statics")

TRACKS = (1.00, 1.15, 1.25, 1.40, 1.60, 1.80)
RIGID = {
    0.65: (37.6, 41.5, 43.9, 47.1, 50.9, 54.2),
    0.75: (33.7, 37.5, 39.8, 43.0, 46.8, 50.2),
    0.85: (30.5, 34.1, 36.3, 39.5, 43.3, 46.6),
    0.95: (27.8, 31.2, 33.3, 36.4, 40.1, 43.5),
}


@pytest.mark.parametrize("height", RIGID)
def test_rigid_base_by_track_and_height(height: float) -> None:
    for track, angle in zip(TRACKS, RIGID[height], strict=True):
        assert side_tip_angle(track=track, centre_height=height) == pytest.approx(angle, abs=0.051), track


@pytest.mark.parametrize(
    ("track", "height", "pivot", "front_share", "rigid", "pivoting"),
    [(1.2, 0.75, 0.35, 40, 38.7, 30.5), (1.6, 0.90, 0.45, 38, 41.6, 34.2)],
)
def test_a_pivoting_axle_costs_seven_to_eight_degrees(
    track: float, height: float, pivot: float, front_share: float, rigid: float, pivoting: float
) -> None:
    stiff, found = side_tip_angle(track, height), side_tip_angle_pivot(track, front_share, height, pivot)
    assert stiff == pytest.approx(rigid, abs=0.051)
    assert found == pytest.approx(pivoting, abs=0.051)
    assert 7 < stiff - found < 8.5
    half = track_for_side_slope(pivoting / 2, 0.5, height, front_share, pivot)
    assert half == pytest.approx(track, abs=0.005)


@pytest.mark.parametrize(("radius", "level", "sloping"), [(4, 20.2, 16.7), (6, 24.7, 20.4), (12, 34.9, 28.9)])
def test_turning_speeds_of_a_small_tractor(radius: float, level: float, sloping: float) -> None:
    """Track 1.2 m, centre at 0.75 m; level, and on a side slope of 10 degrees that falls away outside."""
    assert turn_speed(track=1.2, centre_height=0.75, radius=radius) == pytest.approx(level, abs=0.05)
    leaning = turn_speed_on_slope(track=1.2, centre_height=0.75, radius=radius, angle=10)
    assert leaning == pytest.approx(sloping, abs=0.05)


@pytest.mark.parametrize(
    ("grip", "all_wheels", "per_cent", "rear_only", "rear_per_cent"),
    [
        (0.10, 5.7, 10, 3.7, 6.5),
        (0.20, 11.3, 20, 7.4, 13),
        (0.35, 19.3, 35, 12.8, 22.8),
        (0.50, 26.6, 50, 18.0, 32.5),
    ],
)
def test_sliding_by_grip(
    grip: float, all_wheels: float, per_cent: float, rear_only: float, rear_per_cent: float
) -> None:
    """With all wheels, and with 65 % of the weight on the two that are driven or braked."""
    every, rear = side_grip_angle(grip=grip, share=1), side_grip_angle(grip=grip * 0.65, share=1)
    assert every == pytest.approx(all_wheels, abs=0.05)
    assert rear == pytest.approx(rear_only, abs=0.051)
    assert slope_of(angle=every) == pytest.approx(per_cent)
    assert slope_of(angle=rear) == pytest.approx(rear_per_cent, abs=0.051)


def test_loss_of_grip_comes_before_tipping_on_all_but_grippy_ground() -> None:
    """A journal paper (Spencer, 1978, abstract read) says so of most two-wheel drives with implements."""
    tips = side_tip_angle_pivot(track=1.2, front_share=40, centre_height=0.75, pivot_height=0.35)
    assert all(side_grip_angle(grip=grip * 0.65, share=1) < tips for grip in (0.10, 0.20, 0.35, 0.50))


def test_backwards_it_takes_much_more_than_sideways() -> None:
    assert rear_tip_angle(centre_ahead=0.68, centre_height=0.75) > side_tip_angle(track=1.2, centre_height=0.75)
