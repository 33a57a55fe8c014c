"""All implements at one question, by numbers or names, where there is no time for one after the other."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.interview import THAT_IS_ALL, Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.book.model import Book, Question
from firstfurrow.talk.kinds_list import KindsList

_PARTS = re.compile(r"\s*(?:[,;+&]|\band\b)\s*", re.IGNORECASE)
_NUMBERS = re.compile(r"[\d\s.)]+")


@dataclass(frozen=True, slots=True)
class Named:
    """The implements that a line names, and the first part of it that names none."""

    kinds: tuple[Given, ...]
    problem: Problem | None = None


def parts_of(line: str) -> list[str]:
    """The parts of a line: between commas and "and", and each number by itself.

    >>> parts_of("1 3, box blade and utility trailer")
    ['1', '3', 'box blade', 'utility trailer']
    """
    found: list[str] = []
    for part in _PARTS.split(line):
        found += part.split() if _NUMBERS.fullmatch(part) else [part]
    return [part for part in found if part]


def named_in(book: Book, question: Question, kinds: KindsList, line: str, units: Units) -> Named:
    """The kinds that a line names; what the list on the screen numbers may be typed as a number."""
    shown = replace(question, choices=kinds.choices())
    found: list[Given] = []
    for part in parts_of(line):
        understood = understand(shown, part, units, None, book)
        if isinstance(understood, Problem):
            return Named(tuple(found), understood)
        found.append(understood.given)
    return Named(tuple(found))


def with_kinds(interview: Interview, kinds: tuple[Given, ...]) -> Interview:
    """The interview with one item for each kind, and the list closed."""
    group = next(section.group for section in interview.book.sections if section.group is not None)
    question = next(q.id for q in group.questions if q.type == "kind")
    for given in kinds:
        empty = next((i.id for i in interview.answers.items if question not in i.given), None)
        if empty is None and interview.answers.items:
            interview = interview.add_item()
            empty = interview.answers.items[-1].id
        if empty is None:
            place = next(step.ref for step in interview.waiting() if step.ref.question == question)
        else:
            place = Ref(question, empty)
        interview = interview.answer(place, given)
    return interview.answer(Ref(group.closes.id), Given(THAT_IS_ALL, THAT_IS_ALL))
