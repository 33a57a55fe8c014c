"""Typed quantities: what is accepted, what is refused and how, conversions, and what the reader is shown."""

from __future__ import annotations

import itertools
import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfurrow.quantities import (
    DIMENSIONS,
    QuantityError,
    Typed,
    convert,
    dimension_of,
    factor,
    format_number,
    parse,
    parse_figure_text,
    reader_unit,
    round_down,
    round_up,
    show,
)

ACCEPTED = [
    ("length", "5 ft 6", 5.5, "ft", 1.6764),
    ("length", "5'6\"", 5.5, "ft", 1.6764),
    ("length", "5’ 6”", 5.5, "ft", 1.6764),
    ("length", "5ft6", 5.5, "ft", 1.6764),
    ("length", "5 ft, 6 in", 5.5, "ft", 1.6764),
    ("length", "5 1/2 ft", 5.5, "ft", 1.6764),
    ("length", "5-1/2 ft", 5.5, "ft", 1.6764),
    ("length", "5½ ft", 5.5, "ft", 1.6764),
    ("length", "6 ft 3 in", 6.25, "ft", 1.905),
    ("length", "1 yd 2 ft", 5 / 3, "yd", 1.524),
    ("length", "66 inches", 66, "in", 1.6764),
    ("length", "1.8 METRES", 1.8, "m", 1.8),
    ("length", "1e2 cm", 100, "cm", 1.0),
    ("length", " .5  m ", 0.5, "m", 0.5),
    ("depth", "6 in", 6, "in", 15.24),
    ("bore", "7/8 in", 0.875, "in", 22.225),
    ("area", "2.5 ac", 2.5, "acre", 1.0117141056),
    ("area", "5 m²", 5, "m2", 0.0005),
    ("area", "20000 sq m", 20000, "m2", 2.0),
    ("volume", "10 gal", 10, "US gal", 37.85411784),
    ("volume", "2 bushels", 2, "bushel", 70.47814033376),
    ("mass", "1,200 lb", 1200, "lb", 544.310844),
    ("mass", "12,000.5 kg", 12000.5, "kg", 12000.5),
    ("mass", "5 lbs.", 5, "lb", 2.26796185),
    ("mass", "2 short tons", 2, "short ton", 1814.36948),
    ("mass", "2 metric tons", 2, "tonne", 2000),
    ("force", "30 kN", 30, "kN", 30),
    ("power", "40 hp", 40, "hp", 29.8279948628908),
    ("power", "40 PS", 40, "PS", 29.41995),
    ("speed", "5 mph", 5, "mph", 8.04672),
    ("flow", "12 gpm", 12, "gpm", 45.424941408),
    ("pressure", "2500 psi", 2500, "psi", 172.36893233),
    ("slope", "15%", 15, "%", 15),
    ("slope", "1:4", 25, "%", 25),
    ("slope", "1 in 4", 25, "%", 25),
    ("slope", "45°", 45, "deg", 100),
    ("time", "90 min", 90, "min", 1.5),
    ("time", "1 h 30", 1.5, "h", 1.5),
    ("altitude", "-3 ft", -3, "ft", -0.9144),
    ("altitude", "-5 ft 6 in", -5.5, "ft", -1.6764),
    ("rotation", "540 rpm", 540, "rev/min", 540),
    ("power_per_width", "6 hp/ft", 6, "hp/ft", 14.67913133),
    ("per_length", "2 1/m", 2, "1/m", 2),
    ("count", "3", 3, "", 3),
    ("ratio", "-1.5", -1.5, "", -1.5),
]


@pytest.mark.parametrize(("dimension", "text", "number", "unit", "working"), ACCEPTED)
def test_accepted(dimension: str, text: str, number: float, unit: str, working: float) -> None:
    typed = parse(text, dimension)
    assert (typed.unit, typed.dimension, typed.text) == (unit, dimension, text)
    assert typed.number == pytest.approx(number, rel=1e-12)
    assert typed.working == pytest.approx(working, rel=1e-9)


