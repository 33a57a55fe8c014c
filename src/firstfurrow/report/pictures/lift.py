"""Lift over distance: every load on the arms, and the line of a tractor that just lifts them all."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from firstfurrow.advice.pictured.lifts import Lifts, Load, lifts
from firstfurrow.quantities import Units, format_number, reader_unit
from firstfurrow.reasoning import Ends
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import SIZES, Disc, Label, Line, Path, Shape
from firstfurrow.report.page import Page
from firstfurrow.report.pictures.axis import Axis, axis
from firstfurrow.report.pictures.letters import box, width
from firstfurrow.report.pictures.sheet import MARGIN, WIDTH, Sheet, numbered, on_paper, rectangle
from firstfurrow.report.pictures.spots import Box, Spots, between
from firstfurrow.report.pictures.values import bare, mass, near
from firstfurrow.report.pictures.words import Say, sayer

LEFT, RIGHT, TOP, BOTTOM = 62.0, WIDTH - 14.0, 34.0, 300.0  # the frame between the two scales
_RING, _AWAY = 10.0, 19.0  # a number in its ring, and how far beside its point it stands


def pictures(page: Page) -> Iterator[Picture]:
    """One picture where anything is carried on the arms."""
    found = lifts(page.profile)
    if found is None:
        return
    say, units = sayer(page.book), page.profile.units
    scales = scales_for(found, units)
    drawn = _Drawn(say, units, found, scales)
    yield Picture("lift", say("lift_title"), drawn.sheet().drawing(), tuple(_says(say, units, found, scales)))


def scales_for(found: Lifts, units: Units) -> tuple[Axis, Axis]:
    """The scale of distance (m) and that of mass (kg): both begin at nought and leave a little room beyond."""
    far = max([found.test, *(_high(load.distance) for load in found.loads)])
    heavy = max([found.at_ends.stated, *(_high(load.mass) for load in found.loads)])
    distance = "in" if units == "us" else "m"
    return (
        axis("m", distance, far * 1.12, (LEFT, RIGHT), dozens=units == "us"),
        axis("kg", reader_unit("mass", units), heavy * 1.08, (BOTTOM, TOP)),
    )


def _high(reach: Ends) -> float:
    return reach.planning if reach.high is None else reach.high


# ----------------------------------------------------------------------- drawing


class _Drawn:
    """The drawing, from back to front."""

    def __init__(self, say: Say, units: Units, found: Lifts, scales: tuple[Axis, Axis]) -> None:
        self.say, self.units, self.found = say, units, found
        self.x, self.y = scales
        self.spots = Spots((LEFT + 3, 4.0, WIDTH - 4, BOTTOM - 3))
        self.front: list[Shape] = []  # what lies on top of the lines

    def sheet(self) -> Sheet:
        sheet = Sheet()
        sheet.add(*self._scales(), *self._lines(), *self._loads(), *self._asked(), *self._rings())
        sheet.add(*self.front)
        sheet.y = BOTTOM + 62
        for number, load in enumerate(self.found.loads, 1):
            sheet.skip(6)
            at = sheet.y + 12
            sheet.add(*numbered(MARGIN + _RING, at, number))
            sheet.y = at - SIZES["normal"] * 0.65
            sheet.words(_listed(self.say, self.units, load), x=MARGIN + 2 * _RING + 8)
            sheet.y = max(sheet.y, at + _RING)
        sheet.skip(8)
        for shapes, words in self._key():
            at = sheet.y + SIZES["normal"] * 0.65
            sheet.add(*(shapes(at)))
            sheet.words(words, x=MARGIN + 40)
            sheet.skip(3)
        return sheet

    def _key(self) -> Iterator[tuple[Callable[[float], tuple[Shape, ...]], str]]:
        """What each sign means: a sample at a height, and the words beside it."""
        left, right = MARGIN, MARGIN + 30
        middle = (left + right) / 2
        yield lambda y: (Line(left, y, right, y),), self.say("lift_standing")
        yield lambda y: (Line(left, y, right, y, "dashed"),), self.say("lift_moving")
        yield lambda y: (_square(middle, y),), self.say("lift_asked")
        if any(_ranged(load) for load in self.found.loads):
            yield (
                lambda y: (Line(left, y, right, y, "thin"), Line(middle, y - 7, middle, y + 7, "thin"),
                           Disc(middle, y, 4, "dark", "thin")),
                self.say("lift_cross"),
            )  # fmt: skip

    def _scales(self) -> Iterator[Shape]:
        yield Label(MARGIN, 20, self.say("lift_side", unit=self.y.unit))
        yield Line(LEFT, BOTTOM, LEFT, TOP - 10, "normal", "end")
        yield Line(LEFT, BOTTOM, RIGHT + 8, BOTTOM, "normal", "end")
        for step in self.y.steps:
            y = self.y.of_step(step)
            yield Line(LEFT - 5, y, LEFT, y, "thin")
            yield Label(LEFT - 8, y + 4.5, format_number(step, 2), "end")
        test = self.x.at(self.found.test)
        marked = Label(test, BOTTOM + 18, bare(near(self.found.test, self.units)), "middle", bold=True)
        for step in self.x.steps:
            x = self.x.of_step(step)
            yield Line(x, BOTTOM, x, BOTTOM + 5, "thin")
            label = Label(x, BOTTOM + 18, format_number(step, 2), "middle")
            if box(label)[2] < box(marked)[0] - 5 or box(label)[0] > box(marked)[2] + 5:
                yield label
        yield Line(test, BOTTOM, test, BOTTOM + 5, "normal")
        yield marked
        # An arm that ends where the scale begins.
        yield Line(MARGIN, BOTTOM + 34, LEFT, BOTTOM + 34, "thick")
        yield Disc(LEFT, BOTTOM + 34, 5, "paper")
        yield Line(LEFT + 10, BOTTOM + 34, RIGHT + 8, BOTTOM + 34, "thin", "end")
        yield Label(LEFT, BOTTOM + 54, self.say("lift_below", unit=self.x.unit))

    def _lines(self) -> Iterator[Shape]:
        test = self.x.at(self.found.test)
        yield Line(test, BOTTOM, test, self.y.at(self.found.at_test.stated), "thin")
        self.spots.line(between(test, BOTTOM, test, self.y.at(self.found.at_test.stated)))
        full, broken = self.line(self.found.lifted), self.line(self.found.moving)
        yield Path(full, "normal")
        yield Path(broken, "dashed")
        self.spots.line(full)
        self.spots.line(broken)

    def line(self, lift: Callable[[float], float]) -> tuple[tuple[float, float], ...]:
        """A line from the arm ends to the end of the scale, in short pieces."""
        distances = [self.x.most * number / 80 for number in range(81)]
        return tuple((self.x.at(d), self.y.at(lift(d))) for d in distances)

    def _loads(self) -> Iterator[Shape]:
        """A dot where it hangs, with a cross where it is not known exactly."""
        for load in self.found.loads:
            x, y = self.place(load)
            for at, low, high, across in (
                (self.x.at, load.distance.low, load.distance.high, True),
                (self.y.at, load.mass.low, load.mass.high, False),
            ):
                if low is None or high is None or low == high:
                    continue
                ends = (at(low), y, at(high), y) if across else (x, at(low), x, at(high))
                yield Line(*ends, "thin")
                self.spots.line(between(*ends))
                for end in (low, high):
                    cap = (at(end), y - 4, at(end), y + 4) if across else (x - 4, at(end), x + 4, at(end))
                    yield Line(*cap, "thin")
            self.front.append(Disc(x, y, 4, "dark", "thin"))
            self.spots.take((x - 5, y - 5, x + 5, y + 5))

    def place(self, load: Load) -> tuple[float, float]:
        """Where it hangs, as planned."""
        return self.x.at(load.distance.planning), self.y.at(load.mass.planning)

    def _asked(self) -> Iterator[Shape]:
        """The three requirements: a square at each, with its name and figure."""
        say, found, heavy = self.say, self.found, heaviest(self.found)
        three = (
            (0.0, found.at_ends, say("lift_at_ends")),
            (found.test, found.at_test, say("lift_at_test", distance=bare(near(found.test, self.units)))),
            (heavy.distance.planning, found.at_load, say("lift_at_load", number=found.loads.index(heavy) + 1)),
        )
        squares = [(self.x.at(distance), self.y.at(asked.stated)) for distance, asked, _ in three]
        for x, y in squares:
            self.front.append(_square(x, y))
            self.spots.take((x - 6, y - 6, x + 6, y + 6))
        for (x, y), (_, asked, where) in zip(squares, three, strict=True):
            value = bare(asked.shown)
            yield from self._label(x, y, where, value)

    def _label(self, x: float, y: float, where: str, value: str) -> Iterator[Shape]:
        wide = max(width(where), width(value, bold=True))
        spots = [(x + dx, y + dy) for dx, dy in _beside(wide, 30.0, 12.0)]
        left, top = spots[self.spots.best([(sx, sy, sx + wide, sy + 31) for sx, sy in spots])]
        if math.dist((x, y), (min(max(x, left), left + wide), min(max(y, top), top + 31))) > 14:
            yield Line(x, y, min(max(x, left), left + wide), min(max(y, top), top + 31), "thin")
        for label in (Label(left, top + 12, value, bold=True), Label(left, top + 27, where)):
            self.front += on_paper(label)

    def _rings(self) -> Iterator[Shape]:
        """The number of each load beside its dot."""
        for number, load in enumerate(self.found.loads, 1):
            x, y = self.place(load)
            spots = [
                (x + away * math.cos(turn * math.pi / 6), y - away * math.sin(turn * math.pi / 6))
                for away in (_AWAY, _AWAY + 9, _AWAY + 20, _AWAY + 34, _AWAY + 50)
                for turn in (1, 2, 11, 10, 5, 4, 7, 8, 0, 6, 3, 9)
            ]
            sx, sy = spots[self.spots.best([_around(*spot) for spot in spots])]
            yield Line(x, y, sx, sy, "thin")
            self.front += numbered(sx, sy, number)


def _beside(wide: float, high: float, gap: float) -> Iterator[tuple[float, float]]:
    """Offsets of the upper left corner of a label around its point: right and above first, then further away."""
    for more in (0, 10, 22, 36, 54, 74):
        away = gap + more
        yield from (
            (away, -high - more * 0.6), (away, -high / 2), (-wide / 2, -high - away), (away, more * 0.6),
            (-wide / 2, away), (-wide - away, -high - more * 0.6), (-wide - away, more * 0.6),
        )  # fmt: skip


def _square(x: float, y: float) -> Shape:
    return rectangle(x - 5, y - 5, 10, 10, "paper")


def _around(x: float, y: float) -> Box:
    return x - _RING, y - _RING, x + _RING, y + _RING


def heaviest(found: Lifts) -> Load:
    """The load that sets what must be lifted at the load."""
    governing = found.at_load.governed_by
    assert governing is not None
    return next(load for load in found.loads if load.hookup == governing.hookup)


def _ranged(load: Load) -> bool:
    return load.mass.low != load.mass.high or load.distance.low != load.distance.high


def _listed(say: Say, units: Units, load: Load) -> str:
    slots = {
        "name": load.name, "mass": bare(mass(load.mass.planning, units)),
        "distance": bare(near(load.distance.planning, units)),
    }  # fmt: skip
    return say("lift_listed_later", **slots) if load.later else say("lift_listed", **slots)


# -------------------------------------------------------------------------- words


def _says(say: Say, units: Units, found: Lifts, scales: Sequence[Axis]) -> Iterator[str]:
    distances, masses = scales
    far, most = near(distances.most, units), mass(masses.most, units)
    yield say("lift_says_intro", far=far, most=most)
    yield say(
        "lift_says_steps", mass=f"{format_number(masses.step, 2)} {masses.unit}",
        distance=f"{format_number(distances.step, 2)} {distances.unit}",
    )  # fmt: skip
    if any(load.later for load in found.loads):
        yield say("lift_says_later")
    for number, load in enumerate(found.loads, 1):
        yield " ".join(_says_load(say, units, number, load))
    test, heavy = near(found.test, units), heaviest(found)
    yield say("lift_says_ends", shown=found.at_ends.shown)
    yield say("lift_says_test", distance=test, shown=found.at_test.shown)
    yield say(
        "lift_says_at_load", name=heavy.name, distance=near(heavy.distance.planning, units), shown=found.at_load.shown
    )  # fmt: skip
    end = mass(round(found.lifted(distances.most)), units)
    yield say("lift_says_standing", distance=test, end=end, far=far)
    yield say("lift_says_moving", share=format_number(100 * found.movement, 0))
    yield say("lift_says_linkage")
    yield say("lift_caution")
    yield say("lift_caution_front")


def _says_load(say: Say, units: Units, number: int, load: Load) -> Iterator[str]:
    slots = {
        "number": number, "name": load.name, "mass": mass(load.mass.planning, units),
        "distance": near(load.distance.planning, units),
    }  # fmt: skip
    yield say("lift_says_load_later", **slots) if load.later else say("lift_says_load", **slots)
    lightest, heaviest_ = (None if m is None else mass(m, units) for m in (load.mass.low, load.mass.high))
    if lightest is not None and heaviest_ is not None and lightest != heaviest_:
        yield say("lift_says_mass", low=lightest, high=heaviest_)
    nearest, furthest = (None if d is None else near(d, units) for d in (load.distance.low, load.distance.high))
    if nearest is not None and furthest is not None and nearest != furthest:
        yield say("lift_says_distance", low=nearest, high=furthest)
