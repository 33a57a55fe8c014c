"""Units and dimensions: what can be measured, in which units, and the exact factors between them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Units = Literal["us", "metric"]


class QuantityError(ValueError):
    """The text is not a usable quantity; the message is one plain sentence for the person who typed it."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """What sort of quantity: its working unit, the reader's units, the units it may be typed in."""

    name: str
    called: str  # "a length"
    working: str
    metric: str
    us: str
    units: tuple[str, ...]
    such_as: str  # accepted examples, for messages
    signed: bool = False
    whole: bool = False


# Canonical unit: family, numerator and denominator of the factor to the base unit of the family, other spellings.
# Exact definitions: inch 0.0254 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2, US gallon 231 cubic inches,
# US bushel 2150.42 cubic inches, mechanical horsepower 550 ft lbf/s, metric horsepower 75 kgf m/s.
_LBF = (45359237 * 980665, 10**13)  # N
UNITS: dict[str, tuple[str, int, int, str]] = {
    "m": ("length", 1, 1, "metre|metres|meter|meters"),
    "cm": ("length", 1, 100, "centimetre|centimetres|centimeter|centimeters"),
    "mm": ("length", 1, 1000, "millimetre|millimetres|millimeter|millimeters"),
    "km": ("length", 1000, 1, "kilometre|kilometres|kilometer|kilometers"),
    "in": ("length", 254, 10000, "inch|inches|\"|''"),
    "ft": ("length", 3048, 10000, "foot|feet|'"),
    "yd": ("length", 9144, 10000, "yds|yard|yards"),
    "ha": ("area", 10000, 1, "hectare|hectares"),
    "m2": ("area", 1, 1, "m^2|sq m|sqm|square metre|square metres|square meter|square meters"),
    "acre": ("area", 40468564224, 10**7, "acres|ac"),
    "sq ft": ("area", 9290304, 10**8, "sqft|ft2|ft^2|square foot|square feet"),
    "L": ("volume", 1, 1, "litre|litres|liter|liters|ltr"),
    "m3": ("volume", 1000, 1, "m^3|cu m|cubic metre|cubic metres|cubic meter|cubic meters"),
    "US gal": ("volume", 3785411784, 10**9, "gal|gals|gallon|gallons|us gallon|us gallons"),
    "cu ft": ("volume", 28316846592, 10**9, "cuft|ft3|ft^3|cubic foot|cubic feet"),
    "cu yd": ("volume", 27 * 28316846592, 10**9, "cuyd|yd3|yd^3|cubic yard|cubic yards"),
    "bushel": ("volume", 215042 * 16387064, 10**11, "bushels|bu"),
    "kg": ("mass", 1, 1, "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"),
    "g": ("mass", 1, 1000, "gram|grams|gramme|grammes"),
    "lb": ("mass", 45359237, 10**8, "lbs|pound|pounds"),
    "tonne": ("mass", 1000, 1, "tonnes|metric ton|metric tons"),
    "short ton": ("mass", 2000 * 45359237, 10**8, "short tons|us ton|us tons"),
    "long ton": ("mass", 2240 * 45359237, 10**8, "long tons|imperial ton|imperial tons"),
    "kN": ("force", 1000, 1, "kilonewton|kilonewtons"),
    "N": ("force", 1, 1, "newton|newtons"),
    "lbf": ("force", *_LBF, "pound force|pounds force"),
    "kgf": ("force", 980665, 10**5, "kilogram force"),
    "kW": ("power", 1000, 1, "kilowatt|kilowatts"),
    "W": ("power", 1, 1, "watt|watts"),
    "hp": ("power", 550 * 3048 * _LBF[0], 10**4 * _LBF[1], "horsepower|horse power"),
    "PS": ("power", 75 * 980665, 10**5, "metric hp|metric horsepower"),
    "km/h": ("speed", 1, 1, "kph|kmh|km/hr|kilometres per hour|kilometers per hour"),
    "mph": ("speed", 1609344, 10**6, "mi/h|miles per hour"),
    "m/s": ("speed", 36, 10, "metres per second|meters per second"),
    "L/min": ("flow", 1, 1, "lpm|litres per minute|liters per minute|litres a minute|liters a minute|litre/min"),
    "gpm": ("flow", 3785411784, 10**9, "gal/min|us gpm|us gal/min|gallons per minute|gallons a minute"),
    "bar": ("pressure", 100000, 1, "bars"),
    "kPa": ("pressure", 1000, 1, "kilopascal|kilopascals"),
    "MPa": ("pressure", 10**6, 1, "megapascal|megapascals"),
    "psi": ("pressure", _LBF[0] * 10**8, _LBF[1] * 64516, "lb/in2|lbf/in2"),
    "%": ("share", 1, 1, "percent|per cent|pct"),
    "deg": ("angle", 1, 1, "degree|degrees|degs"),
    "h": ("time", 1, 1, "hr|hrs|hour|hours"),
    "min": ("time", 1, 60, "mins|minute|minutes"),
    "rev/min": ("rotation", 1, 1, "rpm|r/min|revs/min|revolutions per minute"),
    "t/h": ("feed", 1, 1, "tonne/h|tonnes/h|tonnes per hour|tonnes an hour"),
    "kW/m": ("power_per_width", 1, 1, ""),
    "hp/ft": ("power_per_width", 550 * _LBF[0], 1000 * _LBF[1], ""),
    "kg/m": ("mass_per_width", 1, 1, ""),
    "lb/ft": ("mass_per_width", 45359237 * 10**4, 10**8 * 3048, ""),
    "kN/m": ("force_per_width", 1, 1, ""),
    "lbf/ft": ("force_per_width", _LBF[0] * 10, _LBF[1] * 3048, ""),
    "1/m": ("per_length", 1, 1, "/m|per m|per metre|per meter"),
    "1/ft": ("per_length", 10000, 3048, "/ft|per ft|per foot"),
    "": ("number", 1, 1, ""),
}

