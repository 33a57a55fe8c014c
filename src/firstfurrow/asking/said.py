"""What was said, line by line in the order asked, in the reader's own words: for a page, not for a file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from firstfurrow.asking.answers import Answers, Given, Units
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.resolve import roughly
from firstfurrow.asking.wording import wording
from firstfurrow.asking.words import in_words
from firstfurrow.book.model import Book, Question


@dataclass(frozen=True, slots=True)
class Line:
    """One answer: under which section, of which implement, the question and the answer in words."""

    key: str  # flat key, such as "slope_up" or "i2.size"
    section: str
    item: str | None  # name of the implement
    ask: str
    answer: str
    unsure: bool


def said(book: Book, answers: Answers) -> tuple[Line, ...]:
    """Every answer that applies, in the order asked."""
    interview = Interview(book, answers)
    titles = {section.id: section.title for section in book.sections}
    lines: list[Line] = []
    for step in interview.said():
        assert step.given is not None
        kind = None if step.ref.item is None else interview.kind(step.ref.item)
        question = interview.question(step.ref)
        lines.append(
            Line(
                step.ref.key, titles[step.section], None if step.ref.item is None else kind.name if kind else "?",
                question.ask, answer_words(book.messages, question, step.given, answers.units), step.given.unsure,
            )
        )  # fmt: skip
    return tuple(lines)


def answer_words(messages: Mapping[str, str], question: Question, given: Given, units: Units) -> str:
    """An answer as the reader would say it; what is planned where he is not sure."""
    if not given.unsure:
        return in_words(question, given)
    planned = planned_words(question, units)
    return wording(messages, "said_unsure_planned", what=planned) if planned else wording(messages, "said_unsure")


def planned_words(question: Question, units: Units) -> str:
    """What is planned on *not sure*, in words; empty when nothing is planned."""
    planning = question.not_sure.planning
    if question.not_sure.how != "planned" or planning is None:
        return ""
    labels = {choice.id: choice.label for choice in question.choices}
    if isinstance(planning, tuple | list):
        return "; ".join(labels.get(each, str(each)) for each in planning)
    if isinstance(planning, str):
        return labels.get(planning, planning)
    return roughly(float(planning), question.dimension, units)
