"""What a profile asks, made ready once for many offers: every requirement, and every hookup by itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from firstfurrow.advice.changes import Change, changed
from firstfurrow.advice.demands import Demand
from firstfurrow.advice.plan import PlannedItem
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.strictest import Strictest
from firstfurrow.book.model import Requirement
from firstfurrow.quantities import round_down, round_up
from firstfurrow.reasoning import Step, ends

SELDOM_DECIDES = ("hire", "no_tractor")  # refusals that are advice about buying, not about danger
COMFORT = "rear_sets_comfortable"  # comfort and not need: it never makes an offer fail


@dataclass(frozen=True, slots=True)
class Need:
    """What is asked of one interface, by everything or by one hookup; rounded to the safe side, as printed.

    value
        A number, a word for levels, a tuple for one of, a tuple of tuples for each of.
    planning
        Numbers that are stated at the unfavourable end: the same as planned.
    """

    requirement: Requirement
    value: Any
    planning: float | None
    sure: Any  # the same without what may come later; None: nothing asks for it then
    demands: tuple[Demand, ...]


@dataclass(frozen=True, slots=True)
class Hookup:
    """One implement, or the other load on wheels, with everything that it asks by itself."""

    id: str
    name: str
    later: bool
    refused: str | None  # the title of what is refused whatever the tractor
    needs: Mapping[str, Need]
    item: PlannedItem | None = None  # None: the other load on wheels
    size_open: bool = False  # owned, of a size that nobody knows: it was taken from the middle of what is sold


@dataclass(frozen=True, slots=True)
class Asked:
    """Everything that an offer is held against."""

    profile: Profile
    needs: Mapping[str, Need]
    hookups: tuple[Hookup, ...]
    not_measured: tuple[Requirement, ...]  # ceilings that the buyer left open


def asked(profile: Profile) -> Asked:
    """The profile made ready."""
    memo: dict[int, Any] = {}
    by: dict[str, list[Demand]] = {}
    for demand in profile.demands:
        by.setdefault(demand.requirement, []).append(demand)
    needs = {
        id_: Need(o.requirement, _stated(o.widest), _planned(o.requirement, o.widest),
                  None if o.sure is None else _stated(o.sure), tuple(by.get(id_, ())))
        for id_, o in profile.outcomes.items() if o.widest is not None
    }  # fmt: skip
    return Asked(
        profile, needs, tuple(_hookups(profile, memo)),
        tuple(o.requirement for o in profile.outcomes.values() if o.status == "not_determined"),
    )  # fmt: skip


def in_each_size(profile: Profile, item: PlannedItem) -> Iterator[Asked]:
    """What this tool alone asks in each size in which its build is sold; what else was said of it stays."""
    for size in item.kind.sizes:
        plan = changed(profile.plan, Change("larger_size", item.id, size.id))
        if plan is None or (size.variants and item.variant.id not in size.variants):
            continue
        sized = next(one for one in plan.items if one.id == item.id)
        alone = (replace(sized, mass=item.mass, stated_power=item.stated_power),)
        yield asked(advise_plan(profile.book, replace(plan, items=alone, tow=None), lean=True, hiring=False))


def _stated(found: Strictest) -> Any:
    return found.stated


def _planned(requirement: Requirement, found: Strictest) -> float | None:
    if requirement.decides != "unfavourable" or not isinstance(found.planning, int | float):
        return None
    return round_up(found.planning, requirement.round_to or 1)


def _hookups(profile: Profile, memo: dict[int, Any]) -> list[Hookup]:
    refused: dict[str, str] = {}
    for refusal in profile.refusals:
        if refusal.kind not in SELDOM_DECIDES:
            for id_ in refusal.about:
                refused.setdefault(id_, refusal.title)
    items: list[tuple[str, str, PlannedItem | None]] = [
        (n.sized.item.id, n.sized.item.name, n.sized.item) for n in profile.hookups
    ]
    if profile.plan.tow is not None:
        items.append(("tow", profile.book.messages["reason.tow_name"], None))
    found = []
    for id_, name, item in items:
        later = item is not None and item.when == "later"
        size_open = item is not None and item.when == "owned" and item.size is None and len(item.kind.sizes) > 1
        mine: dict[str, list[Demand]] = {}
        for demand in profile.demands:
            if demand.hookup == id_:
                mine.setdefault(demand.requirement, []).append(demand)
        needs = {r: _need(profile.book.requirements[r], tuple(d), later, memo) for r, d in mine.items()}
        found.append(Hookup(id_, name, later, refused.get(id_), needs, item, size_open))
    return found


def _need(requirement: Requirement, demands: tuple[Demand, ...], later: bool, memo: dict[int, Any]) -> Need:
    """The strictest of the demands of one hookup."""
    planning: float | None = None
    value: Any
    if requirement.sense == "each_of":
        value = tuple(tuple(d.value) for d in demands)
    elif requirement.sense == "one_of":
        value = tuple(v for v in demands[0].value if all(v in d.value for d in demands))
    elif requirement.sense == "level":
        value = max((d.value for d in demands), key=requirement.levels.index)
    else:
        value = _most([number_of(requirement, d.top, memo) for d in demands], requirement)
        if requirement.decides == "unfavourable":
            planning = _most([rounded(requirement, d.value) for d in demands], requirement)
    return Need(requirement, value, planning, None if later else value, demands)


def _most(values: list[float], requirement: Requirement) -> float:
    return min(values) if requirement.sense == "at_most" else max(values)


def number_of(requirement: Requirement, top: Step, memo: dict[int, Any]) -> float:
    """What a demand asks as stated: planning, or the unfavourable end; without end where that has no solution."""
    if requirement.decides == "planning" or requirement.sense == "at_most":
        return rounded(requirement, top.value)
    high = ends(top, memo).high
    return float("inf") if high is None else rounded(requirement, high)


def rounded(requirement: Requirement, value: float) -> float:
    """Rounded to the safe side, as it is printed."""
    step = requirement.round_to or 1
    return round_down(value, step) if requirement.sense == "at_most" else round_up(value, step)
