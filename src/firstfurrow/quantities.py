"""Quantities: working units, typed text to them ("5 ft 6", "12 gpm"), and back to the reader's units.

Every dimension has one fixed working unit. Factors are exact ratios of whole numbers, so that a conversion is off by no
more than the last bit of a float. The expected dimension is always known, which is why `ac`, `in` and `'` are never
in doubt. No input or output happens here.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Units = Literal["us", "metric"]
LONGEST_TEXT = 80  # nobody types a longer quantity; longer input is refused before any pattern sees it


class QuantityError(ValueError):
    """The text is not a usable quantity; the message is one plain sentence for the person who typed it."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A quantity as somebody typed it: `number` in `unit` (feet and inches folded), and in the working unit."""

    number: float
    unit: str
    working: float
    dimension: str
    text: str


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
_UNITS: dict[str, tuple[str, int, int, str]] = {
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
            "volume", "a volume", "L", "L", "US gal", ("L", "m3", "US gal", "cu ft", "cu yd", "bushel"),
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
        Dimension(
            "rotation", "a speed of turning", "rev/min", "rev/min", "rev/min", ("rev/min",), "540 rev/min"
        ),
        Dimension("feed", "a feed rate", "t/h", "t/h", "t/h", ("t/h",), "8 t/h"),
        Dimension(
            "power_per_width", "a power for each width", "kW/m", "kW/m", "hp/ft", ("kW/m", "hp/ft"),
            "15 kW/m or 6 hp/ft",
        ),
        Dimension(
            "mass_per_width", "a mass for each width", "kg/m", "kg/m", "lb/ft", ("kg/m", "lb/ft"),
            "200 kg/m or 130 lb/ft",
        ),
        Dimension(
            "force_per_width", "a force for each width", "kN/m", "kN/m", "lbf/ft", ("kN/m", "lbf/ft"),
            "3 kN/m or 200 lbf/ft",
        ),
        Dimension("per_length", "a number for each length", "1/m", "1/m", "1/ft", ("1/m", "1/ft"), "2 1/m"),
        Dimension("angle", "an angle", "deg", "deg", "deg", ("deg",), "15 degrees", signed=True),
        Dimension("count", "a whole number", "", "", "", ("",), "3", whole=True),
        Dimension("ratio", "a plain number", "", "", "", ("",), "1.25", signed=True),
    )
}

# The dimension in which a bare unit symbol is understood where nothing else says so (figures in tables).
_AT_HOME = {
    "cm": "depth", "mm": "bore", "%": "share", "deg": "angle", "": "ratio",
}  # fmt: skip
_HOME_OF_FAMILY = {"number": "ratio"}

# Decimals that a reader usually wants to see.
_DIGITS = {
    "m": 2, "cm": 0, "mm": 0, "km": 2, "in": 1, "ft": 1, "yd": 1, "ha": 2, "acre": 1, "m2": 0, "sq ft": 0,
    "kN": 1, "km/h": 1, "mph": 1, "m/s": 1, "gpm": 1, "%": 0, "deg": 1, "h": 1, "t/h": 1, "kW/m": 1, "hp/ft": 1,
    "kN/m": 1, "1/m": 2, "1/ft": 2, "": 2,
}  # fmt: skip


# ------------------------------------------------------------------ spelling


def _spellings() -> dict[str, str]:
    table: dict[str, str] = {}
    for unit, (_, _, _, others) in _UNITS.items():
        if not unit:
            continue
        for spelling in (unit, *filter(None, others.split("|"))):
            table[spelling] = unit
            table.setdefault(spelling.lower(), unit)
    return table


_SPELLED = _spellings()
_TONS = re.compile(r"(t|tons?)(?![A-Za-z/])", re.IGNORECASE)
_KNOT = re.compile(r"[kK]n(?![A-Za-z])")
_DAYS = re.compile(r"(days?|d|weeks?)(?![A-Za-z])", re.IGNORECASE)
_PATTERNS: dict[str, re.Pattern[str]] = {}

