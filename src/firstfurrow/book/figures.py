"""Figures of the book: from their YAML to a number in the working unit with range, grade and source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.book.model import Figure
from firstfurrow.quantities import DIMENSIONS, QuantityError, parse_figure_text


def number(data: Any, dimension: str | None) -> tuple[float, str]:
    """A number of the book in the working unit, and that unit; a plain number is a ratio or a count.

    >>> number("1150 mm", "length")
    (1.15, 'm')
    >>> number(1.25, None)
    (1.25, '')

    Raises
    ------
    QuantityError
        When it is not a number, or not one of that dimension.
    """
    if isinstance(data, bool) or not isinstance(data, int | float | str):
        raise QuantityError(f'"{data}" is not a number with a unit.')
    if isinstance(data, str):
        return parse_figure_text(data, dimension)
    if dimension is not None and DIMENSIONS[dimension].working:
        raise QuantityError(f"{data} has no unit; write it like {DIMENSIONS[dimension].such_as}.")
    return float(data), ""


def figure(data: Mapping[str, Any], dimension: str | None = None) -> Figure:
    """A figure from its mapping: `value`, or `low` and `high`, or `low`, `planning` and `high`.

    A band of two numbers plans at its upper end.

    Raises
    ------
    QuantityError
        When one of the numbers cannot be read, or two of them have different units.
    """
    value = data.get("value")
    if value is not None:
        planning, unit = number(value, dimension)
        low = high = planning
    elif data.get("low") is None or data.get("high") is None:
        raise QuantityError("a figure is value alone, or low and high.")
    else:
        low, unit = number(data["low"], dimension)
        high, unit_high = number(data["high"], dimension)
        middle = data.get("planning")
        planning, unit_planning = (high, unit_high) if middle is None else number(middle, dimension)
        if not unit == unit_high == unit_planning:
            raise QuantityError("low, planning and high are in different units.")
    return Figure(
        low,
        planning,
        high,
        unit,
        data["grade"],
        data.get("source"),
        data.get("where"),
        data.get("from"),
        data.get("note"),
    )
