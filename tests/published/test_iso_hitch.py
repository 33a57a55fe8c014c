"""Three-point linkage and lift tests: ISO 730:2009, definitions (read), and ISO 789-2:2018, scope and notes (read).

Dimensions of larger categories are at second hand (trade tables, an encyclopaedia article); each case says which.
"""

from __future__ import annotations

import itertools

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.hitch import lift_at_610, lift_at_610_bound, lift_at_ball_ends, lift_between


@pytest.mark.published("ISO 730:2009, definition 3.1.5")
@pytest.mark.parametrize(("narrow", "named", "smaller"), [("2N", "2", "1"), ("3N", "3", "2"), ("4N", "4", "3")])
def test_narrow_categories_have_the_span_of_the_next_smaller(book: Book, narrow: str, named: str, smaller: str) -> None:
    rows = book.tables["hitch_categories"]
    assert rows[narrow]["span_implement"].planning == rows[smaller]["span_implement"].planning
    for column in ("upper_pin", "lower_stud", "lower_ball_hole", "lower_ball_width", "mast_height"):
        assert rows[narrow][column].planning == rows[named][column].planning


@pytest.mark.published("ISO 730:2009, definition 3.1.5, with spans at second hand")
@pytest.mark.parametrize(("stud", "span", "row"), [(36.6, 825, "3N"), (50.8, 965, "4N"), (36.6, 965, "3")])
def test_thick_pin_on_a_narrow_span(book: Book, stud: float, span: float, row: str) -> None:
    rows = book.tables["hitch_categories"].rows.values()
    spans = [r for r in rows if "span_implement" in r.figures]
    found = [r.id for r in spans if (r["lower_stud"].planning, r["span_implement"].planning) == (stud, span)]
    assert found == [row]


@pytest.mark.published("encyclopaedia article on the three-point hitch (secondary)")
def test_us_category_0(book: Book) -> None:
    row = book.tables["hitch_categories"]["0"]
    assert (row["lower_stud"].planning, row["upper_pin"].planning, row["span_implement"].planning) == (15.9, 15.9, 508)
    assert row["span_implement"].grade == "secondary"


@pytest.mark.published("trade table on hitch dimensions (secondary, weak)")
@pytest.mark.parametrize(("row", "tractor_span"), [("1", 718), ("3", 1010)])
def test_two_spans_differ_by_one_ball_width(book: Book, row: str, tractor_span: float) -> None:
    figures = book.tables["hitch_categories"][row]
    assert figures["span_tractor"].planning == tractor_span
    assert tractor_span - figures["span_implement"].planning == figures["lower_ball_width"].planning


@pytest.mark.derived("balls must let the pins through")
def test_pins_enter_their_holes(book: Book) -> None:
    for row in book.tables["hitch_categories"].rows.values():
        for pin, hole in (("upper_pin", "upper_hole"), ("lower_stud", "lower_ball_hole")):
            if pin in row.figures and hole in row.figures:
                assert 0 < row[hole].planning - row[pin].planning < 1.2, row.id


@pytest.mark.published("trade table: bushings fill a larger ball with a smaller pin, never the other way (secondary)")
def test_bushings_only_go_up(book: Book) -> None:
    rows = book.tables["hitch_categories"]
    for row in rows.rows.values():
        for larger in row.words["fits"]:
            assert rows[larger]["lower_stud"].planning >= row["lower_stud"].planning, (row.id, larger)
            assert rows[larger]["upper_pin"].planning >= row["upper_pin"].planning, (row.id, larger)
    assert not rows["0"].words["fits"]  # a measured span comes first
    assert not rows["type_0"].words["fits"]


@pytest.mark.published("reprints of the ISO 730 power ranges (secondary and from memory)")
def test_power_ranges_overlap_so_that_power_never_decides_alone(book: Book) -> None:
    rows = book.tables["hitch_categories"]
    highs = {"1": 48, "2": 92, "3": 185, "4": 350}
    assert {r: rows[r]["power_high"].planning for r in highs} == highs
    for smaller, larger in itertools.pairwise(("1", "2", "3", "4")):
        assert rows[larger]["power_low"].planning < rows[smaller]["power_high"].planning


@pytest.mark.published("ISO 789-2:2018, scope")
def test_second_lift_test_is_at_610_mm(book: Book) -> None:
    figure = book.choice("lift_test_distance")
    assert (figure.planning, figure.unit, figure.grade, figure.source) == (0.61, "m", "read", "iso789_2")


@pytest.mark.derived("virtual work; no standard prints a formula")
@pytest.mark.parametrize(("distance", "lift"), [(0.305, 17.14), (0.61, 15.00), (0, 20.00)])
def test_lift_between_two_test_figures(distance: float, lift: float) -> None:
    assert lift_between(ball_ends=20, at_610=15, distance=distance) == pytest.approx(lift, abs=0.006)


@pytest.mark.derived("a linkage that moves as a parallelogram")
@pytest.mark.parametrize("distance", [0, 0.3, 0.61, 1.5])
def test_parallel_linkage_does_not_care_where_the_load_hangs(distance: float) -> None:
    assert lift_between(ball_ends=20, at_610=20, distance=distance) == pytest.approx(20)


@pytest.mark.derived("virtual work")
@pytest.mark.parametrize("link", [0.8, 1.2, 4.0])
@pytest.mark.parametrize("distance", [0.61, 0.9, 1.15, 1.6])
def test_needed_and_tested_lift_agree(link: float, distance: float) -> None:
    """A tractor that just meets both needed figures lifts exactly the load at its own distance."""
    ends = lift_at_ball_ends(load=430, distance=distance, link=link, movement=1)
    at_610 = lift_at_610(load=430, distance=distance, link=link, test=0.61, movement=1)
    assert lift_between(ball_ends=ends, at_610=at_610, distance=distance) == pytest.approx(430, rel=1e-9)
    assert at_610 <= lift_at_610_bound(load=430, distance=distance, test=0.61, movement=1) * (1 + 1e-12)
