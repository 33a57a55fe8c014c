"""What a walk must remember: one bit for each answered test that a later condition still reads.

Two answers that no condition tells apart are one outcome. Numbers have one representative below, at, between and above
all thresholds; implements one for each combination of features, builds and sizes read.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, pairwise
from typing import Any

from firstfurrow.book.conditions import Held, passes
from firstfurrow.book.model import Kind, Leaf, Question
from firstfurrow.quantities import DIMENSIONS

NONE_OF_THESE = "none_of_these"
NOT_SURE = "not sure"


@dataclass(frozen=True, slots=True)
class Outcome:
    """One distinguishable answer: the bits it sets and clears, and an example as it can be typed."""

    bits: int
    words: str
    clears: int = 0


@dataclass(frozen=True, slots=True)
class Build:
    """What is known of an implement: its kind, and its build once that was asked."""

    kind: Kind
    variant: str | None = None

    @property
    def wished(self) -> tuple[str, ...]:
        """What oil could move on it without being a must, as the talk offers it."""
        found = (f for v in self.kind.variants if self.variant in (None, v.id) for f in v.oil)
        return tuple(dict.fromkeys(f.id for f in found if not f.must and f.is_link is None))


@dataclass(slots=True)
class Subject:
    """One question that conditions read, and the bits kept about its answer."""

    question: Question
    asked: int = 0
    leaves: dict[tuple[str, Any], tuple[Leaf, int]] = field(default_factory=dict)  # (test, value): leaf and its bit
    picking: int = 0  # several: choices were picked, each one is revealed when it is first read
    planned: int = 0  # several: not sure, the book's planned choices count
    picked: int = 0  # several: something was picked so far

    @property
    def revealed(self) -> tuple[str, ...]:
        """For `several`: the choices that conditions read, in order of first reading."""
        if self.question.type != "several":
            return ()
        return tuple(value for test, value in self.leaves if test == "includes" and value != NONE_OF_THESE)

    def bit(self, leaf: Leaf) -> int:
        """The bit of a test."""
        return self.leaves[leaf.test, leaf.value][1]

    def truths(self, held: Held) -> int:
        """The bits that an answer sets."""
        return sum(bit for leaf, bit in self.leaves.values() if passes(leaf, held))


class Bits:
    """Hands out bits."""

    def __init__(self) -> None:
        self._next = 1
        self.name: dict[int, str] = {}  # bit: the question it tells about

    def new(self, about: str) -> int:
        """A bit that nobody else has."""
        bit, self._next = self._next, self._next << 1
        self.name[bit] = about
        return bit

    def about(self, mask: int) -> list[str]:
        """The questions that the bits of a mask tell about."""
        return list(dict.fromkeys(name for bit, name in self.name.items() if mask & bit))


def make_subject(question: Question, leaves: Sequence[Leaf], bits: Bits) -> Subject:
    """A subject with a bit for each different test on it."""
    made = Subject(question, bits.new(question.id))
    for leaf in leaves:
        if (leaf.test, leaf.value) not in made.leaves:
            made.leaves[leaf.test, leaf.value] = (leaf, bits.new(question.id))
    if made.revealed:
        made.picking, made.planned, made.picked = (bits.new(question.id) for _ in range(3))
    return made


def nothing_to_ask(question: Question, build: Build, links: Collection[str]) -> bool:
    """True when the talk does not put a question with several choices: this build leaves nothing to wish for.

    The same as `asking.resolve.pointless`; a test holds that.
    """
    if question.type != "several":
        return False
    if not question.choices:
        return not build.wished
    tilting = any(choice.id in links for choice in question.choices)
    return tilting and any(v.id == build.variant and v.way != "three_point" for v in build.kind.variants)


def outcomes(
    question: Question, subject: Subject | None, builds: Sequence[Build] = (), *, apart: bool = False
) -> tuple[Outcome, ...]:
    """Every distinguishable answer to the question; empty when it cannot be answered at all.

    `builds` are what the implement may be, for questions whose choices come from it. Which of several choices were
    picked is told later, when it is first read (see `sweep.reveal`); with `apart` it is told here.
    """
    found: dict[int, Outcome] = {}
    for held, words in _answers(question, subject, builds, apart):
        bits = 0
        if subject is not None:
            bits = subject.asked | subject.truths(held)
            if subject.revealed and not apart and held.unsure:
                bits |= subject.planned
            elif subject.revealed and not apart and held.value == ():
                bits |= subject.picking
        found.setdefault(bits, Outcome(bits, words))
    return tuple(found.values())


def _answers(
    question: Question, subject: Subject | None, builds: Sequence[Build], apart: bool
) -> Iterator[tuple[Held, str]]:
    sort = question.type
    if sort == "choice":
        for choice in question.choices:
            yield Held(choice.id), choice.id
    elif sort == "several" and apart:
        yield from _picked(question, subject, builds)
    elif sort == "several":
        if pickable(question, builds):
            yield Held(()), "some"
        if question.choices == () or any(c.id == NONE_OF_THESE for c in question.choices):
            yield Held((NONE_OF_THESE,)), NONE_OF_THESE
    elif sort in ("quantity", "count"):
        unit = DIMENSIONS[question.dimension].working if question.dimension is not None else ""
        for number in _representatives(question, subject):
            yield Held(number), f"{number:g} {unit}".strip()
    elif sort == "kind":
        for build in builds:
            yield Held(build.kind.kind, features=build.kind.features), build.kind.kind
    elif sort == "variant":
        for build in builds:
            for variant in build.kind.variants:
                yield Held(variant.id), variant.id
    elif sort == "size":
        yield Held(None), "choose"
        for build in builds:
            for size in build.kind.sizes:
                sold = not size.variants or build.variant is None or build.variant in size.variants
                if size.value is not None and sold:
                    yield Held(size.value), size.id
    else:
        yield Held(None), "some text"
    if question.not_sure.how != "refused":
        planned = question.not_sure.planning
        yield Held(tuple(planned) if isinstance(planned, list) else planned, unsure=True), NOT_SURE


def pickable(question: Question, builds: Sequence[Build]) -> tuple[str, ...]:
    """The choices of a question with several, but for the one that excludes all others."""
    if question.choices:
        return tuple(c.id for c in question.choices if c.id != NONE_OF_THESE)
    return tuple(dict.fromkeys(name for build in builds for name in build.wished))


def _picked(question: Question, subject: Subject | None, builds: Sequence[Build]) -> Iterator[tuple[Held, str]]:
    """Answers to a question with several choices, one for each set of those read; the fewest choices first."""
    known = pickable(question, builds)
    read = [name for name in (subject.revealed if subject is not None else ()) if name in known]
    other = next((name for name in known if name not in read), None)
    for number in range(len(read) + 1):
        for some in combinations(read, number):
            chosen = some or (() if other is None else (other,))
            if chosen:
                yield Held(chosen), ", ".join(chosen)
    if question.choices == () or any(c.id == NONE_OF_THESE for c in question.choices):
        yield Held((NONE_OF_THESE,)), NONE_OF_THESE


def _representatives(question: Question, subject: Subject | None) -> list[float]:
    """Numbers below, at, between and above all thresholds, within what is possible."""
    tests = subject.leaves.values() if subject is not None else ()
    thresholds = sorted({float(leaf.value) for leaf, _ in tests if leaf.test in ("at_least", "below")})
    low, high = question.possible or ((thresholds[0] - 1, thresholds[-1] + 1) if thresholds else (0.0, 1.0))
    if question.type == "count":
        around = {n for t in (low, high, *thresholds) for n in (int(t) - 1, int(t), int(t) + 1)}
        return [float(n) for n in sorted(around) if low <= n <= high]
    inside = sorted({low, high, *(t for t in thresholds if low <= t <= high)}) if low <= high else []
    return sorted({*inside, *((a + b) / 2 for a, b in pairwise(inside))})
