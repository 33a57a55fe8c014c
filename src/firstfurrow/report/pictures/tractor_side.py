"""A tractor seen from its right side, facing right: our own plain outline, as long as its wheelbase says.

In metres; the ground under the rear axle is (0, 0). What has no distance of its own is a share of the wheelbase.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfurrow.report.drawing import Area, Disc, Fill, Line, Path, Shape

REAR, FRONT = 0.33, 0.2  # radius of the wheels, as a share of the wheelbase
TALL = 1.34  # height of the roll bar
AHEAD = 1.2  # how far the nose reaches ahead of the rear axle
HUNG = 0.4  # height of a raised tool


def tractor(wheelbase: float) -> Iterator[Shape]:
    """The bare tractor."""
    b = wheelbase
    yield _area(b, "dark", (-0.08, 0.28), (1.08, 0.26), (1.08, 0.38), (0.2, 0.42), (-0.08, 0.42))  # frame
    yield _area(b, "light", (0.44, 0.38), (1.18, 0.34), (1.2, 0.52), (1.13, 0.64), (0.5, 0.72), (0.44, 0.7))  # hood
    yield from (_line(b, 1.08 + 0.04 * n, 0.4, 1.08 + 0.04 * n, 0.6 - 0.04 * n) for n in range(3))
    yield _area(b, "mid", (0.12, 0.36), (0.45, 0.36), (0.45, 0.4), (0.12, 0.4))  # where the feet are
    yield _area(b, "dark", (-0.22, 0.5), (-0.17, 0.5), (-0.17, TALL), (-0.22, TALL))  # roll bar
    yield _area(b, "paper", (-0.1, 0.7), (0.16, 0.68), (0.16, 0.74), (-0.04, 0.77), (-0.1, 1.0), (-0.15, 1.0))  # seat
    yield _line(b, 0.47, 0.7, 0.37, 0.86)
    yield _line(b, 0.3, 0.82, 0.44, 0.91, thick=True)  # steering wheel
    yield Disc(0, REAR * b, REAR * b, "mid", "thick")
    yield Disc(0, REAR * b, 0.17 * b, "paper", "normal")
    yield Disc(0, REAR * b, 0.03 * b, "dark", "none")
    yield _fender(b)
    yield Disc(b, FRONT * b, FRONT * b, "mid", "thick")
    yield Disc(b, FRONT * b, 0.09 * b, "paper", "normal")
    yield Disc(b, FRONT * b, 0.025 * b, "dark", "none")


def raised_tool(wheelbase: float, overhang: float, reach: float) -> Iterator[Shape]:
    """A tool raised on the arms: any tool, its centre marked where it is."""
    b, ends, centre = wheelbase, -overhang, -(overhang + reach)
    near, far = centre + 0.72 * reach, centre - 0.62 * reach
    high, low = HUNG + 0.14, HUNG - 0.12
    yield Line(-0.1 * b, 0.26 * b, ends, HUNG * b, "thick")  # lower arm
    yield Line(-0.14 * b, 0.56 * b, ends - 0.02 * b, 0.72 * b, "normal")  # top link
    yield Path(((ends, HUNG * b), (ends - 0.02 * b, 0.72 * b), (centre, high * b), (near, low * b), (ends, HUNG * b)))
    yield Area(((near, low * b), (near, high * b), (far, high * b), (far, low * b)), "hatch")
    yield Disc(ends, HUNG * b, 0.03 * b, "paper")
    yield from _centre(centre, (HUNG + 0.01) * b, 0.055 * b)


def weight_behind(wheelbase: float, overhang: float) -> Iterator[Shape]:
    """A counterweight at the ends of the arms."""
    b, centre = wheelbase, -overhang
    yield Line(-0.1 * b, 0.26 * b, centre, 0.32 * b, "thick")
    yield Line(-0.14 * b, 0.56 * b, centre, 0.56 * b, "normal")
    left, right = centre - 0.15 * b, min(centre + 0.15 * b, -0.36 * b)
    yield Area(((left, 0.2 * b), (left, 0.58 * b), (right, 0.58 * b), (right, 0.2 * b)), "hatch")
    yield from _centre(centre, 0.38 * b, 0.055 * b)


def front_weights(wheelbase: float, ahead: float) -> Iterator[Shape]:
    """Weights at the nose, their centre `ahead` of the front axle."""
    b, centre = wheelbase, wheelbase + ahead
    left, right = max(centre - 0.06 * b, 1.2 * b), centre + 0.06 * b
    yield Line(1.08 * b, 0.32 * b, right, 0.32 * b, "thick")
    yield Area(((left, 0.2 * b), (left, 0.44 * b), (right, 0.44 * b), (right, 0.2 * b)), "hatch")
    yield from _centre(centre, 0.32 * b, 0.045 * b)


def loader(wheelbase: float, ahead: float) -> Iterator[Shape]:
    """A loader with its load carried low, the centre of the load `ahead` of the front axle."""
    b, centre = wheelbase, wheelbase + ahead
    back = max(centre - 0.24 * b, 1.24 * b)  # of the bucket
    yield Area(((0.5 * b, 0.3 * b), (0.58 * b, 0.3 * b), (0.58 * b, 0.86 * b), (0.5 * b, 0.86 * b)), "paper")
    yield Path(((0.54 * b, 0.82 * b), (0.98 * b, 0.74 * b), (back, 0.3 * b)), "thick")
    yield Path(((0.54 * b, 0.5 * b), (0.9 * b, 0.7 * b)), "normal")
    far, low = centre + 0.26 * b, 0.14 * b
    heap = ((back, 0.34 * b), (centre, 0.52 * b), (far - 0.04 * b, 0.26 * b), (far, low), (back, low))
    yield Area(heap, "hatch")
    yield Path(((back, 0.4 * b), (back, low), (far, low)), "thick")
    yield from _centre(centre, 0.3 * b, 0.055 * b)


def _centre(x: float, y: float, r: float) -> Iterator[Shape]:
    """The mark of a centre of mass: a disc in quarters, two of them dark."""
    yield Disc(x, y, r, "paper")
    for start in (0, 180):
        turn = [math.radians(start + 15 * step) for step in range(7)]
        yield Area(((x, y), *((x + r * math.cos(t), y + r * math.sin(t)) for t in turn)), "dark", "none")


def _fender(b: float) -> Shape:
    """Over the rear wheel, a piece of a ring."""
    turns = [math.radians(30 + 10 * step) for step in range(13)]
    outer = [(0.41 * b * math.cos(t), (REAR + 0.41 * math.sin(t)) * b) for t in turns]
    inner = [(0.36 * b * math.cos(t), (REAR + 0.36 * math.sin(t)) * b) for t in reversed(turns)]
    return Area((*outer, *inner), "light")


def _area(b: float, fill: Fill, *points: tuple[float, float]) -> Shape:
    return Area(tuple((x * b, y * b) for x, y in points), fill)


def _line(b: float, x1: float, y1: float, x2: float, y2: float, *, thick: bool = False) -> Shape:
    return Line(x1 * b, y1 * b, x2 * b, y2 * b, "thick" if thick else "normal")
