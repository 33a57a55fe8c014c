"""The class: a question for the room, guess first, one step at a time, examples one word away, pairs."""

from __future__ import annotations

import pytest

from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.shown import Shown
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.recordings import shipped
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore


def lesson(book: Book, lines: list[str], setting: str = "class") -> Conversation:
    talk = Conversation(
        book, ScriptFront(lines, 80), RehearsalStore(), Answers(), Shown(book, lambda: 80), setting, ask_units=False
    )
    talk.run()
    return talk


def screen(talk: Conversation) -> str:
    assert isinstance(talk.front, ScriptFront)
    return talk.front.screen


def flat(talk: Conversation) -> str:
    return " ".join(screen(talk).split())


def test_the_question_for_the_room_is_shown_and_the_wrong_answer_only_when_asked_for(book: Book) -> None:
    note = book.teaching.notes["land_shape"]
    plain = flat(lesson(book, ["3 acre", "save"]))
    assert f"Ask the room: {note.room}" in plain
    assert note.wrong not in plain
    assert f"A common wrong answer: {note.wrong}" in flat(lesson(book, ["3 acre", "n", "save"]))
    assert "Ask the room" not in flat(lesson(book, ["3 acre", "save"], "home"))


START = ["3 acre", "slopes", "grading", "loam", "gravel", "12 %", "unsure", "", "some", "300 m", "mild", "box blade"]


def test_the_room_guesses_before_it_is_shown_what_moves(book: Book) -> None:
    shown = screen(lesson(book, [*START, "the power goes up", "save"]))
    asked, seen = shown.index("Guess first"), shown.index("Power at the turning shaft")
    assert asked < shown.index("> the power goes up") < seen
    assert "was guessed. Look:" in shown


@pytest.mark.parametrize(
    ("guess", "said"), [("nobody knows yet", "Something else moves"), ("", "Power at the turning")]
)  # fmt: skip
def test_any_guess_is_fine_and_none_too(book: Book, guess: str, said: str) -> None:
    assert said in screen(lesson(book, [*START, guess, "save"]))


def test_guessing_can_be_switched_off(book: Book) -> None:
    shown = screen(lesson(book, ["guess", *START, "save"]))
    assert "Guess first" not in shown
    assert "Power at the turning shaft" in shown


def test_leaving_at_a_guess_keeps_the_answer(book: Book) -> None:
    talk = lesson(book, [*START, "save"])
    assert talk.interview.answers.items[0].given["kind"].value == "box_blade"
    assert "Saved in" in screen(talk)


def test_an_example_is_one_word_away_and_its_reasoning_comes_one_step_at_a_time(book: Book) -> None:
    names = [recording.name for recording in shipped()]
    number = names.index("garden_on_clay") + 1
    talk = lesson(book, ["examples", f"example {number}", "steps power", "", "", "stop", "save"])
    assert talk.interview.answers.items == items_of(book, "garden_on_clay")
    shown = screen(talk).rsplit("> steps power\n", 1)[1]
    assert shown.startswith("Power at the turning shaft (PTO power)\n")
    assert shown.count("\n>") >= 3
    assert "more steps follow" in shown


def items_of(book: Book, name: str) -> object:
    return next(one for one in shipped() if one.name == name).answers(book).items


def test_every_step_is_shown_to_those_who_stay(book: Book) -> None:
    talk = lesson(book, ["example drive_and_arena", "steps rear_sets", *[""] * 60, "save"])
    assert "That is the whole of it." in screen(talk)


def test_steps_are_there_at_home_too(book: Book) -> None:
    assert "Nothing is asked for yet" in flat(lesson(book, ["steps power", "save"], "home"))


def test_every_pair_is_shown_with_its_difference_and_leaves_the_plan_alone(book: Book) -> None:
    lines = ["pairs"]
    for number, _ in enumerate(book.teaching.pairs, 1):
        lines += [f"pair {number}", ""]
    talk = lesson(book, [*lines, "save"])
    shown = flat(talk)
    assert shown.count("What differs:") == len(book.teaching.pairs)
    assert shown.count("Your own plan stays as it was.") == len(book.teaching.pairs)
    assert "does not fit its recording" not in shown
    assert talk.interview.said() == ()


def test_words_that_name_nothing_are_said(book: Book) -> None:
    shown = flat(lesson(book, ["example zzz", "pair 99", "pair zzz", "note", "save"]))
    assert "No example is called zzz" in shown
    assert "No pair is called 99" in shown
    assert "There is no note for this place" in shown
    assert "That is for a class" in flat(lesson(book, ["pairs", "save"], "home"))