# A number as typed: thousands in groups of three, mixed or plain fraction, decimal with or without exponent.
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?:"
    r"(?P<whole>\d+)(?:\s+|-)(?P<top>\d+)/(?P<bottom>\d+)(?!\d|[.,])"
    r"|(?P<only_top>\d+)/(?P<only_bottom>\d+)(?![\d.,])"
    r"|(?P<grouped>[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?)(?![\d,.]\d|\d)"
    r"|(?P<plain>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?))"
)
_COMMA = re.compile(r"[+-]?\d+,\d|[+-]?\d+\.\d+,\d")
_SLOPE_RATIO = re.compile(r"(\d+(?:\.\d+)?)\s*(?::|\bin\b)\s*(\d+(?:\.\d+)?)", re.IGNORECASE)
_RANGE = re.compile(r"\s*(?:-|to\b|\.\.|or\b)\s*\d", re.IGNORECASE)
_TIDY = str.maketrans(
    {
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\t": " ", "\u2032": "'", "\u2019": "'", "\u2018": "'",
        "\u2033": '"', "\u201d": '"', "\u201c": '"', "\u2212": "-", "\u00b2": "2", "\u00b3": "3", "\u00b0": " deg ",
        "\u00bd": " 1/2", "\u00bc": " 1/4", "\u00be": " 3/4", "\u215b": " 1/8", "\u215c": " 3/8", "\u215d": " 5/8",
        "\u215e": " 7/8",
    }
)  # fmt: skip


def _pattern(dimension: str) -> re.Pattern[str]:
    """The spellings of one dimension (or of all, for "") as a pattern, longest first."""
    known = _PATTERNS.get(dimension)
    if known is None:
        allowed = set(DIMENSIONS[dimension].units) if dimension else set(_UNITS)
        words = sorted((s for s, unit in _SPELLED.items() if unit in allowed), key=len, reverse=True)
        joined = "|".join(re.escape(word).replace(r"\ ", r"\s*") for word in words) or r"(?!)"
        known = re.compile(rf"({joined})\.?(?![A-Za-z])", re.IGNORECASE)
        _PATTERNS[dimension] = known
    return known


def _canonical(found: str) -> str:
    words = " ".join(found.split())
    unit = _SPELLED.get(words) or _SPELLED.get(words.lower())
    if unit is not None:
        return unit
    squeezed = words.lower().replace(" ", "")  # "USgal", "sqft" typed without the space
    return next(unit for spelling, unit in _SPELLED.items() if spelling.lower().replace(" ", "") == squeezed)


# ---------------------------------------------------------------- conversion

_RATIOS: dict[tuple[str, str], tuple[float, float]] = {}


def _ratio(unit_from: str, unit_to: str) -> tuple[float, float]:
    """Numerator and denominator of the factor between two canonical units."""
    known = _RATIOS.get((unit_from, unit_to))
    if known is not None:
        return known
    for unit in (unit_from, unit_to):
        if unit not in _UNITS:
            raise QuantityError(f'"{unit}" is not a unit of this program.')
    family, top, bottom, _ = _UNITS[unit_from]
    other, top_to, bottom_to, _ = _UNITS[unit_to]
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
    above, below = _ratio(unit_from, unit_to)
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
    above, below = _ratio(unit_from, unit_to)
    return number * above / below


# ------------------------------------------------------------------- reading


def _dimension(name: str) -> Dimension:
    found = DIMENSIONS.get(name)
    if found is None:
        raise QuantityError(f'"{name}" is not a dimension of this program.')
    return found


def _asked(dimension: Dimension) -> str:
    if dimension.working:
        return f"Write it like {dimension.such_as}."
    return f"Write {dimension.called} such as {dimension.such_as}."


def _no_number(text: str, dimension: Dimension) -> QuantityError:
    return QuantityError(f'"{text}" does not begin with a number I can read. {_asked(dimension)}')


def _read_number(text: str, start: int, dimension: Dimension) -> tuple[float, int, bool]:
    """The number at `start`: its value, where it ends, and whether it was written as a bare fraction."""
    comma = _COMMA.match(text, start)
    found = _NUMBER.match(text, start)
    if found is None:
        raise _no_number(text[start:].strip() or text, dimension)
    if comma is not None and found["grouped"] is None:
        shown = re.match(r"[\d.,+-]+", text[start:])
        written = shown[0].rstrip(",.") if shown else text[start:]
        raise QuantityError(_about_comma(written))
    try:
        if found["top"] is not None:
            value = int(found["whole"]) + int(found["top"]) / int(found["bottom"])
        elif found["only_top"] is not None:
            value = int(found["only_top"]) / int(found["only_bottom"])
        elif found["grouped"] is not None:
            value = float(found["grouped"].replace(",", ""))
        else:
            value = float(found["plain"])
    except ZeroDivisionError:
        raise QuantityError(f'"{found[0].strip()}" divides by zero.') from None
    if not math.isfinite(value):
        raise QuantityError(f'"{found[0].strip()}" is too large to be meant.')
    return (-value if found["sign"] == "-" else value), found.end(), found["only_top"] is not None


