"""Every printed line of reasoning recomputed from what is printed: all builds, both units, level and steep."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.book.load import load
from firstfurrow.book.model import GRADES, SOURCED, Book
from firstfurrow.quantities import DIMENSIONS, parse
from firstfurrow.reasoning import RECOMPUTED, Memo, Step, ends, evaluate
from firstfurrow.reasoning.ends import ends_by_trying
from making import Maker

pytestmark = pytest.mark.xdist_group("steps")  # one worker keeps what the tests share

BUILDS = [(kind.kind, variant.id) for kind in load().kinds.values() for variant in kind.variants]
LEVEL: dict[str, Any] = {}
STEEP: dict[str, Any] = {
    "land_shape": ("slopes",), "slope_up": "1:5", "side_slope": "6 degrees", "altitude": "1500 m",
    "surface": "dry_grass",
    "gate_width": "10 ft", "door_width": "3.2 m", "door_height": "8 ft 6 in", "tow_other": "often",
    "tow_mass": "1.5 tonne", "tow_axles": "one_axle",
}  # fmt: skip
UNKNOWN: dict[str, Any] = dict.fromkeys(
    ("land_shape", "soil", "surface", "altitude", "growth", "wood", "snow_kind", "stones"), "not sure"
)
LANDS = {"level": LEVEL, "steep": STEEP, "unknown": UNKNOWN}
CASES = [pytest.param(units, land, id=f"{units}-{land}") for units, land in itertools.product(("us", "metric"), LANDS)]


def item_of(maker: Maker, kind_id: str, variant: str) -> dict[str, Any]:
    kind = maker.kind(kind_id)
    item: dict[str, Any] = {"kind": kind_id, "when": "owned"}
    if "variants" in kind.features:
        item["variant"] = variant
    if "depth" in kind.features:
        item["depth"] = "7 in"
    if "load" in kind.features:
        item["load"] = "900 lb"
    if any(v.id == variant and v.way == "three_point" for v in kind.variants):
        item["with"] = ("hydraulic_top_link", "hydraulic_side_link")
    return item


def job_of(maker: Maker, kind_id: str) -> dict[str, Any]:
    kind = maker.kind(kind_id)
    said: dict[str, Any] = {"jobs": tuple(dict.fromkeys((*kind.jobs, *([kind.area_job] if kind.area_job else []))))}
    if kind.area_job is not None:
        said[f"{kind.area_job}_area"] = "2.5 acre"
    return said


@cache
def plans(units: str, land: str) -> tuple[tuple[str, Profile], ...]:
    """One profile for each build of each kind."""
    maker = Maker(load())
    found = []
    for kind, variant in BUILDS:
        said = {**LANDS[land], **job_of(maker, kind)}
        item = item_of(maker, kind, variant)
        profile = maker.profile([item], units=units, strict=False, **said)  # type: ignore[arg-type]
        found.append((f"{kind} {variant}", profile))
    return tuple(found)


def mixed(maker: Maker, units: str) -> Profile:
    """A longer plan: some of it sure, some perhaps later."""
    items = [
        {"kind": "rotary_cutter_medium", "variant": "mounted", "size": "6 ft", "when": "owned", "mass": "930 lb"},
        {"kind": "rotary_tiller", "size": "1.5 m"},
        {"kind": "round_baler", "variant": "oil_pickup", "when": "later"},
        {"kind": "box_blade_hydraulic", "size": "choose", "when": "later", "with": ("hydraulic_top_link",)},
        {"kind": "loader_bucket", "size": "1.5 m"},
        {"kind": "mouldboard_plough", "variant": "plain", "size": "2 x 0.35 m", "depth": "8 in", "when": "later"},
    ]
    said = {**STEEP, "jobs": ("rough_mowing",), "rough_mowing_area": "10 acre", "front_load": "800 lb"}
    return maker.profile(items, units=units, **said)  # type: ignore[arg-type]


def strictests(profile: Profile) -> Iterator[tuple[str, Strictest]]:
    for id_, outcome in profile.outcomes.items():
        for one in (outcome.sure, outcome.with_later):
            if one is not None:
                yield id_, one


def every(units: str, land: str) -> Iterator[tuple[str, Profile, Step]]:
    for name, profile in plans(units, land):
        for step in profile.steps:
            yield name, profile, step


@pytest.mark.parametrize(("units", "land"), CASES)
def test_every_computed_step_recomputes_from_its_printed_line(units: str, land: str) -> None:
    count = 0
    for name, _, step in every(units, land):
        if step.type in RECOMPUTED:
            assert step.formula is not None
            assert step.inputs
            value = round(evaluate(step.formula, {n: s.value for n, s in step.inputs.items()}), step.digits)
            assert value == step.value, (name, step.id, step.title)
            count += 1
        else:
            assert step.formula is None, (name, step.id)
            assert step.inputs is None, (name, step.id)
    assert count > 500


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_longer_plan_recomputes_too(maker: Maker, units: str) -> None:
    profile = mixed(maker, units)
    computed = [step for step in profile.steps if step.type in RECOMPUTED]
    assert len(computed) > 60
    for step in computed:
        assert step.formula is not None
        values = {n: s.value for n, s in (step.inputs or {}).items()}
        assert round(evaluate(step.formula, values), step.digits) == step.value, (step.id, step.title)


@pytest.mark.parametrize(("units", "land"), CASES)
def test_steps_are_numbered_and_read_only_steps_of_their_own_profile(units: str, land: str) -> None:
    for name, profile in plans(units, land):
        assert [s.id for s in profile.steps] == [f"s{i + 1}" for i in range(len(profile.steps))]
        for step in profile.steps:
            for other in (step.inputs or {}).values():
                assert profile.steps[other.index] is other, (name, step.id)
                assert other.index < step.index, (name, step.id)


@pytest.mark.parametrize(("units", "land"), CASES)
def test_every_figure_has_a_grade_and_what_the_grade_asks_for(units: str, land: str, book: Book) -> None:
    graded = 0
    for name, _, step in every(units, land):
        where = (name, step.id, step.title, step.grade)
        if step.type == "table":
            assert step.grade in GRADES, where
        if step.grade is not None:
            graded += 1
            assert step.grade in GRADES, where
            if step.grade in SOURCED:
                assert step.source in book.sources, where
                assert step.where, where
            if step.grade == "practice":
                assert step.source is None, where
            if step.grade == "derived" and step.inputs is None:
                assert step.derived_from, where
    assert graded > 500


@pytest.mark.parametrize(("units", "land"), CASES)
def test_answers_and_assumptions_name_their_question(units: str, land: str, maker: Maker) -> None:
    found = set()
    for name, profile, step in every(units, land):
        if step.type in ("answer", "assumption"):
            assert step.question, (name, step.id, step.title)
            found.add(step.question)
            item, _, question = step.question.rpartition(".")
            assert question in maker.questions, (name, step.question)
            assert not item or item in {i.id for i in profile.plan.items}
    assert found


@pytest.mark.parametrize(("units", "land"), CASES)
def test_what_was_typed_stands_first_and_its_conversion_gives_what_the_plan_uses(units: str, land: str) -> None:
    for name, profile, step in every(units, land):
        if step.type == "convert" and step.inputs is not None and set(step.inputs) == {"typed"}:
            typed = step.inputs["typed"]
            dimension = next(d for d in DIMENSIONS.values() if d.working == step.unit and typed.unit in d.units)
            exact = parse(f"{typed.value:.12g} {typed.unit}", dimension.name).working
            assert step.value == pytest.approx(exact, abs=0.51 * 10**-step.digits), (name, step.title, profile.units)
            assert step.value == pytest.approx(exact, rel=0.005), (name, step.title, "rounded too coarsely")


@pytest.mark.parametrize(("units", "land"), CASES)
def test_every_determined_requirement_rests_on_a_step(units: str, land: str) -> None:
    for name, profile in plans(units, land):
        known = {s.id: s for s in profile.steps}
        for id_, outcome in profile.outcomes.items():
            assert (outcome.status == "determined") == (outcome.widest is not None), (name, id_)
        for id_, one in strictests(profile):
            assert one.top_step in known, (name, id_)
            assert one.governed_by is not None, (name, id_)


@pytest.mark.parametrize(("units", "land"), CASES)
def test_the_stated_number_is_the_top_step_or_the_step_below_its_conversion(units: str, land: str) -> None:
    """The first number of `shown` is the value of the top step, and the working value stands beside it."""
    for name, profile in plans(units, land):
        for id_, one in strictests(profile):
            if profile.outcomes[id_].requirement.sense not in ("at_least", "at_most"):
                continue
            assert one.top_step is not None
            top = profile.step(one.top_step)
            step, seen = top, [top.value]
            while step.inputs and step.value != one.stated and len(step.inputs) == 1:
                (step,) = step.inputs.values()
                seen.append(step.value)
            assert one.stated in seen, (name, id_, one.stated, seen)
            number = float(re.search(r"-?[\d,]*\.?\d+", one.shown)[0].replace(",", ""))  # type: ignore[index]
            assert number == pytest.approx(top.value), (name, id_, one.shown)


@pytest.mark.parametrize(("units", "land"), CASES)
def test_the_stated_number_is_rounded_to_the_safe_side_and_by_less_than_a_step(units: str, land: str) -> None:
    for name, profile in plans(units, land):
        for id_, one in strictests(profile):
            requirement = profile.outcomes[id_].requirement
            if requirement.sense not in ("at_least", "at_most"):
                continue
            decided = one.planning if requirement.decides == "planning" or one.high is None else one.high
            over = one.stated - decided if requirement.sense == "at_least" else decided - one.stated
            assert -1e-9 <= over < (requirement.round_to or 1), (name, id_, decided, one.stated)


def tops(profile: Profile) -> set[str]:
    """Steps that somebody looks at: of a requirement, of its demands, of hours or a size, or named in a sentence."""
    found = {hookup.hours.id for hookup in profile.hookups if hookup.hours is not None}
    found |= {remark.step.id for outcome in profile.outcomes.values() for remark in outcome.remarks}
    for _, one in strictests(profile):
        found |= {d.top.id for d in (one.governed_by, one.runner_up) if d is not None}
        found |= {one.top_step} if one.top_step is not None else set()
    found |= {h.sized.reason_step.id for h in profile.hookups if h.sized.reason_step is not None}
    texts = [s.title for s in profile.steps] + [a.text for a in profile.assumptions]
    texts += [note for _, one in strictests(profile) for note in one.notes]
    texts += [reason for conflict in profile.conflicts for reason in conflict.reasons]
    texts += [refusal.reason for refusal in profile.refusals]
    return found | {word for text in texts for word in re.findall(r"\bs\d+\b", text)}


@pytest.mark.parametrize("land", LANDS)
def test_no_computed_step_is_left_hanging(land: str) -> None:
    """With a single implement each computed line is read by another one, or is what somebody asked for."""
    hanging: dict[str, str] = {}
    for name, profile in plans("metric", land):
        used = {s.id for step in profile.steps for s in (step.inputs or {}).values()} | tops(profile)
        for step in profile.steps:
            if step.type in RECOMPUTED and step.id not in used:
                hanging.setdefault(step.title.split(":")[0], f"{name} {step.id}")
    assert not hanging


@pytest.mark.parametrize("land", LANDS)
def test_no_figure_is_listed_that_nothing_reads(land: str) -> None:
    idle: dict[str, str] = {}
    for name, profile in plans("metric", land):
        used = {s.id for step in profile.steps for s in (step.inputs or {}).values()} | tops(profile)
        for step in profile.steps:
            if step.type not in RECOMPUTED and step.id not in used:
                idle.setdefault(f"{step.type}: {step.title.split(':')[0]}", f"{name} {step.id}")
    assert not idle


@pytest.mark.parametrize("units", ["us", "metric"])
def test_an_answer_is_one_leaf_however_many_demands_read_it(maker: Maker, units: str) -> None:
    """So that it keeps one value throughout a case; also where a plan is worked out for what is sure and for all."""
    seen: dict[tuple[str | None, str], str] = {}
    twice: dict[str, str] = {}
    for step in mixed(maker, units).steps:
        if step.type in ("answer", "assumption") and not (step.question or "").endswith(".with"):
            key = (step.question, step.title)
            if key in seen:
                twice.setdefault(step.title, f"{seen[key]} and {step.id}")
            seen[key] = step.id
    assert len(seen) > 10
    assert not twice


@pytest.mark.parametrize(("units", "land"), CASES)
def test_ends_by_way_of_the_inputs_are_those_found_by_trying(units: str, land: str) -> None:
    """Ends are worked out step by step where no leaf moves a step both ways; trying every leaf gives the same."""
    seen = 0
    for name, profile in plans(units, land):
        memo: Memo = {}
        for step in profile.steps:
            if step.moves and step.inputs is not None and step.type != "set":
                tried, quick = ends_by_trying(step), ends(step, memo)
                assert tried == quick, (name, step.id, step.title)
                seen += 1
    assert seen > 500
