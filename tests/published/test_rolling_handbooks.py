"""Rolling resistance: *Mechanical Engineer's Data Handbook* (Carvill) and *Marks' Standard Handbook*, as quoted.

Both at second hand in an engineering appendix; years not given.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.draft import towed_pull
from firstfurrow.mechanics.traction import towed_wheel_ratio


@pytest.mark.published("Mechanical Engineer's Data Handbook and Marks' Standard Handbook, as quoted (secondary)")
def test_gravel_has_the_three_published_figures(book: Book) -> None:
    """Loose worn gravel 0.04; dry firm gravel 0.012 and wet loose gravel 0.06."""
    figure = book.tables["surfaces"]["gravel"]["rolling"]
    assert (figure.low, figure.planning, figure.high) == (0.012, 0.04, 0.06)
    assert (figure.grade, figure.source) == ("secondary", "stab_s35")


@pytest.mark.published("Mechanical Engineer's Data Handbook, as quoted (secondary)")
@pytest.mark.parametrize(("surface", "published"), [("firm", 0.08), ("tilled", 0.1), ("soft", 0.2)])
def test_upper_ends_on_soil_are_the_handbook(book: Book, surface: str, published: float) -> None:
    """Medium hard soil 0.08, sand 0.1 to 0.2."""
    assert book.tables["surfaces"][surface]["rolling"].high == published


@pytest.mark.published("Mechanical Engineer's Data Handbook, as quoted (secondary), against the traction equations")
def test_handbook_has_more_on_soil_than_the_equations() -> None:
    """0.08 on medium hard soil, where a farm tyre on firm ground comes out at 0.058: 28 % less."""
    assert 1 - towed_wheel_ratio(mobility=55) / 0.08 == pytest.approx(0.27, abs=0.006)


@pytest.mark.published("Marks' Standard Handbook, as quoted (secondary)")
def test_a_cart_of_a_tonne_on_a_hard_road_takes_eight_kilograms_of_pull() -> None:
    assert towed_pull(mass=1000, rolling=0.008, angle=0) == pytest.approx(8 * 9.80665 / 1000)
