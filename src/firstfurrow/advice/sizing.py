"""Which size an item has, and which size class of tractors stands in while no tractor is chosen.

A size that was not said is chosen once: by area and time, by load, by wheel tracks, else the smallest sold. The size
class is found by walking the classes upward: the first whose own mass and shaft power cover what it computes with them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice.demands import balance, other_load, shaft, towing, train, weight
from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import Fact
from firstfurrow.advice.plan import Job, Plan, PlannedItem
from firstfurrow.advice.rig import Rig, Sized, rig_for
from firstfurrow.book.model import Row, Size
from firstfurrow.mechanics.capacity import (
    effective_capacity,
    hours_for,
    side_of_square,
    turning_efficiency,
    width_needed,
    workable_hours,
)
from firstfurrow.quantities import show
from firstfurrow.reasoning import Step

# What is asked of a class: a function, what it is about, and whether it depends on the class.
_Ask = tuple[Callable[..., Demand | None], tuple[Any, ...], bool]


@dataclass(frozen=True, slots=True)
class Settled:
    """The size class of one run."""

    size_class: Row
    covered: bool  # False: even the largest class does not cover mass and power


def settle(desk: Desk, items: Sequence[PlannedItem], start: Row | None = None) -> Settled:
    """Walk the size classes upward; each is tried with its own mass and wheel tracks.

    `desk` is one whose steps nobody prints. `start` is a class below which there is no answer: more items never need a
    smaller one.
    """
    rows = list(desk.book.tables["size_classes"].rows.values())
    if start is not None:
        rows = rows[rows.index(start) :]
    rigs = [rig_for(desk, one) for one in size_items(desk, items, rows[0])]
    by_track = [index for index, item in enumerate(items) if _covers_tracks(item)]
    asked = _asked(desk, rigs)
    stuck = 0  # what was too much for one class is asked first of the next one
    for row in rows:
        # Only what covers the wheel tracks changes with the class.
        grown = {at: rig_for(desk, _sized(desk, items[at], row)) for at in by_track}
        if any(rigs[at] is not rig for at, rig in grown.items()):
            rigs = [grown.get(at, rig) for at, rig in enumerate(rigs)]
            asked = _asked(desk, rigs)
        setting = setting_for(desk, row, [rig.sized for rig in rigs])
        has = _Has(setting)
        for index in (stuck, *range(len(asked))) if asked else ():
            if not has.enough_for(asked[index]):
                stuck = index
                break
        else:
            return Settled(row, True)
    return Settled(rows[-1], False)


def setting_for(desk: Desk, row: Row, items: Sequence[Sized]) -> Setting:
    """The tractor that stands in: typical mass of the class, the loader if there is one, and the driver."""
    return Setting(desk, row, any(s.item.variant.way == "loader" for s in items))


def loads_of(desk: Desk, rigs: Sequence[Rig], trains: Sequence[train.Train]) -> tuple[towing.Load, ...]:
    """Everything that rolls behind the tractor, one at a time."""
    found = [load for rig in rigs if (load := towing.load_of(rig)) is not None]
    found += [load for one in trains if (load := train.load_of(one)) is not None]
    return (*found, towing.other_load(desk, desk.plan.tow)) if desk.plan.tow is not None else tuple(found)


def _asked(desk: Desk, rigs: Sequence[Rig]) -> list[_Ask]:
    """What all items ask of a class in weight and power, always in the same order."""
    tow = desk.plan.tow
    trains = train.trains(rigs)
    asked: list[_Ask] = [(towing.mass, (desk, load), False) for load in loads_of(desk, rigs, trains)]
    for rig in rigs:
        asked += ((shaft.power, (rig,), True), (weight.mass, (rig,), False), (balance.mass, (rig,), False))
    for one in trains:
        asked += ((train.shaft, (one,), True), (train.mass, (one,), False))
    if tow is not None:
        asked += ((other_load.power, (desk, tow), True), (other_load.mass, (desk, tow), False))
    return asked


class _Has:
    """What a class brings itself: weight, with and without the driver, and power."""

    def __init__(self, setting: Setting) -> None:
        self._setting = setting
        self._power = setting.row["pto_power"].planning
        self._weights = {"mass": setting.covers, "mass_towing": setting.covers, "mass_balance": setting.empty}

    def enough_for(self, ask: _Ask) -> bool:
        """True when the class covers what is asked; what no class covers is refused elsewhere and does not count."""
        function, about, by_class = ask
        try:
            demand = function(*about, self._setting) if by_class else function(*about)
        except (towing.NoHoldError, weight.NoGripError):
            return True
        return demand is None or demand.value <= self._weights.get(demand.requirement, self._power)


# ------------------------------------------------------------------------- sizes


def size_items(desk: Desk, items: Sequence[PlannedItem], row: Row) -> tuple[Sized, ...]:
    """Every item with its size: as said, or chosen."""
    return tuple(_sized(desk, item, row) for item in items)


def _covers_tracks(item: PlannedItem) -> bool:
    """True when the size is still open and follows from the wheel tracks of the class."""
    return item.size is None and item.kind.sized_by == "track" and item.when != "owned"


def _sized(desk: Desk, item: PlannedItem, row: Row) -> Sized:
    if item.size is not None:
        return Sized(item, item.size, item.width)
    sold = [s for s in item.kind.sizes if not s.variants or item.variant.id in s.variants] or list(item.kind.sizes)
    if item.when == "owned":
        # What somebody owns has a size that nobody chooses any more: neither the work nor the tractor changes it.
        return _made(item, sold, len(sold) // 2, desk.say("size_owned"))
    by = item.kind.sized_by
    if by == "area":
        found = _by_area(desk, item, sold)
    elif by == "load":
        found = _by_load(desk, item, sold)
    elif by == "track":
        found = _by_track(desk, item, sold, row)
    else:
        found = None
    return found or _made(item, sold, 0, desk.say("size_smallest"))


def _made(
    item: PlannedItem,
    sold: Sequence[Size],
    index: int,
    reason: str,
    step: Step | None = None,
    *,
    too_small: bool = False,
) -> Sized:
    size = sold[index]
    width = size.value if item.kind.size_is == "width" else size.width
    following = sold[index + 1] if index + 1 < len(sold) else None
    return Sized(item, size, width, reason, step, following, too_small)


def _by_area(desk: Desk, item: PlannedItem, sold: Sequence[Size]) -> Sized | None:
    needed = needed_width(desk, item)
    if needed is None:
        return None
    for index, size in enumerate(sold):
        width = size.value if item.kind.size_is == "width" else size.width
        if width is not None and width >= needed.value - 1e-9:
            return _made(item, sold, index, desk.say("size_by_area", needed=_metres(desk, needed.value)), needed)
    reason = desk.say("size_too_small", needed=_metres(desk, needed.value))
    return _made(item, sold, len(sold) - 1, reason, needed, too_small=True)


def _by_load(desk: Desk, item: PlannedItem, sold: Sequence[Size]) -> Sized | None:
    if item.load is None:
        return None
    load = show(item.load.value, "kg", desk.plan.units)
    for index, size in enumerate(sold):
        holds = size.load.high if size.load is not None else size.value
        if holds is not None and holds >= item.load.value - 1e-9:
            return _made(item, sold, index, desk.say("size_by_load", load=load))
    return _made(item, sold, len(sold) - 1, desk.say("size_load_too_small", load=load), too_small=True)


def _by_track(desk: Desk, item: PlannedItem, sold: Sequence[Size], row: Row) -> Sized | None:
    wide = row["width"].planning
    for index, size in enumerate(sold):
        if size.value is not None and size.value >= wide - 1e-9:
            return _made(item, sold, index, desk.title("size_by_track", row=row.name, wide=_metres(desk, wide)))
    return _made(item, sold, len(sold) - 1, desk.title("size_by_track", row=row.name, wide=_metres(desk, wide)))


def _metres(desk: Desk, value: float) -> str:
    return show(value, "m", desk.plan.units)


# -------------------------------------------------------------------- work rates


def job_of(plan: Plan, item: PlannedItem) -> Job | None:
    """The job with an area that this item does."""
    return plan.area_jobs.get(item.kind.area_job) if item.kind.area_job is not None else None


def needed_width(desk: Desk, item: PlannedItem) -> Step | None:
    """Working width in m that does the job in its time; None where area or time is not known."""
    job = job_of(desk.plan, item)
    if job is None or job.area is None or item.kind.speed is None:
        return None
    hours = _hours(desk, job)
    rate = _efficiency(desk, item, job.area)
    if hours is None or rate is None:
        return None
    key = (item.id, "needed_width")
    return desk.kept(key) or desk.keep(
        key,
        desk.ledger.work(
            width_needed, desk.title("width_needed", item=item.name), area=_area(desk, job), hours=hours,
            speed=_speed(desk, item), efficiency=rate,
        ),
    )  # fmt: skip


def hours_of(desk: Desk, rig: Rig) -> Step | None:
    """Hours for one pass of this hookup over its job's area; None where it has none."""
    job = job_of(desk.plan, rig.item)
    if job is None or job.area is None or rig.width is None or rig.speed is None:
        return None
    rate = _efficiency(desk, rig.item, job.area)
    if rate is None:
        return None
    key = (rig.key, "hours")
    found = desk.kept(key)
    if found is None:
        capacity = desk.ledger.work(
            effective_capacity, rig.title("capacity"), speed=rig.speed, width=rig.width, efficiency=rate
        )
        hours = desk.ledger.work(hours_for, rig.title("hours"), area=_area(desk, job), capacity=capacity)
        found = desk.keep(key, hours)
    return found


