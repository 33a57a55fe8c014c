"""Tyres on soil: limits of the equations, and that two ways of measuring slip agree."""

from __future__ import annotations

import itertools

import pytest

from firstfurrow.mechanics.traction import (
    gross_traction_ratio,
    gross_traction_ratio_radial,
    mass_per_power,
    mobility_number,
    motion_resistance_ratio,
    motion_resistance_ratio_radial,
    net_traction_ratio,
    rolling_speed,
    slip_by_counting,
    slip_of_advance,
    towed_wheel_ratio,
    tractive_efficiency,
)

TYRE = {"cone_index": 900, "width": 0.38, "diameter": 1.45, "load": 8, "deflection": 0.2}
MOBILITIES = (15, 20, 25, 40, 55, 80)


def efficiency(mobility: float, slip: float) -> float:
    gross = gross_traction_ratio(mobility, slip)
    return tractive_efficiency(slip, net_traction_ratio(gross, motion_resistance_ratio(mobility, slip)), gross)


def test_a_wheel_without_slip_rolls_like_one_that_is_not_driven() -> None:
    for mobility in MOBILITIES:
        assert motion_resistance_ratio(mobility, 0) == pytest.approx(towed_wheel_ratio(mobility))


def test_the_published_terms_of_rolling_can_be_read_off_at_a_mobility_of_a_hundred() -> None:
    """1/100, 0.04 or 0.0325, and half of the slip over ten: the equations as printed (ASAE D497 clause 3, memory)."""
    assert motion_resistance_ratio(mobility=100, slip=0) == pytest.approx(0.01 + 0.04)
    assert motion_resistance_ratio(mobility=100, slip=0.2) == pytest.approx(0.01 + 0.04 + 0.01)
    assert motion_resistance_ratio_radial(mobility=100, slip=0.2) == pytest.approx(0.009 + 0.0325 + 0.01)


def test_mobility_is_proportional_to_strength_of_soil_and_to_one_over_load() -> None:
    one = mobility_number(**TYRE)
    assert mobility_number(**{**TYRE, "cone_index": 1800}) == pytest.approx(2 * one)
    assert mobility_number(**{**TYRE, "load": 16}) == pytest.approx(one / 2)


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_a_tyre_of_another_size_keeps_its_number_when_the_load_grows_with_its_area(times: float) -> None:
    scaled = {**TYRE, "width": 0.38 * times, "diameter": 1.45 * times, "load": 8 * times**2}
    assert mobility_number(**scaled) == pytest.approx(mobility_number(**TYRE))


def test_stronger_ground_pulls_more_and_rolls_easier() -> None:
    for soft, firm in itertools.pairwise(MOBILITIES):
        for slip in (0.05, 0.1, 0.2):
            assert gross_traction_ratio(soft, slip) < gross_traction_ratio(firm, slip) < 0.92
            assert motion_resistance_ratio(soft, slip) > motion_resistance_ratio(firm, slip) > 0.04
            assert efficiency(soft, slip) < efficiency(firm, slip) < 1


def test_radial_tyres_pull_more_at_small_slip_and_roll_easier() -> None:
    for mobility in MOBILITIES:
        for slip in (0.05, 0.1, 0.15):
            assert gross_traction_ratio_radial(mobility, slip) > gross_traction_ratio(mobility, slip)
            assert motion_resistance_ratio_radial(mobility, slip) < motion_resistance_ratio(mobility, slip)


@pytest.mark.parametrize("turns", [7, 8, 9.5, 10])
def test_counting_turns_and_measuring_the_way_of_one_turn_give_one_slip(turns: float) -> None:
    way = 40
    by_way = slip_of_advance(unloaded=way / turns, loaded=way / 10)
    assert slip_by_counting(loaded_turns=10, unloaded_turns=turns) == pytest.approx(by_way)


def test_a_faster_tractor_needs_less_mass_for_its_power() -> None:
    assert mass_per_power(0.77, 0.4, 8) == pytest.approx(mass_per_power(0.77, 0.4, 4) / 2)


def test_speed_of_a_wheel_is_proportional_to_its_size_and_turns() -> None:
    assert rolling_speed(3, 600, 30) == pytest.approx(rolling_speed(1.5, 1200, 30))
