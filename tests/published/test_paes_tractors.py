"""Lift, shafts and relief correction: PAES 118:2001 and PAES 119:2001, Philippine agricultural engineering standards.

Quoted clause by clause in a public teaching data set (secondary).
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.hitch import least_lift_of_a_tractor, lift_where_it_hangs
from firstfurrow.mechanics.power import shaft_torque
from firstfurrow.quantities import convert


@pytest.mark.published("PAES 118:2001, Table 5, clause 6.3")
@pytest.mark.parametrize(
    ("power", "force", "kgf", "lbf"),
    [
        (20, 6.20, 632, 1394),
        (30, 9.30, 948, 2091),
        (50, 15.50, 1581, 3485),
        (65, 20.15, 2055, 4530),
        (80, 22.475, 2292, 5053),
        (100, 25.575, 2608, 5749),
        (150, 33.325, 3398, 7492),
    ],
)
def test_least_lift_by_power(book: Book, power: float, force: float, kgf: float, lbf: float) -> None:
    assert least_lift_of_a_tractor(power=power) == pytest.approx(force, abs=0.0005)
    assert convert(force, "kN", "kgf") == pytest.approx(kgf, abs=0.6)
    assert convert(force, "kN", "lbf") == pytest.approx(lbf, abs=0.6)
    rows = list(book.tables["lift_rule"].rows.values())
    row = max((r for r in rows if r["power_from"].planning <= power), key=lambda r: r["power_from"].planning)
    by_table = row["force_from"].planning + row["slope"].planning * (power - row["power_from"].planning)
    assert by_table == pytest.approx(force, abs=0.0005)


@pytest.mark.derived("both branches of the rule")
def test_least_lift_is_continuous_at_the_bend(book: Book) -> None:
    low, high = book.tables["lift_rule"].rows.values()
    bend = high["power_from"].planning
    assert low["slope"].planning * bend == pytest.approx(high["force_from"].planning)
    assert least_lift_of_a_tractor(power=bend - 1e-9) == pytest.approx(least_lift_of_a_tractor(power=bend + 1e-9))


@pytest.mark.published("PAES 118:2001, Table 3")
@pytest.mark.parametrize(
    ("shaft", "splines", "diameter", "speed"), [("1", 6, 35, 540), ("2", 21, 35, 1000), ("3", 20, 45, 1000)]
)
def test_shaft_types(book: Book, shaft: str, splines: float, diameter: float, speed: float) -> None:
    row = book.tables["shaft_types"][shaft]
    assert (row["splines"].planning, row["diameter"].planning, row["speed"].planning) == (splines, diameter, speed)
    assert {row[c].grade for c in ("splines", "diameter", "speed")} == {"secondary"}


@pytest.mark.published("Pennsylvania State University, power take-off safety (Murphy, D.): turns in a second")
@pytest.mark.parametrize(("shaft", "turns"), [("1", 9), ("2", 16.6)])
def test_turns_in_a_second(book: Book, shaft: str, turns: float) -> None:
    assert book.tables["shaft_types"][shaft]["speed"].planning / 60 == pytest.approx(turns, abs=0.1)


@pytest.mark.derived("power over angular speed")
@pytest.mark.parametrize(
    ("power", "speed", "torque"), [(30, 540, 530), (50, 540, 884), (50, 1000, 478), (100, 1000, 955)]
)
def test_torque(power: float, speed: float, torque: float) -> None:
    assert shaft_torque(power=power, speed=speed) == pytest.approx(torque, abs=0.6)


@pytest.mark.derived("ceilings are from memory: they must stay marked so")
def test_power_ceilings_are_unverified(book: Book) -> None:
    rows = book.tables["shaft_types"]
    assert [rows[t]["ceiling"].planning for t in "1234"] == [60, 115, 275, 450]
    assert {rows[t]["ceiling"].grade for t in "1234"} == {"memory"}


@pytest.mark.published("PAES 119:2001, clause 5.2.2.2.1")
def test_relief_correction(book: Book) -> None:
    """Forces are corrected to 90 % of the relief pressure: 20 kN at full relief counts as 18 kN."""
    share = book.choice("lift_brochure").planning
    assert 20 * share == pytest.approx(18)
    assert lift_where_it_hangs(load=18, movement=share) == pytest.approx(20)
