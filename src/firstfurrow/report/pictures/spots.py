"""Free spots on a drawing: of several places for the same words the one where they meet least."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Box = tuple[float, float, float, float]  # left, top, right, bottom

_MEETS, _CROSSED = 1000.0, 20.0  # what it costs to lie on other words, and that a line runs through
_NEAR = 2.0  # words closer than that read as one


class Spots:
    """What is taken inside a frame: boxes that nothing may meet, and points of lines that are better left free."""

    def __init__(self, frame: Box) -> None:
        self._frame = frame
        self._boxes: list[Box] = []
        self._points: list[tuple[float, float]] = []

    def take(self, box: Box) -> None:
        """Nothing else may lie here."""
        self._boxes.append(box)

    def line(self, points: Iterable[tuple[float, float]]) -> None:
        """A line runs here."""
        self._points += points

    def best(self, boxes: Sequence[Box]) -> int:
        """The number of the box that meets least, the first of several; it is taken from now on."""
        costs = [self._cost(box) for box in boxes]
        found = costs.index(min(costs))
        self.take(boxes[found])
        return found

    def _cost(self, box: Box) -> float:
        left, top, right, bottom = self._frame
        out = max(left - box[0], 0) + max(top - box[1], 0) + max(box[2] - right, 0) + max(box[3] - bottom, 0)
        meets = sum(_area(box, other) for other in self._boxes)
        crossed = sum(box[0] <= x <= box[2] and box[1] <= y <= box[3] for x, y in self._points)
        return _MEETS * (out + meets) + _CROSSED * crossed


def _area(one: Box, other: Box) -> float:
    """How far two boxes lie over each other, as the shorter side of what they share."""
    wide = min(one[2], other[2]) - max(one[0], other[0]) + _NEAR
    high = min(one[3], other[3]) - max(one[1], other[1]) + _NEAR
    return min(wide, high) if wide > 0 and high > 0 else 0.0


def between(x1: float, y1: float, x2: float, y2: float, gap: float = 6.0) -> list[tuple[float, float]]:
    """Points along a straight line, close enough that no word fits between them."""
    count = max(int(max(abs(x2 - x1), abs(y2 - y1)) / gap), 1)
    return [(x1 + (x2 - x1) * i / count, y1 + (y2 - y1) * i / count) for i in range(count + 1)]