REFUSED = [
    ("length", "", "Nothing was typed"),
    ("length", "   ", "Nothing was typed"),
    ("length", "about 5 ft", "does not begin with a number"),
    ("length", "five feet", "does not begin with a number"),
    ("length", "ft", "does not begin with a number"),
    ("length", "nan ft", "does not begin with a number"),
    ("length", "inf", "does not begin with a number"),
    ("length", "1e400 ft", "too large"),
    ("length", "1e308 km", "too large"),
    ("length", "9" * 70 + "e300 m", "too large"),
    ("length", "1" * 90 + " m", "too long"),
    ("length", "-3 ft", "A length cannot be negative"),
    ("count", "-1", "cannot be negative"),
    ("count", "3.5", "Write a whole number"),
    ("length", "6", '"6" has no unit. Write it like 1.7 m'),
    ("length", "6 furlongs", '"furlongs" is not a unit I know for a length. Write it like 1.7 m, 66 in or 5 ft 6.'),
    ("power", "45 PTO hp", '"PTO hp" is not a unit I know'),
    ("length", "5 kg", "That is a mass; a length is asked for"),
    ("mass", "5 ft 6", "That is a length; a mass is asked for"),
    ("mass", "5 kg 3 ft", "kg and ft do not go together"),
    ("mass", "1,5 kg", "Write 1.5 or 1500"),
    ("mass", "2,75 kg", "Write 2.75 or 2750"),
    ("mass", "0,125 kg", "Write 0.125"),
    ("mass", "1.200,5 kg", "more than one way"),
    ("mass", "1,2,3 kg", "more than one way"),
    ("mass", "1,2000 kg", "more than one way"),
    ("mass", "1 200 kg", "Write the number without a space: 1200"),
    ("mass", "2 t", "Which ton?"),
    ("mass", "2 ton", "Which ton?"),
    ("mass", "2 TONS", "Which ton?"),
    ("force", "30 kn", "knot"),
    ("speed", "30 kn", "knot"),
    ("slope", "91 deg", "wall"),
    ("slope", "1:0", "divides by zero"),
    ("time", "2 days", "A day is not a day's work"),
    ("length", "5-6 ft", "one number, not a range"),
    ("length", "5 to 6 ft", "one number, not a range"),
    ("length", "3 in 6 ft", "do not add up"),
    ("length", "5 ft 14 in", "do not add up"),
    ("length", "5 ft 2 ft", "do not add up"),
    ("length", "6 m 20", "without a unit at the end"),
    ("length", "5 ft 6 7", "two numbers"),
    ("length", "5 ft -6 in", 'I do not understand "-6 in"'),
    ("length", "1/0 ft", "divides by zero"),
]


