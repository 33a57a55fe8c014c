"""Where a thing stands on the sheet: its own metres, upward and forward, to units of the sheet, turned by a slope."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from firstfurrow.report.drawing import Area, Disc, Line, Path, Shape


@dataclass(frozen=True, slots=True)
class Place:
    """The point (0, 0) of a thing lies at `x`, `y` of the sheet; a metre is `scale` units; it climbs to the right."""

    x: float
    y: float
    scale: float
    angle: float = 0.0  # degrees

    def at(self, along: float, up: float) -> tuple[float, float]:
        """A point of the thing on the sheet."""
        sine, cosine = math.sin(math.radians(self.angle)), math.cos(math.radians(self.angle))
        return self.x + self.scale * (along * cosine - up * sine), self.y - self.scale * (along * sine + up * cosine)

    def put(self, shapes: Iterable[Shape]) -> tuple[Shape, ...]:
        """The shapes of a thing on the sheet; words cannot be turned."""
        return tuple(map(self._put, shapes))

    def _put(self, shape: Shape) -> Shape:
        if isinstance(shape, Line):
            (x1, y1), (x2, y2) = self.at(shape.x1, shape.y1), self.at(shape.x2, shape.y2)
            return replace(shape, x1=x1, y1=y1, x2=x2, y2=y2)
        if isinstance(shape, Area):
            return replace(shape, points=tuple(self.at(*point) for point in shape.points))
        if isinstance(shape, Path):
            return replace(shape, points=tuple(self.at(*point) for point in shape.points))
        assert isinstance(shape, Disc)
        x, y = self.at(shape.x, shape.y)
        return replace(shape, x=x, y=y, r=shape.r * self.scale)
