"""Descents with an unbraked trailer and tongue loads, worked out beforehand (derived, not published)."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.balance import front_axle_load, most_on_tongue, rear_axle_load
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.mechanics.towing import grip_to_stop, mass_to_stop, mass_to_stop_rear
from firstfurrow.reasoning import NoSolutionError

pytestmark = pytest.mark.derived("statics")

SLOPES = (10, 15, 20)
# trailer over tractor; for each slope: rear wheels with 65 % of the weight, all wheels
DESCENT = {
    1: ((0.22, 0.14), (0.37, 0.24), (0.52, 0.34)),
    1.5: ((0.27, 0.18), (0.46, 0.30), (0.65, 0.43)),
    2: ((0.32, 0.21), (0.55, 0.36), (0.78, 0.51)),
    3: ((0.43, 0.28), (0.74, 0.48), (1.05, 0.68)),
}


@pytest.mark.parametrize("ratio", DESCENT)
def test_grip_that_holds_back_a_trailer(ratio: float) -> None:
    for slope, (rear, every) in zip(SLOPES, DESCENT[ratio], strict=True):
        grip = grip_to_stop(ratio=ratio, rolling=0.03, angle=angle_of(slope=slope), deceleration=0)
        assert grip == pytest.approx(every, abs=0.0051), slope
        assert grip / 0.65 == pytest.approx(rear, abs=0.0051), slope


@pytest.mark.parametrize(("slope", "needed"), [(10, 1216), (15, 1365), (20, 1542)])
def test_rear_wheels_alone_hold_less_than_their_static_share_says(slope: float, needed: float) -> None:
    """On a descent weight moves forward, so the table's left column is too kind: by a fifth to a half of the tractor.

    With the grip of that column a trailer of 1000 kg asks not for 1000 kg but for this.
    """
    angle = angle_of(slope=slope)
    by_share = grip_to_stop(ratio=1, rolling=0.03, angle=angle, deceleration=0) / 0.65
    mass = mass_to_stop_rear(
        towed=1000, grip=by_share, rolling=0.03, angle=angle, deceleration=0, rear_share=0.65, wheelbase=1.7,
        centre_height=0.75, hitch_height=0.4,
    )  # fmt: skip
    assert mass == pytest.approx(needed, abs=0.5)


def test_wet_grass_fails_already_at_ten_per_cent_with_a_trailer_as_heavy_as_the_tractor() -> None:
    """Grip 0.20 is less than the 0.22 that rear brakes need; a trailer lighter by a third would just do."""
    angle = angle_of(slope=10)
    assert grip_to_stop(ratio=1, rolling=0.03, angle=angle, deceleration=0) / 0.65 > 0.20
    shape = {"rear_share": 0.65, "wheelbase": 1.7, "centre_height": 0.75, "hitch_height": 0.4}
    flat = {"grip": 0.20, "rolling": 0.03, "angle": angle, "deceleration": 0}
    assert mass_to_stop_rear(towed=1000, **flat, **shape) > 1000 > mass_to_stop_rear(towed=667, **flat, **shape)
    assert mass_to_stop(towed=1000, **flat) < 1000  # with all wheels braked it holds


def test_two_tonnes_unbraked_down_twelve_per_cent_are_too_much_for_a_small_compact() -> None:
    """At 1 m/s2 on gravel it takes twice a tractor of 1.1 t to stop 2 t behind it."""
    needed = mass_to_stop(towed=2000, grip=0.35, rolling=0.04, angle=angle_of(slope=12), deceleration=1)
    assert needed == pytest.approx(2184, abs=0.5)
    assert needed > 1.9 * 1100


def test_nothing_is_towed_up_a_fifth_on_wet_grass() -> None:
    """Net traction 0.20 on 20 %: the tractor cannot climb by itself, so the largest trailer is none."""
    with pytest.raises(NoSolutionError):
        mass_for_pull(pull=0.1, grip=0.20, pressed_on=0, driven_share=1, rolling=0.06, angle=angle_of(slope=20.001))


@pytest.mark.parametrize(("load", "share"), [(250, 35.4), (500, 30.7), (1079, 20.0)])
def test_tongue_load_and_the_front_axle(load: float, share: float) -> None:
    """2500 kg with 1000 kg in front, wheelbase 2.05 m, hitch 0.95 m behind the rear axle."""
    front = front_axle_load(front=0, ahead=0, wheelbase=2.05, front_axle=1000, rear=load, overhang=0.95, reach=0)
    assert 100 * front / 2500 == pytest.approx(share, abs=0.05)
    rear = rear_axle_load(rear_axle=1500, rear=load, overhang=0.95, reach=0, wheelbase=2.05)
    assert front + rear == pytest.approx(2500 + load)


def test_largest_tongue_load() -> None:
    most = most_on_tongue(front_axle=1000, kept=0.2, empty=2500, wheelbase=2.05, overhang=0.95)
    assert most == pytest.approx(1079, abs=0.5)
