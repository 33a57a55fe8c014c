"""A sheet that is filled from top to bottom: words in lines, a bar, a number in a ring."""

from __future__ import annotations

from collections.abc import Sequence

from firstfurrow.report.drawing import SIZES, Area, Disc, Drawing, Fill, Label, Shape, Size, Stroke
from firstfurrow.report.pictures.letters import lines, width

WIDTH = 480.0  # narrow: the letters can still be read where a telephone shows the whole width
MARGIN = 8.0
ROOM = WIDTH - 2 * MARGIN
_LEADING = 1.25  # from foot to foot of two lines, in heights of the letters


class Sheet:
    """Shapes, and how far down the sheet is full."""

    def __init__(self, start: float = MARGIN) -> None:
        self._shapes: list[Shape] = []
        self.y = start

    def add(self, *shapes: Shape) -> None:
        """Shapes at places of their own."""
        self._shapes += shapes

    def skip(self, gap: float) -> None:
        """Leave so much room."""
        self.y += gap

    def words(
        self, text: str, *, x: float = MARGIN, room: float | None = None, size: Size = "normal", bold: bool = False,
        most: int = 2,
    ) -> None:  # fmt: skip
        """Words in lines from the left, below what is there."""
        for line in lines(text, WIDTH - MARGIN - x if room is None else room, size, bold=bold, most=most):
            self.y += SIZES[size] * _LEADING
            self.add(Label(x, self.y - SIZES[size] * (_LEADING - 1), line, "start", size, bold))

    def drawing(self) -> Drawing:
        """All of it."""
        return Drawing(WIDTH, round(self.y + MARGIN, 2), tuple(self._shapes))


def rectangle(x: float, y: float, wide: float, high: float, fill: Fill = "light", stroke: Stroke = "normal") -> Area:
    """An upright rectangle from its upper left corner."""
    return Area(((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)), fill, stroke)


def numbered(x: float, y: float, number: int) -> tuple[Shape, ...]:
    """A number in a ring."""
    return Disc(x, y, 10, "paper"), Label(x, y + 4.6, str(number), "middle", "normal", bold=True)


def on_paper(label: Label, wide: float | None = None) -> Sequence[Shape]:
    """Words on a piece of paper, so that no line runs through them; they begin at `x`."""
    high = SIZES[label.size]
    span = width(label.text, label.size, bold=label.bold) if wide is None else wide
    return rectangle(label.x - 2, label.y - high * 0.85, span + 4, high * 1.15, "paper", "none"), label
