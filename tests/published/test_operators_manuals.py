"""What operators' manuals of several makers print alike: slip, slope gauges, ballast (secondary, no years)."""

from __future__ import annotations

import math

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.balance import front_axle_load
from firstfurrow.mechanics.slope import slope_of
from firstfurrow.mechanics.traction import slip_by_counting
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("operators' manuals of several makers (secondary)")


@pytest.mark.parametrize(
    ("turns", "printed"), [(10, 0), (9.5, 5), (9, 10), (8.5, 15), (8, 20), (7.5, 25), (7, 30)]
)  # fmt: skip
def test_slip_by_counting_turns(turns: float, printed: float) -> None:
    """Turns with the implement raised over the way of ten turns at work."""
    assert 100 * slip_by_counting(loaded_turns=10, unloaded_turns=turns) == pytest.approx(printed, abs=1e-9)


def test_printed_slip_of_eight_and_three_quarter_turns_is_cut_off() -> None:
    """12 is printed, 12.5 comes out."""
    assert 100 * slip_by_counting(loaded_turns=10, unloaded_turns=8.75) == pytest.approx(12 + 0.5)


def test_printed_slip_of_nine_and_a_third_turns_is_wrong() -> None:
    """Some charts print 8 % where the counting gives 6.7 %: off by 1.3 points."""
    computed = 100 * slip_by_counting(loaded_turns=10, unloaded_turns=9 + 1 / 3)
    assert computed == pytest.approx(6.67, abs=0.005)
    assert 8 - computed == pytest.approx(1.3, abs=0.05)


@pytest.mark.parametrize(("degrees", "per_cent"), [(15, 26.8), (10, 17.6)])
def test_slope_limits_in_both_ways_of_saying_them(degrees: float, per_cent: float) -> None:
    assert slope_of(angle=degrees) == pytest.approx(per_cent, abs=0.05)


def test_printed_two_and_a_half_feet_in_ten_is_not_fifteen_degrees() -> None:
    """Printed beside 15 degrees and 27 %: 2.5 ft in 10 ft is 25 %, 14.0 degrees; measured along the slope 14.5."""
    level, along = math.degrees(math.atan(0.25)), math.degrees(math.asin(0.25))
    assert 15 - level == pytest.approx(0.96, abs=0.005)
    assert 15 - along == pytest.approx(0.52, abs=0.005)
    assert slope_of(angle=15) - slope_of(angle=level) == pytest.approx(1.8, abs=0.05)


def test_misprinted_sign_in_the_front_axle_equation_takes_the_tractor_away_twice() -> None:
    """One manual prints minus before the empty front axle's load. With nothing mounted it must come back as it was."""
    bare = {"front": 0, "ahead": 0.9, "wheelbase": 1.7, "rear": 0, "overhang": 0.6, "reach": 1}
    right = front_axle_load(**bare, front_axle=600)
    misprint = front_axle_load(**bare, front_axle=-600)
    assert right == 600
    assert right - misprint == pytest.approx(2 * 600)


def test_a_four_wheel_drive_has_two_fifths_and_a_bit_in_front(book: Book) -> None:
    """40 to 45 % of a bare small tractor with four driven wheels; the larger classes lie at the lower end."""
    for row in book.tables["size_classes"].rows.values():
        assert 40 <= row["front_share"].planning <= 45, row.id


def test_heaviest_usual_ballast() -> None:
    """88.2 kg for each kW at the shaft: 145 lb, or 66 kg, for each horsepower."""
    horsepower = convert(1, "hp", "kW")
    assert 88.2 * horsepower == pytest.approx(66, abs=0.3)
    assert convert(88.2 * horsepower, "kg", "lb") == pytest.approx(145, abs=0.05)
