"""Fuel by the acre: *Fuel Requirement Estimates for Selected Field Operations*, G1208 (Frisby, J. C.).

University of Missouri Extension, reviewed October 1993. Read. The bulletin gives power by width, speed and fuel; the
work for each acre and the work for each gallon are derived. A look at whether its table agrees with itself.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.fuel import work_on_area
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("G1208, University of Missouri Extension, 1993")

# hp/ft, mph, gal/acre as published; hp h/acre, hp h/gal and kWh/L derived
ROWS = [
    ("tandem disc in stalks", 3.5, 5, 0.45, 5.78, 12.8, 2.53),
    ("tandem disc, chiselled", 4.3, 5, 0.55, 7.10, 12.9, 2.54),
    ("tandem disc, ploughed", 5.6, 5, 0.65, 9.24, 14.2, 2.80),
    ("heavy offset disc", 8.0, 5, 0.95, 13.20, 13.9, 2.74),
    ("field cultivator", 5.2, 5.5, 0.60, 7.80, 13.0, 2.56),
    ("spring-tooth harrow", 3.5, 5.5, 0.40, 5.25, 13.1, 2.59),
    ("spike-tooth harrow", 2.5, 6.5, 0.30, 3.17, 10.6, 2.08),
    ("row cultivator", 3.2, 4.5, 0.45, 5.87, 13.0, 2.57),
    ("rolling cultivator", 2.5, 5.5, 0.35, 3.75, 10.7, 2.11),
    ("rotary hoe", 2.3, 7, 0.25, 2.71, 10.8, 2.14),
    ("anhydrous applicator", 5.5, 5, 0.65, 9.07, 14.0, 2.75),
    ("planter, conventional", 3.5, 4.5, 0.50, 6.42, 12.8, 2.53),
    ("planter, no-till", 2.0, 4.5, 0.35, 3.67, 10.5, 2.06),
]


@pytest.mark.parametrize(("row", "power", "speed", "fuel", "by_acre", "by_gallon", "by_litre"), ROWS)
def test_work_by_area_and_by_fuel(
    row: str, power: float, speed: float, fuel: float, by_acre: float, by_gallon: float, by_litre: float
) -> None:
    hectare = work_on_area(power_per_width=convert(power, "hp/ft", "kW/m"), speed=convert(speed, "mph", "km/h"))
    acre = convert(hectare, "kW", "hp") * convert(1, "acre", "ha")
    assert acre == pytest.approx(by_acre, abs=0.01), row
    assert acre / fuel == pytest.approx(by_gallon, abs=0.06), row
    litres = convert(fuel, "US gal", "L") / convert(1, "acre", "ha")
    assert hectare / litres == pytest.approx(by_litre, abs=0.006), row


def test_light_tools_get_less_work_out_of_a_gallon() -> None:
    """Under load 12.8 to 14.2 hp h/gal; spike-tooth, rolling cultivator, rotary hoe and no-till planter about 10.5."""
    light = {row for row, *_, by_gallon, _ in ROWS if by_gallon < 12}
    assert light == {"spike-tooth harrow", "rolling cultivator", "rotary hoe", "planter, no-till"}
    assert all(12.7 < by_gallon < 14.3 for row, *_, by_gallon, _ in ROWS if row not in light)