def _about_comma(written: str) -> str:
    plain = re.fullmatch(r"[+-]?(\d+),(\d+)", written)
    if plain is None:
        return f'The comma in "{written}" can be read in more than one way. Write the number without a comma.'
    whole, part = plain[1], plain[2]
    if len(part) > 2 or whole == "0":
        return f'The comma in "{written}" can be read in more than one way. Write {whole}.{part} or leave it out.'
    return f'The comma in "{written}" can be read in two ways. Write {whole}.{part} or {whole}{part.ljust(3, "0")}.'


def _strange_unit(rest: str, dimension: Dimension, before: str | None) -> QuantityError:
    """Why `rest`, which should begin with a unit of the dimension, does not."""
    if _TONS.match(rest) and dimension.name == "mass":
        return QuantityError(
            "Which ton? Write tonne (1000 kg), short ton (2000 lb) or long ton (2240 lb)."
        )
    if _KNOT.match(rest):
        return QuantityError('"kn" is the sign for knot. Write kN for a force.')
    if dimension.name == "time" and _DAYS.match(rest):
        return QuantityError("A day is not a day's work. Write the hours, like 6 h.")
    if _RANGE.match(rest):
        return QuantityError(f"Write one number, not a range. {_asked(dimension)}")
    foreign = _pattern("").match(rest)
    if foreign is not None:
        unit = _canonical(foreign[1])
        if before is not None:
            return QuantityError(f"{before} and {unit} do not go together. {_asked(dimension)}")
        other = _home(unit)
        return QuantityError(f"That is {other.called}; {dimension.called} is asked for. {_asked(dimension)}")
    return QuantityError(f'"{rest.strip()}" is not a unit I know for {dimension.called}. {_asked(dimension)}')


def _home(unit: str) -> Dimension:
    family = _UNITS[unit][0]
    if unit in ("cm", "mm"):
        return DIMENSIONS["length"]
    return DIMENSIONS[_AT_HOME.get(unit) or _HOME_OF_FAMILY.get(family, family)]


_NEXT_SMALLER = {"ft": "in", "h": "min"}  # what a last number without a unit means: 5 ft 6, 1 h 30


def _slope_ratio(text: str, tidy: str) -> Typed | None:
    found = _SLOPE_RATIO.fullmatch(tidy)
    if found is None:
        return None
    rise, run = float(found[1]), float(found[2])
    if run == 0 or not math.isfinite(100 * rise / run):
        raise QuantityError(f'"{text}" divides by zero. Write a slope like 1:6 or 15 %.')
    percent = 100 * rise / run
    return Typed(percent, "%", percent, "slope", text)


def parse(text: str, dimension: str, bare_unit: str | None = None) -> Typed:
    """What somebody typed, as a quantity of the dimension. `bare_unit` is what a number without unit means.

    >>> parse("5 ft 6", "length").working
    1.6764
    >>> parse("12 gpm", "flow").unit
    'gpm'
    >>> parse("1 in 4", "slope").working
    25.0

    Raises
    ------
    QuantityError
        When the text is not one usable quantity of that dimension; the message is one or two plain sentences.
    """
    asked = _dimension(dimension)
    if len(text) > LONGEST_TEXT:
        raise QuantityError(f"That is too long for {asked.called}. {_asked(asked)}")
    tidy = " ".join(text.translate(_TIDY).split())
    if not tidy:
        raise QuantityError(f"Nothing was typed. {_asked(asked)}")
    if dimension == "slope" and (ratio := _slope_ratio(text, tidy)) is not None:
        return ratio
    parts, fraction = _parts(tidy, asked, bare_unit)
    if dimension == "slope" and fraction and len(parts) == 1 and tidy[-1].isdigit():
        raise QuantityError(f'"{tidy}" can be read in two ways. Write a slope like 1:4 or 25 %.')
    return _fold(text, asked, parts)


def _parts(tidy: str, asked: Dimension, bare_unit: str | None) -> tuple[list[tuple[float, str]], bool]:
    """The numbers of the text, each with its canonical unit."""
    units = _pattern(asked.name)
    parts: list[tuple[float, str]] = []
    at, fraction = 0, False
    while at < len(tidy):
        number, at, fraction = _read_number(tidy, at, asked)
        rest = tidy[at:].lstrip()
        before = parts[-1][1] if parts else None
        if _KNOT.match(rest):
            raise _strange_unit(rest, asked, None)
        found = units.match(rest)
        if found is not None:
            parts.append((number, _canonical(found[1])))
            at = len(tidy) - len(rest) + found.end()
        elif not rest:
            parts.append((number, _bare(tidy, asked, before, bare_unit)))
            break
        elif rest[0].isdigit():
            raise QuantityError(_about_space(tidy, asked))
        else:
            raise _strange_unit(rest, asked, before)
        at += len(tidy[at:]) - len(tidy[at:].lstrip(" ,"))
        if at < len(tidy) and not (tidy[at].isdigit() or tidy[at] == "."):
            raise QuantityError(f'I do not understand "{tidy[at:]}" after the number. {_asked(asked)}')
    return parts, fraction


