"""Answers carried to the end of the interview: what was never asked counts as not sure."""

from __future__ import annotations

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.interview import THAT_IS_ALL, Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.book.model import Book


def complete(book: Book, answers: Answers) -> Answers:
    """What applies, with *not sure* for every question not answered; an implement without a kind is left out."""
    interview = Interview.of(book, answers)
    while (place := interview.next()) is not None:
        question = interview.raw_question(place)
        if interview.group_closed_by(question) is not None:
            interview = interview.answer(place, Given(THAT_IS_ALL, THAT_IS_ALL))
        elif question.not_sure.how == "refused" and place.item is not None:
            known = any(item.id == place.item for item in interview.answers.items)
            interview = interview.remove_item(place.item) if known else _closed(interview)
        else:
            interview = interview.answer(place, NOT_SURE)
    return interview.applies()


def not_asked(book: Book, answers: Answers) -> frozenset[str]:
    """The questions that apply and have no answer yet, not even *not sure*: nobody could measure what nobody asked.

    Flat keys, such as "gate_width" or "i2.size". Take it from the answers as they are: `complete` answers all of them.
    """
    return frozenset(step.ref.key for step in Interview(book, answers).waiting())


def _closed(interview: Interview) -> Interview:
    """No implement was ever named: the list of them is closed empty."""
    group = next(section.group for section in interview.book.sections if section.group is not None)
    return interview.answer(Ref(group.closes.id), Given(THAT_IS_ALL, THAT_IS_ALL))
