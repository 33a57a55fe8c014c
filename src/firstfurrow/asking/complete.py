"""Answers carried to the end of the interview: what was never asked counts as not sure."""

from __future__ import annotations

from firstfurrow.asking.answers import Answers, Given
from firstfurrow.asking.interview import THAT_IS_ALL, Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.walk import id_of_type
from firstfurrow.book.model import Book


def complete(book: Book, answers: Answers) -> Answers:
    """What applies, with *not sure* for every question not answered; an implement without a kind is left out.

    Conditions see an answer that is missing as they see *not sure*, so filling it in opens nothing. It closes what is
    pointless for the build that is then planned, which the second walk drops.
    """
    interview = Interview.of(book, answers)
    kind = id_of_type(book, "kind")
    for item in interview.answers.items:
        if kind not in item.given:
            interview = interview.remove_item(item.id)
    if not interview.answers.items:
        interview = _closed(interview)
    return Interview(book, interview.filled(_unsaid(book))).applies()


def not_asked(book: Book, answers: Answers) -> frozenset[str]:
    """The questions that apply and have no answer yet, not even *not sure*: nobody could measure what nobody asked.

    Flat keys, such as "gate_width" or "i2.size". Take it from the answers as they are: `complete` answers all of them.
    """
    return frozenset(step.ref.key for step in Interview(book, answers).waiting())


def _unsaid(book: Book) -> dict[str, Given]:
    """What stands for a missing answer where that is not *not sure*: the list of implements ends."""
    closing = [section.group.closes.id for section in book.sections if section.group is not None]
    return dict.fromkeys(closing, Given(THAT_IS_ALL, THAT_IS_ALL))


def _closed(interview: Interview) -> Interview:
    """No implement was ever named: the list of them is closed empty."""
    for id_, given in _unsaid(interview.book).items():
        interview = interview.answer(Ref(id_), given)
    return interview