def _about_space(tidy: str, asked: Dimension) -> str:
    found = re.match(r"([+-]?\d{1,3})((?: \d{3})+)(?![\d])", tidy)
    if found is None:
        return f'There are two numbers in "{tidy}". {_asked(asked)}'
    return f"Write the number without a space: {found[0].replace(' ', '')}."


def _bare(tidy: str, asked: Dimension, before: str | None, bare_unit: str | None) -> str:
    """The unit of a number that has none."""
    if before is not None:
        smaller = _NEXT_SMALLER.get(before)
        if smaller is None:
            raise QuantityError(f'There is a number without a unit at the end of "{tidy}". {_asked(asked)}')
        return smaller
    if asked.units == ("",):
        return ""
    if bare_unit is None:
        raise QuantityError(f'"{tidy}" has no unit. {_asked(asked)}')
    if bare_unit not in asked.units:
        raise QuantityError(f'"{bare_unit}" is not a unit of {asked.called}.')
    return bare_unit


def _fold(text: str, asked: Dimension, parts: list[tuple[float, str]]) -> Typed:
    """One quantity from its parts, biggest unit first, checked."""
    number, unit = parts[0]
    negative = number < 0
    if len(parts) > 1:
        smallest = parts[-1][1]
        total = convert(abs(number), unit, smallest)
        for before, after in itertools.pairwise(parts):
            _falling(before, after, asked)
            total += convert(*after, smallest)
        total = -total if negative else total
        number, working = convert(total, smallest, unit), _working(total, smallest, asked)
    else:
        working = _working(number, unit, asked)
    if negative and not asked.signed:
        raise QuantityError(f"{asked.called[0].upper()}{asked.called[1:]} cannot be negative.")
    if not math.isfinite(working):
        raise QuantityError(f'"{text.strip()}" is too large to be meant.')
    if asked.whole and number != int(number):
        raise QuantityError(f"{_asked(asked)}")
    if number == 0:
        number = working = 0.0  # no minus zero
    return Typed(number, unit, working, asked.name, text)


def _falling(before: tuple[float, str], after: tuple[float, str], asked: Dimension) -> None:
    """Refuse a second part that is not the smaller rest of the first: 3 in 6 ft, 5 ft 14 in."""
    if before[1] != "deg" and after[1] != before[1] and convert(*after, before[1]) < 1:
        return
    raise QuantityError(f"{_plain(before)} and {_plain(after)} do not add up to one quantity. {_asked(asked)}")


def _plain(part: tuple[float, str]) -> str:
    return f"{format_number(part[0], 3)} {part[1]}"


def _working(number: float, unit: str, asked: Dimension) -> float:
    if unit == "deg" and asked.working == "%":
        if abs(number) >= 90:
            raise QuantityError("A slope of 90 degrees or more is a wall. Write a slope like 15 % or 8 degrees.")
        return convert(number, "deg", "%")
    return convert(number, unit, asked.working)


# ------------------------------------------------------- figures of the book

_FIGURE = re.compile(r"(-?\d+(?:\.\d+)?) (\S.*)")


def _fast_table() -> dict[str | None, dict[str, tuple[float, float, str]]]:
    table: dict[str | None, dict[str, tuple[float, float, str]]] = {
        name: {u: (*_ratio(u, d.working), d.working) for u in d.units if u and u != "deg"}
        for name, d in DIMENSIONS.items()
    }
    table["angle"] = {"deg": (1.0, 1.0, "deg")}
    home: dict[str, tuple[float, float, str]] = {}
    for unit, (family, _, _, _) in _UNITS.items():
        if unit:
            name = _AT_HOME.get(unit) or family
            home[unit] = table[name][unit]
    table[None] = home
    return table


_FAST = _fast_table()


