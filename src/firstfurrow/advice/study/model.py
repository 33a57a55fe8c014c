"""What a study holds: ways out that were tried, the profile without each item, doubts in order, and what is unusual."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from firstfurrow.advice.changes import Change


@dataclass(frozen=True, slots=True)
class Move:
    """One requirement that differs between two profiles, in the reader's words; None where nothing asks for it."""

    requirement: str
    thing: str  # row of the table of felt steps: several requirements may be one thing to the buyer
    before: str | None
    after: str | None
    steps: float  # in steps that a buyer feels


@dataclass(frozen=True, slots=True)
class Difference:
    """Everything that differs between two profiles, furthest first."""

    moves: tuple[Move, ...]
    size_class: tuple[str, str] | None  # names of the size classes before and after, where they differ
    comes: tuple[str, ...]  # titles of conflicts and refusals
    goes: tuple[str, ...]
    steps: float

    @property
    def nothing(self) -> bool:
        """True when the buyer feels no difference."""
        return not (self.moves or self.size_class or self.comes or self.goes)

    @property
    def leading(self) -> tuple[Move, ...]:
        """Of each thing the requirement that moves furthest."""
        found: dict[str, Move] = {}
        for move in self.moves:
            found.setdefault(move.thing, move)
        return tuple(found.values())


@dataclass(frozen=True, slots=True)
class Way:
    """One change that was tried on this plan, and what comes of it."""

    changes: tuple[Change, ...]  # one; several where only together they end it
    ends: bool
    comes: tuple[str, ...]  # titles of conflicts and refusals that it brings
    gives_way: Literal["nice", "must"] | None  # rank of the item that gives way; None when none does
    difference: Difference
    text: str


@dataclass(frozen=True, slots=True)
class WaysOut:
    """The ways out of one conflict or refusal: those that were tried, best first, and the advice that was not."""

    sort: Literal["refusal", "conflict"]
    index: int
    kind: str
    tried: tuple[Way, ...]
    untried: int  # changes that were left untried, to keep the answer short
    advice: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Without:
    """The profile without one item, or without the other load on wheels."""

    item: str
    name: str
    difference: Difference
    text: str


@dataclass(frozen=True, slots=True)
class WithoutEach:
    """Every item left out in turn: those that move something, furthest first, and the names of the others."""

    moving: tuple[Without, ...]
    still: tuple[str, ...]
    untried: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ahead:
    """The price of planning ahead: what comes on top of what is sure, for the items that may come later."""

    names: tuple[str, ...]
    difference: Difference
    lines: tuple[str, ...]  # one sentence for each thing that comes on top


@dataclass(frozen=True, slots=True)
class End:
    """One other way that an unknown may turn out, and what moves then."""

    words: str
    lead: str  # the same as the beginning of a sentence
    difference: Difference


@dataclass(frozen=True, slots=True)
class Doubt:
    """One unknown or estimate: what was taken, how it may turn out, and how far that moves the profile."""

    sort: Literal["unknown", "estimate"]
    question: str  # question id; of an estimate the row of its table
    item: str | None
    what: str
    taken: str
    ends: tuple[End, ...]  # those that move something
    steps: float
    how: str | None  # guide id
    text: str


@dataclass(frozen=True, slots=True)
class Doubts:
    """All doubts: ranked, those that move nothing, and those that were not tried."""

    ranked: tuple[Doubt, ...]
    still: tuple[tuple[str, str | None], ...]  # unknowns that move nothing: question and item
    still_names: tuple[str, ...]
    untried: tuple[str, ...]
    runs: int  # how often the whole road was run


@dataclass(frozen=True, slots=True)
class Plausibility:
    """Which size class the profile points to, what pushes it there, and what rarely stands together."""

    size_class: str | None
    pushed_by: tuple[str, ...]  # requirement ids
    alone: bool  # each of them alone: without it a smaller class would do
    smaller: str | None  # the class that would do without
    text: str
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Study:
    """Everything that takes more than one run of the road."""

    ways: tuple[WaysOut, ...]
    without: WithoutEach
    ahead: Ahead | None
    doubts: Doubts
    plausibility: Plausibility

    def ways_for(self, sort: str, index: int) -> WaysOut | None:
        """The ways out of one conflict or refusal of the profile."""
        return next((w for w in self.ways if w.sort == sort and w.index == index), None)


def furthest_first(moves: Sequence[Move]) -> tuple[Move, ...]:
    """Moves in order of steps; equal ones stay in book order."""
    return tuple(sorted(moves, key=lambda move: -move.steps))
