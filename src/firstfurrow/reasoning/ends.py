"""Low, planning and high of a step: every leaf below it moved to the end that lowers or raises it."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from firstfurrow.reasoning.formulas import EITHER, LOWERS, RAISES, NoSolutionError
from firstfurrow.reasoning.steps import Step


@dataclass(frozen=True, slots=True)
class Ends:
    """Low, planning and high of one step; low or high is None where there is no solution at that end."""

    low: float | None
    planning: float
    high: float | None


def ancestors(top: Step) -> list[Step]:
    """`top` and everything it rests on, in ledger order."""
    found = {top.index: top}
    queue = [top]
    while queue:
        for step in (queue.pop().inputs or {}).values():
            if step.index not in found:
                found[step.index] = step
                queue.append(step)
    return [found[index] for index in sorted(found)]


@dataclass(slots=True)
class Reach:
    """Which ranged leaves move a step, and how far. Sets of leaves are bits: the leaf of index 5 is 1 << 5.

    A leaf that is in both sets moves the step both ways; then low and high are found by trying, when they are wanted.
    """

    raising: int
    lowering: int
    low: float | None
    high: float | None
    tried: tuple[float, Mapping[int, float]] | Literal["never"] | None = None  # the greatest that trying found

    @property
    def both_ways(self) -> bool:
        """True when some leaf both raises and lowers the step."""
        return self.raising & self.lowering != 0


Memo = dict[int, Reach]


def ends(top: Step, memo: Memo | None = None) -> Ends:
    """Low, planning and high of a step: every leaf below it moved to the end that lowers or raises it.

    A leaf that does both (through different formulas) is tried at its ends and as planned; it keeps one value
    throughout a case. `memo` keeps what was found for the steps below, for the next call on the same ledger.
    """
    if not top.moves:
        return Ends(top.value, top.value, top.value)
    found = _reach(top, {} if memo is None else memo)
    low = _least(top) if found.both_ways else found.low
    return Ends(low, top.value, _highest(top, found))


def highest(top: Step, memo: Memo | None = None) -> float | None:
    """The high end alone, which takes less trying."""
    return float(top.value) if not top.moves else _highest(top, _reach(top, {} if memo is None else memo))


def _highest(top: Step, reach: Reach) -> float | None:
    if not reach.both_ways:
        return reach.high
    greatest = _tried(top, reach)
    return None if greatest is None else greatest[0]


def ends_by_trying(top: Step) -> Ends:
    """The same by trying alone, whether some leaf moves it both ways or not."""
    greatest = _greatest(top)
    return Ends(_least(top), top.value, None if greatest is None else greatest[0])


def worst_leaves(top: Step, memo: Memo | None = None) -> Mapping[int, float] | None:
    """The leaf values, by index, that make `top` greatest; None where some end has no solution."""
    if not top.moves:
        return {}
    found = _reach(top, {} if memo is None else memo)
    if found.both_ways:
        greatest = _tried(top, found)
        return None if greatest is None else greatest[1]
    if found.high is None:
        return None
    _, ranged = _moving(top)
    return {leaf.index: _high(leaf) if found.raising >> leaf.index & 1 else _low(leaf) for leaf in ranged}


# ------------------------------------------------------------- by way of the inputs


def _reach(step: Step, memo: Memo) -> Reach:
    found = memo.get(step.index)
    if found is None:
        leaf = step.inputs is None
        found = memo[step.index] = (
            Reach(1 << step.index, 0, _low(step), _high(step)) if leaf else _reach_of_inputs(step, memo)
        )
    return found


def _reach_of_inputs(step: Step, memo: Memo) -> Reach:
    """Ends worked out from the ends of the inputs, unless some leaf moves the step both ways."""
    assert step.inputs is not None
    assert step.how.directions is not None
    raising = lowering = 0
    lows: dict[str, float | None] = {}
    highs: dict[str, float | None] = {}
    for name, below in step.inputs.items():
        if not below.moves:
            lows[name] = highs[name] = below.value
            continue
        own, reach = step.how.directions[name], memo.get(below.index) or _reach(below, memo)
        if own == RAISES:
            raising |= reach.raising
            lowering |= reach.lowering
            lows[name], highs[name] = reach.low, reach.high
        elif own == LOWERS:
            raising |= reach.lowering
            lowering |= reach.raising
            lows[name], highs[name] = reach.high, reach.low
        else:
            raising |= reach.raising | reach.lowering
            lowering |= reach.raising | reach.lowering
    if raising & lowering:
        return Reach(raising, lowering, None, None)
    return Reach(raising, lowering, _worked(step, lows), _worked(step, highs))


def _worked(step: Step, values: Mapping[str, float | None]) -> float | None:
    if None in values.values():
        return None
    assert step.how.run is not None
    try:
        return round(step.how.run(**values), step.how.digits)
    except NoSolutionError:
        return None


# ------------------------------------------------------------------------ by trying


# Every leaf that moves a step one way stands at its end, every other one at both ends and as planned, in all mixtures.


def _tried(top: Step, reach: Reach) -> tuple[float, Mapping[int, float]] | None:
    """The greatest value and its leaves, tried once; None where some mixture has no solution."""
    if reach.tried is None:
        reach.tried = _greatest(top) or "never"
    return None if reach.tried == "never" else reach.tried


def _greatest(top: Step) -> tuple[float, Mapping[int, float]] | None:
    steps, ranged = _moving(top)
    raised, _, open_ = _sides(top, steps, ranged)
    best: tuple[float, Mapping[int, float]] | None = None
    for value, leaves in _tries(top, steps, raised, open_):
        if value is None:
            return None
        if best is None or value > best[0]:
            best = (value, leaves)
    return best


def _least(top: Step) -> float | None:
    steps, ranged = _moving(top)
    _, lowered, open_ = _sides(top, steps, ranged)
    values = [value for value, _ in _tries(top, steps, lowered, open_)]
    return min([value for value in values if value is not None], default=None)


def _moving(top: Step) -> tuple[list[Step], list[Step]]:
    """The computed steps below `top` that a ranged leaf can move, in ledger order, and those leaves."""
    found: dict[int, Step] = {top.index: top}
    queue = [top]
    while queue:
        inputs = queue.pop().inputs
        if inputs is not None:
            for step in inputs.values():
                if step.moves and step.index not in found:
                    found[step.index] = step
                    queue.append(step)
    steps = [found[index] for index in sorted(found)]
    return [s for s in steps if s.inputs is not None], [s for s in steps if s.inputs is None]


def _low(step: Step) -> float:
    return float(step.value if step.low is None else step.low)


def _high(step: Step) -> float:
    return float(step.value if step.high is None else step.high)


def _sides(
    top: Step, steps: Sequence[Step], ranged: Sequence[Step]
) -> tuple[dict[int, float], dict[int, float], list[Step]]:
    """Leaf values for the high case and the low case, and the leaves whose direction is not one."""
    ways = _directions(top, steps)
    raised: dict[int, float] = {}
    lowered: dict[int, float] = {}
    open_: list[Step] = []
    for leaf in ranged:
        way = ways[leaf.index]
        if way == EITHER:
            open_.append(leaf)
        else:
            raised[leaf.index], lowered[leaf.index] = (
                (_high(leaf), _low(leaf)) if way == RAISES else (_low(leaf), _high(leaf))
            )
    return raised, lowered, open_


def _directions(top: Step, steps: Sequence[Step]) -> dict[int, int]:
    ways = {top.index: RAISES}
    for step in reversed(steps):
        way = ways.get(step.index)
        if way is None or step.inputs is None:
            continue
        directions = step.how.directions
        assert directions is not None
        for name, below in step.inputs.items():
            own = directions[name]
            through = own if way == RAISES else (EITHER if way == EITHER or own == EITHER else RAISES + LOWERS - own)
            ways[below.index] = ways.get(below.index, 0) | through
    return ways


def _tries(
    top: Step, steps: Sequence[Step], fixed: Mapping[int, float], open_: Sequence[Step]
) -> Iterator[tuple[float | None, Mapping[int, float]]]:
    """The value of `top` and the leaf values, for every mixture of the open leaves."""
    settled = dict(fixed)  # what no open leaf moves is the same in every mixture
    above = {leaf.index for leaf in open_}
    works: list[_Work] = []
    for step in steps:
        work = _work_of(step, settled, above)
        if work.moving:
            above.add(step.index)
            works.append(work)
        else:
            try:
                settled[step.index] = round(work.run(**work.still), work.digits)
            except NoSolutionError:
                yield None, fixed
                return
    for picks in itertools.product(*((_low(leaf), float(leaf.value), _high(leaf)) for leaf in open_)):
        leaves = {leaf.index: value for leaf, value in zip(open_, picks, strict=True)}
        moved = _run(works, leaves)
        value = None if moved is None else float(moved.get(top.index, settled.get(top.index, top.value)))
        yield value, {**fixed, **leaves}


@dataclass(frozen=True, slots=True)
class _Work:
    """One step made ready to be run again and again: the inputs that stand still, and those that move."""

    index: int
    run: Callable[..., float]
    digits: int
    still: dict[str, float]
    moving: list[tuple[str, int]]  # name and index


def _work_of(step: Step, settled: Mapping[int, float], above: Collection[int]) -> _Work:
    assert step.inputs is not None
    assert step.how.run is not None
    still: dict[str, float] = {}
    moving: list[tuple[str, int]] = []
    for name, below in step.inputs.items():
        still[name] = settled.get(below.index, below.value)  # also of what moves: a sum adds in the order of its inputs
        if below.index in above:
            moving.append((name, below.index))
    return _Work(step.index, step.how.run, step.how.digits, still, moving)


def _run(works: Sequence[_Work], leaves: Mapping[int, float]) -> dict[int, float] | None:
    """Run steps again with some leaves moved; None where a formula has no solution."""
    moved = dict(leaves)
    try:
        for work in works:
            values = work.still.copy()
            for name, index in work.moving:
                values[name] = moved[index]
            moved[work.index] = round(work.run(**values), work.digits)
    except NoSolutionError:
        return None
    return moved
