"""The strictest demand on each interface: it governs, and the next one below it is named."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import decimals
from firstfurrow.book.model import Requirement
from firstfurrow.quantities import dimension_of, factor, format_number, reader_unit
from firstfurrow.reasoning import FUNCTIONS, Ends, Step


@dataclass(frozen=True, slots=True)
class Strictest:
    """One requirement for one set of hookups.

    low, planning, high
        Numbers in the working unit, or words; high is None where the unfavourable end has no solution.
    stated
        What is asked of the tractor: planning, or the unfavourable end where the book says that it decides, rounded
        to the safe side. For sets a tuple of tuples (one from each), or one tuple (any one of).
    shown, planning_shown, low_shown, high_shown
        The same for this reader.
    """

    low: Any
    planning: Any
    high: Any
    stated: Any
    shown: str
    planning_shown: str
    low_shown: str
    high_shown: str | None
    governed_by: Demand | None
    runner_up: Demand | None
    runner_up_shown: str | None
    top_step: str | None
    notes: tuple[str, ...] = ()
    stated_step: Step | None = None  # numbers only: the step whose value is `stated`

    @property
    def ranged(self) -> bool:
        """True when low and high differ in what the reader sees."""
        return self.low_shown != self.high_shown


def strictest(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    """The strictest of several demands on one requirement."""
    return _BY_SENSE[requirement.sense](desk, requirement, demands)


# ----------------------------------------------------------------------- numbers


def _floor(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    worst = requirement.decides == "unfavourable"
    reach = [desk.ends(d.top) if worst or not desk.lean else Ends(d.value, d.value, d.value) for d in demands]

    def deciding(index: int) -> float:
        end = reach[index]
        return end.planning if not worst else (float("inf") if end.high is None else end.high)

    order = sorted(range(len(demands)), key=lambda i: (-deciding(i), i))
    governing = demands[order[0]]
    runner_up = demands[order[1]] if len(order) > 1 else None
    top = desk.ledger.at_worst(governing.top, desk.say("at_worst", title="{title}")) if worst else governing.top
    if top is None:
        top = governing.top
    if not worst and len(demands) > 1:
        top = desk.ledger.greatest(
            desk.say("strictest", requirement=requirement.title), {f"{d.hookup}": d.top for d in demands}
        )
    high = None if any(e.high is None for e in reach) else max(e.high for e in reach if e.high is not None)
    low = max((e.low for e in reach if e.low is not None), default=None)
    whole = Ends(low, max(e.planning for e in reach), high)
    runner = None if runner_up is None else deciding(order[1])
    return _number(desk, requirement, whole, top, governing, runner_up, runner, "up")


def _ceiling(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    reach = [desk.ends(demand.top) for demand in demands]
    order = sorted(range(len(demands)), key=lambda i: (reach[i].planning, i))
    governing = demands[order[0]]
    runner_up = demands[order[1]] if len(order) > 1 else None
    top = governing.top
    if len(demands) > 1:
        steps = {f"opening_{i + 1}": d.top for i, d in enumerate(demands)}
        top = desk.ledger.least(desk.say("strictest", requirement=requirement.title), steps)
    whole = Ends(
        min(e.low for e in reach if e.low is not None), min(e.planning for e in reach),
        min(e.high for e in reach if e.high is not None),
    )  # fmt: skip
    runner = None if runner_up is None else reach[order[1]].planning
    return _number(desk, requirement, whole, top, governing, runner_up, runner, "down")


def _number(
    desk: Desk,
    requirement: Requirement,
    whole: Ends,
    top: Step,
    governing: Demand,
    runner_up: Demand | None,
    runner: float | None,
    way: str,
) -> Strictest:
    step = requirement.round_to or 1
    digits = decimals(step)
    # A value that is round already needs no step of rounding.
    round_already = top.digits <= digits and FUNCTIONS[way](top.value, step) == top.value
    safe = desk.say("stated")
    stated = top if round_already else desk.ledger.rounded(safe, "up" if way == "up" else "down", step, top, digits)
    shown, last = _reader(desk, requirement, stated, way)

    def show(value: float | None) -> str | None:
        return None if value is None else _shown(desk, requirement, value, way)

    low, planning, high = show(whole.low), show(whole.planning), show(whole.high)
    return Strictest(
        whole.low, whole.planning, whole.high, stated.value, shown, planning or "", low or "", high, governing,
        runner_up, show(runner), last.id, governing.all_notes, stated,
    )  # fmt: skip


def _reader(desk: Desk, requirement: Requirement, stated: Step, way: str) -> tuple[str, Step]:
    """The stated value for this reader; a conversion and a rounding of their own where the units differ."""
    unit, step = reading(desk, requirement)
    own = with_unit(desk, requirement, stated.value, requirement.unit, decimals(requirement.round_to or 1))
    if unit == requirement.unit:
        return own, stated
    by = factor(requirement.unit, unit)
    there = desk.ledger.convert(desk.say("for_reader", unit=unit), f"stated * {by:.6g}", unit, 2, stated=stated)
    last = desk.ledger.rounded(desk.say("rounded_for_reader"), "up" if way == "up" else "down", step, there, 2)
    return f"{with_unit(desk, requirement, last.value, unit, decimals(step))} ({own})", last


def _shown(desk: Desk, requirement: Requirement, value: float, way: str) -> str:
    """A value that is not the stated one, for this reader: rounded by the same road, so that the two compare."""
    unit, each = reading(desk, requirement)
    step = requirement.round_to or 1
    rounded = _rounded(value, step, way)
    if unit == requirement.unit:
        each = step
    else:
        rounded = _rounded(rounded * factor(requirement.unit, unit), each, way)
    return with_unit(desk, requirement, rounded, unit, decimals(each))


def _rounded(value: float, step: float, way: str) -> float:
    return FUNCTIONS[way](round(value, 6), step)


def reading(desk: Desk, requirement: Requirement) -> tuple[str, float]:
    """The unit in which this reader sees the requirement, and the step that it is rounded to there."""
    step = requirement.round_to or 1
    if desk.plan.units == "metric" or not requirement.unit:
        return requirement.unit, step
    unit = requirement.shown.get("us") or reader_unit(dimension_of(requirement.unit).name, "us")
    return unit, float(requirement.shown.get("us_round_to", step)) if unit != requirement.unit else step


def with_unit(desk: Desk, requirement: Requirement, value: float, unit: str, digits: int) -> str:
    """A number with its unit, or with the words that the book has for numbers of this requirement."""
    text = format_number(value, digits)
    words = desk.book.messages.get(f"reason.shown.{requirement.id}")
    if words is not None and not unit:
        return words.format(value=text)
    return f"{text} {unit}".strip()


# -------------------------------------------------------------------------- sets


def _each_of(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    """One from each of several sets; a set that another one satisfies anyway is dropped."""
    sets: list[tuple[Any, ...]] = []
    for demand in demands:
        mine = tuple(demand.value)
        if not any(set(other) <= set(mine) for other in sets):
            sets = [other for other in sets if not set(mine) <= set(other)] + [mine]
    sets.sort(key=lambda s: tuple(str(v) for v in s))
    shown = desk.say("and").join(_any(desk, requirement, s) for s in sets)
    governing = next(d for d in demands if tuple(d.value) == sets[0])
    runner = next((d for d in demands if d is not governing), None)
    value = tuple(sets)
    return Strictest(
        value, value, value, value, shown, shown, shown, shown, governing, runner,
        None if runner is None else _any(desk, requirement, tuple(runner.value)), governing.top.id,
        (*governing.all_notes, *_others(desk, demands, governing)),
    )  # fmt: skip


def _others(desk: Desk, demands: Sequence[Demand], governing: Demand) -> tuple[str, ...]:
    """Who asks for the other members of a requirement that wants one of each."""
    others = {d.top.title: d.top for d in demands if d.top is not governing.top}
    return tuple(desk.say("also_asked", title=title, step=step.id) for title, step in others.items())


def _one_of(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    """What all of them allow; empty when no tractor serves them all."""
    allowed = [v for v in demands[0].value if all(v in d.value for d in demands)]
    order = sorted(range(len(demands)), key=lambda i: (len(demands[i].value), -_reach(demands[i]), i))
    governing = demands[order[0]]
    runner = demands[order[1]] if len(order) > 1 else None
    value = tuple(allowed)
    shown = _any(desk, requirement, value) if value else desk.say("none_serves_all")
    return Strictest(
        value, value, value, value, shown, shown, shown, shown, governing, runner,
        None if runner is None else _any(desk, requirement, tuple(runner.value)), governing.top.id, governing.all_notes,
    )  # fmt: skip


def _reach(demand: Demand) -> int:
    return max((int(v[-1]) if v[-1].isdigit() else 0 for v in map(str, demand.value)), default=0)


def _level(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    """The highest of ordered words."""
    rank = requirement.levels.index
    order = sorted(range(len(demands)), key=lambda i: (-rank(demands[i].value), i))
    governing = demands[order[0]]
    runner = demands[order[1]] if len(order) > 1 else None
    shown = desk.say(f"level.{governing.value}")
    return Strictest(
        governing.value, governing.value, governing.value, governing.value, shown, shown, shown, shown, governing,
        runner, None if runner is None else desk.say(f"level.{runner.value}"), governing.top.id, governing.all_notes,
    )  # fmt: skip


def _any(desk: Desk, requirement: Requirement, values: Sequence[Any]) -> str:
    words = [_word(desk, requirement, value) for value in values]
    return desk.say("or").join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _word(desk: Desk, requirement: Requirement, value: Any) -> str:
    special = desk.book.messages.get(f"reason.word.{requirement.id}.{value}")
    if special is not None:
        return special
    general = desk.book.messages.get(f"reason.shown.{requirement.id}")
    if general is not None:
        return general.format(value=value)
    own = f"{value} {requirement.unit}".strip()
    unit = requirement.shown.get(desk.plan.units)
    if unit is None:
        return own
    there = round(value * factor(requirement.unit, unit))  # the trade speaks of whole inches
    return f"{there} {unit} ({own})"


_BY_SENSE: dict[str, Callable[[Desk, Requirement, Sequence[Demand]], Strictest]] = {
    "at_least": _floor,
    "at_most": _ceiling,
    "each_of": _each_of,
    "one_of": _one_of,
    "level": _level,
}
