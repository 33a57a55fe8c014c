"""Every conversion of the program against `pint`, a general unit library (the version that is installed).

Exact definitions on both sides, so the agreement is to the last bits of a float.
"""

from __future__ import annotations

import itertools
import math

import pint
import pytest

from firstfurrow.mechanics import STANDARD_GRAVITY
from firstfurrow.quantities import DIMENSIONS, convert, factor

pytestmark = pytest.mark.published("pint, unit registry")

# our symbol: pint's expression
PINT = {
    "m": "metre", "cm": "centimetre", "mm": "millimetre", "km": "kilometre", "in": "inch", "ft": "foot", "yd": "yard",
    "ha": "hectare", "m2": "metre**2", "acre": "international_foot**2 * 43560", "sq ft": "foot**2",
    "L": "litre", "m3": "metre**3", "US gal": "US_liquid_gallon", "cu ft": "foot**3", "cu yd": "yard**3",
    "bushel": "US_dry_gallon * 8",
    "kg": "kilogram", "g": "gram", "lb": "pound",
    "tonne": "metric_ton", "short ton": "short_ton", "long ton": "long_ton",
    "kN": "kilonewton", "N": "newton", "lbf": "force_pound", "kgf": "kilogram_force",
    "kW": "kilowatt", "W": "watt", "hp": "horsepower", "PS": "metric_horsepower",
    "km/h": "kilometre / hour", "mph": "mile / hour", "m/s": "metre / second",
    "L/min": "litre / minute", "gpm": "US_liquid_gallon / minute",
    "bar": "bar", "kPa": "kilopascal", "MPa": "megapascal", "psi": "force_pound / inch**2",
    "h": "hour", "min": "minute",
    "kW/m": "kilowatt / metre", "hp/ft": "horsepower / foot", "kg/m": "kilogram / metre", "lb/ft": "pound / foot",
    "kN/m": "kilonewton / metre", "lbf/ft": "force_pound / foot", "1/m": "1 / metre", "1/ft": "1 / foot",
    "deg": "degree",
}  # fmt: skip
ALONE = {"%", "rev/min", "t/h", "", "deg"}  # the only unit of their dimension; slope in degrees is tested below

PAIRS = sorted(
    {
        pair
        for dimension in DIMENSIONS.values()
        if dimension.name != "slope"
        for pair in itertools.permutations(dimension.units, 2)
    }
)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


def test_every_unit_is_compared_or_alone() -> None:
    known = {unit for dimension in DIMENSIONS.values() for unit in dimension.units}
    assert known - set(PINT) <= ALONE


@pytest.mark.parametrize(("unit_from", "unit_to"), PAIRS)
def test_factor(registry: pint.UnitRegistry[float], unit_from: str, unit_to: str) -> None:
    one = registry.parse_expression(PINT[unit_from])
    other = registry.parse_expression(PINT[unit_to])
    expected = (registry.Quantity(one) / registry.Quantity(other)).to("dimensionless").magnitude
    assert factor(unit_from, unit_to) == pytest.approx(expected, rel=1e-12)
    assert convert(7.25, unit_from, unit_to) == pytest.approx(7.25 * expected, rel=1e-12)


@pytest.mark.parametrize("degrees", [0, 5, 8.53, 15, 30, 45])
def test_slope(registry: pint.UnitRegistry[float], degrees: float) -> None:
    radians = registry.Quantity(degrees, "degree").to("radian").magnitude
    assert convert(degrees, "deg", "%") == pytest.approx(100 * math.tan(radians), rel=1e-12)
    assert convert(100 * math.tan(radians), "%", "deg") == pytest.approx(degrees, rel=1e-9, abs=1e-12)


def test_trade_constants() -> None:
    """The constants of the field formulas: 8.25, 375, 273.74, 1714.3 and 5252.1."""
    assert convert(1, "mph", "km/h") * convert(1, "ft", "m") / 10 == pytest.approx(convert(1 / 8.25, "acre", "ha"))
    assert convert(375, "lbf", "kN") * convert(1, "mph", "km/h") / 3.6 == pytest.approx(convert(1, "hp", "kW"))
    assert convert(273.74, "kgf", "kN") / 3.6 == pytest.approx(convert(1, "hp", "kW"), rel=2e-5)
    oil = convert(1714.3, "psi", "bar") * convert(1, "gpm", "L/min") / 600
    assert oil == pytest.approx(convert(1, "hp", "kW"), rel=2e-5)
    torque = convert(5252.1, "lbf", "N") * convert(1, "ft", "m")
    assert torque * 2 * math.pi / 60 / 1000 == pytest.approx(convert(1, "hp", "kW"), rel=2e-5)


def test_standard_gravity(registry: pint.UnitRegistry[float]) -> None:
    assert registry.parse_expression("standard_gravity").to("metre / second**2").magnitude == STANDARD_GRAVITY
