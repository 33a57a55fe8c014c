"""The ledger: the steps of one run in order; each reads only steps before it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from typing import Any, Literal

from firstfurrow.reasoning.ends import Memo, ancestors, worst_leaves
from firstfurrow.reasoning.formula_text import FUNCTIONS, evaluator
from firstfurrow.reasoning.formulas import FORMULAS, RAISES
from firstfurrow.reasoning.steps import How, Step, StepType

Way = Literal["up", "down", "nearest"]


class Ledger:
    """Collects the steps of one run in order; each step reads only steps before it."""

    def __init__(self) -> None:
        self.steps: list[Step] = []

    def leaf(
        self,
        type_: StepType,
        title: str,
        value: float,
        unit: str,
        digits: int,
        *,
        low: float | None = None,
        high: float | None = None,
        grade: str | None = None,
        source: str | None = None,
        where: str | None = None,
        derived_from: str | None = None,
        note: str | None = None,
        question: str | None = None,
    ) -> Step:
        """A value that is not computed: an answer, an assumption, a table figure or a constant."""
        lowest = None if low is None else round(low, digits)
        highest = None if high is None else round(high, digits)
        how = _leaf(type_, unit, digits, grade, source, where, derived_from)
        moves = lowest != highest
        steps = self.steps
        made = Step(len(steps), how, title, round(value, digits), None, moves, lowest, highest, note, question)
        steps.append(made)
        return made

    def words(
        self,
        title: str,
        value: Any,
        *,
        note: str | None = None,
        grade: str | None = None,
        source: str | None = None,
        where: str | None = None,
    ) -> Step:
        """A step whose value is a word or a set of words (type `set`)."""
        how = _leaf("set", "", 0, grade, source, where, None)
        made = Step(len(self.steps), how, title, value, note=note)
        self.steps.append(made)
        return made

    def work(self, function: Callable[..., float], title: str, **inputs: Step) -> Step:
        """A step computed by a mechanics function that was declared with `formula`.

        Raises
        ------
        NoSolutionError
            When the formula has no answer for the planned values.
        """
        return self._computed(_declared(function), title, inputs)

    def convert(self, title: str, text: str, unit: str, digits: int, **inputs: Step) -> Step:
        """A change of unit; `text` holds the factor."""
        return self._computed(_converting(text, unit, digits, tuple(inputs)), title, inputs)

    def rounded(self, title: str, way: Way, step: float, value: Step, digits: int) -> Step:
        """Round to the safe side as printed."""
        return self._computed(_rounding(way, step, value.unit, digits), title, {"value": value})

    def greatest(self, title: str, steps: Mapping[str, Step]) -> Step:
        """The strictest of several."""
        return self._of_all("greatest", title, steps)

    def least(self, title: str, steps: Mapping[str, Step]) -> Step:
        """The strictest of several ceilings."""
        return self._of_all("least", title, steps)

    def sum(self, title: str, steps: Mapping[str, Step]) -> Step:
        """All of several together."""
        return self._of_all("sum", title, steps)

    def at_worst(self, top: Step, title: str, memo: Memo | None = None) -> Step | None:
        """`top` worked out again, as steps of its own, with every leaf below it at its unfavourable end.

        `title` holds {title}; `memo` is that of `ends`. None where that end has no solution.
        """
        leaves = worst_leaves(top, memo)
        if not leaves:
            return None if leaves is None else top
        twins: dict[int, Step] = {}
        for step in ancestors(top):
            if step.inputs is None:
                worst = leaves.get(step.index, step.value)
                if worst != step.value:
                    name = title.format(title=step.title)
                    twin = Step(len(self.steps), step.how, name, worst, note=step.note, question=step.question)
                    self.steps.append(twin)
                    twins[step.index] = twin
            elif any(s.index in twins for s in step.inputs.values()):
                inputs = {n: twins.get(s.index, s) for n, s in step.inputs.items()}
                twins[step.index] = self._computed(step.how, title.format(title=step.title), inputs)
        return twins.get(top.index, top)

    # -- inside

    def _of_all(self, which: str, title: str, steps: Mapping[str, Step]) -> Step:
        unit = next(iter(steps.values())).how.unit
        digits = max([step.how.digits for step in steps.values()])
        return self._computed(_all_of(which, unit, digits, tuple(steps)), title, steps)

    def _computed(self, how: How, title: str, inputs: Mapping[str, Step]) -> Step:
        assert how.run is not None
        values: dict[str, float] = {}
        moves = False
        for name, step in inputs.items():
            values[name] = step.value
            moves = moves or step.moves
        steps = self.steps
        made = Step(len(steps), how, title, round(how.run(**values), how.digits), inputs, moves)
        steps.append(made)
        return made


# What steps have in common, each made once: all of it follows from what is passed in.


@lru_cache(maxsize=4096)
def _leaf(
    type_: StepType,
    unit: str,
    digits: int,
    grade: str | None,
    source: str | None,
    where: str | None,
    derived_from: str | None,
) -> How:
    return How(type_, unit, digits, grade=grade, source=source, where=where, derived_from=derived_from)


@cache
def _declared(function: Callable[..., float]) -> How:
    how = FORMULAS[function]
    return How("formula", how.unit, how.digits, how.text, how.run, how.directions, how.grade, how.source, how.where)


@lru_cache(maxsize=1024)
def _converting(text: str, unit: str, digits: int, names: tuple[str, ...]) -> How:
    return How("convert", unit, digits, text, evaluator(text), dict.fromkeys(names, RAISES))


@lru_cache(maxsize=1024)
def _rounding(way: Way, step: float, unit: str, digits: int) -> How:
    round_ = FUNCTIONS[way]

    def run(value: float) -> float:
        return round_(value, step)

    return How("round", unit, digits, f"{way}(value, {step:g})", run, {"value": RAISES})


@lru_cache(maxsize=1024)
def _all_of(which: str, unit: str, digits: int, names: tuple[str, ...]) -> How:
    directions = dict.fromkeys(names, RAISES)
    if which == "sum":
        return How("formula", unit, digits, " + ".join(names), _sum, directions)
    listed = ", ".join(names)
    if which == "least":
        return How("greatest", unit, digits, f"min({listed})", _least, directions)
    return How("greatest", unit, digits, f"max({listed})", _greatest, directions)


def _greatest(**values: float) -> float:
    return max(values.values())


def _least(**values: float) -> float:
    return min(values.values())


def _sum(**values: float) -> float:
    return sum(values.values())
