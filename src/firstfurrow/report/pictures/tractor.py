"""The rear of a tractor seen from behind, and three parts of it seen from nearer: plain shapes of our own."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import chain

from firstfurrow.report.drawing import Area, Disc, Fill, Line, Shape, Stroke
from firstfurrow.report.pictures.sheet import rectangle

MIDDLE = 240.0
GROUND = 372.0
TOP = 62.0  # of the roll bar
TYRE_MIDDLE, TYRE_OUTSIDE = 120.0, 150.0  # from the middle of the tractor
BALL = (64.0, 336.0)  # from the middle of the tractor, and down
PORTS = (174.0, 26.0)  # where a set begins, and how high it is
SHAFT, BAR = 282.0, 321.0
OUTLET = (184.0, 204.0)  # for the brakes of a trailer
_POST = 68.0
_TYRE_TOP, _LUGS = 180.0, 9
_Points = tuple[tuple[float, float], ...]


def rear(sets: int, splines: int, *, emblem: bool, brake: bool) -> tuple[Shape, ...]:
    """The tractor on its ground; `sets` pairs of oil ports, a mark for slow vehicles, an outlet for trailer brakes."""
    return tuple(
        chain(
            (Line(40, GROUND, 440, GROUND, "thick"),), _both(_tyre), _seat(), _both(_fender), _roll_bar(),
            _housing(), _both(_arm), _shaft(splines), _bar(), _ports(sets), _emblem() if emblem else (),
            _outlet() if brake else (),
        )
    )  # fmt: skip


def _both(part: list[Shape]) -> Iterator[Shape]:
    """A part of the left side, and the same on the right."""
    for shape in part:
        yield shape
        yield _mirrored(shape)


def _mirrored(shape: Shape) -> Shape:
    if isinstance(shape, Area):
        return Area(tuple((2 * MIDDLE - x, y) for x, y in shape.points), shape.fill, shape.stroke)
    assert isinstance(shape, Disc)
    return Disc(2 * MIDDLE - shape.x, shape.y, shape.r, shape.fill, shape.stroke)


def round_corners(
    x: float, y: float, wide: float, high: float, r: float, fill: Fill = "light", stroke: Stroke = "normal"
) -> Area:
    """A rectangle with round corners."""
    points: list[tuple[float, float]] = []
    for number, (cx, cy) in enumerate(
        ((x + wide - r, y + r), (x + wide - r, y + high - r), (x + r, y + high - r), (x + r, y + r))
    ):
        for part in range(5):
            angle = math.pi / 2 * (number - 1 + part / 4)
            points.append((cx + r * math.cos(angle), cy + r * math.sin(angle)))
    return Area(tuple(points), fill, stroke)


# ------------------------------------------------------------------ left half

_HALF = TYRE_OUTSIDE - TYRE_MIDDLE
_LEFT = MIDDLE - TYRE_OUTSIDE


def _lug(side: int, number: float) -> Area:
    """One lug of the tread: seen from behind the outer ones look shorter, because the tyre is round."""
    middle, radius = (_TYRE_TOP + GROUND) / 2, (GROUND - _TYRE_TOP) / 2

    def down(angle: float) -> float:
        return middle + radius * math.sin(angle)

    turn = math.pi / _LUGS
    start = -math.pi / 2 + number * turn
    x = MIDDLE - TYRE_MIDDLE
    edge, inner = x + side * (_HALF + 2), x - side * 3
    points = ((edge, down(start)), (edge, down(start + turn * 0.5)), (inner, down(start + turn * 1.1)),
              (inner, down(start + turn * 0.65)))  # fmt: skip
    return Area(points, "dark", "none")


_tyre: list[Shape] = [
    round_corners(_LEFT, _TYRE_TOP, 2 * _HALF, GROUND - _TYRE_TOP, 14, "light"),
    *(_lug(-1, number) for number in range(1, _LUGS - 1)),
    *(_lug(1, number + 0.5) for number in range(1, _LUGS - 2)),
]
_fender: list[Shape] = [
    Area(((82, 200), (84, 178), (94, 166), (156, 164), (166, 172), (168, 250), (154, 250), (153, 190), (94, 190),
          (92, 200)), "paper"),
    Disc(114, 178, 7, "mid"),
]  # fmt: skip
_arm: list[Shape] = [
    Area(((150, 264), (204, 250), (204, 306), (150, 296)), "light"),  # half of the axle
    Area(((209, 253), (182, 240), (180, 229), (190, 228), (211, 241)), "mid"),  # lift arm
    rectangle(184, 235, 6, 86, "paper"),  # rod from the lift arm to the lower arm
    Area(((208, 292), (218, 301), (183, 340), (172, 331)), "mid"),  # lower arm
    Disc(187, 321, 2.5, "dark", "none"),
    Disc(MIDDLE - BALL[0], BALL[1], 10, "paper"),
    Disc(MIDDLE - BALL[0], BALL[1], 4.5, "dark"),
]


# -------------------------------------------------------------- in the middle


def _seat() -> Iterator[Shape]:
    yield rectangle(MIDDLE - 74, 238, 148, 12, "paper")  # the deck between the fenders
    yield Area(((MIDDLE - 20, 170), (MIDDLE + 20, 170), (MIDDLE + 28, 240), (MIDDLE - 28, 240)), "paper")
    yield round_corners(MIDDLE - 34, 104, 68, 62, 14, "light")
    yield round_corners(MIDDLE - 42, 158, 84, 14, 6, "light")


def _roll_bar() -> Iterator[Shape]:
    left, right, thick, corner = MIDDLE - _POST, MIDDLE + _POST, 9.0, 14.0
    outer = _arch(left - thick, right + thick, TOP, corner + thick)
    inner = _arch(left, right, TOP + thick, corner)
    yield Area((*outer, *reversed(inner)), "paper")


def _arch(left: float, right: float, top: float, r: float) -> _Points:
    """From the foot of one post over the top to the foot of the other."""
    foot = 268.0
    corner = [math.pi / 2 * part / 4 for part in range(5)]
    return (
        (left, foot), *((left + r - r * math.cos(a), top + r - r * math.sin(a)) for a in corner),
        *((right - r + r * math.sin(a), top + r - r * math.cos(a)) for a in corner), (right, foot),
    )  # fmt: skip


def _housing() -> Iterator[Shape]:
    yield Area(((202, 246), (212, 236), (268, 236), (278, 246), (282, 296), (270, 314), (210, 314), (198, 296)),
               "light")  # fmt: skip
    yield rectangle(MIDDLE - 9, 210, 18, 30, "paper")  # where the top link goes
    yield Disc(MIDDLE, 217, 3.2, "dark")
    yield Disc(MIDDLE, 230, 3.2, "dark")


def _shaft(splines: int) -> Iterator[Shape]:
    yield Area(((214, 300), (214, 268), (222, 256), (258, 256), (266, 268), (266, 300), (258, 300), (258, 272),
                (253, 265), (227, 265), (222, 272), (222, 300)), "mid")  # fmt: skip
    yield from grooved(MIDDLE, SHAFT, 11, splines)


def grooved(x: float, y: float, r: float, splines: int) -> Iterator[Shape]:
    """The end of a shaft with so many grooves."""
    tooth = [(-0.25 + 0.5 * part / 3, r) for part in range(4)]
    groove = [(0.25 + 0.5 * part / 3, r * 0.8) for part in range(4)]
    points: list[tuple[float, float]] = []
    for number in range(splines):
        for share, radius in (*tooth, *groove):
            angle = 2 * math.pi * (number + share) / splines  # the first tooth points to the right
            points.append((x + radius * math.cos(angle), y + radius * math.sin(angle)))
    yield Area(tuple(points), "paper")
    yield Disc(x, y, r * 0.18, "dark", "none")


def _bar() -> Iterator[Shape]:
    yield rectangle(MIDDLE - 4, BAR - 13, 8, 28, "paper")  # the pin
    yield rectangle(MIDDLE - 8, BAR - 15, 16, 5, "mid")
    yield rectangle(MIDDLE - 16, BAR - 6, 32, 12, "mid")


def _ports(sets: int) -> Iterator[Shape]:
    if sets < 1:
        return
    pitch = min(19.0, 118.0 / sets)
    r = min(4.6, pitch * 0.25)
    y, high = PORTS
    for number in range(sets):
        x = MIDDLE + (number - (sets - 1) / 2) * pitch
        yield round_corners(x - pitch * 0.42, y, pitch * 0.84, high, pitch * 0.2, "paper")
        yield Disc(x, y + high * 0.27, r, "dark")
        yield Disc(x, y + high * 0.73, r, "dark")


def _outlet() -> Iterator[Shape]:
    """A socket on a plate at the left post."""
    x, y = OUTLET
    yield rectangle(MIDDLE - _POST, y - 11, x - MIDDLE + _POST + 11, 22, "paper")
    yield Disc(x, y, 7, "mid")
    yield Disc(x, y, 3, "dark")


def ports_right(sets: int) -> float:
    """Where the row of oil ports ends on the right."""
    return MIDDLE + sets * min(19.0, 118.0 / sets) / 2 if sets else MIDDLE


def _emblem() -> Iterator[Shape]:
    """A triangle with its corners cut off."""
    x, y = MIDDLE, 134.0
    yield Area(((x - 4, y - 24), (x + 4, y - 24), (x + 26, y + 14), (x + 22, y + 21), (x - 22, y + 21),
                (x - 26, y + 14)), "mid")  # fmt: skip
    yield Area(((x, y - 14), (x + 17, y + 15), (x - 17, y + 15)), "paper")
