"""Scales of drawings: in which unit this reader sees a requirement, and where the marks of an axis stand."""

from __future__ import annotations

import math

from firstfurrow.book.model import Requirement
from firstfurrow.quantities import Units, dimension_of, reader_unit

_MARKS = 5  # about so many on an axis
_STEPS = (1.0, 2.0, 5.0, 10.0)  # between two marks, times a power of ten


def unit_of(requirement: Requirement, units: Units) -> str:
    """The unit in which this reader sees a requirement that is a number."""
    if units == "metric" or not requirement.unit:
        return requirement.unit
    return requirement.shown.get("us") or reader_unit(dimension_of(requirement.unit).name, "us")


def marks(greatest: float) -> tuple[float, ...]:
    """Round numbers from nothing to the last one that is not beyond the greatest, and at least one above nothing.

    >>> marks(67), marks(0.8), marks(190)
    ((0.0, 20.0, 40.0, 60.0), (0.0, 0.2, 0.4, 0.6, 0.8), (0.0, 50.0, 100.0, 150.0))
    """
    rough = greatest / _MARKS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(each * power for each in _STEPS if each * power >= rough * (1 - 1e-9))
    return tuple(round(step * number, 9) for number in range(int(greatest / step + 1e-9) + 1))
