"""What a walk must remember: one bit for each answered test that a later condition still reads.

Two answers that no condition tells apart are one outcome. Numbers have one representative below, at, between and above
all thresholds; kinds one for each combination of features read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from firstfurrow.book.conditions import Held, passes
from firstfurrow.book.model import Kind, Leaf, Question

NONE_OF_THESE = "none_of_these"


@dataclass(frozen=True, slots=True)
class Outcome:
    """One distinguishable answer: the bits it sets, and an example in words."""

    bits: int
    words: str


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


def outcomes(question: Question, subject: Subject | None, kinds: Sequence[Kind]) -> tuple[Outcome, ...]:
    """Every distinguishable answer to the question; empty when it cannot be answered at all.

    `kinds` are the kinds that the implement may be of, for questions whose choices come from the kind.
    """
    found: dict[int, Outcome] = {}
    for held, words in _answers(question, subject, kinds):
        bits = 0
        if subject is not None:
            bits = subject.asked | subject.truths(held)
            if subject.revealed and held.unsure:
                bits |= subject.planned
            elif subject.revealed and held.value == ():
                bits |= subject.picking
        found.setdefault(bits, Outcome(bits, f"{question.id}: {words}"))
    return tuple(found.values())


def _answers(question: Question, subject: Subject | None, kinds: Sequence[Kind]) -> Iterator[tuple[Held, str]]:
    sort = question.type
    if sort == "choice":
        for choice in question.choices:
            yield Held(choice.id), choice.id
    elif sort == "several":
        if question.choices == () or any(c.id != NONE_OF_THESE for c in question.choices):
            yield Held(()), "some"
        if any(c.id == NONE_OF_THESE for c in question.choices):
            yield Held((NONE_OF_THESE,)), NONE_OF_THESE
    elif sort in ("quantity", "count"):
        for number in _representatives(question, subject):
            yield Held(number), f"{number:g}"
    elif sort == "kind":
        for kind in kinds:
            yield Held(kind.kind, features=kind.features), kind.kind
    elif sort == "variant":
        for name in dict.fromkeys(v.id for kind in kinds for v in kind.variants):
            yield Held(name), name
    elif sort == "size":
        yield Held(None), "choose"
        for size in (s for kind in kinds for s in kind.sizes if s.value is not None):
            yield Held(size.value), size.id
    else:
        yield Held(None), "some text"
    if question.not_sure.how != "refused":
        planned = question.not_sure.planning
        yield Held(tuple(planned) if isinstance(planned, list) else planned, unsure=True), "not sure"


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


def kind_classes(
    question: Question, subject: Subject | None, dependent: Mapping[str, Subject], kinds: Sequence[Kind]
) -> list[tuple[int, list[Kind]]]:
    """Kinds that no condition tells apart, together: the bits they set, and the kinds."""
    classes: dict[tuple[Any, ...], tuple[int, list[Kind]]] = {}
    for kind in kinds:
        held = Held(kind.kind, features=kind.features)
        bits = 0 if subject is None else subject.asked | subject.truths(held)
        later = tuple(frozenset(o.bits for o in outcomes(s.question, s, [kind])) for s in dependent.values())
        classes.setdefault((bits, later), (bits, []))[1].append(kind)
    return list(classes.values())
