"""How a number is written down, printed and recomputed: formulas, steps, and the ledger that collects them.

A step's value is rounded to its declared digits *before* the next step reads it, so the printed values are the values
used and a reader with a pencil gets the printed result from the printed line. The ledger is a graph: leaves (answers,
table figures, our choices) may carry a low and a high end, and any step can be run again with the leaves moved to the
end that raises or lowers it. This module knows no tractor and does no input or output.
"""

from __future__ import annotations

import ast
import itertools
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, TypeVar

StepType = Literal["answer", "assumption", "table", "constant", "convert", "formula", "greatest", "set", "round"]
RECOMPUTED: frozenset[str] = frozenset({"convert", "formula", "greatest", "round"})


class NoSolutionError(ValueError):
    """A formula has no answer for these values, however large the tractor; the text says why."""


# ------------------------------------------------------------------ formula text


def _up(value: float, step: float) -> float:
    """Round up to a multiple of `step`; a value already on a multiple (to nine digits) stays.

    >>> _up(23.4, 1), _up(24, 1), _up(0.31, 0.05)
    (24.0, 24.0, 0.35)
    """
    return round(math.ceil(round(value / step, 9)) * step, 9) + 0.0


def _down(value: float, step: float) -> float:
    """Round down to a multiple of `step`.

    >>> _down(2.44, 0.05)
    2.4
    """
    return round(math.floor(round(value / step, 9)) * step, 9) + 0.0


def _nearest(value: float, step: float) -> float:
    """Round to the nearest multiple of `step`."""
    return round(math.floor(value / step + 0.5) * step, 9) + 0.0


FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "sqrt": math.sqrt,
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
    "atan": lambda ratio: math.degrees(math.atan(ratio)),
    "up": _up,
    "down": _down,
    "nearest": _nearest,
}
_OPERATORS: Mapping[type[ast.AST], Callable[..., float]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.Pow: lambda a, b: a**b,
    ast.USub: lambda a: -a,
    ast.UAdd: lambda a: +a,
}


def evaluate(text: str, values: Mapping[str, float]) -> float:
    """Work out a formula text: names, numbers, + - * / **, and the named functions (angles in degrees).

    >>> evaluate("soil_factor * (A + C * speed**2)", {"soil_factor": 0.7, "A": 652, "C": 5.1, "speed": 6})
    584.92

    Raises
    ------
    ValueError
        When the text holds anything else.
    """
    return _walk(ast.parse(text, mode="eval").body, values)


def _walk(node: ast.expr, values: Mapping[str, float]) -> float:
    if isinstance(node, ast.Constant) and type(node.value) in (int, float):
        return float(node.value)  # type: ignore[arg-type]
    if isinstance(node, ast.Name):
        return values[node.id]
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        return _OPERATORS[type(node.op)](_walk(node.left, values), _walk(node.right, values))
    if isinstance(node, ast.UnaryOp) and type(node.op) in _OPERATORS:
        return _OPERATORS[type(node.op)](_walk(node.operand, values))
    if isinstance(node, ast.Call) and not node.keywords and isinstance(node.func, ast.Name):
        function = FUNCTIONS.get(node.func.id)
        if function is not None:
            return function(*(_walk(argument, values) for argument in node.args))
    raise ValueError(f"not allowed in a formula: {ast.unparse(node)}")


# ---------------------------------------------------------------------- formulas

RAISES, LOWERS, EITHER = 1, 2, 3


@dataclass(frozen=True, slots=True)
class Formula:
    """What is printed for a mechanics function, and which way each of its inputs moves the result.

    A test shows on random values that text and code agree and that the declared directions hold.
    """

    name: str
    text: str
    run: Callable[..., float]
    unit: str
    digits: int
    directions: Mapping[str, int]
    grade: str
    source: str | None
    where: str | None


FORMULAS: dict[Callable[..., float], Formula] = {}
_Function = TypeVar("_Function", bound=Callable[..., float])


def formula(
    text: str,
    *,
    unit: str,
    digits: int,
    raises: str = "",
    lowers: str = "",
    either: str = "",
    grade: str = "derived",
    source: str | None = None,
    where: str | None = None,
) -> Callable[[_Function], _Function]:
    """Declare a mechanics function: its printed text, result unit and digits, and which way each input moves it.

    The function itself stays an ordinary function, so that its docstring and doctest stay where a reader looks.
    """
    directions = {
        **dict.fromkeys(raises.split(), RAISES),
        **dict.fromkeys(lowers.split(), LOWERS),
        **dict.fromkeys(either.split(), EITHER),
    }

    def declare(run: _Function) -> _Function:
        FORMULAS[run] = Formula(run.__name__, text, run, unit, digits, directions, grade, source, where)
        return run

    return declare


# ------------------------------------------------------------------------- steps


@dataclass(slots=True, eq=False)
class Step:
    """One line of reasoning. Made by a `Ledger`, never changed afterwards."""

    id: str
    index: int
    type: StepType
    title: str
    value: Any
    unit: str
    digits: int
    formula: str | None = None
    inputs: Mapping[str, Step] | None = None
    low: float | None = None  # leaves only
    high: float | None = None
    grade: str | None = None
    source: str | None = None
    where: str | None = None
    derived_from: str | None = None
    note: str | None = None
    question: str | None = None  # answers and assumptions: which question (and item) it came from
    run: Callable[..., float] | None = None
    directions: Mapping[str, int] | None = None
    moves: bool = False  # it, or a leaf below it, has a low and a high end

    @property
    def ranged(self) -> bool:
        """True for a leaf that has a low and a high end."""
        return self.inputs is None and self.moves


@dataclass(frozen=True, slots=True)
class Ends:
    """Low, planning and high of one step; low or high is None where there is no solution at that end."""

    low: float | None
    planning: float
    high: float | None


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
        tree = _parsed(text)

        def run(**values: float) -> float:
            return _walk(tree, values)

        return self._own("convert", title, text, inputs, unit, digits, run)

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
        moves = False
        for name, step in inputs.items():
            values[name] = step.value
            moves = moves or step.moves
        count = len(self.steps)
        made = Step(
            f"s{count + 1}", count, type_, title, round(run(**values), digits), unit, digits, text, inputs,
            grade=grade, source=source, where=where, run=run, directions=directions, moves=moves,
        )  # fmt: skip
        self.steps.append(made)
        return made


def _greatest(**values: float) -> float:
    return max(values.values())


def _least(**values: float) -> float:
    return min(values.values())


def _sum(**values: float) -> float:
    return sum(values.values())


_TREES: dict[str, ast.expr] = {}


def _parsed(text: str) -> ast.expr:
    tree = _TREES.get(text)
    if tree is None:
        tree = _TREES[text] = ast.parse(text, mode="eval").body
    return tree


# ----------------------------------------------------------------------- corners


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


def ends(top: Step) -> Ends:
    """Low, planning and high of a step: every leaf below it moved to the end that lowers or raises it.

    A leaf that does both (through different formulas) is tried at its ends and as planned; it keeps one value
    throughout a case.
    """
    if top.inputs is None:
        return Ends(_low(top), top.value, _high(top))
    if not top.moves:
        return Ends(top.value, top.value, top.value)
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
    try:
        for step in steps:
            assert step.inputs is not None
            assert step.run is not None
            moved[step.index] = round(
                step.run(**{n: moved.get(s.index, s.value) for n, s in step.inputs.items()}), step.digits
            )
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
