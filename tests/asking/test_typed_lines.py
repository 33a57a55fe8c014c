"""Typed lines as answers, in tables: what is understood, what is doubted, what is refused with one sentence."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_book import BOOK, CUTTER, GROUP, LAND, SPACE, TRAILER

from firstfurrow.asking.answers import Units
from firstfurrow.asking.resolve import resolve
from firstfurrow.asking.typed import Doubt, Problem, Reading, Understood, understand
from firstfurrow.book.load import load
from firstfurrow.book.model import Kind, Question

QUESTIONS = {q.id: q for q in (*LAND.questions, *GROUP.questions, GROUP.closes, *SPACE.questions)}


def read(
    question: str, text: str, units: Units = "us", kind: Kind | None = None, variant: str | None = None
) -> Reading:
    asked = resolve(BOOK, QUESTIONS[question], units, kind, variant)
    return understand(asked, text, units, kind, BOOK)


@pytest.mark.parametrize(
    ("question", "text", "units", "value", "kept"),
    [
        ("area", "14 acre", "us", 14 * 0.40468564224, "14 acre"),
        ("area", "14", "us", 14 * 0.40468564224, "14 acre"),
        ("area", "14", "metric", 14.0, "14 ha"),
        ("area", "about 2 ha", "us", 2.0, "2 ha"),
        ("area", "r2", "us", 6.0, "6 ha"),
        ("area", "R2)", "metric", 6.0, "6 ha"),
        ("area", "some fields", "us", 6.0, "6 ha"),
        ("area", "1,200 m2", "metric", 0.12, "1,200 m2"),
        ("side_slope", "1:4", "us", 25.0, "1:4"),
        ("side_slope", "12", "us", 12.0, "12 %"),
        ("gate", "5 ft 6", "metric", 1.6764, "5 ft 6"),
        ("gate", "9'6\"", "us", 2.8956, "9'6\""),
        ("gate", "3", "us", 0.9144, "3 ft"),
        ("times", "3", "us", 3, "3"),
        ("times", "3 times a year", "us", 3, "3"),
    ],
)
def test_a_number_is_understood(question: str, text: str, units: Units, value: float, kept: str) -> None:
    found = read(question, text, units)
    assert isinstance(found, Understood)
    assert found.given.value == pytest.approx(value, rel=1e-12)
    assert found.given.text == kept


def test_a_bare_number_is_repeated_with_its_unit() -> None:
    found = read("area", "14")
    assert isinstance(found, Understood)
    assert "14 acre" in found.note
    typed = read("area", "14 acre")
    assert isinstance(typed, Understood)
    assert typed.note == ""


def test_a_question_may_say_what_a_bare_number_means() -> None:
    narrow = replace(QUESTIONS["gate"], bare_unit={"us": "in", "metric": "cm"})
    found = understand(narrow, "120", "us", None, BOOK)
    assert isinstance(found, Understood)
    assert found.given.value == pytest.approx(3.048)
    assert found.given.text == "120 in"


BAD = [
    ("area", "14 furlongs", "furlongs"),  # unknown unit
    ("gate", "5 kg 3 ft", "mass"),  # two units
    ("area", "1,5", "1.5"),  # a comma that can be read in two ways
    ("area", "1 200 m2", "1200"),
    ("side_slope", "-5 %", "negative"),
    ("side_slope", "150 %", "no more than 100 %"),  # not possible
    ("gate", "0.1 m", "at least"),
    ("gate", "1e400 m", "large"),
    ("gate", "nan", "number"),
    ("gate", "5 hp", "power"),
    ("area", "", "Nothing"),
    ("area", "   ", "Nothing"),
    ("area", "z", "number"),
    ("area", "x" * 500, "too long"),
    ("times", "2.5", "whole number"),
    ("times", "many", "number"),
    ("times", "400", "365"),
    ("when", "9", "1 to 3"),
    ("when", "0", "1 to 3"),
    ("when", "tomorrow", "none of the answers"),
    ("when", "laterr", "Did you mean"),
    ("shape", "7", "1 to 4"),
    ("shape", "3-1", "1-3"),
    ("shape", "1 4", "cannot stand beside"),
    ("shape", "slopes and mountains", "mountains"),
    ("shape", ",", "none of the answers"),
]


@pytest.mark.parametrize(("question", "text", "about"), BAD)
def test_bad_input_is_one_sentence_about_what_is_wrong(question: str, text: str, about: str) -> None:
    found = read(question, text)
    assert isinstance(found, Problem)
    assert about in found.sentence
    assert "{" not in found.sentence
    assert found.sentence[-1] in ".?"
    assert len(found.sentence) < 200


@pytest.mark.parametrize(
    ("question", "text"), [("area", "900 acres"), ("side_slope", "60 %"), ("times", "100"), ("area", "100 m2")]
)
def test_the_implausible_is_doubted_not_refused(question: str, text: str) -> None:
    found = read(question, text)
    assert isinstance(found, Doubt)
    assert "keep" in found.sentence
    assert found.given.value > 0


# Worked by hand: the tangent of 35 degrees is 0.7002, of 45 degrees 1, of 22.5 degrees 0.4142, of 42 degrees 0.9004.
@pytest.mark.parametrize(
    ("text", "value", "says", "settles"),
    [
        ("35 deg", 70.02, ("35 degrees is 70 percent", "Did you mean 35 %? Type 35 %, keep"), (70.02, 35.0)),
        ("35°", 70.02, ("35 degrees is 70 percent", "Did you mean 35 %?"), (70.02, 35.0)),
        ("22.5 degrees", 41.42, ("22.5 degrees is 41 percent", "Did you mean 22.5 %?"), (41.42, 22.5)),
        ("42", 42.0, ("42 %", "Did you mean degrees? 42 degrees would be 90 percent.", "Type 42 %"), (42.0, 90.04)),
        ("45", 45.0, ("45 degrees would be 100 percent.",), (45.0, 100.0)),
        ("60", 60.0, ("60 %", "Degrees cannot be meant", "Type keep"), (60.0,)),
        ("95", 95.0, ("95 %", "Degrees cannot be meant", "Type keep"), (95.0,)),
    ],
)
def test_degrees_and_percent_that_may_be_mixed_up_are_both_named(
    text: str, value: float, says: tuple[str, ...], settles: tuple[float, ...]
) -> None:
    found = read("side_slope", text)
    assert isinstance(found, Doubt)
    assert found.given.value == pytest.approx(value, abs=0.01)
    assert all(part in found.sentence for part in says), found.sentence
    assert found.sentence.count("usual is no more than 40 %") == 1
    assert found.settles == pytest.approx(settles, abs=0.01)


@pytest.mark.parametrize("text", ["50 %", "50 percent", "1:2"])
def test_a_steep_slope_typed_in_percent_is_doubted_without_a_word_of_degrees(text: str) -> None:
    found = read("side_slope", text)
    assert isinstance(found, Doubt)
    assert "degrees" not in found.sentence


def test_degrees_that_cannot_be_are_refused_and_percent_is_offered() -> None:
    found = read("side_slope", "50 deg")
    assert isinstance(found, Problem)
    assert "50 degrees is 119 percent" in found.sentence
    assert "Did you mean 50 %?" in found.sentence
    assert "keep" not in found.sentence


def test_plausible_degrees_are_repeated_in_percent() -> None:
    found = read("side_slope", "20 deg")
    assert isinstance(found, Understood)
    assert found.note == "Taken as 20 deg, which is 36 %."


def test_both_readings_of_a_slope_settle_the_question_about_it() -> None:
    degrees, bare = read("side_slope", "35 deg"), read("side_slope", "45")
    assert isinstance(degrees, Doubt)
    assert isinstance(bare, Doubt)
    for doubt, text, settled in (
        (degrees, "35 %", True), (degrees, "70 %", False), (degrees, "35 deg", True), (degrees, "36 %", False),
        (bare, "45 %", True), (bare, "45 degrees", True), (bare, "45", True), (bare, "46", False),
    ):  # fmt: skip
        again = read("side_slope", text)
        assert not isinstance(again, Problem)
        assert doubt.settled_by(again.given) == settled, text


@pytest.mark.parametrize(
    ("question", "text", "value"),
    [
        ("when", "1", "owned"),
        ("when", "2.", "now"),
        ("when", "later", "later"),
        ("when", "LAT", "later"),
        ("when", "ow", "owned"),
        ("complete", "all", "that_is_all"),
        ("complete", "that is all", "that_is_all"),
        ("complete", "more", "another"),
        ("shape", "1 3", ("slopes", "trees")),
        ("shape", "1,3", ("slopes", "trees")),
        ("shape", "1-3", ("slopes", "wet_places", "trees")),
        ("shape", "3, 1-2", ("slopes", "wet_places", "trees")),
        ("shape", "trees and slopes", ("slopes", "trees")),
        ("shape", "trees slopes", ("slopes", "trees")),
        ("shape", "wet places, tree", ("wet_places", "trees")),
        ("shape", "all", ("slopes", "wet_places", "trees")),
        ("shape", "none", ("none_of_these",)),
    ],
)
def test_a_choice_is_understood(question: str, text: str, value: Any) -> None:
    found = read(question, text)
    assert isinstance(found, Understood)
    assert found.given.value == value


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("rotary cutter", "cutter"),
        ("topper", "cutter"),
        ("slash", "cutter"),
        ("Blade", "blade"),
        ("trailers", "trailer"),
    ],
)
def test_a_kind_is_found_by_its_names(text: str, kind: str) -> None:
    found = read("kind", text)
    assert isinstance(found, Understood)
    assert found.given.value == kind


def test_a_kind_that_is_only_described_so_is_shown_first() -> None:
    found = read("kind", "gravel")
    assert isinstance(found, Problem)
    assert found.kinds == ("blade",)
    both = read("kind", "blade for")
    assert isinstance(both, Problem)
    assert set(both.kinds) == {"cutter", "blade"}
    nothing = read("kind", "submarine")
    assert isinstance(nothing, Problem)
    assert nothing.kinds == ()


@pytest.mark.parametrize(
    ("text", "units", "variant", "value"),
    [
        ("1", "us", None, "1.5 m"),
        ("3", "us", None, "2.1 m"),
        ("4", "us", None, "choose"),
        ("choose", "us", None, "choose"),
        ("6 ft", "us", None, "1.8 m"),
        ("72 in", "metric", None, "1.8 m"),
        ("7", "us", None, "2.1 m"),
        ("1.8 m", "us", None, "1.8 m"),
        ("2", "us", "trailed", "2.1 m"),
        ("2 m", "us", None, 2.0),
    ],
)
def test_a_size_is_understood(text: str, units: Units, variant: str | None, value: Any) -> None:
    found = read("size", text, units, CUTTER, variant)
    assert isinstance(found, Understood)
    assert found.given.value == value


def test_sizes_far_from_what_is_sold_are_doubted() -> None:
    assert isinstance(read("size", "30 ft", "us", CUTTER), Doubt)
    assert isinstance(read("size", "0 ft", "us", CUTTER), Problem)
    assert isinstance(read("size", "5 acres", "us", CUTTER), Problem)
    load_size = read("size", "3000 lb", "us", TRAILER)
    assert isinstance(load_size, Understood)
    assert load_size.given.value == pytest.approx(1360.77711)


SHIPPED = load()
SHIPPED_QUESTIONS = [
    q for s in SHIPPED.sections for q in (*s.questions, *((*s.group.questions, s.group.closes) if s.group else ()))
]


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(SHIPPED_QUESTIONS), st.text(max_size=40), st.sampled_from(["us", "metric"]))
def test_no_line_is_ever_a_traceback(question: Question, text: str, units: Units) -> None:
    kind = next(iter(SHIPPED.kinds.values()))
    asked = resolve(SHIPPED, question, units, kind, None)
    found = understand(asked, text, units, kind, SHIPPED)
    sentence = found.sentence if isinstance(found, Problem | Doubt) else found.given.text
    assert sentence.strip()


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(SHIPPED_QUESTIONS), st.from_regex(r"[0-9.,:/ 'a-z%\"-]{1,20}", fullmatch=True))
def test_number_like_lines_give_a_finite_number_or_a_sentence(question: Question, text: str) -> None:
    found = understand(question, text, "us", None, SHIPPED)
    if not isinstance(found, Problem) and isinstance(found.given.value, float):
        assert 0 <= abs(found.given.value) < 1e300
        assert re.search(r"\d", found.given.text)


@pytest.mark.parametrize(
    ("typed", "units", "said"),
    [
        ("66 in", "us", "66 in = 5 ft 6 in"),
        ("3 m", "us", "3 m = 9 ft 10 in"),
        ("10 ft", "metric", "10 ft = 3.05 m"),
        ("10 ft", "us", ""),
        ("10", "us", "10 ft"),
    ],
)
def test_a_length_is_repeated_as_the_reader_says_it(typed: str, units: Units, said: str) -> None:
    """With the shipped book, at the question for the gate."""
    shipped = load()
    gate = next(q for section in shipped.sections for q in section.questions if q.id == "gate_width")
    found = understand(gate, typed, units, None, shipped)
    assert isinstance(found, Understood)
    assert found.note == (f"Taken as {said}." if said else "")
