"""All implements at one question, by numbers or names, where there is no time for one after the other."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.interview import THAT_IS_ALL, Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.book.model import Book, Question
from firstfurrow.talk.kinds_list import KindsList

_PARTS = re.compile(r"\s*(?:[,;+&]|\band\b)\s*", re.IGNORECASE)
_NUMBERS = re.compile(r"[\d\s.)]+")


def parts_of(line: str) -> list[str]:
    """The parts of a line: between commas and "and", and each number by itself.

    >>> parts_of("1 3, box blade and utility trailer")
    ['1', '3', 'box blade', 'utility trailer']
    """
    found: list[str] = []
    for part in _PARTS.split(line):
        found += part.split() if _NUMBERS.fullmatch(part) else [part]
    return [part for part in found if part]


@dataclass(slots=True)
class Together:
    """What was named so far, and the parts of a line that are not clear yet, asked about one after the other."""

    named: list[Given] = field(default_factory=list)
    unclear: list[Problem] = field(default_factory=list)

    def take(self, book: Book, question: Question, kinds: KindsList, line: str, units: Units) -> None:
        """Take a line over: all of it at first, then what stands for the first part that was not clear.

        What the list on the screen numbers may be typed as a number; an empty line leaves the unclear part out.
        """
        shown = replace(question, choices=kinds.choices())
        if self.unclear:
            self.unclear.pop(0)
        for part in parts_of(line):
            found = understand(shown, part, units, None, book)
            if isinstance(found, Problem):
                self.unclear.append(found)
            else:
                self.named.append(found.given)

    def names(self, book: Book) -> str:
        """What was named so far."""
        return "; ".join(book.kinds[given.value].name for given in self.named)


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
