"""Textbook problems on axle loads and tipping: Hibbeler (Pearson, 14th edition) and Giancoli (6th edition).

*Engineering Mechanics: Statics*, problem 8-2, and *Statics and Dynamics*, problem 11-43; *Physics: Principles with
Applications*, problem 9-63. Years are not given in our copies. Statements are at second hand; which figures are from
memory stands at each case.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.balance import front_axle_load, weight_transfer
from firstfurrow.mechanics.slope import side_tip_angle
from firstfurrow.quantities import convert


@pytest.mark.published("Engineering Mechanics: Statics, 14th edition, problem 8-2 (dimensions and answers from memory)")
def test_tractor_with_front_weights_under_pull() -> None:
    """7500 lb, 5 ft ahead of the rear axle, 600 lb more at 12 ft, wheelbase 9 ft, pull of 400 lb at 2.5 ft.

    Answers 2.43 and 1.62 kip a wheel. As remembered the heavier pair is the front one, which is odd for a tractor: the
    arithmetic is what is tested here, not the drawing.
    """
    level = front_axle_load(
        front=convert(600, "lb", "kg"), ahead=convert(3, "ft", "m"), wheelbase=convert(9, "ft", "m"),
        front_axle=convert(7500 * 5 / 9, "lb", "kg"), rear=0, overhang=0, reach=0,
    )  # fmt: skip
    moved = weight_transfer(
        pull=convert(400, "lbf", "kN"), hitch_height=convert(2.5, "ft", "m"), wheelbase=convert(9, "ft", "m")
    )
    front = convert(level - moved, "kg", "lb")
    assert front / 2 == pytest.approx(2427.8, abs=0.05)
    assert (8100 - front) / 2 == pytest.approx(1622.2, abs=0.05)
    assert front / 2000 == pytest.approx(2.43, abs=0.005)
    assert (8100 - front) / 2000 == pytest.approx(1.62, abs=0.005)


@pytest.mark.published("Engineering Mechanics: Statics and Dynamics, 14th edition, problem 11-43 (secondary)")
def test_half_a_track_of_one_and_a_half_metres() -> None:
    """Centre of mass at 3.5 m: 23.2 degrees."""
    assert side_tip_angle(track=2 * 1.5, centre_height=3.5) == pytest.approx(23.2, abs=0.05)


@pytest.mark.published("Physics: Principles with Applications, 6th edition, problem 9-63 (answer from memory)")
def test_truck_of_two_point_four_metres() -> None:
    """Width 2.4 m, centre at 2.2 m: about 29 degrees; 28.61 here. The 0.4 between them is their rounding."""
    angle = side_tip_angle(track=2.4, centre_height=2.2)
    assert angle == pytest.approx(28.61, abs=0.005)
    assert round(angle) == 29
