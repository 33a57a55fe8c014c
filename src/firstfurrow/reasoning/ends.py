"""Low, planning and high of a step: every leaf below it moved to the end that lowers or raises it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True)
class Reach:
    """Low and high of a step below which no leaf both raises and lowers, and which way each ranged leaf moves it."""

    low: float | None
    high: float | None
    ways: Mapping[int, int]


Memo = dict[int, Reach | None]


def ends(top: Step, memo: Memo | None = None) -> Ends:
    """Low, planning and high of a step: every leaf below it moved to the end that lowers or raises it.

    A leaf that does both (through different formulas) is tried at its ends and as planned; it keeps one value
    throughout a case. `memo` keeps what was found for the steps below, for the next call on the same ledger.
    """
    if not top.moves:
        return Ends(top.value, top.value, top.value)
    found = _reach(top, {} if memo is None else memo)
    return ends_by_trying(top) if found is None else Ends(found.low, top.value, found.high)


def _reach(step: Step, memo: Memo) -> Reach | None:
    """Ends worked out from the ends of the inputs; None where some leaf moves the step both ways."""
    if step.index in memo:
        return memo[step.index]
    found: Reach | None
    if step.inputs is None:
        found = Reach(_low(step), _high(step), {step.index: RAISES})
    else:
        found = _reach_of_inputs(step, memo)
    memo[step.index] = found
    return found


def _reach_of_inputs(step: Step, memo: Memo) -> Reach | None:
    assert step.inputs is not None
    assert step.directions is not None
    ways: dict[int, int] = {}
    lows: dict[str, float | None] = {}
    highs: dict[str, float | None] = {}
    for name, below in step.inputs.items():
        if not below.moves:
            lows[name] = highs[name] = below.value
            continue
        own, reach = step.directions[name], _reach(below, memo)
        if reach is None or own == EITHER:
            return None
        for leaf, way in reach.ways.items():
            through = way if own == RAISES else RAISES + LOWERS - way
            if ways.setdefault(leaf, through) != through:
                return None
        lows[name], highs[name] = (reach.low, reach.high) if own == RAISES else (reach.high, reach.low)
    return Reach(_worked(step, lows), _worked(step, highs), ways)


def _worked(step: Step, values: Mapping[str, float | None]) -> float | None:
    if None in values.values():
        return None
    assert step.run is not None
    try:
        return round(step.run(**values), step.digits)
    except NoSolutionError:
        return None


def ends_by_trying(top: Step) -> Ends:
    """The same by trying: for a step that some leaf moves both ways."""
    steps, ranged = _moving(top)
    raised, lowered, open_ = _sides(top, steps, ranged)
    highs = [value for value, _ in _tries(top, steps, raised, open_)]
    lows = [value for value, _ in _tries(top, steps, lowered, open_)]
    return Ends(
        min((v for v in lows if v is not None), default=None),
        top.value,
        None if any(v is None for v in highs) else max(v for v in highs if v is not None),
    )


def worst_leaves(top: Step) -> Mapping[int, float] | None:
    """The leaf values, by index, that make `top` greatest; None where some end has no solution."""
    steps, ranged = _moving(top)
    raised, _, open_ = _sides(top, steps, ranged)
    best: tuple[float, Mapping[int, float]] | None = None
    for value, leaves in _tries(top, steps, raised, open_):
        if value is None:
            return None
        if best is None or value > best[0]:
            best = (value, leaves)
    return None if best is None else best[1]


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


def _tries(
    top: Step, steps: Sequence[Step], fixed: Mapping[int, float], open_: Sequence[Step]
) -> Iterator[tuple[float | None, Mapping[int, float]]]:
    if not open_:
        yield _run(top, steps, fixed), fixed
        return
    for picks in itertools.product(*((_low(leaf), float(leaf.value), _high(leaf)) for leaf in open_)):
        leaves = {**fixed, **{leaf.index: value for leaf, value in zip(open_, picks, strict=True)}}
        yield _run(top, steps, leaves), leaves


def _run(top: Step, steps: Sequence[Step], values: Mapping[int, float]) -> float | None:
    """Run the moving steps again with some leaves moved; None where a formula has no solution."""
    moved: dict[int, float] = dict(values)
    get = moved.get
    try:
        for step in steps:
            assert step.run is not None
            moved[step.index] = round(step.run(**{n: get(i, v) for n, i, v in step.reads}), step.digits)
    except NoSolutionError:
        return None
    return float(moved.get(top.index, top.value))


def _directions(top: Step, steps: Sequence[Step]) -> dict[int, int]:
    ways = {top.index: RAISES}
    for step in reversed(steps):
        way = ways.get(step.index)
        if way is None or step.inputs is None:
            continue
        assert step.directions is not None
        for name, below in step.inputs.items():
            own = step.directions[name]
            through = own if way == RAISES else (EITHER if way == EITHER or own == EITHER else RAISES + LOWERS - own)
            ways[below.index] = ways.get(below.index, 0) | through
    return ways