_LENGTHS = ("m", "cm", "mm", "km", "in", "ft", "yd")

DIMENSIONS: Mapping[str, Dimension] = {
    d.name: d
    for d in (
        Dimension("length", "a length", "m", "m", "ft", _LENGTHS, "1.7 m, 66 in or 5 ft 6"),
        Dimension("depth", "a depth", "cm", "cm", "in", _LENGTHS, "15 cm or 6 in"),
        Dimension("bore", "a thickness", "mm", "mm", "in", _LENGTHS, "22 mm or 7/8 in"),
        Dimension("area", "an area", "ha", "ha", "acre", ("ha", "m2", "acre", "sq ft"), "5 ha or 12 acres"),
        Dimension(
            "volume",
            "a volume",
            "L",
            "L",
            "US gal",
            ("L", "m3", "US gal", "cu ft", "cu yd", "bushel"),
            "400 L, 100 US gal or 50 bushels",
        ),
        Dimension(
            "mass", "a mass", "kg", "kg", "lb", ("kg", "g", "lb", "tonne", "short ton", "long ton"), "500 kg or 1100 lb"
        ),
        Dimension("force", "a force", "kN", "kN", "lbf", ("kN", "N", "lbf", "kgf"), "12 kN or 2700 lbf"),
        Dimension("power", "a power", "kW", "kW", "hp", ("kW", "W", "hp", "PS"), "30 kW or 40 hp"),
        Dimension("speed", "a speed", "km/h", "km/h", "mph", ("km/h", "mph", "m/s"), "8 km/h or 5 mph"),
        Dimension("flow", "an oil flow", "L/min", "L/min", "gpm", ("L/min", "gpm"), "40 L/min or 10 gpm"),
        Dimension("pressure", "a pressure", "bar", "bar", "psi", ("bar", "psi", "kPa", "MPa"), "175 bar or 2500 psi"),
        Dimension("slope", "a slope", "%", "%", "%", ("%", "deg"), "15 %, 8 degrees or 1:6"),
        Dimension("share", "a share", "%", "%", "%", ("%",), "15 %"),
        Dimension("time", "a time", "h", "h", "h", ("h", "min"), "3 h, 90 min or 1 h 30 min"),
        Dimension("altitude", "a height above the sea", "m", "m", "ft", _LENGTHS, "400 m or 1300 ft", signed=True),
        Dimension("rotation", "a speed of turning", "rev/min", "rev/min", "rev/min", ("rev/min",), "540 rev/min"),
        Dimension("feed", "a feed rate", "t/h", "t/h", "t/h", ("t/h",), "8 t/h"),
        Dimension(
            "power_per_width",
            "a power for each width",
            "kW/m",
            "kW/m",
            "hp/ft",
            ("kW/m", "hp/ft"),
            "15 kW/m or 6 hp/ft",
        ),
        Dimension(
            "mass_per_width",
            "a mass for each width",
            "kg/m",
            "kg/m",
            "lb/ft",
            ("kg/m", "lb/ft"),
            "200 kg/m or 130 lb/ft",
        ),
        Dimension(
            "force_per_width",
            "a force for each width",
            "kN/m",
            "kN/m",
            "lbf/ft",
            ("kN/m", "lbf/ft"),
            "3 kN/m or 200 lbf/ft",
        ),
        Dimension("per_length", "a number for each length", "1/m", "1/m", "1/ft", ("1/m", "1/ft"), "2 1/m"),
        Dimension("angle", "an angle", "deg", "deg", "deg", ("deg",), "15 degrees", signed=True),
        Dimension("count", "a whole number", "", "", "", ("",), "3", whole=True),
        Dimension("ratio", "a plain number", "", "", "", ("",), "1.25", signed=True),
    )
}

