"""Parts of the rear seen from nearer: the end of a lower arm, the end of the shaft, shaft and drawbar from the side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from firstfurrow.report.drawing import Area, Disc, Label, Line, Path, Shape
from firstfurrow.report.pictures.letters import lines
from firstfurrow.report.pictures.sheet import MARGIN, ROOM, Sheet, numbered, rectangle
from firstfurrow.report.pictures.tractor import grooved
from firstfurrow.report.pictures.words import Say

_HIGH = 115.0  # of the parts; below stand the words
_NEEDED = {"arm": ("arms",), "end": ("shaft",), "side": ("bar", "pin")}
_WIDE = {"arm": 116.0, "end": 116.0, "side": 196.0}


def parts(sheet: Sheet, say: Say, numbers: Mapping[str, int], splines: int) -> None:
    """Those parts at which something is measured, side by side."""
    shown = _shown(numbers)
    if not shown:
        sheet.skip(12)
        return
    draw: dict[str, Callable[[], Iterator[Shape]]] = {
        "arm": lambda: _arm(numbers), "end": lambda: _end(numbers, splines), "side": lambda: _side(numbers),
    }  # fmt: skip
    gap = (ROOM - sum(_WIDE[id_] for id_ in shown)) / len(shown)
    sheet.skip(10)
    x, top, lowest = MARGIN + gap / 2, sheet.y, sheet.y
    for id_ in shown:
        sheet.add(*(moved(shape, x, top) for shape in draw[id_]()))
        y = top + _HIGH
        for line in lines(say(f"rear.part.{id_}"), _WIDE[id_] + gap - 12, "small", most=3):
            sheet.add(Label(x + _WIDE[id_] / 2, y, line, "middle", "small"))
            y += 15
        lowest = max(lowest, y)
        x += _WIDE[id_] + gap
    sheet.y = lowest - 4


def said(say: Say, numbers: Mapping[str, int]) -> tuple[str, ...]:
    """What the parts are, in one sentence."""
    shown = [say(f"rear.part.{id_}") for id_ in _shown(numbers)]
    return (say("rear.parts", parts="; ".join(shown)),) if shown else ()


def _shown(numbers: Mapping[str, int]) -> list[str]:
    return [id_ for id_, places in _NEEDED.items() if any(place in numbers for place in places)]


def moved(shape: Shape, x: float, y: float) -> Shape:
    """The same at another place."""
    if isinstance(shape, Line):
        return replace(shape, x1=shape.x1 + x, y1=shape.y1 + y, x2=shape.x2 + x, y2=shape.y2 + y)
    if isinstance(shape, (Area, Path)):
        return replace(shape, points=tuple((px + x, py + y) for px, py in shape.points))
    return replace(shape, x=shape.x + x, y=shape.y + y)


def _arm(numbers: Mapping[str, int]) -> Iterator[Shape]:
    """The eye of a lower arm with its ball, and an arrow across the hole."""
    yield Area(((0, 44), (52, 40), (52, 76), (0, 68)), "mid")
    yield Disc(70, 58, 30, "light")
    yield Disc(70, 58, 23, "paper")
    yield Disc(70, 58, 13, "paper", "thick")
    yield from _gap(57, 83, 58, 14)
    yield from numbered(100, 16, numbers["arms"])


def _end(numbers: Mapping[str, int], splines: int) -> Iterator[Shape]:
    """The end of the shaft, and an arrow across it."""
    yield from grooved(58, 58, 28, splines)
    yield from _gap(30, 86, 58, 14)
    yield from numbered(100, 16, numbers["shaft"])


def _gap(left: float, right: float, foot: float, y: float) -> Iterator[Shape]:
    """An arrow across above a part, with lines down to its edges."""
    yield Line(left, foot, left, y - 5, "thin")
    yield Line(right, foot, right, y - 5, "thin")
    yield Line(left, y, right, y, "thin", "both")


def _side(numbers: Mapping[str, int]) -> Iterator[Shape]:
    """Shaft and drawbar from the side: the wall of the tractor, the shaft above, the bar with its hole below."""
    wall, tip, hole = 22.0, 66.0, 142.0
    yield rectangle(0, 6, wall, 96, "light")
    yield Area(((wall, 22), (76, 22), (76, 27), (wall, 27)), "mid")  # shield
    yield rectangle(wall, 34, tip - wall, 16, "paper")
    for y in (38.0, 42.0, 46.0):
        yield Line(tip - 24, y, tip, y, "thin")
    yield rectangle(wall - 6, 82, 172, 13, "mid")
    yield rectangle(hole - 6, 82, 12, 13, "paper")
    if "pin" in numbers:
        yield Line(tip, 50, tip, 70, "dashed")
        yield Line(hole, 56, hole, 100, "dashed")
        yield Line(tip, 64, hole, 64, "thin", "both")
        yield from numbered((tip + hole) / 2, 64, numbers["pin"])
    if "bar" in numbers:
        yield Line(hole + 3, 88, 184, 64, "thin")
        yield Disc(hole + 3, 88, 2.2, "dark", "none")
        yield from numbered(184, 64, numbers["bar"])
