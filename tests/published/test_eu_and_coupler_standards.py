"""Drawbar rings, couplings and oil couplers of published law and standards; each test names its own."""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.oil import cylinder_force, cylinder_volume, flow_for_time
from firstfurrow.mechanics.power import oil_power
from firstfurrow.quantities import convert


@pytest.mark.published("Commission Delegated Regulation (EU) 2015/208, Annex XXXIV Appendix 1, 2015")
@pytest.mark.parametrize(("row", "column", "mm"), [("ball", "size", 80), ("hook", "hole", 50), ("clevis", "hole", 40)])
def test_couplings_of_eu_law(book: Book, row: str, column: str, mm: float) -> None:
    figure = book.tables["couplers"][row][column]
    assert (figure.planning, figure.unit, figure.grade, figure.source) == (mm, "mm", "read", "eu208")


@pytest.mark.published("Commission Delegated Regulation (EU) 2015/208, Annex XXXIV Appendix 1, 2015")
def test_rings_by_drawbar_class(book: Book) -> None:
    rows = book.tables["drawbar_classes"]
    assert any("22" in ring for ring in rows["0"].words["rings"])
    assert rows["1"].words["rings"] == rows["2"].words["rings"]
    assert any("50" in ring for ring in rows["3"].words["rings"])
    assert any("68" in ring for ring in rows["4"].words["rings"])
    assert "rings" not in rows["5"].words  # not in the list
    for row in rows.rows.values():
        assert row["pin"].grade == row["power_most"].grade == "memory"


@pytest.mark.published("ASAE S482 FEB2004, drawbar")
def test_drawbar_power_ranges(book: Book) -> None:
    rows = book.tables["drawbar_classes"]
    ranges = {"1": (15, 35), "2": (30, 100), "3": (60, 170), "4": (135, 300)}
    got = {c: (rows[c]["drawbar_power_low"].planning, rows[c]["drawbar_power_high"].planning) for c in ranges}
    assert got == ranges
    assert {rows[c]["drawbar_power_high"].source for c in ranges} == {"s482"}


@pytest.mark.published("encyclopaedia article: the widely printed horsepower ranges are the old drawbar-power scale")
@pytest.mark.parametrize(("row", "low", "high"), [("1", 20, 47), ("2", 40, 134), ("3", 80, 228), ("4", 181, 402)])
def test_drawbar_ranges_in_horsepower(book: Book, row: str, low: float, high: float) -> None:
    figures = book.tables["drawbar_classes"][row]
    assert convert(figures["drawbar_power_low"].planning, "kW", "hp") == pytest.approx(low, abs=0.6)
    assert convert(figures["drawbar_power_high"].planning, "kW", "hp") == pytest.approx(high, abs=0.6)


@pytest.mark.published("PAES 118:2001, clause 5.4.2 (secondary): hole of 33 mm")
def test_pin_of_class_1_and_2_enters_a_hole_of_33_mm(book: Book) -> None:
    assert all(30 <= book.tables["drawbar_classes"][c]["pin"].planning < 33 for c in ("1", "2"))


@pytest.mark.published("ISO 16028:1999, flush-face couplings")
def test_flush_face_rating(book: Book) -> None:
    figure = book.tables["couplers"]["flush_face"]["pressure"]
    assert (figure.low, figure.high, figure.unit) == (convert(20, "MPa", "bar"), convert(31.5, "MPa", "bar"), "bar")


@pytest.mark.published("ISO 5675:2021, opening pages")
@pytest.mark.parametrize(("row", "newtons"), [("quick_coupler", 45), ("quick_coupler_next", 70)])
def test_force_to_open_the_male_valve(book: Book, row: str, newtons: float) -> None:
    assert book.tables["couplers"][row]["valve_force"].planning == pytest.approx(convert(newtons, "N", "kN"))


@pytest.mark.derived("standard physics")
def test_oil_arithmetic() -> None:
    """20 MPa and 60 L/min: 20 kW. 2500 psi and 10 gpm: 14.6 hp. 63 mm at 18 MPa: 56.1 kN; at 40 L/min 214 mm/s."""
    assert oil_power(pressure=200, flow=60, efficiency=1) == pytest.approx(20)
    us = oil_power(pressure=convert(2500, "psi", "bar"), flow=convert(10, "gpm", "L/min"), efficiency=1)
    assert convert(us, "kW", "hp") == pytest.approx(14.6, abs=0.05)
    assert cylinder_force(bore=63, pressure=180) == pytest.approx(56.1, abs=0.05)
    one_second = cylinder_volume(bore=63, stroke=214)
    assert flow_for_time(volume=one_second, seconds=1) == pytest.approx(40, abs=0.1)


@pytest.mark.published("trade article on oil flow by size class (secondary, weak)")
@pytest.mark.parametrize(
    ("row", "low", "high"),
    [("subcompact", 3.5, 5), ("compact_small", 5, 7), ("compact_large", 7, 10), ("utility", 10, 18)],
)
def test_flow_by_size_class(book: Book, row: str, low: float, high: float) -> None:
    figure = book.tables["size_classes"][row]["flow"]
    assert convert(figure.low, "L/min", "gpm") == pytest.approx(low, abs=0.15)
    assert convert(figure.high, "L/min", "gpm") == pytest.approx(high, abs=0.15)
    assert (figure.grade, figure.source) == ("secondary", "trade_press")


@pytest.mark.published("shaft end to drawbar pin by shaft type, trade table (secondary)")
@pytest.mark.parametrize(("shaft", "mm", "inches"), [("1", 350, 14), ("2", 400, 16), ("3", 500, 20)])
def test_shaft_end_to_pin(book: Book, shaft: str, mm: float, inches: float) -> None:
    """Inch practice rounds the metric distance up to the next whole inch."""
    assert book.tables["shaft_types"][shaft]["pin_distance"].planning == mm
    assert 0 <= convert(inches, "in", "mm") - mm < 25.4


@pytest.mark.published("ratio of unbraked loads, from memory of implement manuals after ASAE S365.9")
def test_unbraked_ratio_stays_marked_as_unverified(book: Book) -> None:
    flat, slope = book.choice("unbraked_ratio_flat"), book.choice("unbraked_ratio_slope")
    assert (flat.planning, flat.grade, flat.source) == (1.5, "memory", "stab_s37")
    assert (slope.planning, slope.grade) == (1.0, "practice")
