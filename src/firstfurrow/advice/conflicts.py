"""Conflicts: floors and ceilings that cross, and asks that no tractor meets together, each with its ways out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.advice import deciding
from firstfurrow.advice.changes import Change
from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.rig import Rig
from firstfurrow.advice.sizing import Settled, hours_of, time_of
from firstfurrow.advice.strictest import Strictest
from firstfurrow.book.model import Row
from firstfurrow.quantities import show


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two asks that cross: the two reasons side by side, and the ways out.

    `ways_out` are general advice in words; `changes` are changes of this very plan that can be worked out again.
    """

    kind: str
    requirement: str | None
    title: str
    reasons: tuple[str, ...]
    ways_out: tuple[str, ...]
    changes: tuple[Change, ...] = ()
    about: tuple[str, ...] = ()  # items whose wishes cross


def conflicts_of(
    desk: Desk, rigs: Sequence[Rig], demands: Sequence[Demand], outcomes: Mapping[str, Outcome], settled: Settled
) -> tuple[Conflict, ...]:
    """All conflicts, in the order in which a reader looks at them."""
    return (
        *_sets(desk, rigs, demands, outcomes),
        *_coupler(desk, rigs),
        *_work(desk, rigs),
        *_too_wide(desk, rigs, outcomes),
        *_outgrown(desk, rigs, outcomes),
        *_narrow_and_steep(desk, rigs, outcomes, settled.size_class),
        *_no_class(desk, rigs, outcomes),
    )


# --------------------------------------------------------------- what excludes each other


def _sets(
    desk: Desk, rigs: Sequence[Rig], demands: Sequence[Demand], outcomes: Mapping[str, Outcome]
) -> Iterator[Conflict]:
    """Hitch categories and tyre treads: sets of which nothing is left."""
    for kind, requirement in (("category", "hitch_category"), ("tread", "tyre_tread")):
        widest = outcomes[requirement].widest
        if widest is None or widest.stated:
            continue
        apart = [d for d in demands if d.requirement == requirement]
        reasons = tuple(
            desk.say(
                f"conflict_{kind}_one", item=d.name,
                tractors=desk.say("or").join(_word(desk, requirement, value) for value in d.value),
            )
            for d in apart
        )  # fmt: skip
        about = tuple(d.hookup for d in apart)
        changes = tuple(change for rig in rigs if rig.id in about for change in _of_item(rig))
        if kind == "tread":
            changes = (Change("firmer", None, "firm"), *changes)
        yield _conflict(desk, kind, requirement, reasons, changes, about)


def _word(desk: Desk, requirement: str, value: object) -> str:
    return desk.book.messages.get(f"reason.word.{requirement}.{value}", str(value))


def _coupler(desk: Desk, rigs: Sequence[Rig]) -> Iterator[Conflict]:
    if desk.plan.quick_coupler.value != "coupler":
        return
    for rig in rigs:
        if rig.kind.no_quick_coupler and rig.mounted:
            reasons = (desk.say("conflict_coupler_tool", item=rig.name), desk.say("conflict_coupler_wish"))
            changes = (Change("pins"), Change("without_item", rig.id))
            yield _conflict(desk, "coupler", None, reasons, changes, (rig.id,), item=rig.name)


# ------------------------------------------------------------------------- work and time


def _work(desk: Desk, rigs: Sequence[Rig]) -> Iterator[Conflict]:
    """Jobs that cannot be done in their time, and loads that nothing sold carries."""
    for rig in rigs:
        sized = rig.sized
        if sized.too_small and sized.reason is not None and rig.kind.area_job is None:
            changes = (Change("half_load", rig.id), Change("without_item", rig.id))
            reason = f"{sized.reason[:1].upper()}{sized.reason[1:]}."
            yield _conflict(desk, "load", None, (reason,), changes, (rig.id,), item=rig.name)
            continue
        late = _late(desk, rig)
        if late is not None:
            wide = Change("larger_size", rig.id, _next_wider(rig))
            more = Change("more_hours", rig.id, late[1])
            changes = (*((wide,) if wide.value is not None else ()), more, Change("without_item", rig.id))
            yield _conflict(desk, "time", None, (late[0],), changes, (rig.id,), item=rig.name)


