"""Power at the drawbar over power at the PTO: *Agricultural Machinery Management*.

University of Arizona Cooperative Extension (year not given), restating ASAE D497 and EP496. Read.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book

pytestmark = pytest.mark.published("Agricultural Machinery Management, University of Arizona Cooperative Extension")

RATIOS = {"firm": (0.72, 0.77, 0.78), "tilled": (0.67, 0.73, 0.75), "soft": (0.55, 0.65, 0.70)}
COLUMNS = ("power_ratio_two_wheel", "power_ratio_front_assist", "power_ratio_four_wheel")


@pytest.mark.parametrize("surface", RATIOS)
def test_published_surfaces(book: Book, surface: str) -> None:
    row = book.tables["surfaces"][surface]
    assert tuple(row[c].planning for c in COLUMNS) == RATIOS[surface]
    assert {(row[c].grade, row[c].source) for c in COLUMNS} == {("read", "az")}


@pytest.mark.parametrize(
    ("surface", "counted_as"), [("gravel", "firm"), ("dry_grass", "firm"), ("wet_grass", "firm"), ("snow", "soft")]
)
def test_other_surfaces_say_what_they_are_counted_as(book: Book, surface: str, counted_as: str) -> None:
    row = book.tables["surfaces"][surface]
    assert row.words["power_surface"] == counted_as
    assert tuple(row[c].planning for c in COLUMNS) == RATIOS[counted_as]
    assert {row[c].grade for c in COLUMNS} == {"derived"}


def test_nine_tenths_of_the_flywheel_reach_the_pto(book: Book) -> None:
    assert book.choice("pto_of_engine_gears").high == 0.90
