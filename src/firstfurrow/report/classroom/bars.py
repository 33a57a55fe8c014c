"""Bars for counts, narrow enough for a phone: above each bar its words, and in it the part that counts most, dark."""

from __future__ import annotations

from collections.abc import Sequence

from firstfurrow.report.drawing import Area, Drawing, Label, Shape

WIDTH, EDGE = 340.0, 2.0
WORDS, BAR, GAP = 15.0, 8.0, 5.0  # heights


def bars(rows: Sequence[tuple[str, int, int]], whole: int) -> Drawing:
    """A bar for each of the rows: words, count, and the part of it that is drawn dark; `whole` fills a line."""
    shapes: list[Shape] = []
    y = EDGE
    for words, count, part in rows:
        shapes.append(Label(EDGE, y + WORDS - 4, words))
        y += WORDS
        shapes.append(_bar(y, count, whole, "light"))
        if part:
            shapes.append(_bar(y, part, whole, "dark"))
        y += BAR + GAP
    return Drawing(WIDTH, y, tuple(shapes))


def _bar(y: float, count: int, whole: int, fill: str) -> Area:
    right = EDGE + (WIDTH - 2 * EDGE) * count / whole
    points = ((EDGE, y), (right, y), (right, y + BAR), (EDGE, y + BAR))
    return Area(points, "dark" if fill == "dark" else "light", "thin")