def _late(desk: Desk, rig: Rig) -> tuple[str, float] | None:
    """Why the job cannot be done in its time, and how many times the hours it takes; None when it can.

    Hours that nobody gave make no conflict: the report shows the hours that the tool takes.
    """
    hours, time = hours_of(desk, rig), time_of(desk, rig.item)
    if hours is None or time is None or hours.value <= time * 1.001:
        return None
    job = desk.plan.area_jobs[rig.kind.area_job or ""]
    said = [fact for fact in (job.hours, job.days, job.hours_a_day) if fact is not None]
    if not (rig.sized.too_small or all(fact.origin == "said" for fact in said)):
        return None
    sentence = desk.say(
        "conflict_time_hours", item=rig.name, hours=f"{hours.value:g}", step=hours.id, time=f"{time:.3g}"
    )
    if rig.sized.too_small and rig.sized.reason is not None:
        sentence = f"{sentence} {rig.sized.reason[:1].upper()}{rig.sized.reason[1:]}."
    return sentence, round(hours.value / time + 0.05, 1)


def _next_wider(rig: Rig) -> str | None:
    sold = [s for s in rig.kind.sizes if not s.variants or rig.variant.id in s.variants]
    own = rig.sized.width or 0
    wider = [s for s in sold if rig.kind.size_is == "width" and (s.value or 0) > own + 1e-9]
    return min(wider, key=lambda s: s.value or 0).id if wider else None


# ---------------------------------------------------------------------- floors and ceilings


def _too_wide(desk: Desk, rigs: Sequence[Rig], outcomes: Mapping[str, Outcome]) -> Iterator[Conflict]:
    most = outcomes["width_most"].widest
    if most is None:
        return
    for rig in rigs:
        width = rig.sized.width
        # A boom or a wide rake folds; what works no wider than twice the opening is taken as rigid.
        if width is None or rig.variant.way == "loader" or rig.kind.folds or width <= most.stated:
            continue
        wide = show(width, "m", desk.plan.units)
        reasons = (
            desk.say("conflict_tool_too_wide_tool", item=rig.name, wide=wide),
            desk.say("conflict_width_gate", left=most.shown),
        )
        yield _conflict(
            desk, "tool_too_wide", "width_most", reasons, tuple(_of_item(rig, most.stated)), (rig.id,), item=rig.name
        )


# Each ceiling, the column of the size-class table that it limits, and the kind of conflict.
_CEILINGS = (
    ("width_most", "width", "outgrows_width"),
    ("height_most", "height", "outgrows_height"),
    ("mass_most", "mass", "outgrows_mass"),
)


def _outgrown(desk: Desk, rigs: Sequence[Rig], outcomes: Mapping[str, Outcome]) -> Iterator[Conflict]:
    """The smallest class that meets every floor is larger than a ceiling allows."""
    row = deciding.smallest_class(desk.book, outcomes, floors_only=True)
    if row is None:
        return  # said apart
    pushing = deciding.pushing(desk.book, outcomes, row)
    for requirement, column, kind in _CEILINGS:
        widest = outcomes[requirement].widest
        has = row[column].planning
        if widest is None or has <= widest.stated + 1e-9:
            continue
        typical = show(has, row[column].unit, desk.plan.units, 0 if column == "mass" else None)
        ceiling = desk.say(
            f"conflict_{kind}_ceiling", row=row.name, has=typical, left=widest.shown,
            because=widest.governed_by.name if widest.governed_by is not None else "",
        )  # fmt: skip
        floors = tuple(_push(desk, outcomes[id_], row) for id_ in pushing[:2])
        about = _governing(outcomes, pushing)
        changes = tuple(change for rig in rigs if rig.id in about for change in _of_item(rig))
        if requirement == "mass_most":
            changes = (Change("haul_loader"), Change("haul_alone"), *changes, *_heaviest(rigs))
        changes += _of_tow(about)
        yield _conflict(desk, kind, requirement, (*floors, ceiling), changes, about)


def _push(desk: Desk, outcome: Outcome, row: Row) -> str:
    widest = outcome.widest
    assert widest is not None
    because = widest.governed_by.name if widest.governed_by is not None else ""
    return desk.say(
        "conflict_pushes", title=outcome.requirement.title, shown=widest.shown, because=because, row=row.name
    )


def _heaviest(rigs: Sequence[Rig]) -> tuple[Change, ...]:
    carried = [r for r in rigs if r.variant.way in ("three_point", "mid_mount") and r.empty is not None]
    if not carried:
        return ()
    heaviest = max(carried, key=lambda rig: rig.empty.value if rig.empty is not None else 0)
    return (Change("without_item", heaviest.id),)


