"""What a question says it moves, it moves in some plan; and it moves nothing else."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from moves_seen import seen_before

from firstfurrow.advice.plan import Plan as Facts
from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.book.load import load
from firstfurrow.book.model import Kind, Question, Variant
from making import CERTAIN, Maker

MAKER = Maker(load())
BUILDS = [(kind, variant) for kind in MAKER.book.kinds.values() for variant in kind.variants]
# One build of each sort: what is asked of all land alike need not be tried with every implement.
SORTS = list(
    {
        (b.way, k.shaft is not None, k.pull is not None, k.rolls, k.sized_by, k.tread, bool(b.oil)): (k, b)
        for k, b in BUILDS
    }.values()
)  # fmt: skip
OUTER = [q for s in MAKER.book.sections for q in s.questions]
INNER = [q for s in MAKER.book.sections if s.group is not None for q in s.group.questions]
Item = dict[str, Any]
Said = dict[str, Any]
Plan = tuple[list[Item], Said]

# Values to try for a quantity or a count, as typed; several steps apart, inside what is possible.
TYPED: dict[str, tuple[str, ...]] = {
    "slope": ("0 %", "4 %", "14 %", "30 %"), "altitude": ("0 m", "1500 m"), "area": ("0.4 ha", "3 ha", "12 ha"),
    "time": ("2 h", "7 h", "30 h"), "mass": ("150 kg", "700 kg", "2500 kg"), "depth": ("8 cm", "30 cm"),
    "power": ("8 kW", "45 kW"), "length": ("2.2 m", "3.5 m"),
}  # fmt: skip
# The same closer together, for what changes only at a step of sizes or classes.
FINE: dict[str, list[str]] = {
    "area": [f"{x} ha" for x in (0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 1.6, 2, 2.5, 3, 4, 4.5, 5, 6, 7, 8, 10, 14, 20, 30)],
    "time": [f"{x} h" for x in (0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 30)],
    "mass": [f"{x} kg" for x in (60, 100, 200, 300, 450, 600, 800, 1000, 1500, 2000, 2500, 3000, 4000, 6000)],
    "power": [f"{x} kW" for x in (5, 12, 20, 27, 29, 35, 47, 50, 80)],
}  # fmt: skip
LANDS: list[Said] = [
    {"soil": soil, "surface": surface, "growth": growth, "slope_up": slope, "altitude": altitude}
    for soil, surface, growth, slope, altitude in (
        ("sand", "firm", "thin", "0 %", "0 m"), ("clay", "firm", "woody", "8 %", "0 m"),
        ("clay", "tilled", "woody", "4 %", "1800 m"), ("loam", "soft", "usual", "5 %", "0 m"),
        ("loam", "firm", "usual", "14 %", "1800 m"), ("loam", "wet_grass", "usual", "14 %", "0 m"),
        ("loam", "firm", "usual", "30 %", "0 m"),
    )
]  # fmt: skip
DEEP_TRIES = 300


def answers_to(question: Question, kind: Kind | None = None, build: Variant | None = None) -> list[Any]:
    """Some allowed answers, `not sure` among them where the book takes it."""
    found: list[Any] = []
    if question.type == "quantity":
        found = list(TYPED[question.dimension or ""])
    elif question.type == "count":
        found = ["1", "5", "20"]
    elif question.type == "choice":
        found = [c.id for c in question.choices]
    elif question.type == "several" and question.choices:
        found = [(c.id,) for c in question.choices]
    elif question.type == "several" and build is not None:
        wished = [f.id for f in build.oil if not f.must and f.is_link is None]
        found = [("none_of_these",), *((w,) for w in wished)] if wished else []
    elif question.type == "kind":
        found = list(MAKER.book.kinds)
    elif question.type == "variant" and kind is not None:
        found = [v.id for v in kind.variants] if len(kind.variants) > 1 else []
    elif question.type == "size" and kind is not None and build is not None:
        found = [s.id for s in kind.sizes if not s.variants or build.id in s.variants] if len(kind.sizes) > 1 else []
        found += ["choose"] if found else []
    return [*found, "not sure"] if found and question.not_sure.how != "refused" else found


def seen(profile: Profile) -> dict[str, Any]:
    """Each requirement as the profile states it: for what is sure, and with what may come."""
    return {
        id_: (
            o.status,
            None if o.sure is None else o.sure.stated,
            None if o.with_later is None else o.with_later.stated,
        )
        for id_, o in profile.outcomes.items()
    }


def stood_in(profile: Profile) -> tuple[Any, ...]:
    """The size class that stood in, with and without what may come."""
    return profile.stand_in.id, profile.stand_in_sure.id


def tracked(profile: Profile) -> dict[str, float | None]:
    """The widths that were chosen to cover the wheel tracks of the size class."""
    return {
        note.sized.item.id: note.sized.width
        for note in profile.hookups
        if note.sized.item.size is None and note.sized.item.kind.sized_by == "track"
    }


Key = tuple[Any, ...]
Looked = tuple[dict[str, Any], dict[str, float | None], tuple[Any, ...]]
_LAST: list[tuple[Plan, Key, Facts]] = []  # the first plan of a pair is often that of the pair before
_LOOKED: dict[Key, Looked] = {}  # by the answers that apply: many questions are tried beside the same ones
MOST_LOOKED = 4000


def facts_of(plan: Plan) -> tuple[Key, Facts]:
    """The answers that apply, and what they come to."""
    answers = MAKER.answers(plan[0], strict=False, **plan[1])
    key = (*answers.given.items(), *((item.id, *item.given.items()) for item in answers.items))
    return key, make_plan(MAKER.book, answers)


def looked_at(key: Key, facts: Facts) -> Looked:
    """What the tests compare of a plan; what had better be hired, which takes further runs, moves no requirement."""
    found = _LOOKED.get(key)
    if found is None:
        profile = advise_plan(MAKER.book, facts, lean=True, hiring=False)
        if len(_LOOKED) >= MOST_LOOKED:
            _LOOKED.clear()
        found = _LOOKED[key] = (seen(profile), tracked(profile), stood_in(profile))
    return found


def moved(one: Plan, other: Plan) -> set[str]:
    """The requirements that differ.

    A question names what its answer moves by itself. A tool whose width was left to the program, and that must cover
    the wheel tracks, grows with the size class, which nearly every answer can move: the question of the size names
    that, and pairs of plans in which such a tool grew are not looked at here. Figures for the class that stands in are
    compared where it is the same.
    """
    if not _LAST or _LAST[0][0] != one:
        _LAST[:] = [(one, *facts_of(one))]
    _, key, facts = _LAST[0]
    other_key, other_facts = facts_of(other)
    if other_facts == facts:  # the answer does not apply, and the same facts have the same profile
        return set()
    before, widths, stand_in = looked_at(key, facts)
    after, grown, other_stand_in = looked_at(other_key, other_facts)
    if any(grown[item] != width for item, width in widths.items() if item in grown):
        return set()
    by_class = {r.id for r in MAKER.book.requirements.values() if r.stand_in}
    other_class = other_stand_in != stand_in
    return {id_ for id_ in before if before[id_] != after[id_] and not (other_class and id_ in by_class)}


# ---------------------------------------------------------------------- a small search


def item_of(kind: Kind, build: Variant, **more: Any) -> Item:
    item: Item = {"kind": kind.kind, **more}
    if len(kind.variants) > 1:
        item["variant"] = build.id
    return item


def jobs_of(kind: Kind) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*kind.jobs, *([kind.area_job] if kind.area_job else []))))


def land_of(kind: Kind) -> Said:
    """Sloping land with the jobs of this kind, large enough that its size follows from area and time.

    Every limit is there too, so that what moves a limit is seen to move it.
    """
    said: Said = {
        "land_shape": ("slopes",), "slope_up": "5 %", "side_slope": "7 %", "jobs": jobs_of(kind),
        "tight_more": ("shed_length", "turning", "bridge", "hauled"), "shed_length": "6 m", "turn_room": "9 m",
        "bridge_limit": "9000 kg", "haul_rating": "8500 kg", "haul_trailer": "900 kg", "haul_tow_rating": "8600 kg",
        "haul_with": "heaviest", "road": "along",
    }  # fmt: skip
    if kind.area_job is not None:
        said[f"{kind.area_job}_area"] = "4 ha"
    return said


# Plans on the edge of something that only few answers reach.
EDGES: dict[str, list[Plan]] = {
    "heat": [([{"kind": "small_square_baler", "when": "owned", "stated_power": "27.7 kW"}], {})],
    "road": [([{"kind": "dump_trailer", "load": "4500 kg"}], {"land_shape": ("slopes",), "slope_up": "12 %"})],
}


def bases(question: Question) -> Iterator[Plan]:
    """Plans in which an outer question may matter: one implement each, its size chosen and its size said."""
    job = job_of(question)
    if question.id.startswith("tow_"):
        for mass, slope in (("900 kg", "5 %"), ("2500 kg", "6 %"), ("2500 kg", "3 %"), ("6000 kg", "9 %")):
            yield [], {"land_shape": ("slopes",), "slope_up": slope, "tow_other": "often", "tow_mass": mass}
        return
    yield from EDGES.get(question.id, ())
    for kind, build in BUILDS if job is not None or question.id == "front_load" else SORTS:
        if job is not None and kind.area_job != job:
            continue
        if question.id == "front_load" and build.way != "loader":
            continue
        yield [item_of(kind, build)], land_of(kind)
        if question.id == "land_shape" and build.way == "loader":
            yield [item_of(kind, build)], {**land_of(kind), "slope_up": "30 %"}  # a full loader facing down


def job_of(question: Question) -> str | None:
    """The job whose area or time this question asks for."""
    jobs = (choice.id for choice in MAKER.questions["jobs"].choices if f"{choice.id}_area" in MAKER.questions)
    return next((job for job in jobs if question.id.startswith(f"{job}_")), None)


def tries(question: Question) -> Iterator[tuple[Plan, Plan]]:
    """Pairs of plans that differ in this one answer."""
    if question in OUTER:
        for items, said in bases(question):
            first, *rest = answers_to(question)
            if question.id == "jobs":
                first, rest = said["jobs"] or ("towing",), [("towing",)]
            for answer in rest:
                yield (items, {**said, question.id: first}), (items, {**said, question.id: answer})
        return
    plain = question.id not in ("kind", "variant", "size", "options", "load", "depth")
    for kind, build in SORTS if plain else BUILDS:
        item = item_of(kind, build, when="owned" if question.id in ("mass", "stated_power") else "now")
        answers = answers_to(question, kind, build)
        if question.id == "kind":
            answers = [kind.kind, "utility_trailer" if build.way != "drawbar" else "finish_mower"]
        lands = [land_of(kind)]
        if question.id == "kind" and kind.rolls:
            lands.append({**land_of(kind), "surface": "wet_grass", "slope_up": "14 %"})
        if question.id == "kind" and build.way == "loader":  # a braked load that settles the class, loader or not
            heavy = {
                "tow_other": "often", "tow_mass": "12000 kg", "tow_brakes": "has_brakes", "front_load": "1500 kg",
            }  # fmt: skip
            lands.append({**land_of(kind), **heavy})
        for answer in answers[1:]:
            for said in lands:
                yield ([{**item, question.id: answers[0]}], said), ([{**item, question.id: answer}], said)


# Both tests of one question go to one worker, which then tries it once.
EACH = [pytest.param(q.id, marks=pytest.mark.xdist_group(f"moves of {q.id}")) for q in OUTER + INNER]


@cache
def observed(question_id: str) -> frozenset[str]:
    """Every requirement that this question moved in any of the tries."""
    found: set[str] = set()
    for one, other in tries(MAKER.questions[question_id]):
        found |= moved(one, other)
    return frozenset(found)


def wider(question: Question) -> Iterator[tuple[Plan, Plan]]:
    """Pairs of plans that differ in this one answer, on other land and with closer values (the same each time)."""
    rng = random.Random(question.id)
    job = job_of(question)
    builds = [(k, b) for k, b in BUILDS if job is None or k.area_job == job]
    if question.id in ("load", "depth"):
        builds = [(k, b) for k, b in builds if question.id in k.features]
    if question.id == "brakes":
        builds = [(k, b) for k, b in builds if "wheels" in k.features]
    if question.id == "snow_kind":
        builds = [(k, b) for k, b in builds if k.shaft is not None and k.shaft.hard_by == "snow_kind"]
    for _ in range(DEEP_TRIES if builds else 0):
        kind, build = rng.choice(builds)
        said = {**land_of(kind), **rng.choice(LANDS)}
        if kind.area_job is not None:
            said[f"{kind.area_job}_area"] = rng.choice(FINE["area"])
            if f"{kind.area_job}_hours" in MAKER.questions:
                said[f"{kind.area_job}_hours"] = rng.choice(FINE["time"])
        if question.id.startswith("tow_"):
            said |= {"tow_other": "often", "tow_mass": rng.choice(FINE["mass"])}
        if question.id == "jobs":
            yield ([item_of(kind, build)], said), ([item_of(kind, build)], {**said, "jobs": ("towing",)})
            continue
        answers = FINE.get(question.dimension or "") or answers_to(question, kind, build)
        if len(answers) < 2 or question.id == "kind":
            continue
        one, other = rng.sample(answers, 2)
        item = item_of(kind, build, when="owned" if question.id in ("mass", "stated_power") else "now")
        if question in OUTER:
            # An implement may hide what the load asks for, and may be what the load meets: both are tried.
            items = [] if question.id.startswith("tow_") and rng.random() < 0.5 else [item]
            yield (items, {**said, question.id: one}), (items, {**said, question.id: other})
        else:
            yield ([{**item, question.id: one}], said), ([{**item, question.id: other}], said)


def deeper(question: Question, wanted: set[str]) -> list[tuple[set[str], Plan, Plan]]:
    """For each of these requirements, as far as it can be had, a pair of plans of a wider search in which it moves.

    Where a search found it before is looked at first; `python tests/advice/moves_seen.py` writes that down anew.
    """
    found: list[tuple[set[str], Plan, Plan]] = []
    open_ = set(wanted)
    for one, other in itertools.chain(seen_before(question.id), wider(question)):
        if not open_:
            break
        if now := open_ & moved(one, other):
            found.append((now, one, other))
            open_ -= now
    return found


@pytest.mark.parametrize("question", EACH)
def test_a_question_moves_what_it_says(question: str) -> None:
    wanted = {r for r in MAKER.questions[question].moves if r not in observed(question)}
    silent = sorted(wanted.difference(*(now for now, _, _ in deeper(MAKER.questions[question], wanted))))
    assert not silent, f"{question} says that it moves these, and never did: {silent}"


@pytest.mark.parametrize("question", EACH)
def test_a_question_moves_nothing_else(question: str) -> None:
    unsaid = sorted(observed(question) - set(MAKER.questions[question].moves))
    assert not unsaid, f"{question} moves these without saying so: {unsaid}"


def test_every_requirement_is_moved_by_some_question() -> None:
    """Some question says that it moves it; that it does so is seen above, for every question and requirement."""
    assert set(MAKER.book.requirements) == {requirement for q in OUTER + INNER for requirement in q.moves}


# ------------------------------------------------------------------------ random plans


@cache
def an_answer(question_id: str, *build: int) -> st.SearchStrategy[Any] | None:
    """An answer to a question, of an item to that of its build; made once, for to make it takes longer than to draw."""
    answers = answers_to(MAKER.questions[question_id], *(BUILDS[build[0]] if build else ()))
    return st.sampled_from(answers) if answers else None


SOME_BUILDS = st.lists(st.integers(0, len(BUILDS) - 1), min_size=1, max_size=3)
WHEN = st.sampled_from(["owned", "now", "later"])
YES_OR_NO = st.booleans()
ASKED = [q for q in OUTER if q.id != "jobs"]
A_QUESTION = st.sampled_from([*ASKED, *INNER])


@st.composite
def one_answer_apart(draw: st.DrawFn) -> tuple[str, Plan, Plan]:
    """A plan of one to three implements, one question of it, and the same plan with another answer there."""
    numbers = draw(SOME_BUILDS)
    builds = [BUILDS[number] for number in numbers]
    items = [item_of(k, b, when=draw(WHEN)) for k, b in builds]
    said: Said = {"jobs": tuple(dict.fromkeys(j for k, _ in builds for j in jobs_of(k)))}
    for question in ASKED:
        if question.id in CERTAIN or draw(YES_OR_NO):
            said[question.id] = draw(an_answer(question.id))
    question = draw(A_QUESTION)
    if question in OUTER:
        return question.id, (items, said), (items, {**said, question.id: draw(an_answer(question.id))})
    at = draw(st.integers(0, len(items) - 1))
    answer = None if question.id == "kind" else an_answer(question.id, numbers[at])
    if answer is None:
        answer, question = WHEN, MAKER.questions["when"]
    changed = [dict(item) for item in items]
    changed[at][question.id] = draw(answer)
    return question.id, (items, said), (changed, said)


@settings(max_examples=150, derandomize=True, deadline=None, report_multiple_bugs=False)
@given(one_answer_apart())
def test_in_any_plan_an_answer_moves_only_what_its_question_names(pair: tuple[str, Plan, Plan]) -> None:
    question, one, other = pair
    unsaid = sorted(moved(one, other) - set(MAKER.questions[question].moves))
    assert not unsaid, f"{question} moves these without saying so: {unsaid}"
