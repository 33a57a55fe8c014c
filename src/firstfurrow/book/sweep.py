"""The forward sweep: every state that walks through the book can be in, stage by stage, equal states merged.

A state is a set of bits (see `facts`). A bit is dropped after its last reader. For every state one parent is kept, so
that a finding can show answers that lead to it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from firstfurrow.book.facts import Outcome, Subject
from firstfurrow.book.model import Condition, Leaf, Question

MOST_STATES = 200_000

Step = tuple[int, str | tuple[str, ...] | None]  # next state, and the answers that lead to it in words
Parents = dict[int, tuple[int, str | tuple[str, ...] | None]]


class TooManyStatesError(Exception):
    """More states than can be kept; `live` are the bits still needed at that stage."""

    def __init__(self, stage: str, live: int) -> None:
        self.stage = stage
        self.live = live
        super().__init__(stage)


@dataclass(slots=True)
class Stage:
    """One step of the walk: which bits it reads, and where it leads from a state."""

    name: str
    reads: int
    steps: Callable[[int], Iterator[Step]]


@dataclass(slots=True)
class Reader:
    """Evaluates one condition on states and remembers what it met."""

    question: Question
    bit_of: Callable[[Leaf], tuple[int, int] | None]  # asked bit (0: never unasked) and truth bit; None: no such thing
    held: int | None = None  # a state in which the condition held
    unguarded: dict[Leaf, int] = field(default_factory=dict)  # leaf: a state in which it read an unasked question
    true: set[Leaf] = field(default_factory=set)  # leaves that were true in some state

    def reads(self) -> int:
        """The bits that the condition reads."""
        return _mask(self.question.when, self.bit_of)

    def __call__(self, state: int) -> bool:
        holds = self.question.when is None or self._condition(self.question.when, state)
        if holds and self.held is None:
            self.held = state
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
        bits = self.bit_of(part)
        if bits is None:
            return False
        asked, truth = bits
        if asked and not state & asked:
            self.unguarded.setdefault(part, state)
            return False
        if state & truth:
            self.true.add(part)
            return True
        return False


def _mask(part: Condition | Leaf | None, bit_of: Callable[[Leaf], tuple[int, int] | None]) -> int:
    if part is None:
        return 0
    if isinstance(part, Leaf):
        bits = bit_of(part)
        return 0 if bits is None else bits[0] | bits[1]
    mask = 0
    for inner in part.parts:
        mask |= _mask(inner, bit_of)
    return mask


def ask(reader: Reader, answers: Callable[[int], Sequence[Outcome]]) -> Stage:
    """The stage at which a question is asked when its condition holds."""

    def steps(state: int) -> Iterator[Step]:
        if not reader(state):
            yield state, None
            return
        found = answers(state)
        if not found:  # a dead end; said elsewhere, and the walk goes on so that it is said once
            yield state, None
        for outcome in found:
            yield state | outcome.bits, outcome.words if outcome.bits else None

    return Stage(reader.question.id, reader.reads(), steps)


def reveal(subject: Subject, choice: str, last: bool) -> Stage:
    """The stage at which it is first told whether a choice was among those picked.

    Choices are independent of each other but for one thing: something was picked. When every choice is read, the last
    one is therefore picked if none was before.
    """
    bit = subject.leaves["includes", choice][1]
    planned = choice in (subject.question.not_sure.planning or ())
    name = subject.question.id

    def steps(state: int) -> Iterator[Step]:
        if state & subject.picking:
            yield state | bit | subject.picked, f"{name}: {choice}"
            if not last or state & subject.picked:
                yield state, f"{name}: not {choice}"
        elif state & subject.planned and planned:
            yield state | bit, None
        else:
            yield state, None

    return Stage(name, subject.picking | subject.planned | subject.picked, steps)


@dataclass(slots=True)
class Sweep:
    """The states before each stage, and after the last."""

    stages: Sequence[Stage]
    starts: Sequence[int]
    keep: int = 0  # bits that are needed after the last stage
    parents: list[Parents] = field(default_factory=list)
    widest: int = 0

    def run(self) -> list[int]:
        """Go through all stages; the states after the last one."""
        needed = [self.keep]
        for stage in reversed(self.stages):
            needed.append(needed[-1] | stage.reads)
        needed.reverse()  # needed[i]: read at stage i or later
        states = list(dict.fromkeys(self.starts))
        for index, stage in enumerate(self.stages):
            live = needed[index + 1]
            after: Parents = {}
            for state in states:
                for following, words in stage.steps(state):
                    after.setdefault(following & live, (state, words))
            if len(after) > MOST_STATES:
                raise TooManyStatesError(stage.name, live)
            self.parents.append(after)
            self.widest = max(self.widest, len(after))
            states = list(after)
        return states

    def trace(self, stage: int, state: int) -> tuple[int, tuple[str, ...]]:
        """From a state before that stage back to the start: the start, and the answers in order."""
        told: list[str] = []
        for parents in reversed(self.parents[:stage]):
            state, words = parents[state]
            if isinstance(words, str):
                told.append(words)
            elif words is not None:
                told += reversed(words)
        return state, tuple(reversed(told))
