"""The shipped book: every rule holds, and the graph is proven."""

from __future__ import annotations

from firstfurrow.book.check import examine
from firstfurrow.book.conditions import words
from firstfurrow.book.load import load
from firstfurrow.book.places import book_folder


def test_the_shipped_book_passes_every_check_and_the_proof() -> None:
    checked = examine(book_folder())
    assert [str(problem) for problem in checked.problems] == []
    assert checked.proof is not None
    assert checked.proof.holds
    assert checked.proof.questions > 40
    assert checked.proof.tests > 30


def test_every_condition_of_the_shipped_book_can_be_said_in_words() -> None:
    shipped = load()
    said = 0
    for section in shipped.sections:
        asked = section.questions if section.group is None else section.group.questions
        for question in asked:
            if question.when is not None:
                text = words(question.when, shipped)
                assert len(text) > 20
                assert "_" not in text, question.id  # words, not ids
                said += 1
    assert said > 20
