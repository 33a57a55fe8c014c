"""The ledger: the steps of one run in order; each reads only steps before it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Literal

from firstfurrow.reasoning.ends import ancestors, worst_leaves
from firstfurrow.reasoning.formula_text import FUNCTIONS, evaluator
from firstfurrow.reasoning.formulas import FORMULAS, RAISES
from firstfurrow.reasoning.steps import Step, StepType


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
        count = len(self.steps)
        lowest = None if low is None else round(low, digits)
        highest = None if high is None else round(high, digits)
        step = Step(
            f"s{count + 1}", count, type_, title, round(value, digits), unit, digits, low=lowest, high=highest,
            grade=grade, source=source, where=where, derived_from=derived_from, note=note, question=question,
            moves=lowest is not None and lowest != highest,
        )  # fmt: skip
        self.steps.append(step)
        return step

    def words(self, title: str, value: Any, *, note: str | None = None, **meta: str | None) -> Step:
        """A step whose value is a word or a set of words (type `set`)."""
        count = len(self.steps)
        step = Step(f"s{count + 1}", count, "set", title, value, "", 0, note=note, **meta)  # type: ignore[arg-type]
        self.steps.append(step)
        return step

    def work(self, function: Callable[..., float], title: str, **inputs: Step) -> Step:
        """A step computed by a mechanics function that was declared with `formula`.

        Raises
        ------
        NoSolutionError
            When the formula has no answer for the planned values.
        """
        how = FORMULAS[function]
        return self._computed(
            "formula", title, how.text, inputs, how.unit, how.digits, how.run, how.directions,
            grade=how.grade, source=how.source, where=how.where,
        )  # fmt: skip

    def convert(self, title: str, text: str, unit: str, digits: int, **inputs: Step) -> Step:
        """A change of unit; `text` holds the factor."""
        return self._own("convert", title, text, inputs, unit, digits, evaluator(text))

    def rounded(self, title: str, way: Literal["up", "down", "nearest"], step: float, value: Step, digits: int) -> Step:
        """Round to the safe side as printed."""
        round_ = FUNCTIONS[way]

        def run(value: float) -> float:
            return round_(value, step)

        return self._own("round", title, f"{way}(value, {step:g})", {"value": value}, value.unit, digits, run)

    def greatest(self, title: str, steps: Mapping[str, Step]) -> Step:
        """The strictest of several."""
        first = next(iter(steps.values()))
        digits = max(step.digits for step in steps.values())
        return self._own("greatest", title, f"max({', '.join(steps)})", steps, first.unit, digits, _greatest)

    def least(self, title: str, steps: Mapping[str, Step]) -> Step:
        """The strictest of several ceilings."""
        first = next(iter(steps.values()))
        digits = max(step.digits for step in steps.values())
        return self._own("greatest", title, f"min({', '.join(steps)})", steps, first.unit, digits, _least)

    def sum(self, title: str, steps: Mapping[str, Step]) -> Step:
        """All of several together."""
        first = next(iter(steps.values()))
        digits = max(step.digits for step in steps.values())
        return self._own("formula", title, " + ".join(steps), steps, first.unit, digits, _sum)

    def at_worst(self, top: Step, title: str) -> Step | None:
        """`top` worked out again, as steps of its own, with every leaf below it at its unfavourable end.

        `title` holds {title}. None where that end has no solution.
        """
        leaves = worst_leaves(top)
        if leaves is None:
            return None
        twins: dict[int, Step] = {}
        for step in ancestors(top):
            name = title.format(title=step.title)
            if step.inputs is None:
                if step.index in leaves and leaves[step.index] != step.value:
                    twins[step.index] = self.leaf(
                        step.type, name, leaves[step.index], step.unit, step.digits, grade=step.grade,
                        source=step.source, where=step.where, derived_from=step.derived_from, note=step.note,
                        question=step.question,
                    )  # fmt: skip
            elif any(s.index in twins for s in step.inputs.values()):
                assert step.formula is not None
                assert step.run is not None
                assert step.directions is not None
                twins[step.index] = self._computed(
                    step.type, name, step.formula, {n: twins.get(s.index, s) for n, s in step.inputs.items()},
                    step.unit, step.digits, step.run, step.directions, step.grade, step.source, step.where,
                )  # fmt: skip
        return twins.get(top.index, top)

    # -- inside

    def _own(
        self,
        type_: StepType,
        title: str,
        text: str,
        inputs: Mapping[str, Step],
        unit: str,
        digits: int,
        run: Callable[..., float],
    ) -> Step:
        """A step whose every input raises it."""
        return self._computed(type_, title, text, inputs, unit, digits, run, dict.fromkeys(inputs, RAISES))

    def _computed(
        self,
        type_: StepType,
        title: str,
        text: str,
        inputs: Mapping[str, Step],
        unit: str,
        digits: int,
        run: Callable[..., float],
        directions: Mapping[str, int],
        grade: str | None = None,
        source: str | None = None,
        where: str | None = None,
    ) -> Step:
        values: dict[str, float] = {}
        reads: list[tuple[str, int, float]] = []
        moves = False
        for name, step in inputs.items():
            values[name] = step.value
            reads.append((name, step.index, step.value))
            moves = moves or step.moves
        count = len(self.steps)
        made = Step(
            f"s{count + 1}", count, type_, title, round(run(**values), digits), unit, digits, text, inputs,
            grade=grade, source=source, where=where, run=run, directions=directions, reads=tuple(reads), moves=moves,
        )  # fmt: skip
        self.steps.append(made)
        return made


def _greatest(**values: float) -> float:
    return max(values.values())


def _least(**values: float) -> float:
    return min(values.values())


def _sum(**values: float) -> float:
    return sum(values.values())
