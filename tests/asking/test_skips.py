"""Questions that a setting skips are not put, count as not sure, and can still be answered."""

from __future__ import annotations

import pytest

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.complete import complete
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.book.load import load

BOOK = load(None)
SKIPS = frozenset({"land_area", "slope_up", "side_slope", "rank", "often", "altitude"})


def walked(skips: frozenset[str]) -> tuple[Interview, list[str]]:
    """A walk that says slopes and one cutter, and is unsure of the rest; and what was asked."""
    interview, asked = Interview(BOOK, skips=skips), []
    said = {"land_shape": Given(("slopes",), "slopes"), "kind": Given("rotary_cutter_light", "rotary_cutter_light")}
    while (place := interview.next()) is not None:
        asked.append(place.key)
        given = said.get(place.question, NOT_SURE)
        if place.question == "implements_complete":
            given = Given("that_is_all", "that_is_all")
        interview = interview.answer(place, given)
    return interview, asked


def test_what_is_skipped_is_not_put_and_the_rest_is_in_the_same_order() -> None:
    every, fewer = walked(frozenset())[1], walked(SKIPS)[1]
    assert fewer == [key for key in every if key.rpartition(".")[2] not in SKIPS]
    assert len(every) - len(fewer) == len(SKIPS)


def test_what_is_skipped_counts_as_not_sure() -> None:
    """The plan is that of somebody who types unsure, also through the answers file."""
    asked, skipped = walked(frozenset())[0], walked(SKIPS)[0]
    assert skipped.applies() == asked.applies()
    assert "slope_up" not in skipped.answers.given
    assert complete(BOOK, skipped.answers) == complete(BOOK, asked.answers)


def test_a_skipped_question_can_be_answered_and_then_counts() -> None:
    interview = walked(SKIPS)[0].answer(Ref("slope_up"), Given(9.0, "9 %"))
    assert interview.next() is None
    assert interview.applies().given["slope_up"].value == pytest.approx(9)
    assert any(step.ref.key == "slope_up" for step in interview.said())


def test_back_never_lands_on_a_question_that_was_skipped() -> None:
    interview, _ = walked(SKIPS)
    while (step := interview.back()) is not None:
        interview, place = step
        assert place.question not in SKIPS
    assert interview.said() == ()


def test_answers_from_a_file_resume_with_the_same_skips() -> None:
    interview, _ = walked(SKIPS)
    again = Interview.of(BOOK, interview.answers, SKIPS)
    assert again.next() is None
    assert Interview.of(BOOK, interview.answers).next() is not None


def test_nothing_skipped_is_as_before() -> None:
    assert Interview(BOOK, Answers()).next() == Ref("land_area")
    assert Interview(BOOK, Answers(), skips=SKIPS).next() == Ref("land_shape")
