"""The scale along one side of a drawing: from a working unit to a place, with steps that are round for the reader."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfurrow.quantities import convert

_ROUND = (0.1, 0.2, 0.25, 0.5, 1, 2, 2.5, 5)  # steps of a scale, and ten, a hundred, a thousand times that
_MOST_STEPS = 6


@dataclass(frozen=True, slots=True)
class Axis:
    """Nought lies at `begin`, `most` at `end`."""

    working: str
    unit: str
    step: float  # in the reader's unit
    most: float  # in the working unit
    begin: float
    end: float

    def at(self, value: float) -> float:
        """Where a value in the working unit lies."""
        return self.begin + (self.end - self.begin) * value / self.most

    @property
    def steps(self) -> list[float]:
        """The steps in the reader's unit, from nought."""
        count = math.floor(convert(self.most, self.working, self.unit) / self.step + 1e-9)
        return [self.step * number for number in range(count + 1)]

    def of_step(self, step: float) -> float:
        """Where one of them lies."""
        return self.at(convert(step, self.unit, self.working))


def axis(working: str, unit: str, most: float, between: tuple[float, float], *, dozens: bool = False) -> Axis:
    """From nought to `most` (working unit); `dozens` for inches, of which twelve make a foot.

    >>> axis("kg", "kg", 1350, (0, 100)).steps
    [0.0, 250.0, 500.0, 750.0, 1000.0, 1250.0]
    """
    return Axis(working, unit, _step(convert(most, working, unit), dozens), most, *between)


def _step(most: float, dozens: bool) -> float:
    """The smallest round step that makes few enough of them."""
    rounds = [6.0, *(12.0 * n for n in range(1, 40))] if dozens else [r * 10**n for n in range(6) for r in _ROUND]
    return next((step for step in rounds if most / step <= _MOST_STEPS), rounds[-1])
