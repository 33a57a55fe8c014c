"""A tractor seen from behind: our own plain outline, as wide and as high as a usual one of its size class."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.report.drawing import Area, Fill, Line, Path, Shape


def tractor(track: float, width: float, height: float) -> Iterator[Shape]:
    """In metres; (0, 0) is the ground in the middle between the wheels."""
    tyre = width - track
    wheel = 0.46 * height  # how high the tyres stand
    half = track / 2
    yield _area("mid", -half, 0.42 * wheel, half, 0.58 * wheel)  # axle
    yield _area("light", -0.3 * track, 0.45 * wheel, 0.3 * track, 1.06 * wheel)  # body
    yield Line(-0.16 * track, 0.3 * wheel, 0.16 * track, 0.3 * wheel, "thick")  # drawbar
    for side in (-1, 1):
        left, right = side * half - tyre / 2, side * half + tyre / 2
        yield Area(
            ((left, 0.08 * wheel), (left + 0.15 * tyre, 0), (right - 0.15 * tyre, 0), (right, 0.08 * wheel),
             (right, 0.92 * wheel), (right - 0.15 * tyre, wheel), (left + 0.15 * tyre, wheel), (left, 0.92 * wheel)),
            "dark", "normal",
        )  # fmt: skip
        yield _area("light", left - 0.05 * tyre, 1.03 * wheel, right + 0.05 * tyre, 1.1 * wheel)  # fender
    yield _area("paper", -0.17 * track, 1.06 * wheel, 0.17 * track, 1.5 * wheel)  # back of the seat
    bar = 0.36 * track
    yield Path(((-bar, 0.6 * wheel), (-bar, height * 0.98), (-bar * 0.9, height), (bar * 0.9, height),
                (bar, height * 0.98), (bar, 0.6 * wheel)), "thick")  # fmt: skip


def _area(fill: Fill, left: float, low: float, right: float, high: float) -> Shape:
    return Area(((left, low), (left, high), (right, high), (right, low)), fill)
