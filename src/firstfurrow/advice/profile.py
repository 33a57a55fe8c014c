"""The profile: all requirements of a plan, worked out from the answers in one run of the whole road."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from firstfurrow.advice import deciding as ranking
from firstfurrow.advice.assumed import assumed
from firstfurrow.advice.conflicts import Conflict, Refusal, conflicts_of, no_class, refusals_of
from firstfurrow.advice.demands import Demand, ceilings, demands_of, other_load, weight
from firstfurrow.advice.demands.demand import Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import Assumption, LeftOut
from firstfurrow.advice.outcome import Outcome, Status
from firstfurrow.advice.plan import Plan, PlannedItem, Tow, make_plan
from firstfurrow.advice.remarks import remarks
from firstfurrow.advice.rig import Rig, Sized, rig_for
from firstfurrow.advice.sizing import Settled, hours_of, job_of, setting_for, settle, size_items
from firstfurrow.advice.strictest import strictest
from firstfurrow.asking.answers import Answers, Units
from firstfurrow.book.model import Book, Row
from firstfurrow.reasoning import Step


@dataclass(frozen=True, slots=True)
class HookupNote:
    """One hookup as the profile shows it."""

    sized: Sized
    sets_must: int
    sets_comfortable: int
    hours: Step | None  # one pass
    times: float | None  # passes a year


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
    points_to: Row | None  # the smallest class whose typical figures meet everything
    ruled_out: Mapping[str, int]  # requirement id: how many size classes it rules out
    scenario: str | None = None

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


def advise(book: Book, answers: Answers) -> Profile:
    """The profile of these answers (those that apply: see `Interview.applies`)."""
    plan = make_plan(book, answers)
    desk = Desk(book, plan)
    sure_items = [item for item in plan.items if item.when != "later"]
    known: dict[object, tuple[Demand, ...]] = {}
    scratch = Desk(book, plan, scratch=True)
    sure = _run(desk, plan, sure_items, known, settle(scratch, sure_items))
    later = sure
    if len(sure_items) < len(plan.items):
        later = _run(desk, plan, plan.items, known, settle(scratch, plan.items, sure.settled.size_class))
    outcomes = _outcomes(desk, plan, sure, later)
    conflicts = conflicts_of(desk, plan, later.items, later.demands, outcomes)
    if not later.settled.covered:
        conflicts += (no_class(desk, outcomes, later.settled.size_class),)
    refusals = refusals_of(desk, plan, later.items, later.no_grip)
    crossed = {c.requirement for c in conflicts}
    outcomes = {
        id_: replace(outcome, conflict=True) if id_ in crossed else outcome for id_, outcome in outcomes.items()
    }
    ruled_out = ranking.ruled_out(book, outcomes)
    return Profile(
        book=book, units=plan.units, plan=plan, outcomes=outcomes,
        deciding=ranking.deciding(outcomes, ruled_out, conflicts, refusals),
        hookups=tuple(_note(desk, rig, later.demands) for rig in later.rigs), steps=tuple(desk.ledger.steps),
        assumptions=assumed(desk, later.rigs, later.settled.size_class), left_out=plan.left_out, conflicts=conflicts,
        refusals=refusals, stand_in=later.settled.size_class, points_to=ranking.smallest_class(book, outcomes),
        ruled_out=ruled_out, scenario=answers.name,
    )  # fmt: skip


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
            no_grip.append(reason)
    if plan.tow is not None:
        demands += _towed(desk, plan.tow, setting, known, no_grip)
    if "space" not in known:
        known["space"] = tuple(ceilings.demands(desk))
    demands += known["space"]
    return _Run(settled, sized, tuple(demands), tuple(rigs), tuple(no_grip))


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
        no_grip.append(reason)
        return known[key]


# ----------------------------------------------------------------------- outcomes


def _outcomes(desk: Desk, plan: Plan, sure: _Run, later: _Run) -> dict[str, Outcome]:
    sure_by, later_by = _by_requirement(sure.demands), _by_requirement(later.demands)
    open_by: dict[str, list[str]] = {}
    for question, ceiling in (
        ("gate_width", "width_most"),
        ("door_width", "width_most"),
        ("door_height", "height_most"),
        ("side_slope", "side_slope"),
    ):
        if question in plan.open_ceilings:
            open_by.setdefault(ceiling, []).append(question)
    found: dict[str, Outcome] = {}
    for id_, requirement in desk.book.requirements.items():
        first, second = sure_by.get(id_, ()), later_by.get(id_, ())
        mine = strictest(desk, requirement, first) if first else None
        both = mine if second == first else strictest(desk, requirement, second) if second else None
        opened = tuple(open_by.get(id_, ()))
        status: Status = "determined" if both is not None else "not_determined" if opened else "not_needed"
        found[id_] = Outcome(requirement, status, mine, both, False, remarks(desk, id_, both), opened)
    return found


def _by_requirement(demands: Sequence[Demand]) -> dict[str, tuple[Demand, ...]]:
    found: dict[str, list[Demand]] = {}
    for demand in demands:
        found.setdefault(demand.requirement, []).append(demand)
    return {id_: tuple(list_) for id_, list_ in found.items()}


def _note(desk: Desk, rig: Rig, demands: Sequence[Demand]) -> HookupNote:
    sets = {d.requirement: d.value for d in demands if d.hookup == rig.id and d.requirement.startswith("rear_sets")}
    job = job_of(desk.plan, rig.item)
    times = job.times.value if job is not None and job.times is not None else None
    return HookupNote(
        rig.sized, int(sets.get("rear_sets", 0)), int(sets.get("rear_sets_comfortable", 0)), hours_of(desk, rig), times
    )