# The dimension in which a bare unit symbol is understood where nothing else says so (figures in tables).
AT_HOME = {
    "cm": "depth", "mm": "bore", "%": "share", "deg": "angle", "": "ratio",
}  # fmt: skip
HOME_OF_FAMILY = {"number": "ratio"}

# Decimals that a reader usually wants to see.
DIGITS = {
    "m": 2, "cm": 0, "mm": 0, "km": 2, "in": 1, "ft": 1, "yd": 1, "ha": 2, "acre": 1, "m2": 0, "sq ft": 0,
    "kN": 1, "km/h": 1, "mph": 1, "m/s": 1, "gpm": 1, "%": 0, "deg": 1, "h": 1, "t/h": 1, "kW/m": 1, "hp/ft": 1,
    "kN/m": 1, "1/m": 2, "1/ft": 2, "": 2,
}  # fmt: skip


def dimension_named(name: str) -> Dimension:
    """The dimension of that name.

    Raises
    ------
    QuantityError
        When there is none.
    """
    found = DIMENSIONS.get(name)
    if found is None:
        raise QuantityError(f'"{name}" is not a dimension of this program.')
    return found


def asked_for(dimension: Dimension) -> str:
    """What to write instead, for messages."""
    if dimension.working:
        return f"Write it like {dimension.such_as}."
    return f"Write {dimension.called} such as {dimension.such_as}."


def home_of(unit: str) -> Dimension:
    """The dimension in which a bare unit is understood where nothing else says so."""
    family = UNITS[unit][0]
    if unit in ("cm", "mm"):
        return DIMENSIONS["length"]
    return DIMENSIONS[AT_HOME.get(unit) or HOME_OF_FAMILY.get(family, family)]


_RATIOS: dict[tuple[str, str], tuple[float, float]] = {}


def ratio_of(unit_from: str, unit_to: str) -> tuple[float, float]:
    """Numerator and denominator of the factor between two canonical units."""
    known = _RATIOS.get((unit_from, unit_to))
    if known is not None:
        return known
    for unit in (unit_from, unit_to):
        if unit not in UNITS:
            raise QuantityError(f'"{unit}" is not a unit of this program.')
    family, top, bottom, _ = UNITS[unit_from]
    other, top_to, bottom_to, _ = UNITS[unit_to]
    if family != other:
        raise QuantityError(f"{unit_from or 'a plain number'} cannot be turned into {unit_to or 'a plain number'}.")
    above, below = top * bottom_to, bottom * top_to
    common = math.gcd(above, below)
    above, below = above // common, below // common
    # Large ratios are divided once as whole numbers, which Python rounds correctly.
    found = (above / below, 1.0) if max(above, below) > 2**53 else (float(above), float(below))
    _RATIOS[(unit_from, unit_to)] = found
    return found


def factor(unit_from: str, unit_to: str) -> float:
    """What a number in `unit_from` is multiplied with to stand in `unit_to`.

    >>> factor("ft", "m")
    0.3048

    Raises
    ------
    QuantityError
        When one of the units is unknown, or they measure different things.
    """
    above, below = ratio_of(unit_from, unit_to)
    return above / below


def convert(number: float, unit_from: str, unit_to: str) -> float:
    """The same quantity in another unit. Degrees and percent of slope convert through the tangent.

    >>> convert(60, "in", "m")
    1.524
    >>> round(convert(45, "deg", "%"), 6)
    100.0

    Raises
    ------
    QuantityError
        When one of the units is unknown, or they measure different things.
    """
    if unit_from == "deg" and unit_to == "%":
        return 100 * math.tan(math.radians(number))
    if unit_from == "%" and unit_to == "deg":
        return math.degrees(math.atan(number / 100))
    above, below = ratio_of(unit_from, unit_to)
    return number * above / below