def parse_figure_text(text: str, dimension: str | None = None) -> tuple[float, str]:
    """A figure of the book: the number in the working unit, and that unit.

    Without a dimension the written unit decides: `mm` stays a bore, `cm` a depth, every other length is in m.

    >>> parse_figure_text("11 kW/m")
    (11.0, 'kW/m')
    >>> parse_figure_text("1150 mm", "length")
    (1.15, 'm')

    Raises
    ------
    QuantityError
        When the text is not one quantity, or not one of that dimension.
    """
    found = _FIGURE.fullmatch(text)
    if found is not None:
        number, unit = found.groups()
        known = _FAST[dimension].get(unit)
        if known is not None:
            above, below, working = known
            value = float(number)
            if dimension is None or value >= 0:
                return value * above / below, working
    if dimension is not None:
        return parse(text, dimension).working, DIMENSIONS[dimension].working
    return _figure_of_any_dimension(text)


def _figure_of_any_dimension(text: str) -> tuple[float, str]:
    found = _NUMBER.match(text)
    rest = text[found.end() :].strip() if found else text
    if found is not None and not rest:
        return parse(text, "ratio").working, ""
    unit = _pattern("").match(rest)
    if found is None or unit is None:
        raise QuantityError(f'"{text}" is not a number with a unit I know.')
    symbol = _canonical(unit[1])
    name = _AT_HOME.get(symbol) or _UNITS[symbol][0]
    return parse(text, name).working, DIMENSIONS[name].working


# ------------------------------------------------------------------- showing

_SHOWN_AS = {d.working: d.name for d in DIMENSIONS.values()} | {"%": "share", "m": "length", "": "ratio"}


def dimension_of(working_unit: str) -> Dimension:
    """The dimension that a working unit stands for when nothing else is known.

    Raises
    ------
    QuantityError
        When it is not a working unit.
    """
    name = _SHOWN_AS.get(working_unit)
    if name is None:
        raise QuantityError(f'"{working_unit}" is not a working unit.')
    return DIMENSIONS[name]


def reader_unit(dimension: str, units: Units) -> str:
    """The unit in which this reader wants to see the dimension."""
    found = _dimension(dimension)
    return found.us if units == "us" else found.metric


def format_number(value: float, digits: int) -> str:
    """The number with at most `digits` decimals, without needless zeros and without a minus zero.

    >>> format_number(2.50, 2), format_number(-0.001, 1), format_number(1200, 0)
    ('2.5', '0', '1200')
    """
    text = f"{value:.{max(digits, 0)}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def round_up(value: float, step: float) -> float:
    """The next multiple of `step` that is not below `value`; a hair above a multiple counts as the multiple.

    >>> round_up(23.2, 1), round_up(0.31, 0.05), round_up(1.2, 0.3)
    (24.0, 0.35, 1.2)
    """
    times = value / step
    return _multiple(math.ceil(times - 1e-9 * max(1.0, abs(times))), step)


def round_down(value: float, step: float) -> float:
    """The last multiple of `step` that is not above `value`; a hair below a multiple counts as the multiple.

    >>> round_down(23.9, 1), round_down(0.34, 0.05)
    (23.0, 0.3)
    """
    times = value / step
    return _multiple(math.floor(times + 1e-9 * max(1.0, abs(times))), step)


def _multiple(times: int, step: float) -> float:
    return float(f"{times * step:.12g}") + 0.0


def show(
    working_value: float,
    working_unit: str,
    units: Units,
    digits: int | None = None,
    *,
    dimension: str | None = None,
    toward: Literal["nearest", "up", "down"] = "nearest",
) -> str:
    """The quantity as this reader wants it, with the working unit in brackets where it is another unit.

    `digits` are the decimals of both numbers; left out, the usual ones of each unit. `toward` rounds the reader's
    number to the safe side: up for a minimum, down for a maximum.

    >>> show(25, "kW", "us"), show(25, "kW", "metric"), show(540, "rev/min", "us")
    ('34 hp (25 kW)', '25 kW', '540 rev/min')
    """
    found = _dimension(dimension) if dimension is not None else dimension_of(working_unit)
    unit = reader_unit(found.name, units)
    if digits is None and found.name == "altitude":
        digits = 0
    own = _one(working_value, working_unit, digits, "nearest")
    if unit == working_unit:
        return own if toward == "nearest" else _one(working_value, unit, digits, toward)
    return f"{_one(convert(working_value, working_unit, unit), unit, digits, toward)} ({own})"


def _one(value: float, unit: str, digits: int | None, toward: Literal["nearest", "up", "down"]) -> str:
    places = _DIGITS.get(unit, 0) if digits is None else digits
    step = 10.0**-places
    if toward == "up":
        value = round_up(value, step)
    elif toward == "down":
        value = round_down(value, step)
    return f"{format_number(value, places)} {unit}".rstrip()
