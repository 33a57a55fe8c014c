"""Linkage, link drawbars and power take-off of the Japanese standards JIS D 6703, 6705, 6702 and 6710.

Japanese Standards Association: D 6703-1994, D 6705-1984, D 6702-1976, D 6710-1994. Read.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book


def categories(book: Book, stud: float, span: float) -> list[str]:
    """Rows of the hitch table with that lower stud and that span at the implement, in mm."""
    rows = book.tables["hitch_categories"].rows
    return [
        row.id
        for row in rows.values()
        if "span_implement" in row.figures
        and row["lower_stud"].planning == stud
        and row["span_implement"].planning == span
    ]


@pytest.mark.published("JIS D 6705-1984, link-type drawbars")
@pytest.mark.parametrize(("stud", "span", "row"), [(22, 683, "1"), (28, 825, "2"), (22, 565, "type_0")])
def test_pin_and_span_name_one_category(book: Book, stud: float, span: float, row: str) -> None:
    """The last is the small Japanese type: pins of category 1, but not category 1."""
    assert categories(book, stud, span) == [row]
    figure = book.tables["hitch_categories"][row]["span_implement"]
    assert (figure.grade, figure.source, figure.unit) == ("read", "jis6705", "mm")


@pytest.mark.published("JIS D 6703-1994, three-point linkage, Table 1, rows 0 and 1N")
@pytest.mark.parametrize("row", ["type_0", "1N"])
def test_small_type_and_narrow_category_share_pins(book: Book, row: str) -> None:
    figures = book.tables["hitch_categories"][row]
    columns = ("upper_pin", "upper_hole", "lower_stud", "lower_ball_hole", "lower_ball_width")
    assert [figures[c].planning for c in columns] == [19, 19.3, 22, 22.4, 35]
    assert {(figures[c].grade, figures[c].source) for c in columns} == {("read", "jis6703")}


@pytest.mark.published("JIS D 6703-1994, three-point linkage")
def test_small_type_is_for_tractors_up_to_15_kw(book: Book) -> None:
    figure = book.tables["hitch_categories"]["type_0"]["power_high"]
    assert (figure.planning, figure.grade) == (15, "read")


@pytest.mark.published("JIS D 6702-1976, rear power take-off")
@pytest.mark.parametrize(
    ("shaft", "speed", "accepted"),
    [("1", 531, True), ("1", 530, True), ("1", 551, False), ("2", 975, True), ("2", 1026, False)],
)
def test_speed_tolerance(book: Book, shaft: str, speed: float, accepted: bool) -> None:
    """540 within 10, 1000 within 25."""
    row = book.tables["shaft_types"][shaft]
    assert (abs(speed - row["speed"].planning) <= row["speed_tolerance"].planning) is accepted
    assert (row["speed_tolerance"].grade, row["speed_tolerance"].source) == ("read", "jis6702")


@pytest.mark.published("JIS D 6710-1994, front and mid power take-off; ASABE S431, title and scope")
@pytest.mark.parametrize(("speed", "accepted"), [(2000, True), (2300, True), (2301, False)])
def test_mid_mount_speed(book: Book, speed: float, accepted: bool) -> None:
    row = book.tables["shaft_types"]["mid"]
    assert row["speed"].planning == 2000
    assert (row["speed"].source, row["speed_most"].source) == ("s431", "jis6710")
    assert (speed <= row["speed_most"].planning) is accepted
