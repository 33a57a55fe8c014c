"""Which questions move a profile most: each one left unsure in turn, over random conversations, in felt steps."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study.felt import difference, scale_of
from firstfurrow.asking.answers import NOT_SURE, Answers, Item
from firstfurrow.asking.complete import complete
from firstfurrow.asking.random_walk import random_answers
from firstfurrow.book.model import Book


@dataclass(frozen=True, slots=True)
class Weight:
    """How much one question moves: in felt steps for each conversation in which it was asked."""

    question: str
    asked: int
    steps: float

    @property
    def each(self) -> float:
        """Felt steps for each time it was asked."""
        return self.steps / self.asked if self.asked else 0.0


def weigh(
    book: Book, seeds: Iterable[int], *, most: int = 4, done: Callable[[], None] = lambda: None
) -> tuple[Weight, ...]:
    """The questions that may be left unsure, the lightest first."""
    scale = scale_of(book)
    asked: dict[str, int] = {}
    steps: dict[str, float] = {}
    for seed in seeds:
        answers = random_answers(book, seed, most=most)
        base = _profile(book, answers)
        for question in dict.fromkeys((*answers.given, *(q for item in answers.items for q in item.given))):
            if not may_be_skipped(book, question):
                continue
            other = _profile(book, complete(book, unsure_of(answers, frozenset({question}))))
            asked[question] = asked.get(question, 0) + 1
            steps[question] = steps.get(question, 0.0) + difference(scale, base, other).steps
        done()
    found = (Weight(question, count, round(steps[question], 3)) for question, count in asked.items())
    return tuple(sorted(found, key=lambda weight: (weight.each, weight.question)))


def may_be_skipped(book: Book, question: str) -> bool:
    """True for questions that take *not sure* for an answer."""
    return _how(book).get(question, "refused") != "refused"


def _how(book: Book) -> Mapping[str, str]:
    found = {q.id: q.not_sure.how for section in book.sections for q in section.questions}
    for section in book.sections:
        if section.group is not None:
            found |= {q.id: q.not_sure.how for q in section.group.questions}
    return found


def unsure_of(answers: Answers, questions: frozenset[str]) -> Answers:
    """The answers with *not sure* at these questions, of every implement too."""
    given = {id_: NOT_SURE if id_ in questions else value for id_, value in answers.given.items()}
    items = tuple(
        Item(item.id, {id_: NOT_SURE if id_ in questions else value for id_, value in item.given.items()})
        for item in answers.items
    )
    return replace(answers, given=given, items=items)


def _profile(book: Book, answers: Answers) -> Profile:
    return advise_plan(book, make_plan(book, answers), lean=True, hiring=False)
