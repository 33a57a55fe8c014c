"""The strictest demand on each interface: it governs, and the next one below it is named."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from firstfurrow.advice.beyond import beyond
from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import decimals
from firstfurrow.book.model import Requirement
from firstfurrow.quantities import dimension_of, factor, format_number, reader_unit
from firstfurrow.reasoning import FUNCTIONS, Ends, Ledger, Step
from firstfurrow.reasoning.ledger import Way

BEYOND = math.inf  # where the unfavourable end has no solution


@dataclass(frozen=True, slots=True)
class Strictest:
    """One requirement for one set of hookups.

    low, planning, high
        Numbers in the working unit, or words; high is None where the unfavourable end has no solution. Low and high
        are worked out when they are asked for.
    stated
        What is asked of the tractor: planning, or the unfavourable end where the book says that it decides, rounded
        to the safe side. For sets a tuple of tuples (one from each), or one tuple (any one of).
    said, told
        The words for what is stated, and for any other value: asked for when somebody reads them.
    """

    planning: Any
    stated: Any
    said: Callable[[], str] = field(compare=False)
    told: Callable[[Any], str] = field(compare=False)
    ends: Callable[[], Ends] = field(compare=False)
    governed_by: Demand | None
    runner_up: Demand | None
    runner: Any  # the value of the runner-up that counts
    top_step: str | None
    notes: tuple[str, ...] = ()
    stated_step: Step | None = None  # numbers only: the step whose value is `stated`

    @property
    def low(self) -> Any:
        """The favourable end."""
        return self.ends().low

    @property
    def high(self) -> Any:
        """The unfavourable end."""
        return self.ends().high

    @property
    def shown(self) -> str:
        """What is stated, for this reader."""
        return self.said()

    @property
    def planning_shown(self) -> str:
        """The planned value, for this reader."""
        return self.told(self.planning)

    @property
    def low_shown(self) -> str:
        """The favourable end, for this reader."""
        low = self.low
        return "" if low is None else self.told(low)

    @property
    def high_shown(self) -> str | None:
        """The unfavourable end, for this reader; None where it has no solution."""
        high = self.high
        return None if high is None else self.told(high)

    @property
    def runner_up_shown(self) -> str | None:
        """What the runner-up asks for, for this reader."""
        return None if self.runner is None else self.told(self.runner)

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
    planned = [demand.value for demand in demands]
    deciding = [_or_beyond(desk.high(demand.top)) for demand in demands] if worst else planned
    first, *others = sorted(range(len(demands)), key=deciding.__getitem__, reverse=True)
    governing = demands[first]
    if desk.lean:
        top: Step | float = deciding[first] if deciding[first] < BEYOND else governing.value
    elif worst:
        top = desk.at_worst(governing.top, desk.say("at_worst", title="{title}")) or governing.top
    elif len(demands) > 1:
        title = desk.say("strictest", requirement=requirement.title)
        top = desk.ledger.greatest(title, {d.hookup: d.top for d in demands})
    else:
        top = governing.top
    next_ = (demands[others[0]], deciding[others[0]]) if others else (None, None)
    ends = partial(_highest, desk, [demand.top for demand in demands], None if worst else requirement.class_column)
    return _number(desk, requirement, max(planned), top, governing, next_, ends, "up")


def _or_beyond(high: float | None) -> float:
    return BEYOND if high is None else high


def _highest(desk: Desk, tops: Sequence[Step], column: str | None) -> Ends:
    """Above what any tractor of the size-class table has in that column, the high end is as good as none."""
    most = BEYOND if column is None else beyond(desk.book, column)
    reach = [desk.ends(top) for top in tops]
    high = max([_or_beyond(end.high) for end in reach])
    return Ends(
        max([end.low for end in reach if end.low is not None], default=None), max([end.planning for end in reach]),
        None if high >= most else high,
    )  # fmt: skip


def _ceiling(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    planned = [demand.value for demand in demands]
    first, *others = sorted(range(len(demands)), key=planned.__getitem__)
    governing = demands[first]
    top: Step | float = governing.top
    if desk.lean:
        top = planned[first]
    elif len(demands) > 1:
        steps = {f"opening_{i + 1}": d.top for i, d in enumerate(demands)}
        top = desk.ledger.least(desk.say("strictest", requirement=requirement.title), steps)
    next_ = (demands[others[0]], planned[others[0]]) if others else (None, None)
    ends = partial(_lowest, desk, [demand.top for demand in demands])
    return _number(desk, requirement, planned[first], top, governing, next_, ends, "down")


def _lowest(desk: Desk, tops: Sequence[Step]) -> Ends:
    reach = [desk.ends(top) for top in tops]
    return Ends(
        min([end.low for end in reach if end.low is not None]), min([end.planning for end in reach]),
        min([end.high for end in reach if end.high is not None]),
    )  # fmt: skip


def _number(
    desk: Desk,
    requirement: Requirement,
    planning: float,
    top: Step | float,
    governing: Demand,
    next_: tuple[Demand | None, float | None],
    ends: Callable[[], Ends],
    way: Way,
) -> Strictest:
    """`top` is what is rounded to the safe side: its step, or in a lean run, which writes nothing down, its value."""
    step = requirement.round_to or 1
    digits = decimals(step)
    told = partial(_told, desk, requirement, way)
    if not isinstance(top, Step):
        safe = round(FUNCTIONS[way](top, step), digits)
        value = top if safe == top else safe
        said = partial(_said, desk, requirement, value, way)
        return Strictest(planning, value, said, told, ends, governing, *next_, governing.top.id)
    # A value that is round already needs no step of rounding.
    round_already = top.digits <= digits and FUNCTIONS[way](top.value, step) == top.value
    stated = top if round_already else desk.ledger.rounded(desk.say("stated"), way, step, top, digits)
    shown, last = _reader(desk, requirement, stated, way, desk.ledger)
    return Strictest(
        planning, stated.value, partial(str, shown), told, ends, governing, *next_, last.id, governing.all_notes, stated
    )  # fmt: skip


def _reader(desk: Desk, requirement: Requirement, stated: Step, way: Way, ledger: Ledger) -> tuple[str, Step]:
    """The stated value for this reader; a conversion and a rounding of their own where the units differ."""
    unit, step = reading(desk, requirement)
    own = with_unit(desk, requirement, stated.value, requirement.unit, decimals(requirement.round_to or 1))
    if unit == requirement.unit:
        return own, stated
    by = factor(requirement.unit, unit)
    there = ledger.convert(desk.say("for_reader", unit=unit), f"stated * {by:.6g}", unit, 2, stated=stated)
    last = ledger.rounded(desk.say("rounded_for_reader"), way, step, there, 2)
    return f"{with_unit(desk, requirement, last.value, unit, decimals(step))} ({own})", last


def _said(desk: Desk, requirement: Requirement, value: float, way: Way) -> str:
    """The same for a value of which no step was written down."""
    apart = Ledger()
    return _reader(desk, requirement, apart.leaf("constant", "", value, requirement.unit, 4), way, apart)[0]


def _told(desk: Desk, requirement: Requirement, way: Way, value: float) -> str:
    """A value that is not the stated one, for this reader: rounded by the same road, so that the two compare."""
    unit, each = reading(desk, requirement)
    step = requirement.round_to or 1
    rounded = _rounded(value, step, way)
    if unit == requirement.unit:
        each = step
    else:
        rounded = _rounded(rounded * factor(requirement.unit, unit), each, way)
    return with_unit(desk, requirement, rounded, unit, decimals(each))


def _rounded(value: float, step: float, way: Way) -> float:
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
    governing = next(d for d in demands if tuple(d.value) == sets[0])
    runner_up = next((d for d in demands if d is not governing), None)
    runner = None if runner_up is None else (tuple(runner_up.value),)

    def told(value: Sequence[Sequence[Any]]) -> str:
        return desk.say("and").join(_any(desk, requirement, one) for one in value)

    notes = () if desk.lean else (*governing.all_notes, *_others(desk, demands, governing))
    return _words(tuple(sets), told, governing, runner_up, runner, notes)


def _others(desk: Desk, demands: Sequence[Demand], governing: Demand) -> tuple[str, ...]:
    """Who asks for the other members of a requirement that wants one of each."""
    others = {d.top.title: d.top for d in demands if d.top is not governing.top}
    return tuple(desk.say("also_asked", title=title, step=step.id) for title, step in others.items())


def _one_of(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    """What all of them allow; empty when no tractor serves them all."""
    allowed = tuple(v for v in demands[0].value if all(v in d.value for d in demands))
    order = sorted(range(len(demands)), key=lambda i: (len(demands[i].value), -_reach(demands[i]), i))
    governing = demands[order[0]]
    runner_up = demands[order[1]] if len(order) > 1 else None
    runner = None if runner_up is None else tuple(runner_up.value)

    def told(value: Sequence[Any]) -> str:
        return _any(desk, requirement, value) if value else desk.say("none_serves_all")

    notes = () if desk.lean else governing.all_notes
    return _words(allowed, told, governing, runner_up, runner, notes)


def _reach(demand: Demand) -> int:
    return max((int(v[-1]) if v[-1].isdigit() else 0 for v in map(str, demand.value)), default=0)


def _level(desk: Desk, requirement: Requirement, demands: Sequence[Demand]) -> Strictest:
    """The highest of ordered words."""
    rank = requirement.levels.index
    order = sorted(range(len(demands)), key=lambda i: (-rank(demands[i].value), i))
    governing = demands[order[0]]
    runner_up = demands[order[1]] if len(order) > 1 else None
    runner = None if runner_up is None else runner_up.value

    def told(value: str) -> str:
        return desk.say(f"level.{value}")

    notes = () if desk.lean else governing.all_notes
    return _words(governing.value, told, governing, runner_up, runner, notes)


def _words(
    value: Any,
    told: Callable[[Any], str],
    governing: Demand,
    runner_up: Demand | None,
    runner: Any,
    notes: tuple[str, ...],
) -> Strictest:
    """Words have no low and high end."""
    said, ends = partial(told, value), partial(Ends, value, value, value)
    return Strictest(value, value, said, told, ends, governing, runner_up, runner, governing.top.id, notes)


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
