"""Figures from YAML: one number, a band, three numbers; working units and grades."""

from __future__ import annotations

from typing import Any

import pytest

from firstfurrow.book.figures import figure, number
from firstfurrow.quantities import QuantityError


def test_an_exact_figure() -> None:
    made = figure({"value": "1.2 m", "grade": "practice"}, "length")
    assert (made.low, made.planning, made.high, made.unit, made.exact) == (1.2, 1.2, 1.2, "m", True)


def test_a_band_plans_at_its_upper_end() -> None:
    made = figure({"low": "8 L/min", "high": "25 L/min", "grade": "practice"}, "flow")
    assert (made.low, made.planning, made.high, made.exact) == (8, 25, 25, False)


def test_three_numbers_with_source() -> None:
    made = figure(
        {"low": "1000 mm", "planning": "1150 mm", "high": "1350 mm", "grade": "read", "source": "s", "where": "p",
         "note": "n"}, "length",
    )  # fmt: skip
    assert (made.low, made.planning, made.high, made.unit) == (1.0, 1.15, 1.35, "m")
    assert (made.grade, made.source, made.where, made.note) == ("read", "s", "p", "n")


def test_from_says_what_it_is_derived_from() -> None:
    assert figure({"value": 0.3, "grade": "derived", "from": "the table"}).derived_from == "the table"


@pytest.mark.parametrize(
    ("data", "dimension", "expected"),
    [
        (1.25, None, (1.25, "")),
        (3, "count", (3.0, "")),
        ("15 %", "share", (15.0, "%")),
        ("10 cm", "depth", (10.0, "cm")),
    ],
)
def test_numbers(data: Any, dimension: str | None, expected: tuple[float, str]) -> None:
    assert number(data, dimension) == expected


@pytest.mark.parametrize(
    ("data", "dimension", "said"),
    [
        (12, "mass", "12 has no unit; write it like 500 kg"),
        (True, None, "not a number"),
        (["1 m"], "length", "not a number"),
        ("5 kg", "length", "That is a mass; a length is asked for"),
        ("many", None, "not a number with a unit"),
    ],
)
def test_what_is_no_number_is_said(data: Any, dimension: str | None, said: str) -> None:
    with pytest.raises(QuantityError, match=said):
        number(data, dimension)


def test_a_band_in_two_sorts_of_units_is_refused() -> None:
    with pytest.raises(QuantityError, match="different units"):
        figure({"low": "1 m", "high": "2 kg", "grade": "practice"})
