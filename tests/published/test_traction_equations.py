"""Grip and rolling of the surface table against the traction equations of ASAE D497, clause 3 (from memory).

The numbers are worked out here from the equations; the planning grip in the book is rounded down from them.
"""

from __future__ import annotations

import math

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.grip import mass_for_pull

pytestmark = pytest.mark.derived("from the Brixius form, itself from memory of the standard")


def motion_resistance(mobility: float, slip: float) -> float:
    return 1 / mobility + 0.04 + 0.5 * slip / math.sqrt(mobility)


def net_traction(mobility: float, slip: float) -> float:
    gross = 0.88 * (1 - math.exp(-0.1 * mobility)) * (1 - math.exp(-7.5 * slip)) + 0.04
    return gross - motion_resistance(mobility, slip)


@pytest.mark.parametrize(
    ("surface", "mobility", "slip"), [("firm", 55, 0.09), ("tilled", 40, 0.12), ("soft", 20, 0.15)]
)
def test_planning_grip_stays_below_the_equations(book: Book, surface: str, mobility: float, slip: float) -> None:
    grip = book.tables["surfaces"][surface]["grip"]
    assert grip.planning < net_traction(mobility, slip)
    assert grip.high < net_traction(mobility, 0.20)


@pytest.mark.parametrize(
    ("surface", "mobility", "rolling"), [("firm", 55, 0.058), ("tilled", 40, 0.065), ("soft", 20, 0.09)]
)
def test_rolling_of_a_towed_farm_tyre(book: Book, surface: str, mobility: float, rolling: float) -> None:
    assert motion_resistance(mobility, 0) == pytest.approx(rolling, abs=0.0005)
    assert book.tables["surfaces"][surface]["rolling"].planning == rolling


@pytest.mark.parametrize(("surface", "friction"), [("dry_grass", 0.35), ("wet_grass", 0.20), ("snow", 0.20)])
def test_tyre_friction_is_counted_at_our_share(book: Book, surface: str, friction: float) -> None:
    """Wet grass, snow: Noon, coefficients of traction, 1994, quoted in an engineering appendix (secondary)."""
    share = book.choice("friction_share").planning
    assert book.tables["surfaces"][surface]["grip"].planning == pytest.approx(friction * share)


def test_grip_on_gravel_is_the_published_friction(book: Book) -> None:
    """Noon, coefficients of traction, 1994, quoted in an engineering appendix (secondary): gravel or dirt road 0.35."""
    assert book.tables["surfaces"]["gravel"]["grip"].planning == 0.35


@pytest.mark.parametrize(
    ("coefficient", "kilonewtons"), [(0.86, 12.7), (0.40, 5.9), (0.35, 5.1), (0.22, 3.2), (0.20, 2.9), (0.12, 1.8)]
)
def test_largest_pull_of_a_tractor_of_1500_kg(coefficient: float, kilonewtons: float) -> None:
    mass = mass_for_pull(pull=kilonewtons, grip=coefficient, pressed_on=0, driven_share=1, rolling=0.06, angle=0)
    assert mass == pytest.approx(1500, rel=0.05 / kilonewtons + 0.001)  # pulls are printed to one decimal


@pytest.mark.parametrize(
    ("grip", "slope", "times"),
    [(0.40, 5, 3.2), (0.40, 10, 1.9), (0.40, 20, 0.77), (0.20, 5, 1.4), (0.20, 10, 0.62)],
)
def test_largest_trailer_as_a_multiple_of_the_tractor(grip: float, slope: float, times: float) -> None:
    """All wheels driven, rolling 0.06: a trailer so many times its mass asks for exactly this tractor."""
    angle = math.degrees(math.atan(slope / 100))
    trailer = 1000 * times
    pull = trailer * 9.80665 / 1000 * (0.06 * math.cos(math.radians(angle)) + math.sin(math.radians(angle)))
    mass = mass_for_pull(pull=pull, grip=grip, pressed_on=0, driven_share=1, rolling=0.06, angle=angle)
    half_a_printed_unit = 0.05 if times >= 1 else 0.005
    assert mass == pytest.approx(1000, rel=1.05 * half_a_printed_unit / times)
