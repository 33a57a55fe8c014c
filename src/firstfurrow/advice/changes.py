"""Changes of a plan that may end a conflict or a refusal, or answer "what if": data, applied to a copy of the plan."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from firstfurrow.advice.facts import Fact, Pick
from firstfurrow.advice.plan import Job, Plan, PlannedItem


@dataclass(frozen=True, slots=True)
class Change:
    """One thing done differently.

    id
        What: `without_item`, `smaller_size`, `larger_size`, `more_hours`, `with_brakes`, `half_load`,
        `tow_with_brakes`, `tow_half`, `without_tow`, `firmer`, `gentler`, `haul_alone`, `haul_loader`, `other_build`,
        `pins`. The sentence for it stands in the book under `way.<id>`.
    item
        The item that it is about, if it is about one.
    value
        A number or word that goes with it: the slope in %, the hours, the build.
    """

    id: str
    item: str | None = None
    value: Any = None


def changed(plan: Plan, change: Change) -> Plan | None:
    """The plan with the change made; None when the change means nothing for this plan."""
    return _CHANGES[change.id](plan, change)


# --------------------------------------------------------------------- implements


def _item(plan: Plan, change: Change) -> PlannedItem | None:
    return next((item for item in plan.items if item.id == change.item), None)


def _with_item(plan: Plan, made: PlannedItem) -> Plan:
    return replace(plan, items=tuple(made if item.id == made.id else item for item in plan.items))


def _without_item(plan: Plan, change: Change) -> Plan | None:
    if _item(plan, change) is None:
        return None
    return replace(plan, items=tuple(item for item in plan.items if item.id != change.item))


def _other_size(plan: Plan, change: Change) -> Plan | None:
    """The sold size that `value` names (its id); the size is then settled."""
    item = _item(plan, change)
    size = None if item is None else next((s for s in item.kind.sizes if s.id == change.value), None)
    if item is None or size is None:
        return None
    width = size.value if item.kind.size_is == "width" else size.width
    return _with_item(
        plan, replace(item, size=size, width=width, size_origin="said", size_text=None, mass=None, stated_power=None)
    )


def _other_build(plan: Plan, change: Change) -> Plan | None:
    item = _item(plan, change)
    build = None if item is None else next((v for v in item.kind.variants if v.id == change.value), None)
    if item is None or build is None:
        return None
    fits = item.size is None or not item.size.variants or build.id in item.size.variants
    kept = item if fits else replace(item, size=None, width=None, size_origin="chosen", size_text=None)
    return _with_item(plan, replace(kept, variant=build, variant_said=True, mass=None))


def _with_brakes(plan: Plan, change: Change) -> Plan | None:
    item = _item(plan, change)
    return None if item is None or item.brakes else _with_item(plan, replace(item, brakes=True))


def _half_load(plan: Plan, change: Change) -> Plan | None:
    """Half of what the buyer said, or of the usual load that `value` gives in kg."""
    item = _item(plan, change)
    if item is None:
        return None
    fact = item.load
    if fact is None and change.value is not None:
        fact = Fact(f"{item.id}.load", "mass", change.value, change.value, change.value, "assumed")
    return None if fact is None else _with_item(plan, replace(item, load=_half(fact)))


def _half(fact: Fact) -> Fact:
    return replace(fact, value=fact.value / 2, low=fact.low / 2, high=fact.high / 2, origin="assumed", text=None)


# ------------------------------------------------------------------- land and work


def _more_hours(plan: Plan, change: Change) -> Plan | None:
    """`value` times as many hours for the job of the item."""
    item = _item(plan, change)
    job = None if item is None or item.kind.area_job is None else plan.area_jobs.get(item.kind.area_job)
    if job is None:
        return None
    times = float(change.value or 2)

    def more(fact: Fact | None) -> Fact | None:
        if fact is None:
            return None
        value = fact.value * times
        return replace(fact, value=value, low=value, high=value, origin="assumed", text=None)

    longer: Job = replace(job, hours=more(job.hours), days=more(job.days))
    return replace(plan, area_jobs={**plan.area_jobs, job.id: longer})


def _firmer(plan: Plan, change: Change) -> Plan | None:
    if plan.surface.value == change.value:
        return None
    pick = Pick("surface", change.value, change.value, change.value, "assumed")
    return replace(plan, surface=pick)


def _gentler(plan: Plan, change: Change) -> Plan | None:
    value = float(change.value)
    if plan.slope_up.value <= value:
        return None
    fact = Fact("slope_up", "slope", value, value, value, "assumed")
    return replace(plan, slope_up=fact)


# -------------------------------------------------------------------------- towing


def _tow_with_brakes(plan: Plan, change: Change) -> Plan | None:
    if plan.tow is None or plan.tow.brakes == "has_brakes":
        return None
    return replace(plan, tow=replace(plan.tow, brakes="has_brakes"))


def _tow_half(plan: Plan, change: Change) -> Plan | None:
    return None if plan.tow is None else replace(plan, tow=replace(plan.tow, mass=_half(plan.tow.mass)))


def _without_tow(plan: Plan, change: Change) -> Plan | None:
    return None if plan.tow is None else replace(plan, tow=None)


# ------------------------------------------------------------------ hauling, coupling


def _haul(with_: str) -> Callable[[Plan, Change], Plan | None]:
    def haul(plan: Plan, change: Change) -> Plan | None:
        if not plan.hauled or plan.haul_with.value == with_:
            return None
        return replace(plan, haul_with=Pick("haul_with", with_, with_, with_, "assumed"))

    return haul


def _pins(plan: Plan, change: Change) -> Plan | None:
    if plan.quick_coupler.value == "pins":
        return None
    return replace(plan, quick_coupler=Pick("quick_coupler", "pins", "pins", "pins", "assumed"))


_CHANGES: Mapping[str, Callable[[Plan, Change], Plan | None]] = {
    "without_item": _without_item,
    "smaller_size": _other_size,
    "larger_size": _other_size,
    "other_build": _other_build,
    "more_hours": _more_hours,
    "with_brakes": _with_brakes,
    "half_load": _half_load,
    "firmer": _firmer,
    "gentler": _gentler,
    "tow_with_brakes": _tow_with_brakes,
    "tow_half": _tow_half,
    "without_tow": _without_tow,
    "haul_alone": _haul("alone"),
    "haul_loader": _haul("loader"),
    "pins": _pins,
}
