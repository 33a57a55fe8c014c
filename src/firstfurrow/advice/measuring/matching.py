"""Rows of a table against what was measured: which fit, which fit with a little wear, which are ruled out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from firstfurrow.book.model import Figure, Row

Fit = Literal["fits", "close", "no", "open"]  # open: the book has no figure there
ORDER: tuple[Fit, ...] = ("fits", "close", "open", "no")


@dataclass(frozen=True, slots=True)
class Way:
    """One way to read a measure against a row: the expected figure, how far below or above it is still that row.

    Within `near` it fits; farther off, but within `below` and `above`, it is close: worn, or miscounted. Where `only`
    is given, that row fits and every other one is close. Where the figure is the `most` that a row has, less says
    nothing and more rules the row out.
    """

    figure: Callable[[Row], Figure | None]
    near: float
    below: float
    above: float
    only: str | None = None
    most: bool = False


@dataclass(frozen=True, slots=True)
class Probe:
    """One thing that was measured, and the ways in which it may be read; `name` is the id of its words."""

    part: str
    name: str
    value: float
    ways: tuple[Way, ...]

    @property
    def only_rules_out(self) -> bool:
        """True when it can speak against rows and never for one."""
        return all(way.most for way in self.ways)


@dataclass(frozen=True, slots=True)
class Mark:
    """How one probe fits one row; `figure` is what the row has."""

    probe: Probe
    fit: Fit
    figure: Figure | None = None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A row with the marks of all probes."""

    row: Row
    marks: tuple[Mark, ...]

    def count(self, fit: Fit) -> int:
        """How many probes fit so."""
        return sum(mark.fit == fit for mark in self.marks)

    @property
    def possible(self) -> bool:
        """True when nothing that was measured rules it out, and something speaks for it."""
        return self.count("no") == 0 and self.count("fits") + self.count("close") > 0

    @property
    def rank(self) -> tuple[int, int]:
        """The best first: little that is only close, much that fits."""
        return self.count("close"), -self.count("fits")


def column(name: str) -> Callable[[Row], Figure | None]:
    """The figure of a row in that column."""
    return lambda row: row.figures.get(name)


def judge(row: Row, probe: Probe) -> Mark:
    """The best reading of one probe for one row."""
    marks = [_read(row, probe, way) for way in probe.ways]
    return min(marks, key=lambda mark: ORDER.index(mark.fit))


def _read(row: Row, probe: Probe, way: Way) -> Mark:
    figure = way.figure(row)
    if figure is None:
        return Mark(probe, "open")
    if way.only is not None:
        return Mark(probe, "fits" if row.id == way.only else "close", figure)
    off = round(probe.value - figure.planning, 6)
    if way.most:
        return Mark(probe, "no" if off > way.near else "open", figure)
    if abs(off) <= way.near:
        return Mark(probe, "fits", figure)
    if -way.below <= off <= way.above:
        return Mark(probe, "close", figure)
    return Mark(probe, "no", figure)


def match(rows: Iterable[Row], probes: Sequence[Probe]) -> tuple[Candidate, ...]:
    """Every row with its marks, in the order of the book."""
    return tuple(Candidate(row, tuple(judge(row, probe) for probe in probes)) for row in rows)


def best(candidates: Iterable[Candidate]) -> tuple[tuple[Candidate, ...], tuple[Candidate, ...]]:
    """The possible candidates: those that fit best, and the others."""
    possible = [c for c in candidates if c.possible]
    top = min((c.rank for c in possible), default=None)
    return tuple(c for c in possible if c.rank == top), tuple(c for c in possible if c.rank != top)


def nearly(candidates: Iterable[Candidate]) -> tuple[tuple[Candidate, Mark], ...]:
    """Candidates that one measure alone rules out while another fits, with the mark that does; the nearest first."""
    found: list[tuple[Candidate, Mark]] = []
    for candidate in candidates:
        against = [mark for mark in candidate.marks if mark.fit == "no"]
        if len(against) == 1 and candidate.count("fits") > 0:
            found.append((candidate, against[0]))
    return tuple(sorted(found, key=lambda pair: _off(pair[1])))


def _off(mark: Mark) -> float:
    """How far off a measure is, as a share of what it must be."""
    assert mark.figure is not None
    return abs(mark.probe.value - mark.figure.planning) / mark.figure.planning
