"""The end of a conversation: look it over, try a change, take it back, keep plans beside each other."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_book import BOOK
from talking import QUESTIONS, WHOLE, talk

from firstfurrow.asking.answers_file import read
from firstfurrow.book.load import load
from firstfurrow.shown import Shown
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.recordings import shipped
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore


def test_all_answers_are_looked_over_before_the_first_result() -> None:
    screen = talk([*QUESTIONS, "", ""]).screen
    assert screen.index("Look it over") < screen.index("How much land is there? 14 acre") < screen.index("PROFILE:")


def test_a_change_while_looking_over_is_made_in_place_and_the_result_is_that_of_the_change() -> None:
    held = talk([*QUESTIONS, "change 1", "20 acre", "", ""])
    assert held.answers.given["area"].text == "20 acre"
    assert held.screen.count("PROFILE:") == 1
    assert held.screen.count("Look it over") == 1


def test_a_change_that_opens_questions_asks_them_and_then_shows_the_result() -> None:
    held = talk([*QUESTIONS, "add implement", "blade", "now", "8 ft", "angle", "all", "", ""])
    assert len(held.answers.items) == 2
    assert held.screen.count("PROFILE:") == 1


def test_whoever_resumes_a_finished_plan_sees_the_result_at_once() -> None:
    first = talk(WHOLE)
    again = talk([""], answers=first.answers)
    assert "PROFILE:" in again.screen
    assert "Look it over" not in again.screen


def test_what_if_shows_only_what_differs_and_keeps_the_change() -> None:
    held = talk([*WHOLE, "what if 1", "20 acre", "keep it", ""])
    assert "before / after: 1 and 1 items, differ in ['area']" in held.screen
    assert held.screen.count("PROFILE:") == 1
    assert held.answers.given["area"].text == "20 acre"


@pytest.mark.parametrize("line", ["2", "take it back", "undo", "back"])
def test_a_change_can_be_taken_back_at_once(line: str) -> None:
    held = talk([*WHOLE, "what if 1", "20 acre", line, ""])
    assert held.answers.given["area"].text == "14 acre"
    assert "It is as it was before." in held.screen


def test_undo_goes_back_one_change_after_the_other() -> None:
    held = talk([*WHOLE, "what if 1", "20 acre", "1", "what if 1", "30 acre", "", "undo", "undo", "undo", ""])
    assert held.answers.given["area"].text == "14 acre"
    assert held.screen.count("It is as it was before.") == 2
    assert "There is nothing to take back." in held.screen


def test_what_if_without_an_implement_and_with_one_more() -> None:
    added = ["what if add", "blade", "now", "8 ft", "angle", "all", "1"]
    held = talk([*WHOLE, "what if without blade", "1", "undo", *added, ""])
    assert "before / after: 1 and 0 items" in held.screen
    assert "before / after: 1 and 2 items" in held.screen
    assert len(held.answers.items) == 2


def test_what_if_that_changes_nothing_says_nothing_of_a_difference() -> None:
    held = talk([*WHOLE, "what if 1", "", "what if 99", "what if without plough", ""])
    assert "before / after" not in held.screen


def test_both_plans_are_kept_under_a_name_and_compared(tmp_path: Path) -> None:
    held = talk(
        [*WHOLE, "what if 1", "20 acre", "3", "small place", "plans", "compare small", "take plan small place", "", ],
        path=tmp_path / "mine.yaml",
    )
    assert "Kept as small place, in" in held.flat
    assert "small place / now: 1 and 1 items, differ in ['area']" in held.screen
    assert held.answers.given["area"].text == "14 acre"
    kept = tmp_path / "mine-small-place.yaml"
    assert read(kept.read_text(encoding="utf-8"), str(kept), BOOK).given["area"].text == "14 acre"
    assert read((tmp_path / "mine.yaml").read_text(encoding="utf-8"), "mine", BOOK).given["area"].text == "14 acre"


def test_two_plans_with_one_name_stay_apart() -> None:
    held = talk([*WHOLE, "what if 1", "20 acre", "3", "plan", "what if 1", "30 acre", "3", "plan", "plans", ""])
    assert "Plans with a name: plan; plan 2." in held.screen


def test_commands_of_the_end_are_explained_before_it_and_unknown_plans_are_said() -> None:
    held = talk(["what if 1", *WHOLE, "compare nothing", "plans", ""])
    assert "what if is for the end" in held.flat
    assert "There is no plan called nothing" in held.screen
    assert "No plan has a name yet" in held.flat


def test_leaving_while_a_change_is_tried_keeps_what_stands_there() -> None:
    held = talk([*WHOLE, "what if 1", "20 acre", "save"])
    assert held.answers.given["area"].text == "20 acre"
    assert "Saved in" in held.screen


def test_with_the_shipped_book_the_comparison_names_requirements_and_both_figures() -> None:
    """The recorded lawn of the demo, with clay in the place of its soil, or a steeper place: before and after."""
    book = load()
    recording = next(one for one in shipped() if one.name == "garden_on_clay")
    answers = recording.answers(book)
    number = next(n for n, s in enumerate(_said(answers, book), 1) if s == "soil")
    front = ScriptFront([f"what if {number}", "sand", "keep it", ""], 80)
    Conversation(book, front, RehearsalStore(), answers, Shown(book, lambda: 80), "home", False, resumed=True).run()
    tail = front.screen.rsplit("sand\n", 1)[1]
    assert "What differs: before and after" in tail
    assert "Power at the turning shaft" in tail
    assert "hp" in tail


def _said(answers: object, book: object) -> list[str]:
    from firstfurrow.asking.interview import Interview

    return [step.ref.key for step in Interview.of(book, answers).said()]  # type: ignore[arg-type]