@pytest.mark.parametrize(("dimension", "text", "said"), REFUSED)
def test_refused_with_a_plain_sentence(dimension: str, text: str, said: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse(text, dimension)
    message = str(refused.value)
    assert said in message
    assert message.endswith(".")
    assert "\n" not in message


def test_a_bare_number_takes_the_given_unit() -> None:
    assert parse("6", "length", "ft") == Typed(6.0, "ft", pytest.approx(1.8288), "length", "6")
    assert parse("15", "slope", "%").working == 15
    with pytest.raises(QuantityError, match="two ways"):
        parse("1/4", "slope", "%")
    with pytest.raises(QuantityError, match="not a unit of a length"):
        parse("6", "length", "kg")


def test_an_unknown_dimension_is_said() -> None:
    with pytest.raises(QuantityError, match="not a dimension"):
        parse("6 ft", "colour")


@pytest.mark.parametrize("name", DIMENSIONS)
def test_every_example_of_a_message_is_accepted(name: str) -> None:
    for example in DIMENSIONS[name].such_as.replace(" or ", ", ").split(", "):
        assert math.isfinite(parse(example, name).working)


def _typed_or_said(text: str, name: str) -> Typed | str:
    try:
        return parse(text, name)
    except QuantityError as refused:
        return str(refused)


@given(
    st.sampled_from(sorted(DIMENSIONS)),
    st.text(max_size=30) | st.text(alphabet="0123456789.,/:'\"- eftminhkgcdoNW%½°", max_size=16),
)
def test_any_text_gives_a_quantity_or_a_sentence(name: str, text: str) -> None:
    found = _typed_or_said(text, name)
    if isinstance(found, str):
        assert found.endswith(".")
    else:
        assert math.isfinite(found.working)
        assert found.unit in DIMENSIONS[name].units


UNITS = [(name, unit) for name, d in DIMENSIONS.items() for unit in d.units]


@given(st.sampled_from(UNITS), st.integers(min_value=0, max_value=10**9))
def test_what_is_shown_can_be_typed_again(name_unit: tuple[str, str], thousandths: int) -> None:
    name, unit = name_unit
    number = float(thousandths) if DIMENSIONS[name].whole else thousandths / 1000
    if unit == "deg" and number >= 90:
        number %= 90
    typed = parse(f"{format_number(number, 3)} {unit}", name)
    assert typed.number == pytest.approx(number, abs=5e-4)
    if not (unit == "deg" and name == "slope"):
        assert typed.working == pytest.approx(typed.number * factor(unit, DIMENSIONS[name].working), rel=1e-12)


@given(st.sampled_from(UNITS), st.floats(min_value=-1e9, max_value=1e9))
def test_conversion_and_back(name_unit: tuple[str, str], number: float) -> None:
    name, unit = name_unit
    working = DIMENSIONS[name].working
    if (unit, working) == ("deg", "%"):
        number = math.fmod(number, 89)
    assert convert(convert(number, unit, working), working, unit) == pytest.approx(number, rel=1e-9, abs=1e-12)


@given(st.integers(0, 99), st.integers(0, 11))
def test_feet_and_inches_add_up(feet: int, inches: int) -> None:
    typed = parse(f"{feet} ft {inches} in", "length")
    assert typed.working == pytest.approx((12 * feet + inches) * 0.0254, rel=1e-14)
    assert typed.unit == "ft"


# The unit library's names for our units; the survey foot is not meant.
PINT = {
    "m": "meter", "cm": "centimeter", "mm": "millimeter", "km": "kilometer", "in": "inch", "ft": "foot", "yd": "yard",
    "ha": "hectare", "m2": "meter**2", "acre": "(66 * foot * 660 * foot)", "sq ft": "foot**2",
    "L": "liter", "m3": "meter**3", "US gal": "gallon", "cu ft": "foot**3", "cu yd": "yard**3",
    "bushel": "(2150.42 * inch**3)", "kg": "kilogram", "g": "gram", "lb": "pound", "tonne": "metric_ton",
    "short ton": "(2000 * pound)", "long ton": "(2240 * pound)", "kN": "kilonewton", "N": "newton",
    "lbf": "pound_force", "kgf": "kilogram_force", "kW": "kilowatt", "W": "watt", "hp": "horsepower",
    "PS": "metric_horsepower", "km/h": "kilometer/hour", "mph": "mile/hour", "m/s": "meter/second",
    "L/min": "liter/minute", "gpm": "gallon/minute", "bar": "bar", "kPa": "kilopascal", "MPa": "megapascal",
    "psi": "psi", "h": "hour", "min": "minute", "kW/m": "kilowatt/meter", "hp/ft": "horsepower/foot",
    "kg/m": "kilogram/meter", "lb/ft": "pound/foot", "kN/m": "kilonewton/meter", "lbf/ft": "pound_force/foot",
    "1/m": "1/meter", "1/ft": "1/foot",
}  # fmt: skip


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


def test_every_factor_agrees_with_a_unit_library(registry: pint.UnitRegistry) -> None:
    compared = 0
    for dimension in DIMENSIONS.values():
        for unit, other in itertools.permutations([u for u in dimension.units if u in PINT], 2):
            theirs = (1 * registry.parse_expression(PINT[unit])).to_base_units()
            ours = factor(unit, other) * registry.parse_expression(PINT[other])
            assert ours.to_base_units().magnitude == pytest.approx(theirs.magnitude, rel=1e-9), (unit, other)
            compared += 1
    assert compared > 100


def test_every_unit_is_compared_or_has_nothing_to_compare_with() -> None:
    alone = {u for _, u in UNITS} - set(PINT)
    assert alone == {"%", "deg", "rev/min", "t/h", ""}


@pytest.mark.parametrize(
    ("unit", "other", "exact"),
    [("ft", "m", 0.3048), ("in", "cm", 2.54), ("lb", "kg", 0.45359237), ("acre", "ha", 0.40468564224),
     ("US gal", "L", 3.785411784), ("mph", "km/h", 1.609344), ("lbf", "N", 4.4482216152605),
     ("kgf", "N", 9.80665), ("hp", "W", 745.6998715822702), ("PS", "W", 735.49875)],
)  # fmt: skip
def test_exact_definitions(unit: str, other: str, exact: float) -> None:
    assert factor(unit, other) == exact


def test_conversions_that_make_no_sense_are_refused() -> None:
    with pytest.raises(QuantityError, match="kg cannot be turned into m"):
        convert(1, "kg", "m")
    with pytest.raises(QuantityError, match="not a unit"):
        factor("furlong", "m")


@pytest.mark.parametrize(
    ("text", "dimension", "expected"),
    [("11 kW/m", None, (11.0, "kW/m")), ("1150 mm", "length", (1.15, "m")), ("1150 mm", None, (1150.0, "mm")),
     ("30 cm", None, (30.0, "cm")), ("30 cm", "length", (0.3, "m")), ("6 ft", None, (1.8288, "m")),
     ("15 %", None, (15.0, "%")), ("15 %", "slope", (15.0, "%")), ("15 deg", "slope", (26.794919243, "%")),
     ("-0.5", None, (-0.5, "")), ("1,200 lb", "mass", (544.310844, "kg")), ("2 tonne", "mass", (2000.0, "kg"))],
)  # fmt: skip
def test_figures_of_the_book(text: str, dimension: str | None, expected: tuple[float, str]) -> None:
    number, unit = parse_figure_text(text, dimension)
    assert unit == expected[1]
    assert number == pytest.approx(expected[0], rel=1e-9)


@pytest.mark.parametrize(("text", "dimension"), [("11", "mass"), ("11 kW/m", "mass"), ("x", None), ("3 parsec", None),
                                                 ("-3 kg", "mass"), ("nan kg", "mass"), ("2 t", "mass")])  # fmt: skip
def test_figures_that_are_none(text: str, dimension: str | None) -> None:
    with pytest.raises(QuantityError):
        parse_figure_text(text, dimension)


def test_shown_in_the_readers_units() -> None:
    assert show(25, "kW", "us") == "34 hp (25 kW)"
    assert show(25, "kW", "metric") == "25 kW"
    assert show(540, "rev/min", "us") == "540 rev/min"
    assert show(1.8288, "m", "us") == "6 ft (1.83 m)"
    assert show(400, "m", "us", dimension="altitude") == "1310 ft (400 m)"
    assert show(1.25, "", "us") == "1.25"
    assert show(40, "L/min", "us") == "10.6 gpm (40 L/min)"
    assert show(25.03, "kW", "us", 1) == "33.6 hp (25 kW)"
    assert reader_unit("flow", "us") == "gpm"
    assert reader_unit("flow", "metric") == "L/min"
    assert dimension_of("ha").name == "area"


def test_shown_on_the_safe_side() -> None:
    assert show(24, "kW", "us") == "32 hp (24 kW)"
    assert show(24, "kW", "us", toward="up") == "33 hp (24 kW)"
    assert show(24.9, "kW", "us", toward="down") == "33 hp (25 kW)"
    assert show(24.2, "kW", "metric", toward="up") == "25 kW"


@given(st.floats(-1e6, 1e6), st.sampled_from([0.05, 0.1, 0.5, 1, 5, 10, 50]))
def test_rounding_goes_to_the_safe_side_and_no_further(value: float, step: float) -> None:
    up, down = round_up(value, step), round_down(value, step)
    hair = 1e-8 * max(1.0, abs(value))
    assert value - hair <= up < value + step + hair
    assert value - step - hair < down <= value + hair
    assert round_up(up, step) == up
    assert round_down(down, step) == down


def test_numbers_are_written_without_needless_zeros() -> None:
    written = [format_number(v, d) for v, d in ((2.5, 2), (2.0, 2), (-0.001, 1), (1200, 0), (0.05, 2), (1e6, 0))]
    assert written == ["2.5", "2", "0", "1200", "0.05", "1000000"]
