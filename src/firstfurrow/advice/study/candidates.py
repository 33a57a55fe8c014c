"""What nobody knows: every answer that was assumed, with the other ways it may turn out, as changed plans."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from functools import partial
from typing import Any, Literal

from firstfurrow.advice.changes import Change, changed
from firstfurrow.advice.facts import Fact, Pick
from firstfurrow.advice.plan import Job, Plan, PlannedItem
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.rig import Sized
from firstfurrow.advice.study.words import Words
from firstfurrow.asking.resolve import size_label, wished_functions
from firstfurrow.book.model import Book

# Book and plan of one other way that it may be.
Made = tuple[Book, Plan]

# What an answer changes in the plan beside the figures: these questions are asked of an item.
_ITEM_FACTS = ("load", "depth", "mass", "stated_power")


@dataclass(frozen=True, slots=True)
class Case:
    """One other way that it may turn out."""

    words: str
    make: Callable[[], Made | None]
    sort: Literal["at", "answer", "with"] = "at"  # a figure, the label of an answer, or a thing


@dataclass(frozen=True, slots=True)
class Candidate:
    """One thing that nobody knows.

    `marks` are question ids and titles of the steps that it stands in; `ends` its two ends where the steps do not
    have them.
    """

    sort: Literal["unknown", "estimate"]
    question: str
    item: str | None
    what: str
    taken: str
    cases: tuple[Case, ...]
    how: str | None
    marks: tuple[str, ...]
    ends: tuple[float, float] | None = None
    moves: bool = True  # False: the book says that it moves no requirement


def unknowns(profile: Profile, words: Words) -> tuple[Candidate, ...]:
    """Everything that was assumed because the buyer was not sure, in the order of the plan."""
    return tuple(_Unknowns(profile, words).all())


class _Unknowns:
    def __init__(self, profile: Profile, words: Words) -> None:
        self.profile = profile
        self.book = profile.book
        self.plan = profile.plan
        self.words = words
        self.taken = {(a.question, a.item): a.text for a in profile.assumptions}
        self.unsure = {(a.question, a.item) for a in profile.plan.assumptions}

    def all(self) -> Iterator[Candidate]:
        for job in self.plan.area_jobs.values():
            yield from self._job(job)
        for part in fields(self.plan):
            value = getattr(self.plan, part.name)
            if isinstance(value, Fact) and value.origin == "assumed" and value.ranged:
                yield self._fact(value, None, partial(_put, self.plan, part.name))
            elif isinstance(value, Pick) and value.origin == "assumed":
                yield from self._pick(part.name, value)
        if self.plan.tow is not None:
            yield from self._tow()
        for note in self.profile.hookups:
            yield from self._item(note.sized)

    # -- land, jobs, towing

    def _job(self, job: Job) -> Iterator[Candidate]:
        for part in fields(job):
            value = getattr(job, part.name)
            if isinstance(value, Fact) and value.origin == "assumed" and value.ranged:
                yield self._fact(value, None, partial(_put_job, self.plan, job, part.name))

    def _fact(self, fact: Fact, item: str | None, put: Callable[[Fact], Plan]) -> Candidate:
        question = fact.question.rpartition(".")[2]
        cases = tuple(
            Case(self.words.quantity(fact, end), partial(self._made, put, replace(fact, value=end, low=end, high=end)))
            for end in dict.fromkeys((fact.low, fact.high))
            if end != fact.value
        )
        return self._candidate(question, item, self.words.quantity(fact, fact.value), cases, (fact.question,))

    def _pick(self, name: str, pick: Pick) -> Iterator[Candidate]:
        others = [end for end in dict.fromkeys((pick.low, pick.high)) if end != pick.value]
        if not others:
            return
        cases = tuple(
            Case(
                self.words.choice(pick.question, end),
                partial(self._made, partial(_put, self.plan, name), replace(pick, value=end, low=end, high=end)),
                "answer",
            )
            for end in others
        )
        yield self._candidate(
            pick.question, None, self.words.choice(pick.question, pick.value), cases, (pick.question,)
        )

    def _tow(self) -> Iterator[Candidate]:
        tow = self.plan.tow
        assert tow is not None
        if tow.mass.origin == "assumed" and tow.mass.ranged:
            yield self._fact(tow.mass, None, lambda fact: replace(self.plan, tow=replace(tow, mass=fact)))
        for name in ("axles", "brakes", "place"):
            question = f"tow_{name}"
            if (question, None) in self.unsure:
                put = partial(_put_tow, self.plan, name)
                yield self._choice(question, None, getattr(tow, name), put, (question,))

    def _choice(
        self, question: str, item: str | None, planned: str, put: Callable[[Any], Plan], marks: tuple[str, ...]
    ) -> Candidate:
        """A choice that the plan keeps as a plain word: its other ends stand in the book."""
        asked = self.book.question(question)
        assert asked is not None
        ends = (asked.not_sure.low, asked.not_sure.high) if asked.not_sure.low else [c.id for c in asked.choices]
        cases = tuple(
            Case(self.words.choice(question, end), partial(self._made, put, end), "answer")
            for end in dict.fromkeys(ends)
            if end != planned
        )
        return self._candidate(question, item, self.words.choice(question, planned), cases, marks)

    # -- one implement

    def _item(self, sized: Sized) -> Iterator[Candidate]:
        item = sized.item
        put = partial(_put_item, self.plan, item)
        for name in _ITEM_FACTS:
            fact = getattr(item, name)
            if fact is not None and fact.origin == "assumed" and fact.ranged:
                yield self._fact(fact, item.id, partial(put, name))
        if ("brakes", item.id) in self.unsure:
            planned = "has_brakes" if item.brakes else "no_brakes"
            yield self._choice(
                "brakes", item.id, planned, lambda value: put("brakes", value == "has_brakes"), (f"{item.id}.brakes",)
            )
        if ("often", item.id) in self.unsure and item.when != "owned":  # what is there already is not hired
            yield self._choice("often", item.id, item.often, partial(put, "often"), ())
        if not item.variant_said:
            yield from self._builds(item)
        yield from self._sizes(sized)
        yield from self._wishes(item)

    def _builds(self, item: PlannedItem) -> Iterator[Candidate]:
        others = [v for v in item.kind.variants if v.id != item.variant.id]
        cases = tuple(
            Case(build.name, partial(self._changed, Change("other_build", item.id, build.id)), "answer")
            for build in others
        )
        if cases:
            yield self._candidate("variant", item.id, item.variant.name, cases, ())

    def _sizes(self, sized: Sized) -> Iterator[Candidate]:
        """A size that the program took: of a tool that is there already, or where nothing decided it.

        A size that follows from area and time, from the load or from the wheel tracks is a choice and no unknown.
        """
        item, kind = sized.item, sized.item.kind
        if sized.reason is None or (item.when != "owned" and sized.reason != self.words.say("size_smallest")):
            return
        sold = [s for s in kind.sizes if not s.variants or item.variant.id in s.variants]
        at = next((index for index, size in enumerate(sold) if size.id == sized.size.id), None)
        if at is None or len(sold) < 2:
            return
        near = ([("smaller_size", sold[at - 1])] if at else []) + (
            [("larger_size", sold[at + 1])] if at + 1 < len(sold) else []
        )
        cases = tuple(
            Case(size_label(kind, size, self.words.units), partial(self._changed, Change(id_, item.id, size.id)))
            for id_, size in near
        )
        taken = size_label(kind, sized.size, self.words.units)
        yield self._candidate("size", item.id, taken, cases, ())

    def _wishes(self, item: PlannedItem) -> Iterator[Candidate]:
        """What was left out because the buyer was not sure of wanting it: all of it at once."""
        left = {(one.question, one.item) for one in self.profile.left_out}
        if ("options", item.id) in left:
            wished = wished_functions(item.kind, item.variant.id)
            case = self._wish(item, "options", tuple(f.id for f in wished), [f.job for f in wished])
            if wished:
                yield self._candidate("options", item.id, self.words.say("taken_none"), (case,), ())
        if ("with", item.id) in left and item.variant.way == "three_point":
            links = self.book.links
            case = self._wish(item, "links", tuple(links), [kind.name for kind in links.values()])
            if links:
                yield self._candidate("with", item.id, self.words.say("taken_none"), (case,), ())

    def _wish(self, item: PlannedItem, name: str, ids: tuple[str, ...], names: Sequence[str]) -> Case:
        put = partial(_put_item, self.plan, item, name)
        return Case(self.words.listed(names), partial(self._made, put, ids), "with")

    # -- parts

    def _made(self, put: Callable[[Any], Plan], value: Any) -> Made:
        return self.book, put(value)

    def _changed(self, change: Change) -> Made | None:
        plan = changed(self.plan, change)
        return None if plan is None else (self.book, plan)

    def _candidate(
        self, question: str, item: str | None, taken: str, cases: tuple[Case, ...], marks: tuple[str, ...]
    ) -> Candidate:
        asked = self.book.question(question)
        return Candidate(
            "unknown", question, item, self.words.about(question, item, self.plan),
            self.taken.get((question, item), taken) if question not in ("size", "variant") else taken, cases,
            None if asked is None else asked.how, marks,
            moves=asked is None or bool(asked.moves) or "ways_out" in asked.shows,
        )  # fmt: skip


# ------------------------------------------------------------------- one thing changed


def _put(plan: Plan, name: str, value: Any) -> Plan:
    return replace(plan, **{name: value})


def _put_job(plan: Plan, job: Job, name: str, fact: Fact) -> Plan:
    changes: dict[str, Any] = {name: fact}
    return replace(plan, area_jobs={**plan.area_jobs, job.id: replace(job, **changes)})


def _put_tow(plan: Plan, name: str, value: str) -> Plan:
    assert plan.tow is not None
    changes: dict[str, Any] = {name: value}
    return replace(plan, tow=replace(plan.tow, **changes))


def _put_item(plan: Plan, item: PlannedItem, name: str, value: Any) -> Plan:
    changes: dict[str, Any] = {name: value}
    made = replace(item, **changes)
    return replace(plan, items=tuple(made if one.id == item.id else one for one in plan.items))
