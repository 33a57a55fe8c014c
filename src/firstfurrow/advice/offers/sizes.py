"""The question turned round: for each kind of implement, which of the sizes sold this tractor runs.

No second set of formulas: a plan with the one implement in it goes the whole road for every size sold, and the offer is
held against what comes out, as `check` does it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from firstfurrow.advice.changes import Change, changed
from firstfurrow.advice.facts import Assumption
from firstfurrow.advice.offers.checked import CheckedOffer, check
from firstfurrow.advice.offers.items import ItemVerdict
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.plan import Plan, make_plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.sizing import job_of
from firstfurrow.asking.answers import Answers, Given, Item
from firstfurrow.asking.complete import complete
from firstfurrow.book.model import Book, Kind, Size, Variant

ITEM = "i1"
_AREA, _JOBS = "{}_area", "jobs"


@dataclass(frozen=True, slots=True)
class Tried:
    """One size of one build, held against the offer."""

    size: Size
    width: float | None  # m
    verdict: ItemVerdict
    hours: float | None  # for one pass over the area of its job
    area: float | None = None  # ha


@dataclass(frozen=True, slots=True)
class KindSizes:
    """One build of one kind: every size sold, the smallest first."""

    kind: Kind
    variant: Variant
    tried: tuple[Tried, ...]

    @property
    def largest(self) -> Tried | None:
        """The largest size that runs as it is."""
        return next((one for one in reversed(self.tried) if one.verdict.runs == "runs"), None)

    @property
    def perhaps(self) -> Tried | None:
        """The largest size, above those that run, that runs once something is put right or proves enough."""
        return next((one for one in reversed(self._above) if one.verdict.runs in ("runs_if", "unknown")), None)

    @property
    def beyond(self) -> Tried | None:
        """The smallest size above those that does not run."""
        best = self.perhaps or self.largest
        later = self.tried if best is None else self.tried[self.tried.index(best) + 1 :]
        return later[0] if later else None

    @property
    def next_size(self) -> Tried | None:
        """The size sold after the largest that runs."""
        return self._above[0] if self._above else None

    @property
    def _above(self) -> tuple[Tried, ...]:
        best = self.largest
        return self.tried if best is None else self.tried[self.tried.index(best) + 1 :]


@dataclass(frozen=True, slots=True)
class Sizes:
    """What one tractor runs on one ground."""

    book: Book
    offer: Offer
    said: Mapping[str, Given]  # the ground as it was said
    profile: Profile  # of the last plan that was tried: it carries the ground, the units and the words
    assumptions: tuple[Assumption, ...]  # about the ground, not about an implement
    kinds: tuple[KindSizes, ...]


def sizes(
    book: Book,
    offer: Offer,
    ground: Answers,
    *,
    area: Given | None = None,
    kinds: Iterable[Kind] | None = None,
    done: Callable[[], None] = lambda: None,
) -> Sizes:
    """Every size of these kinds (left out: of all) tried behind the offer, on the ground of the answers.

    The implements of the answers are left out; `area` (ha) takes the place of the area of every job. `done` is called
    after each kind.
    """
    ground = driven(ground, offer)
    wanted = tuple(book.kinds.values() if kinds is None else kinds)
    found: list[KindSizes] = []
    about: dict[str, Assumption] = {}
    profile: Profile | None = None
    for kind in wanted:
        for variant in kind.variants:
            plan = make_plan(book, complete(book, answers_with(ground, kind, variant, area=area)))
            about |= {a.question: a for a in plan.assumptions if a.item is None}
            tried = []
            for size, changed_plan in _sold(plan, kind, variant):
                profile = advise_plan(book, changed_plan, lean=True, hiring=False)
                tried.append(_tried(profile, offer, size))
            found.append(KindSizes(kind, variant, tuple(tried)))
        done()
    if profile is None:
        profile = advise_plan(book, make_plan(book, complete(book, ground)), lean=True, hiring=False)
    said = {id_: given for id_, given in ground.given.items() if not given.unsure}
    return Sizes(book, offer, said, profile, tuple(about.values()), tuple(found))


def answers_with(
    ground: Answers, kind: Kind, variant: Variant, size: Size | None = None, *, area: Given | None = None
) -> Answers:
    """The ground of these answers with this one implement: what `check` would be given for it."""
    given = dict(ground.given)
    said = given.get(_JOBS)
    jobs = () if said is None or said.unsure else tuple(said.value)
    more = tuple(job for job in kind.jobs if job not in jobs)
    if kind.area_job is not None and kind.area_job not in (*jobs, *more):
        more = (*more, kind.area_job)
    if more:
        given[_JOBS] = Given((*jobs, *more), ", ".join((*jobs, *more)))
    if area is not None and kind.area_job is not None:
        given[_AREA.format(kind.area_job)] = area
    mine = {"kind": kind.kind, "when": "now", "variant": variant.id}
    if size is not None and len(kind.sizes) > 1:
        mine["size"] = size.id
    item = Item(ITEM, {question: Given(value, value) for question, value in mine.items()})
    return replace(ground, given=given, items=(item,), items_made=1, aside={}, kept=())


def driven(ground: Answers, offer: Offer) -> Answers:
    """How it is driven is a fact of this tractor, and no wish any more."""
    drive = offer.get("transmission")
    return ground if drive is None else replace(ground, given={**ground.given, "drive": Given(drive, drive)})


def _sold(plan: Plan, kind: Kind, variant: Variant) -> Iterator[tuple[Size, Plan]]:
    """The sizes in which this build is sold, each with its plan."""
    for size in kind.sizes:
        if not size.variants or variant.id in size.variants:
            made = changed(plan, Change("larger_size", ITEM, size.id))
            assert made is not None
            yield size, made


def _tried(profile: Profile, offer: Offer, size: Size) -> Tried:
    checked: CheckedOffer = check(profile, (offer,)).offers[0]
    verdict = next(item for item in checked.items if item.hookup.id == ITEM)
    note = next(note for note in profile.hookups if note.sized.item.id == ITEM)
    hours = None if note.hours is None else float(note.hours.value)
    job = job_of(profile.plan, note.sized.item)
    area = None if job is None or job.area is None else job.area.value
    return Tried(size, note.sized.width, verdict, hours, area)
