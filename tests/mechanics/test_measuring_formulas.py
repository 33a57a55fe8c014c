"""Measuring by hand: exact areas, a scale that shows less than nothing, and ports that make no set."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.measuring import area_of_paces, sets_of_ports, tongue_on_beam, tongue_on_scale
from firstfurrow.reasoning import NoSolutionError


def test_a_hundred_metres_square_are_a_hectare() -> None:
    assert area_of_paces(part=1, paces=100, paces_across=100, pace=1) == 1
    assert area_of_paces(part=1, paces=200, paces_across=200, pace=0.5) == 1


def test_a_step_twice_as_long_makes_four_times_the_area_and_a_triangle_half() -> None:
    one = area_of_paces(part=1, paces=125, paces_across=90, pace=0.4)
    assert area_of_paces(part=1, paces=125, paces_across=90, pace=0.8) == pytest.approx(4 * one)
    assert area_of_paces(part=0.5, paces=125, paces_across=90, pace=0.4) == pytest.approx(one / 2)


def test_a_tongue_without_weight_is_nought_and_one_that_lifts_the_scale_is_a_wrong_reading() -> None:
    assert tongue_on_scale(reading=5, board_only=5) == 0
    assert tongue_on_beam(reading=5, board_only=5, beam=0.9, arm=0.3) == 0
    with pytest.raises(NoSolutionError, match="less with the tongue"):
        tongue_on_scale(reading=4.9, board_only=5)
    with pytest.raises(NoSolutionError, match="less with the tongue"):
        tongue_on_beam(reading=4.9, board_only=5, beam=0.9, arm=0.3)


def test_the_tongue_over_the_scale_is_weighed_as_it_is() -> None:
    assert tongue_on_beam(reading=85, board_only=5, beam=0.9, arm=0.9) == pytest.approx(80)


@pytest.mark.parametrize(
    ("ports", "returns", "sets"), [(2, 0, 1), (3, 0, 1), (3, 1, 1), (5, 0, 2), (7, 2, 2), (1, 1, 0)]
)
def test_a_port_without_a_second_one_is_no_set(ports: int, returns: int, sets: int) -> None:
    """Two ports with one lever are a set (practice); a free return and one left over are none."""
    assert sets_of_ports(ports=ports, returns=returns) == sets
