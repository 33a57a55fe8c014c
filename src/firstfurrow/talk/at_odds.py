"""The question about answers that do not go together: keep them, or answer one of them again."""

from __future__ import annotations

from firstfurrow.asking.contradictions import Contradiction
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Choice, NotSure, Question

AT_ODDS = "at_odds"
KEEP = "keep"
_ALSO = ("keep both", "keep it", "keep them", "both", "yes", "y", "right")


def at_odds_question(interview: Interview, found: Contradiction) -> Question:
    """The question, worded by the book; what it may move is what its answers may move."""
    messages = interview.book.messages
    asked = {place: interview.question(place) for place in found.places}
    again = (Choice(place.key, _again(interview, question)) for place, question in asked.items())
    moves = dict.fromkeys(name for question in asked.values() for name in question.moves)
    return Question(
        id=AT_ODDS,
        type="choice",
        ask=found.sentence,
        why=wording(messages, "at_odds_why"),
        not_sure=NotSure("planned", say=wording(messages, "at_odds_unsure")),
        moves=tuple(moves),
        choices=(Choice(KEEP, wording(messages, "at_odds_keep"), also=_ALSO), *again),
    )


def _again(interview: Interview, question: Question) -> str:
    """What choosing a place does: its question once more, or one more implement."""
    if interview.group_closed_by(question) is not None:
        return wording(interview.book.messages, "at_odds_add")
    return wording(interview.book.messages, "at_odds_again", asked=question.ask)


def chosen(found: Contradiction, value: object) -> Ref | None:
    """The place that is to be answered again; None to keep all of them."""
    return next((place for place in found.places if place.key == value), None)