def time_of(desk: Desk, item: PlannedItem) -> float | None:
    """Hours that the buyer has for one pass over the job of this item; None where that is not known."""
    job = job_of(desk.plan, item)
    if job is None:
        return None
    if job.hours is not None:
        return job.hours.value
    if job.days is None or job.hours_a_day is None:
        return None
    share = desk.book.choice("workable_share").planning
    return workable_hours(days=job.days.value, hours_a_day=job.hours_a_day.value, workable=share)


def _area(desk: Desk, job: Job) -> Step:
    assert job.area is not None
    return desk.fact(job.area, desk.title("job_area", job=desk.job(job.id)))


def _hours(desk: Desk, job: Job) -> Step | None:
    name = desk.job(job.id)
    if job.hours is not None:
        return desk.fact(job.hours, desk.title("job_hours", job=name))
    if job.days is None or job.hours_a_day is None:
        return None
    key = ("workable", job.id)
    return desk.kept(key) or desk.keep(
        key,
        desk.ledger.work(
            workable_hours, desk.title("job_workable", job=name),
            days=desk.fact(job.days, desk.title("job_days", job=name)),
            hours_a_day=desk.fact(job.hours_a_day, desk.title("job_hours_a_day", job=name)),
            workable=desk.choice("workable_share"),
        ),
    )  # fmt: skip


def _speed(desk: Desk, item: PlannedItem) -> Step:
    assert item.kind.speed is not None
    return desk.figure((item.kind.kind, "speed"), item.kind.speed, desk.title("kind.speed", item=item.name))


def _efficiency(desk: Desk, item: PlannedItem, area: Fact) -> Step | None:
    """Field efficiency of the table, less what turning costs on a small plot."""
    if item.kind.field_rate is None or item.kind.speed is None:
        return None
    job = job_of(desk.plan, item)
    assert job is not None
    key = ("efficiency", item.kind.kind, area.question)
    found = desk.kept(key)
    if found is None:
        length = desk.ledger.work(
            side_of_square, desk.title("pass_length", job=desk.job(job.id)), area=_area(desk, job)
        )
        found = desk.keep(
            key,
            desk.ledger.work(
                turning_efficiency, desk.title("efficiency", item=item.name),
                table_efficiency=desk.cell("field_rates", item.kind.field_rate, "efficiency"), pass_length=length,
                speed=_speed(desk, item), turn_seconds=desk.choice("turn_seconds"),
            ),
        )  # fmt: skip
    return found