def _narrow_and_steep(desk: Desk, rigs: Sequence[Rig], outcomes: Mapping[str, Outcome], row: Row) -> Iterator[Conflict]:
    """The track that the side slope asks for does not go through the gate."""
    track, most = outcomes["track_least"].widest, outcomes["width_most"].widest
    if track is None or most is None:
        return
    beside = row["width"].planning - row["track"].planning
    if track.stated + beside <= most.stated + 1e-9:
        return
    reasons = (
        desk.say("conflict_track_width_track", shown=track.shown, beside=show(beside, "m", desk.plan.units)),
        desk.say("conflict_width_gate", left=most.shown),
    )
    yield _conflict(desk, "track_width", "track_least", reasons, (), ())


def _no_class(desk: Desk, rigs: Sequence[Rig], outcomes: Mapping[str, Outcome]) -> Iterator[Conflict]:
    """Floors that no size class meets together: what makes the nearest class so large, and what it still lacks."""
    book = desk.book
    if deciding.smallest_class(book, outcomes, floors_only=True) is not None:
        return
    row = min(book.tables["size_classes"].rows.values(), key=lambda r: len(deciding.unmet(book, outcomes, r)))
    short, pushing = deciding.unmet(book, outcomes, row), deciding.pushing(book, outcomes, row)
    pushing = tuple(id_ for id_ in pushing if id_ not in short)
    reasons = [_push(desk, outcomes[id_], row) for id_ in pushing[:2]]
    reasons += [desk.say("conflict_no_class_short", row=row.name, **_needs(outcomes[id_])) for id_ in short]
    about = _governing(outcomes, (*short, *pushing))
    changes = tuple(change for rig in rigs if rig.id in about for change in _of_item(rig)) + _of_tow(about)
    yield _conflict(desk, "no_class", None, tuple(reasons), changes, about)


def _needs(outcome: Outcome) -> dict[str, str]:
    widest = outcome.widest
    assert widest is not None
    because = widest.governed_by.name if widest.governed_by is not None else ""
    return {"title": outcome.requirement.title, "shown": widest.shown, "because": because}


# ------------------------------------------------------------------------------- ways out


def _of_item(rig: Rig, most_width: float | None = None) -> Iterator[Change]:
    """What may be done about one item: a smaller size, another build, brakes, half the load, leaving it out."""
    sold = [s for s in rig.kind.sizes if not s.variants or rig.variant.id in s.variants]
    if rig.item.when != "owned" and rig.sized.size in sold:
        smaller = sold[: sold.index(rig.sized.size)]
        if most_width is not None:
            smaller = [s for s in smaller if (s.value or 0) <= most_width]
        if smaller:
            yield Change("smaller_size", rig.id, smaller[-1].id)
            if smaller[0] is not smaller[-1] and most_width is None:
                yield Change("smaller_size", rig.id, smaller[0].id)
    for build in rig.kind.variants:
        if build.id != rig.variant.id and build.way != rig.variant.way and rig.item.when != "owned":
            yield Change("other_build", rig.id, build.id)
    if rig.rolls and not rig.item.brakes:
        yield Change("with_brakes", rig.id)
    if rig.load is not None:
        yield Change("half_load", rig.id, rig.load.value)
    yield Change("without_item", rig.id)


def of_item(rig: Rig) -> tuple[Change, ...]:
    """The same for refusals."""
    return tuple(_of_item(rig))


def _of_tow(about: Sequence[str]) -> tuple[Change, ...]:
    if "tow" not in about:
        return ()
    return (Change("tow_with_brakes"), Change("tow_half"), Change("without_tow"))


def _governing(outcomes: Mapping[str, Outcome], ids: Sequence[str]) -> tuple[str, ...]:
    """The hookups that govern these requirements, each once."""
    found: list[str] = []
    for id_ in ids:
        widest: Strictest | None = outcomes[id_].widest
        if widest is not None and widest.governed_by is not None and widest.governed_by.hookup not in found:
            found.append(widest.governed_by.hookup)
    return tuple(found)


def _conflict(
    desk: Desk,
    kind: str,
    requirement: str | None,
    reasons: tuple[str, ...],
    changes: tuple[Change, ...],
    about: tuple[str, ...],
    **slots: str,
) -> Conflict:
    title, way = desk.say(f"conflict_{kind}", **slots), desk.say(f"conflict_{kind}_way")
    once = tuple(dict.fromkeys(changes))
    return Conflict(kind, requirement, title, reasons, (way,), once, about)
