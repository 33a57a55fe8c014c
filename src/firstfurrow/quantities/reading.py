"""Typed text to quantities: numbers as people write them, with the units of the dimension that is asked for."""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import dataclass

from firstfurrow.quantities.showing import format_number
from firstfurrow.quantities.spelling import DAYS, KNOT, TONS, canonical, pattern_of
from firstfurrow.quantities.units import Dimension, QuantityError, asked_for, convert, dimension_named, home_of

LONGEST_TEXT = 80  # nobody types a longer quantity; longer input is refused before any pattern sees it


# A number as typed: thousands in groups of three, mixed or plain fraction, decimal with or without exponent.
NUMBER = re.compile(
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


@dataclass(frozen=True, slots=True)
class Typed:
    """A quantity as somebody typed it: `number` in `unit` (feet and inches folded), and in the working unit."""

    number: float
    unit: str
    working: float
    dimension: str
    text: str


def _no_number(text: str, dimension: Dimension) -> QuantityError:
    return QuantityError(f'"{text}" does not begin with a number I can read. {asked_for(dimension)}')


def _read_number(text: str, start: int, dimension: Dimension) -> tuple[float, int, bool]:
    """The number at `start`: its value, where it ends, and whether it was written as a bare fraction."""
    comma = _COMMA.match(text, start)
    found = NUMBER.match(text, start)
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
    if TONS.match(rest) and dimension.name == "mass":
        return QuantityError("Which ton? Write tonne (1000 kg), short ton (2000 lb) or long ton (2240 lb).")
    if KNOT.match(rest):
        return QuantityError('"kn" is the sign for knot. Write kN for a force.')
    if dimension.name == "time" and DAYS.match(rest):
        return QuantityError("A day is not a day's work. Write the hours, like 6 h.")
    if _RANGE.match(rest):
        return QuantityError(f"Write one number, not a range. {asked_for(dimension)}")
    foreign = pattern_of("").match(rest)
    if foreign is not None:
        unit = canonical(foreign[1])
        if before is not None:
            return QuantityError(f"{before} and {unit} do not go together. {asked_for(dimension)}")
        other = home_of(unit)
        return QuantityError(f"That is {other.called}; {dimension.called} is asked for. {asked_for(dimension)}")
    return QuantityError(f'"{rest.strip()}" is not a unit I know for {dimension.called}. {asked_for(dimension)}')


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
    asked = dimension_named(dimension)
    if len(text) > LONGEST_TEXT:
        raise QuantityError(f"That is too long for {asked.called}. {asked_for(asked)}")
    tidy = " ".join(text.translate(_TIDY).split())
    if not tidy:
        raise QuantityError(f"Nothing was typed. {asked_for(asked)}")
    if dimension == "slope" and (ratio := _slope_ratio(text, tidy)) is not None:
        return ratio
    parts, fraction = _parts(tidy, asked, bare_unit)
    if dimension == "slope" and fraction and len(parts) == 1 and tidy[-1].isdigit():
        raise QuantityError(f'"{tidy}" can be read in two ways. Write a slope like 1:4 or 25 %.')
    return _fold(text, asked, parts)


def _parts(tidy: str, asked: Dimension, bare_unit: str | None) -> tuple[list[tuple[float, str]], bool]:
    """The numbers of the text, each with its canonical unit."""
    units = pattern_of(asked.name)
    parts: list[tuple[float, str]] = []
    at, fraction = 0, False
    while at < len(tidy):
        number, at, fraction = _read_number(tidy, at, asked)
        rest = tidy[at:].lstrip()
        before = parts[-1][1] if parts else None
        if KNOT.match(rest):
            raise _strange_unit(rest, asked, None)
        found = units.match(rest)
        if found is not None:
            parts.append((number, canonical(found[1])))
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
            raise QuantityError(f'I do not understand "{tidy[at:]}" after the number. {asked_for(asked)}')
    return parts, fraction


def _about_space(tidy: str, asked: Dimension) -> str:
    found = re.match(r"([+-]?\d{1,3})((?: \d{3})+)(?![\d])", tidy)
    if found is None:
        return f'There are two numbers in "{tidy}". {asked_for(asked)}'
    return f"Write the number without a space: {found[0].replace(' ', '')}."


def _bare(tidy: str, asked: Dimension, before: str | None, bare_unit: str | None) -> str:
    """The unit of a number that has none."""
    if before is not None:
        smaller = _NEXT_SMALLER.get(before)
        if smaller is None:
            raise QuantityError(f'There is a number without a unit at the end of "{tidy}". {asked_for(asked)}')
        return smaller
    if asked.units == ("",):
        return ""
    if bare_unit is None:
        raise QuantityError(f'"{tidy}" has no unit. {asked_for(asked)}')
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
        raise QuantityError(f"{asked_for(asked)}")
    if number == 0:
        number = working = 0.0  # no minus zero
    return Typed(number, unit, working, asked.name, text)


def _falling(before: tuple[float, str], after: tuple[float, str], asked: Dimension) -> None:
    """Refuse a second part that is not the smaller rest of the first: 3 in 6 ft, 5 ft 14 in."""
    if before[1] != "deg" and after[1] != before[1] and convert(*after, before[1]) < 1:
        return
    raise QuantityError(f"{_plain(before)} and {_plain(after)} do not add up to one quantity. {asked_for(asked)}")


def _plain(part: tuple[float, str]) -> str:
    return f"{format_number(part[0], 3)} {part[1]}"


def _working(number: float, unit: str, asked: Dimension) -> float:
    if unit == "deg" and asked.working == "%":
        if abs(number) >= 90:
            raise QuantityError("A slope of 90 degrees or more is a wall. Write a slope like 15 % or 8 degrees.")
        return convert(number, "deg", "%")
    return convert(number, unit, asked.working)


# ------------------------------------------------------- figures of the book
