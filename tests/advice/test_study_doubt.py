"""Doubts in order: worked out at both ends, furthest first, in a bounded number of runs."""

from __future__ import annotations

from dataclasses import replace

import pytest
from studying import agrees, doubt_about, studied

from firstfurrow.advice.profile import advise_plan
from firstfurrow.advice.study import study
from firstfurrow.advice.study.candidates import unknowns
from firstfurrow.advice.study.estimates import estimates
from firstfurrow.advice.study.words import Words
from firstfurrow.book.model import Book
from making import Maker

PLOUGH = [{"kind": "mouldboard_plough", "variant": "plain", "size": "2 x 0.35 m"}]


@pytest.mark.parametrize("soil", ["sand", "loam"])
def test_each_end_of_a_choice_is_what_that_answer_gives(soil: str, maker: Maker) -> None:
    profile, found = studied(maker, PLOUGH, soil="not sure")
    ends = {end.words: end for end in doubt_about(found, "soil").ends}
    asked = maker.book.question("soil")
    assert asked is not None
    label = next(c.label for c in asked.choices if c.id == soil)
    if label in ends:
        agrees(ends[label].difference, profile, maker.profile(PLOUGH, strict=False, soil=soil))
    else:
        assert soil not in (asked.not_sure.low, asked.not_sure.high)


def test_each_end_of_a_quantity_is_what_that_answer_gives(maker: Maker) -> None:
    said = {"land_shape": ("slopes",), "slope_up": "not sure"}
    profile, found = studied(maker, PLOUGH, **said)
    doubt = doubt_about(found, "slope_up")
    asked = maker.book.question("slope_up")
    assert asked is not None
    for end, value in zip(doubt.ends, (asked.not_sure.low, asked.not_sure.high), strict=True):
        after = maker.profile(PLOUGH, strict=False, **{**said, "slope_up": f"{value:g} %"})
        agrees(end.difference, profile, after)


def test_each_end_of_an_estimate_is_what_the_measured_figure_gives(maker: Maker) -> None:
    """The usual mass of an owned tool, against the same mass as its owner read it off the plate."""
    item = {"kind": "finish_mower", "size": "1.8 m", "when": "owned", "mass": "not sure"}
    profile, found = studied(maker, [item])
    doubt = doubt_about(found, "mass", "i1")
    assert doubt.sort == "unknown"
    kind = maker.kind("finish_mower")
    size = next(s for s in kind.sizes if s.id == "1.8 m")
    figure = size.mass
    ends = (figure.low, figure.high) if figure is not None else (
        kind.mass_per_width.low * 1.8, kind.mass_per_width.high * 1.8
    ) if kind.mass_per_width is not None else (kind.mass.low, kind.mass.high)  # type: ignore[union-attr]
    low = maker.profile([{**item, "mass": f"{round(ends[0])} kg"}], strict=False)
    agrees(doubt.ends[0].difference, profile, low)


def test_furthest_first(maker: Maker) -> None:
    said = {"land_shape": ("slopes",), "slope_up": "not sure", "soil": "not sure", "surface": "not sure"}
    _, found = studied(maker, [*PLOUGH, {"kind": "rotary_tiller"}], **said)
    steps = [doubt.steps for doubt in found.doubts.ranked]
    assert len(steps) > 4
    assert steps == sorted(steps, reverse=True)
    for doubt in found.doubts.ranked:
        assert doubt.steps == pytest.approx(sum(end.difference.steps for end in doubt.ends), abs=0.01)
        assert doubt.steps > 0


def test_soil_that_no_tool_touches_moves_nothing_and_is_named_in_one_line(maker: Maker) -> None:
    _, found = studied(maker, [{"kind": "finish_mower", "size": "1.5 m"}], soil="not sure", stones="not sure")
    questions = {question for question, _ in found.doubts.still}
    assert {"soil", "stones"} <= questions
    assert not questions & {doubt.question for doubt in found.doubts.ranked}


def test_what_the_buyer_said_is_no_doubt(maker: Maker) -> None:
    _, found = studied(maker, PLOUGH, soil="clay")
    assert not [d for d in found.doubts.ranked if d.question == "soil"]
    assert ("soil", None) not in found.doubts.still


def test_every_doubt_says_what_was_taken_and_how_to_find_out(maker: Maker) -> None:
    said = {"land_shape": ("slopes",), "slope_up": "not sure", "soil": "not sure"}
    _, found = studied(maker, PLOUGH, **said)
    slope = doubt_about(found, "slope_up")
    assert slope.how == "board_and_level"
    assert "Taken: 12 %" in slope.text
    assert maker.book.guides["board_and_level"].title in slope.text


def test_a_wider_range_never_ranks_lower(maker: Maker) -> None:
    said = {"land_shape": ("slopes",), "slope_up": "not sure"}
    profile = maker.profile(PLOUGH, strict=False, **said)
    slope = profile.plan.slope_up
    steps = []
    for low, high in ((10.0, 13.0), (8.0, 14.0), (5.0, 14.0), (2.0, 14.5)):
        plan = replace(profile.plan, slope_up=replace(slope, low=low, high=high))
        steps.append(doubt_about(study(advise_plan(maker.book, plan)), "slope_up").steps)
    assert steps == sorted(steps)


def test_the_number_of_runs_is_bounded_and_what_was_not_tried_is_named(maker: Maker) -> None:
    most = int(maker.book.tables["felt_steps"].rows["runs"]["most"].planning)
    items = [{"kind": kind, "when": "owned"} for kind in list(maker.book.kinds)[:20]]
    said = dict.fromkeys(("soil", "surface", "slope_up", "altitude", "growth", "stones", "tow_mass"), "not sure")
    profile = maker.profile(items, strict=False, land_shape=("slopes",), tow_other="often", **said)
    found = study(profile).doubts
    assert found.runs <= most
    words = Words(maker.book, "metric")
    tried = len(found.ranked) + len(found.still_names)
    every = unknowns(profile, words)
    assert len(every) > 20
    assert tried + len(found.untried) >= len(every)
    assert found.untried


def test_an_unknown_of_the_buyer_is_tried_before_an_estimate_of_the_book(maker: Maker) -> None:
    items = [{"kind": kind, "when": "owned"} for kind in list(maker.book.kinds)[:20]]
    profile = maker.profile(items, strict=False, soil="not sure")
    words = Words(maker.book, "metric")
    found = study(profile).doubts
    left = set(found.untried)
    if any(c.what in left for c in unknowns(profile, words)):
        assert not [d for d in found.ranked if d.sort == "estimate"]


def test_estimates_that_the_buyer_can_measure_name_a_guide(book: Book) -> None:
    for row in book.tables["estimates"].rows.values():
        if "instead" in row.words:
            assert row.words["how"] in book.guides, row.id
            assert book.question(str(row.words["instead"])) is not None, row.id


@pytest.mark.parametrize("kind", ["rotary_tiller", "bale_spear", "round_baler", "mouldboard_plough", "dump_trailer"])
def test_an_estimate_is_taken_to_both_ends_and_nothing_else_moves(kind: str, maker: Maker) -> None:
    profile = maker.profile([{"kind": kind}], strict=False)
    found = estimates(profile, Words(maker.book, "metric"))
    assert found
    for candidate in found:
        for case in candidate.cases:
            made = case.make()
            assert made is not None
            book, plan = made
            assert (book is not maker.book) != (plan != profile.plan)
            assert len(plan.items) == len(profile.plan.items)
