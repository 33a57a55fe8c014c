"""Draft and shaft power coefficients as three public teaching data sets print them (secondary copies of ASAE D497).

The first names D497.5 and has five full rows; the second does not name D497; the third names D497.7 and has errors, of
which the known ones are not taken over.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book

pytestmark = pytest.mark.published("public teaching data sets with D497 coefficients")


@pytest.mark.parametrize(
    ("row", "A", "B", "C", "medium", "coarse", "spread"),
    [
        ("subsoiler_narrow_point", 226, 0, 1.8, 0.70, 0.45, 50),
        ("mouldboard_plough", 652, 0, 5.1, 0.70, 0.45, 40),
        ("chisel_plough_straight_point", 91, 5.4, 0, 0.85, 0.65, 50),
        ("sweep_plough_primary", 390, 19.0, 0, 0.85, 0.65, 45),
        ("field_cultivator_primary", 46, 2.8, 0, 0.85, 0.65, 30),
    ],
)
def test_first_set_five_full_rows(
    book: Book, row: str, A: float, B: float, C: float, medium: float, coarse: float, spread: float
) -> None:
    tool = book.tables["draft"][row]
    columns = ("A", "B", "C", "fine", "medium", "coarse", "range")
    assert [tool[c].planning for c in columns] == [A, B, C, 1.0, medium, coarse, spread]
    assert {(tool[c].grade, tool[c].source) for c in columns} == {("secondary", "t1")}


@pytest.mark.parametrize(
    ("row", "source", "A", "B"),
    [
        ("disk_harrow_tandem_primary", "t2", 309, 16.0),
        ("coulters_smooth", "t2", 55, 2.7),
        ("row_planter_drawn_seed_only", "t2", 900, 0),
        ("grain_drill_wide", "t2", 200, 0),
        ("field_cultivator_secondary", "t3", 32, 1.9),
        ("rotary_hoe", "t3", 600, 0),
        ("row_planter_mounted_seed_only", "t3", 500, 0),
        ("grain_drill_narrow", "t3", 400, 0),
    ],
)
def test_second_and_third_set(book: Book, row: str, source: str, A: float, B: float) -> None:
    tool = book.tables["draft"][row]
    assert (tool["A"].planning, tool["B"].planning) == (A, B)
    assert (tool["A"].grade, tool["A"].source) == ("secondary", source)
    assert tool["range"].grade == "memory"  # no copy of it


@pytest.mark.parametrize(
    ("row", "a", "b", "c"),
    [
        ("baler_small_rectangular", 2.0, 0, 1.0),
        ("baler_large_rectangular", 4.0, 0, 1.3),
        ("baler_large_round_variable", 4.0, 0, 1.1),
        ("combine_corn", 35.0, 0, 1.6),
        ("forage_harvester_corn_silage", 6.0, 0, 3.3),
        ("forage_harvester_wilted_alfalfa", 6.0, 0, 4.0),
    ],
)
def test_second_set_rotary_rows(book: Book, row: str, a: float, b: float, c: float) -> None:
    machine = book.tables["rotary_power"][row]
    assert [machine[k].planning for k in "abc"] == [a, b, c]
    assert {(machine[k].grade, machine[k].source) for k in "abc"} == {("secondary", "t2")}


@pytest.mark.parametrize(("row", "column", "value"), [("manure_spreader", "c", 0.2), ("mower_disk", "b", 5.0)])
def test_second_set_single_coefficients(book: Book, row: str, column: str, value: float) -> None:
    machine = book.tables["rotary_power"][row]
    assert machine[column].planning == value
    assert machine[column].grade == "secondary"
    assert {machine[k].grade for k in "abc" if k != column} == {"memory"}


def test_known_errors_of_the_copies_are_not_in_the_book(book: Book) -> None:
    rows = book.tables["draft"]
    assert (rows["mouldboard_plough"]["medium"].planning, rows["mouldboard_plough"]["coarse"].planning) != (0.85, 0.55)
    assert rows["sweep_plough_primary"]["C"].planning == 0  # one copy has a C of 1.9 in place of the B of 19
    assert rows["chisel_plough_twisted_shovel"]["A"].planning == 123  # one copy labels 91 as twisted shovel
    assert rows["subsoiler_narrow_point"]["medium"].planning < 1  # one copy multiplies by the index of the soil
