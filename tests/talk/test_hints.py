"""What helps while a line is typed: every word that is offered is understood, and the line at the foot is true."""

from __future__ import annotations

import pytest
from talking import BOOK, WHOLE, Plain

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.book.model import Book, Question
from firstfurrow.talk.commands import command
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.foot import GAP, foot
from firstfurrow.talk.front import NO_HINTS, Hints
from firstfurrow.talk.hints import ANYWHERE, AT_THE_END, ENDING, LISTED, LOOKING_OVER, OPENING, at_end, at_question
from firstfurrow.talk.opening import road_question, units_question
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore


def questions(book: Book) -> list[Question]:
    own = [q for s in book.sections for q in (*s.questions, *(s.group.questions if s.group else ()))]
    closes = [s.group.closes for s in book.sections if s.group is not None]
    return [*own, *closes, units_question(book), road_question(book)]


def test_every_word_that_is_offered_is_an_answer_or_a_command(book: Book) -> None:
    offered = 0
    for question in questions(book):
        for word in at_question(book, question).words:
            if command(word) is not None or (question.type == "kind" and word in LISTED):
                continue
            found = understand(question, word, "us", None, book)
            assert not isinstance(found, Problem) or found.kinds, f"{question.id}: {word}"
            offered += 1
    assert offered > 500


@pytest.mark.parametrize("names", [OPENING, ANYWHERE, ENDING])
def test_every_command_that_is_offered_is_one(names: tuple[str, ...], book: Book) -> None:
    words = at_question(book, units_question(book), opening=names is OPENING).words
    words = at_end(book, AT_THE_END).words if names is ENDING else words[-len(names) :]
    assert [said.name for word in words if (said := command(word))] == list(names)


def test_every_letter_at_the_foot_is_the_command_behind_it(book: Book) -> None:
    shown = [at_question(book, q).bottom for q in questions(book)]
    shown += [at_end(book, AT_THE_END).bottom, at_end(book, LOOKING_OVER).bottom]
    entries = {entry for line in shown for entry in line.split(GAP)}
    assert {"? help", "u unsure", "w why", "h how", "b back", "q save", "t what if"} <= entries
    for entry in entries - {book.messages["bottom_enter"]}:
        letter, word = entry.split(" ", 1)
        assert command(letter) == command(word), entry
        assert command(letter) is not None, entry


def test_what_does_not_work_at_a_question_is_not_at_its_foot(book: Book) -> None:
    for question in questions(book):
        entries = at_question(book, question).bottom.split(GAP)
        assert ("h how" in entries) == (question.how is not None)
        assert ("u unsure" in entries) == (question.not_sure.how != "refused")


def test_the_foot_holds_whole_entries_only() -> None:
    for width in range(60):
        shown = foot("? help  u unsure  w why  h how  b back", width)
        assert len(shown) <= width
        assert shown in ("", "? help", "? help  u unsure", "? help  u unsure  w why", "? help  u unsure  w why  h how",
                         "? help  u unsure  w why  h how  b back")  # fmt: skip


class Asked(ScriptFront):
    """Keeps the hints beside the lines."""

    def __init__(self, lines: list[str]) -> None:
        super().__init__(lines)
        self.hints: list[Hints] = []

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
        self.hints.append(hints)
        return super().ask(prompt, hints)


def asked(*lines: str) -> list[Hints]:
    front = Asked(list(lines))
    Conversation(BOOK, front, RehearsalStore(), Answers(), Plain(), "home", ask_units=False).run()
    return front.hints


def test_what_was_refused_stays_and_what_was_doubted_or_taken_does_not() -> None:
    hints = asked("14 akers", "5000 acre", "14 acre", "tres", "why", "trees")
    assert [hint.default for hint in hints[:7]] == ["", "14 akers", "", "", "tres", "", ""]
    assert hints[1].bottom.startswith(BOOK.messages["bottom_mend"])
    assert "mend" not in hints[2].bottom


def test_a_line_too_long_to_mend_is_typed_again() -> None:
    assert [hint.default for hint in asked("a" * 60, "a" * 61)] == ["", "a" * 60, ""]


def test_each_question_is_a_place_of_its_own() -> None:
    places = [hint.place for hint in asked(*WHOLE, "save")]
    assert len(set(places)) == len(places) - 1  # the end is asked twice: to look it over, and after the result
    assert places[-1] == places[-2] == "end"
