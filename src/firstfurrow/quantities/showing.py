"""Quantities back to the reader, in the units that he thinks in."""

from __future__ import annotations

import math
from typing import Literal

from firstfurrow.quantities.units import DIGITS, DIMENSIONS, Dimension, QuantityError, Units, convert, dimension_named

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
    found = dimension_named(dimension)
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

    >>> show(25, "kW", "us"), show(25, "kW", "metric"), show(540, "rev/min", "us"), show(1850, "kg", "us")
    ('34 hp (25 kW)', '25 kW', '540 rev/min', '4080 lb (1850 kg)')
    """
    found = dimension_named(dimension) if dimension is not None else dimension_of(working_unit)
    unit = reader_unit(found.name, units)
    if digits is None and found.name == "altitude":
        digits = 0
    own = _one(working_value, working_unit, digits, "nearest")
    if unit == working_unit:
        return own if toward == "nearest" else _one(working_value, unit, digits, toward)
    there = convert(working_value, working_unit, unit)
    if toward == "nearest" and abs(there) >= 1000:
        there = float(f"{there:.3g}")  # the working unit in brackets is the figure; more digits here would be made up
    return f"{_one(there, unit, digits, toward)} ({own})"


def _one(value: float, unit: str, digits: int | None, toward: Literal["nearest", "up", "down"]) -> str:
    places = DIGITS.get(unit, 0) if digits is None else digits
    step = 10.0**-places
    if toward == "up":
        value = round_up(value, step)
    elif toward == "down":
        value = round_down(value, step)
    return f"{format_number(value, places)} {unit}".rstrip()
