"""Answers carried to the end of the interview: what was never asked counts as not sure."""

from __future__ import annotations

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.interview import THAT_IS_ALL, Interview
from firstfurrow.book.model import Book


def complete(book: Book, answers: Answers) -> Answers:
    """What applies, with *not sure* for every question not answered; an implement without a kind is left out."""
    interview = Interview.of(book, answers)
    while (place := interview.next()) is not None:
        question = interview.raw_question(place)
        if interview.group_closed_by(question) is not None:
            interview = interview.answer(place, Given(THAT_IS_ALL, THAT_IS_ALL))
        elif question.not_sure.how == "refused" and place.item is not None:
            interview = interview.remove_item(place.item)
        else:
            interview = interview.answer(place, NOT_SURE)
    return interview.applies()
