"""A demand made ready to be worked out again with other figures in the place of some leaves: same steps, same formulas.

What no replaced leaf moves is worked out once, when it is made ready; each offer then runs the rest.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.reasoning import EITHER, LOWERS, RAISES, NoSolutionError, Step, ancestors

Values = dict[int, float]


@dataclass(frozen=True, slots=True)
class _Work:
    """One computed step: name, index and planned value of each input that is read."""

    index: int
    run: Callable[..., float]
    digits: int
    reads: tuple[tuple[str, int, float], ...]


class Again:
    """A demand whose leaves of certain titles will be replaced.

    worst
        Every other leaf at its unfavourable end; one that moves the demand both ways is tried at both ends and as
        planned, and keeps one value throughout a case.
    without
        The name of an input that is left out of what takes the greatest of several.
    """

    def __init__(self, top: Step, titles: Collection[str], *, worst: bool, without: str = "") -> None:
        self._top, self._planned = top.index, float(top.value)
        steps = ancestors(top)
        self._replaced = [(s.index, s.title) for s in steps if s.inputs is None and s.title in titles]
        gone = {index for index, _ in self._replaced}
        ranged = [s for s in steps if s.ranged and s.index not in gone] if worst else []
        computed = [(s, _inputs(s, without)) for s in steps if s.inputs is not None]
        touched = _moved_by(computed, gone, without)
        moving = _moved_by(computed, gone | {s.index for s in ranged}, without)
        self._works = [_work(s, inputs) for s, inputs in computed if s.index in touched]
        before = [_work(s, inputs) for s, inputs in computed if s.index in moving - touched]
        read = {top.index, *(index for work in self._works for _, index, _ in work.reads)}
        settled = [_run(before, case) for case in _cases(top, computed, ranged)]
        # Where a case has no solution before anything is replaced, no figure of an offer gives it one.
        self._never = None in settled
        self._cases = [{i: v for i, v in case.items() if i in read} for case in settled if case is not None]

    def value(self, leaves: Mapping[str, float]) -> float | None:
        """The demand with the leaves replaced by title; None where there is no solution."""
        if self._never:
            return None
        mine = {index: leaves[title] for index, title in self._replaced}
        most: float | None = None
        for case in self._cases:
            found = _run(self._works, case | mine)
            if found is None:
                return None
            value = found.get(self._top, self._planned)
            most = value if most is None or value > most else most
        return most


def _inputs(step: Step, without: str) -> Mapping[str, Step]:
    assert step.inputs is not None
    return {name: below for name, below in step.inputs.items() if name != without}


def _moved_by(computed: Sequence[tuple[Step, Mapping[str, Step]]], leaves: Collection[int], without: str) -> set[int]:
    """The computed steps that some of these leaves move, and those that lose an input."""
    found: set[int] = set()
    for step, inputs in computed:
        lost = len(inputs) < len(step.inputs or {})
        if lost or any(below.index in leaves or below.index in found for below in inputs.values()):
            found.add(step.index)
    return found


def _work(step: Step, inputs: Mapping[str, Step]) -> _Work:
    assert step.run is not None
    reads = tuple((name, below.index, below.value) for name, below in inputs.items())
    return _Work(step.index, step.run, step.digits, reads)


def _cases(top: Step, computed: Sequence[tuple[Step, Mapping[str, Step]]], ranged: Sequence[Step]) -> Iterator[Values]:
    """The values of the leaves that stay, for every mixture of those that move the demand both ways."""
    ways = {top.index: RAISES}
    for step, inputs in reversed(computed):
        way = ways.get(step.index)
        if way is None:
            continue
        assert step.directions is not None
        for name, below in inputs.items():
            own = step.directions[name]
            through = own if way == RAISES else EITHER if EITHER in (way, own) else RAISES + LOWERS - own
            ways[below.index] = ways.get(below.index, 0) | through
    fixed: Values = {}
    open_: list[tuple[int, tuple[float, ...]]] = []
    for leaf in ranged:
        low, high = (float(leaf.value if end is None else end) for end in (leaf.low, leaf.high))
        way = ways.get(leaf.index, RAISES)
        if way == EITHER:
            open_.append((leaf.index, (low, float(leaf.value), high)))
        else:
            fixed[leaf.index] = high if way == RAISES else low
    for picks in itertools.product(*(values for _, values in open_)):
        yield fixed | dict(zip((index for index, _ in open_), picks, strict=True))


def _run(works: Sequence[_Work], values: Values) -> Values | None:
    """The values with those of these steps; None where a formula has no solution."""
    found = dict(values)
    get = found.get
    try:
        for work in works:
            found[work.index] = round(work.run(**{n: get(i, v) for n, i, v in work.reads}), work.digits)
    except NoSolutionError:
        return None
    return found
