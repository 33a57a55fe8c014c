"""The profile: all requirements of a plan, worked out from the answers in one run of the whole road."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeVar

from firstfurrow.advice import deciding as ranking
from firstfurrow.advice.assumed import assumed
from firstfurrow.advice.conflicts import Conflict, conflicts_of
from firstfurrow.advice.demands import Demand, ceilings, demands_of, other_load, person, slope, towing, train, weight
from firstfurrow.advice.demands.demand import Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import Assumption, LeftOut
from firstfurrow.advice.outcome import Outcome, Status
from firstfurrow.advice.plan import Plan, PlannedItem, Tow, make_plan
from firstfurrow.advice.refusals import Refusal, Spared, hire, refusals_of, seldom
from firstfurrow.advice.remarks import remarks
from firstfurrow.advice.rig import Rig, Sized, rig_for
from firstfurrow.advice.sizing import Settled, hours_of, job_of, loads_of, setting_for, settle, size_items
from firstfurrow.advice.strictest import Strictest, strictest
from firstfurrow.asking.answers import Answers, Units
from firstfurrow.book.model import Book, Row
from firstfurrow.quantities import show
from firstfurrow.reasoning import Step


@dataclass(frozen=True, slots=True)
class HookupNote:
    """One hookup as the profile shows it."""

    sized: Sized
    sets_must: int
    sets_comfortable: int
    hours: Step | None  # one pass
    times: float | None  # passes a year
    remarks: tuple[str, ...] = ()  # sentences that hold for this run only


@dataclass(frozen=True, slots=True)
class Profile:
    """What the report prints and other programs read."""

    book: Book
    units: Units
    plan: Plan
    outcomes: Mapping[str, Outcome]
    deciding: tuple[str, ...]
    hookups: tuple[HookupNote, ...]
    steps: tuple[Step, ...]
    assumptions: tuple[Assumption, ...]
    left_out: tuple[LeftOut, ...]
    conflicts: tuple[Conflict, ...]
    refusals: tuple[Refusal, ...]
    stand_in: Row  # the size class that stood in for the tractor
    stand_in_sure: Row  # the same for what is sure
    points_to: Row | None  # the smallest class whose typical figures meet everything
    ruled_out: Mapping[str, int]  # requirement id: how many size classes it rules out
    scenario: str | None = None
    demands: tuple[Demand, ...] = ()  # of everything that may come
    sure: tuple[Demand, ...] = ()  # of what is sure

    def step(self, id_: str) -> Step:
        """The step of that id."""
        return self.steps[int(id_[1:]) - 1]


@dataclass(frozen=True, slots=True)
class _Run:
    """One run of the road for a set of items."""

    settled: Settled
    items: tuple[Sized, ...]
    demands: tuple[Demand, ...]
    rigs: tuple[Rig, ...]
    no_grip: tuple[weight.NoGripError, ...]
    no_hold: tuple[towing.NoHoldError, ...]


def advise(book: Book, answers: Answers) -> Profile:
    """The profile of these answers (those that apply: see `Interview.applies`)."""
    return advise_plan(book, make_plan(book, answers), answers.name)


def advise_plan(
    book: Book, plan: Plan, scenario: str | None = None, *, lean: bool = False, hiring: bool = True
) -> Profile:
    """The profile of a plan: the whole road once. What-if, doubt and ways out are this again with a changed plan.

    `lean` leaves out what is only read: enough to compare what is stated, and quicker. `hiring` runs it once more
    without each thing that is used once or twice a year, to see whether that alone asks for more.
    """
    desk = Desk(book, plan, lean=lean)
    sure_items = [item for item in plan.items if item.when != "later"]
    known: dict[object, tuple[Demand, ...]] = {}
    # A class is tried apart, so that only the steps of the chosen one are printed; those of a lean run nobody prints.
    scratch = desk if lean else Desk(book, plan, scratch=True)
    sure = _run(desk, plan, sure_items, known, settle(scratch, sure_items))
    later = sure
    if len(sure_items) < len(plan.items):
        later = _run(desk, plan, plan.items, known, settle(scratch, plan.items, sure.settled.size_class))
    outcomes = _outcomes(desk, plan, sure, later)
    conflicts = conflicts_of(desk, later.rigs, later.demands, outcomes, later.settled)
    refusals = refusals_of(desk, later.rigs, later.no_grip, later.no_hold)
    if hiring:
        refusals += _hired(desk, later.rigs, outcomes, conflicts)
    crossed = {c.requirement for c in conflicts}
    outcomes = {
        id_: replace(outcome, conflict=True) if id_ in crossed else outcome for id_, outcome in outcomes.items()
    }
    ruled_out = ranking.ruled_out(book, outcomes)
    found = Profile(
        book=book, units=plan.units, plan=plan, outcomes=outcomes,
        deciding=ranking.deciding(outcomes, ruled_out, len(conflicts), len(refusals)),
        hookups=tuple(_notes(desk, later, outcomes["width_most"].widest)),
        steps=tuple(desk.ledger.steps),
        assumptions=() if lean else assumed(desk, later.rigs, later.settled.size_class), left_out=plan.left_out,
        conflicts=conflicts, refusals=refusals, stand_in=later.settled.size_class,
        stand_in_sure=sure.settled.size_class, points_to=ranking.smallest_class(book, outcomes), ruled_out=ruled_out,
        scenario=scenario, demands=later.demands, sure=sure.demands,
    )  # fmt: skip
    desk.clear()
    scratch.clear()
    return found


def _hired(
    desk: Desk, rigs: Sequence[Rig], outcomes: Mapping[str, Outcome], conflicts: Sequence[Conflict]
) -> tuple[Refusal, ...]:
    rows = list(desk.book.tables["size_classes"].rows.values())
    larger = ranking.smallest_class(desk.book, outcomes, floors_only=True)
    found: list[Refusal] = []
    for rig in filter(seldom, rigs):
        fewer = replace(desk.plan, items=tuple(item for item in desk.plan.items if item.id != rig.id))
        without = advise_plan(desk.book, fewer, lean=True, hiring=False)
        smaller = ranking.smallest_class(desk.book, without.outcomes, floors_only=True)
        if smaller is not None and larger is not None and rows.index(smaller) >= rows.index(larger):
            smaller = None
        left = {c.kind for c in without.conflicts}
        gone = tuple(c.title for c in conflicts if c.kind not in left)
        refusal = hire(desk, rig, larger, Spared(smaller, gone))
        if refusal is not None:
            found.append(refusal)
    return tuple(found)


# --------------------------------------------------------------------------- runs


def _run(
    desk: Desk,
    plan: Plan,
    items: Sequence[PlannedItem],
    known: dict[object, tuple[Demand, ...]],
    settled: Settled,
) -> _Run:
    sized = size_items(desk, items, settled.size_class)
    setting = setting_for(desk, settled.size_class, sized)
    demands: list[Demand] = []
    rigs: list[Rig] = []
    no_grip: list[weight.NoGripError] = []
    for one in sized:
        rig = rig_for(desk, one)
        rigs.append(rig)
        demands += _demands(rig, setting, known)
        try:
            weight.mass(rig)
        except weight.NoGripError as reason:
            no_grip.append(_bare(reason))
    if plan.tow is not None:
        demands += _towed(desk, plan.tow, setting, known, no_grip)
    demands += train.demands(desk, rigs, setting)
    trains = train.trains(rigs)
    for one_train in trains:
        try:
            pulled = train.mass(one_train)
        except weight.NoGripError as reason:
            no_grip.append(_bare(reason))
        else:
            demands += () if pulled is None else (pulled,)
    held, no_hold = _held(desk, loads_of(desk, rigs, trains), setting)
    demands += held
    demands += slope.track(desk, rigs, setting)
    demands += person.demands(desk, rigs)
    if "space" not in known:
        known["space"] = (*slope.said(desk), *ceilings.demands(desk))
    demands += (*known["space"], *ceilings.mass(desk, rigs, setting))
    return _Run(settled, sized, tuple(demands), tuple(rigs), tuple(no_grip), tuple(no_hold))


def _held(desk: Desk, loads: Sequence[towing.Load], setting: Setting) -> tuple[list[Demand], list[towing.NoHoldError]]:
    """What must be stopped and held back; and what nothing holds without brakes of its own."""
    found: list[Demand] = []
    never: list[towing.NoHoldError] = []
    for load in loads:
        held: Demand | None = None
        try:
            held = towing.mass(desk, load)
        except towing.NoHoldError as reason:
            never.append(_bare(reason))
        else:
            if not load.braked:
                held = replace(held, more=partial(_more_on_holding, desk, load, setting))
            found.append(held)
        outlet = towing.outlet(desk, load, held)
        if outlet is not None:
            found.append(outlet)
    return found, never


_Reason = TypeVar("_Reason", bound=Exception)


def _bare(reason: _Reason) -> _Reason:
    """The reason without the frames that it came through: they hold the run, which would wait for the collector."""
    reason.__traceback__ = reason.__context__ = None
    return reason


def _demands(rig: Rig, setting: Setting, known: dict[object, tuple[Demand, ...]]) -> tuple[Demand, ...]:
    """Demands of one hookup; the second run reuses those of the first where size and stand-in are the same."""
    key = (rig.key, setting.key)
    found = known.get(key)
    if found is None:
        found = known[key] = demands_of(rig, setting)
    return found


def _towed(
    desk: Desk,
    tow: Tow,
    setting: Setting,
    known: dict[object, tuple[Demand, ...]],
    no_grip: list[weight.NoGripError],
) -> tuple[Demand, ...]:
    key = ("tow", setting.key)
    if key not in known:
        known[key] = other_load.demands(desk, tow, setting)
    try:
        return (*known[key], other_load.mass(desk, tow))
    except weight.NoGripError as reason:
        no_grip.append(_bare(reason))
        return known[key]


def _more_on_holding(desk: Desk, load: towing.Load, setting: Setting) -> tuple[str, ...]:
    return towing.rear_only(desk, load, setting), towing.with_brakes(desk, load)


# ----------------------------------------------------------------------- outcomes


def _outcomes(desk: Desk, plan: Plan, sure: _Run, later: _Run) -> dict[str, Outcome]:
    sure_by, later_by = _by_requirement(sure.demands), _by_requirement(later.demands)
    open_by: dict[str, list[str]] = {}
    for question, ceiling in (
        ("gate_width", "width_most"),
        ("door_width", "width_most"),
        ("door_height", "height_most"),
        ("side_slope", "side_slope"),
        ("side_slope", "track_least"),
        ("shed_length", "length_most"),
        ("turn_room", "turning_most"),
        ("bridge_limit", "mass_most"),
        ("haul_rating", "mass_most"),
        ("haul_trailer", "mass_most"),
        ("haul_tow_rating", "mass_most"),
    ):
        if question in plan.open_ceilings:
            open_by.setdefault(ceiling, []).append(question)
    found: dict[str, Outcome] = {}
    for id_, requirement in desk.book.requirements.items():
        first, second = sure_by.get(id_, ()), later_by.get(id_, ())
        mine = strictest(desk, requirement, first) if first else None
        both = mine if second == first else strictest(desk, requirement, second) if second else None
        opened = tuple(open_by.get(id_, ()))
        known = mine is not None or both is not None
        status: Status = "determined" if known else "not_determined" if opened else "not_needed"
        told = () if desk.lean else remarks(desk, id_, both)
        found[id_] = Outcome(requirement, status, mine, both, False, told, opened)
    return found


def _by_requirement(demands: Sequence[Demand]) -> dict[str, tuple[Demand, ...]]:
    found: dict[str, list[Demand]] = {}
    for demand in demands:
        found.setdefault(demand.requirement, []).append(demand)
    return {id_: tuple(list_) for id_, list_ in found.items()}


def _notes(desk: Desk, run: _Run, most: Strictest | None) -> Iterator[HookupNote]:
    sets = {
        (d.hookup, d.requirement): int(d.value)
        for d in run.demands
        if d.requirement in ("rear_sets", "rear_sets_comfortable")
    }
    for rig in run.rigs:
        job = job_of(desk.plan, rig.item)
        times = job.times.value if job is not None and job.times is not None else None
        yield HookupNote(
            rig.sized, sets.get((rig.id, "rear_sets"), 0), sets.get((rig.id, "rear_sets_comfortable"), 0),
            hours_of(desk, rig), times, _folded(desk, rig, most),
        )  # fmt: skip


def _folded(desk: Desk, rig: Rig, most: Strictest | None) -> tuple[str, ...]:
    """What works wider than the opening and may fold: whether this one does, only its owner can see."""
    width = rig.sized.width
    if most is None or width is None or not rig.kind.folds or width <= most.stated:
        return ()
    return (rig.title("must_fold", wide=show(width, "m", desk.plan.units), left=most.shown),)
