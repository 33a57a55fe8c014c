"""The forward sweep: every state that walks through the book can be in, stage by stage, equal states merged.

A state is a set of bits (see `known`). A bit is dropped after its last reader.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from firstfurrow.book.facts import Subject
from firstfurrow.book.known import BitsOf, Known
from firstfurrow.book.model import Condition, Leaf, Question

MOST_STATES = 200_000


class TooManyStatesError(Exception):
    """More states than can be kept; `live` are the bits still needed at that stage."""

    def __init__(self, stage: str, live: int) -> None:
        self.stage = stage
        self.live = live
        super().__init__(stage)


@dataclass(slots=True)
class Stage:
    """One step of the walk: which bits it reads, and the states it leads to."""

    name: str
    reads: int
    steps: Callable[[int], Iterator[int]]


@dataclass(slots=True)
class Reader:
    """Evaluates one condition on states and remembers what it met."""

    when: Condition | None
    bits_of: BitsOf
    held: bool = False  # the condition held in some state
    unguarded: dict[Leaf, None] = field(default_factory=dict)  # tests that read an unasked question, in order
    true: set[Leaf] = field(default_factory=set)  # tests that were true in some state

    def reads(self) -> int:
        """The bits that the condition reads."""
        return _mask(self.when, self.bits_of)

    def __call__(self, state: int) -> bool:
        holds = self.when is None or self._condition(self.when, state)
        self.held = self.held or holds
        return holds

    def _condition(self, condition: Condition, state: int) -> bool:
        """As `conditions.evaluate`: parts in order, later ones not read once the answer is known."""
        if condition.op == "all":
            return all(self._part(part, state) for part in condition.parts)
        found = any(self._part(part, state) for part in condition.parts)
        return found if condition.op == "any" else not found

    def _part(self, part: Condition | Leaf, state: int) -> bool:
        if isinstance(part, Condition):
            return self._condition(part, state)
        bits = self.bits_of(part)
        if bits is None:
            return False
        asked, truth = bits
        if asked and not state & asked:
            self.unguarded.setdefault(part)
            return False
        if state & truth:
            self.true.add(part)
            return True
        return False


def _mask(part: Condition | Leaf | None, bits_of: BitsOf) -> int:
    if part is None:
        return 0
    if isinstance(part, Leaf):
        bits = bits_of(part)
        return 0 if bits is None else bits[0] | bits[1]
    mask = 0
    for inner in part.parts:
        mask |= _mask(inner, bits_of)
    return mask


def ask(known: Known, question: Question, reader: Reader, wordings: Sequence[Reader], asked: Callable[[int], None],
        stuck: Callable[[], None]) -> Stage:  # fmt: skip
    """The stage at which a question is asked when its condition holds.

    wordings
        The conditions of its other wordings: the first that holds takes the place of the usual one.
    asked, stuck
        Told of every state in which it is asked, and when it cannot be answered in one.
    """

    def steps(state: int) -> Iterator[int]:
        if not reader(state) or known.skipped(question, state):
            yield state
            return
        asked(state)
        any(wording(state) for wording in wordings)
        found = known.answers(question, state)
        if not found:  # a dead end; the walk goes on so that it is said once
            stuck()
            yield state
        for outcome in found:
            yield (state & ~outcome.clears) | outcome.bits

    reads = reader.reads()
    for wording in wordings:
        reads |= wording.reads()
    return Stage(question.id, reads | (known.class_bits if known.places[question.id].inside else 0), steps)


def look(name: str, reader: Reader) -> Stage:
    """A stage at which a condition is looked at, and nothing else happens."""

    def steps(state: int) -> Iterator[int]:
        reader(state)
        yield state

    return Stage(name, reader.reads(), steps)


def reveal(known: Known, subject: Subject, choice: str, told: frozenset[str]) -> Stage:
    """The stage at which it is first told whether a choice was among those picked.

    Choices are independent of each other but for one thing: something was picked. When every choice was told, the last
    one is therefore picked if none was before.
    """
    bit = subject.leaves["includes", choice][1]
    planned = choice in (subject.question.not_sure.planning or ())

    def steps(state: int) -> Iterator[int]:
        if state & subject.picking:
            there = known.choices(subject.question, state)
            if choice in there:
                yield state | bit | subject.picked
            if choice not in there or not told >= set(there) or state & subject.picked:
                yield state
        elif state & subject.planned and planned:
            yield state | bit
        else:
            yield state

    reads = subject.picking | subject.planned | subject.picked
    return Stage(subject.question.id, reads | (known.class_bits if not subject.question.choices else 0), steps)


@dataclass(slots=True)
class Sweep:
    """The states after the last stage."""

    stages: Sequence[Stage]
    keep: int = 0  # bits that are needed after the last stage
    widest: int = 0

    def run(self, start: int = 0) -> frozenset[int]:
        """Go through all stages."""
        needed = [self.keep]
        for stage in reversed(self.stages):
            needed.append(needed[-1] | stage.reads)
        needed.reverse()  # needed[i]: read at stage i or later
        states = {start}
        for index, stage in enumerate(self.stages):
            live = needed[index + 1]
            states = {after & live for state in states for after in stage.steps(state)}
            if len(states) > MOST_STATES:
                raise TooManyStatesError(stage.name, live)
            self.widest = max(self.widest, len(states))
        return frozenset(states)
