"""How a seesaw is drawn: a tractor on its ground, what presses on it, the arms of the levers, and the sum below."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfurrow.report.drawing import SIZES, Area, Drawing, Label, Line, Shape
from firstfurrow.report.pictures.letters import lines, width
from firstfurrow.report.pictures.places import Place
from firstfurrow.report.pictures.sheet import MARGIN, ROOM, WIDTH, Sheet, on_paper, rectangle

_HEAD = 28.0  # room above the tractor for what presses, besides its words
_ABOVE = 172.0  # the widest words above an arrow
_BESIDE = 96.0  # room for words beside an arrow
_TALL = 150.0  # the tractor is drawn no higher
_LEADING = 15.0


@dataclass(frozen=True, slots=True)
class Press:
    """Something that presses down: where (m ahead of the rear axle), how high it reaches (m), its words and mass."""

    along: float
    up: float
    words: str
    mass: str
    beside: Literal["left", "right"] | None = None  # its words stand beside its arrow, not above


@dataclass(frozen=True, slots=True)
class Scene:
    """All that one picture shows, in metres ahead of the rear axle, and the sum below it."""

    shapes: tuple[Shape, ...]
    left: float
    right: float
    tall: float
    pivot: float
    turns: str
    presses: tuple[Press, ...]
    arms: tuple[tuple[float, str, int], ...]  # from the pivot to here, its length in words, in which row
    sums: tuple[tuple[str, str], ...]
    results: tuple[tuple[str, str, float], ...]  # words, what it comes to, and that in kg for a bar


def drawn(scene: Scene) -> Drawing:
    """The whole drawing."""
    sheet = Sheet()
    left, right = (_BESIDE if any(p.beside == side_ for p in scene.presses) else 0.0 for side_ in ("left", "right"))
    long, room = scene.right - scene.left, ROOM - 16 - left - right
    scale = min(room / long, _TALL / scene.tall)
    start = MARGIN + 8 + left + (room - long * scale) / 2
    head = _HEAD + _LEADING * max(1 + len(_words(press)) for press in scene.presses if press.beside is None)
    place = Place(start - scene.left * scale, head + scene.tall * scale, scale)
    sheet.add(Line(MARGIN, place.y, WIDTH - MARGIN, place.y, "normal"), *place.put(scene.shapes))
    for press in scene.presses:
        sheet.add(*(_press(place, press, head) if press.beside is None else _beside(place, press)))
    sheet.add(*_pivot(place, scene), *_arms(place, scene))
    sheet.y = place.y + 34 + 22 * (1 + max(row for _, _, row in scene.arms))
    _sums(sheet, scene)
    return sheet.drawing()


def _words(press: Press) -> tuple[str, ...]:
    return lines(press.words, _ABOVE if press.beside is None else _BESIDE - 4, most=2)


def _press(place: Place, press: Press, head: float) -> Iterator[Shape]:
    """An arrow from the top of the sheet, with its words above it."""
    x, y = place.at(press.along, press.up)
    yield Line(x, head - 16, x, y - 2, "thick", "end")
    words = _words(press)
    wide = max(width(press.mass, bold=True), *map(width, words))
    middle = min(max(x, MARGIN + wide / 2), WIDTH - MARGIN - wide / 2)
    for number, line in enumerate((*words, press.mass)):
        foot = head - 22 - (len(words) - number) * _LEADING
        yield Label(middle, foot, line, "middle", bold=number == len(words))


def _beside(place: Place, press: Press) -> Iterator[Shape]:
    """A short arrow, with its words beside it."""
    x, y = place.at(press.along, press.up)
    yield Line(x, y - 46, x, y - 2, "thick", "end")
    words = _words(press)
    for number, line in enumerate((*words, press.mass)):
        foot, bold = y - 36 + number * _LEADING, number == len(words)
        if press.beside == "right":
            yield Label(x + 8, foot, line, bold=bold)
        else:
            yield Label(x - 8, foot, line, "end", bold=bold)


def _pivot(place: Place, scene: Scene) -> Iterator[Shape]:
    x, y = place.at(scene.pivot, 0)
    yield Area(((x, y + 1), (x - 11, y + 20), (x + 11, y + 20)), "dark")
    yield Label(x + 16, y + 17, scene.turns)


def _arms(place: Place, scene: Scene) -> Iterator[Shape]:
    pivot, ground = place.at(scene.pivot, 0)
    yield Line(pivot, ground + 20, pivot, ground + 40 + 22 * max(row for _, _, row in scene.arms), "thin")
    for along, words, row in scene.arms:
        x, _ = place.at(along, 0)
        y = ground + 36 + 22 * row
        yield Line(x, ground + 4, x, y + 4, "thin")
        yield Line(pivot, y, x, y, "thin", "both")
        middle = (pivot + x) / 2
        wide = width(words)
        yield from on_paper(Label(middle - wide / 2, y + 4.5, words))


def _sums(sheet: Sheet, scene: Scene) -> None:
    """A sum as on paper, each line with its figure at the right, and a bar for each of the two that are compared."""
    size = SIZES["normal"]
    for words, figure in scene.sums:
        begin = sheet.y
        sheet.words(words, room=ROOM - width(figure, bold=True) - 12, most=3)
        sheet.add(Label(WIDTH - MARGIN, begin + size, figure, "end"))
        sheet.skip(3)
    sheet.skip(3)
    sheet.add(Line(MARGIN, sheet.y, WIDTH - MARGIN, sheet.y, "normal"))
    most = max(kg for _, _, kg in scene.results)
    for number, (words, figure, kg) in enumerate(scene.results):
        sheet.skip(4)
        begin = sheet.y
        sheet.words(words, room=ROOM - width(figure, bold=True) - 12, bold=True, most=3)
        sheet.add(Label(WIDTH - MARGIN, begin + size, figure, "end", bold=True))
        sheet.skip(3)
        if kg > 0:
            sheet.add(rectangle(MARGIN, sheet.y, ROOM * kg / most, 12, "hatch" if number else "dark"))
        sheet.skip(14)
