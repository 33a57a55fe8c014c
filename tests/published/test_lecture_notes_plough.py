"""Specific draft by soil and speed: agricultural-engineering lecture notes on plough draft, 2013 (secondary)."""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("lecture notes on plough draft, 2013")

# soil, kg/cm2 low and high, psi low and high as printed beside
SOILS = [
    ("sandy", 0.21, 0.21, 3, 3),
    ("sandy_loam", 0.21, 0.42, 3, 6),
    ("silty_loam", 0.35, 0.49, 5, 7),
    ("clay_loam", 0.42, 0.56, 6, 8),
    ("heavy_clay", 0.70, 0.77, 10, 11),
    ("virgin_clay", 0.85, 1.06, 12, 15),
    ("gumbo_moist", 1.13, 1.27, 16, 18),
    ("adobe_dry", 1.27, 1.41, 18, 20),
]


@pytest.mark.parametrize(("soil", "low", "high", "psi_low", "psi_high"), SOILS)
def test_both_columns(book: Book, soil: str, low: float, high: float, psi_low: float, psi_high: float) -> None:
    figure = book.tables["specific_draft"][soil]["specific_draft"]
    assert (figure.low, figure.high) == (low, high)
    assert convert(low * 98.0665, "kPa", "psi") == pytest.approx(psi_low, abs=0.12)
    assert convert(high * 98.0665, "kPa", "psi") == pytest.approx(psi_high, abs=0.12)


@pytest.mark.parametrize(
    ("pace", "mph", "factor"),
    [
        ("pace_1", 1, 1.00),
        ("pace_2", 2, 1.14),
        ("pace_3", 3, 1.28),
        ("pace_4", 4, 1.42),
        ("pace_5", 5, 1.56),
        ("pace_6", 6, 1.70),
    ],
)
def test_speed_factor(book: Book, pace: str, mph: float, factor: float) -> None:
    row = book.tables["speed_factor"][pace]
    assert row["factor"].planning == factor
    assert convert(row["speed"].planning, "km/h", "mph") == pytest.approx(mph, abs=0.05)
