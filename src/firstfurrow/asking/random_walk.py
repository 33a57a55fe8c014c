"""Random complete conversations, the same for the same seed: for ranking questions and for trying a whole book."""

from __future__ import annotations

import random
from collections.abc import Sequence

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item, Units
from firstfurrow.asking.interview import THAT_IS_ALL
from firstfurrow.asking.refs import Ref, ref_of
from firstfurrow.asking.resolve import NONE, resolve
from firstfurrow.asking.walk import Walk
from firstfurrow.book.model import Book, Kind, Question
from firstfurrow.quantities import DIMENSIONS, format_number

MOST_CHOSEN = 3  # choices at once in a question with several


def random_answers(
    book: Book, seed: int, *, most: int = 4, unsure: float = 0.0, units: Units = "us", kinds: Sequence[Kind] = ()
) -> Answers:
    """A conversation to its end, about at most `most` implements; a share `unsure` of the answers is *not sure*.

    The jobs fit the implements. Quantities lie between the rough answers of a question, or in its plausible range.

    >>> from firstfurrow.book.load import load
    >>> book = load()
    >>> random_answers(book, 7) == random_answers(book, 7)
    True
    """
    chance = random.Random(seed)
    chosen = tuple(kinds) or tuple(chance.choices(tuple(book.kinds.values()), k=chance.randint(1, most)))
    return _Talker(book, chance, chosen, unsure, units).answers()


class _Talker:
    """Answers whatever is asked."""

    def __init__(self, book: Book, chance: random.Random, kinds: Sequence[Kind], unsure: float, units: Units) -> None:
        self.book = book
        self.chance = chance
        self.kinds = {f"i{number}": kind for number, kind in enumerate(kinds, 1)}
        self.unsure = unsure
        self.units: Units = units
        self.given: dict[str, Given] = {}
        self.variants: dict[str, str] = {}
        self.questions = {q.id: q for section in book.sections for q in section.questions}
        self.closes = ""
        for section in book.sections:
            if section.group is not None:
                self.questions |= {q.id: q for q in section.group.questions}
                self.closes = section.group.closes.id

    def answers(self) -> Answers:
        """All that was asked, answered."""
        walk = Walk(self.book, list(self.kinds), len(self.kinds), self._find)
        outer: dict[str, Given] = {}
        own: dict[str, dict[str, Given]] = {item: {} for item in self.kinds}
        for step in walk.steps():
            assert step.given is not None, step.ref
            place = outer if step.ref.item is None else own[step.ref.item]
            place[step.ref.question] = step.given
        items = tuple(Item(item, given) for item, given in own.items())
        return Answers(units=self.units, given=outer, items=items, items_made=len(items))

    def _find(self, key: str) -> Given:
        if key not in self.given:
            self.given[key] = self._answer(ref_of(key))
        return self.given[key]

    def _answer(self, ref: Ref) -> Given:
        if ref.question == self.closes:
            return Given(THAT_IS_ALL, THAT_IS_ALL)
        kind = None if ref.item is None else self.kinds[ref.item]
        question = self.questions[ref.question]
        if question.type == "kind":
            assert kind is not None
            return Given(kind.kind, kind.kind)
        if question.not_sure.how != "refused" and self.chance.random() < self.unsure:
            return NOT_SURE
        if question.type == "quantity":
            return self._quantity(question)
        if question.type == "count":
            low, high = question.plausible or (1, 4)
            value = self.chance.randint(int(low) or 1, max(int(low) or 1, min(int(high), 8)))
            return Given(value, str(value))
        if question.id == "jobs":
            return self._jobs()
        return self._choice(question, kind, ref.item)

    def _jobs(self) -> Given:
        """The jobs that the implements do: a plan in which nothing fits nothing tells nobody anything."""
        jobs = tuple(dict.fromkeys(job for kind in self.kinds.values() for job in kind.jobs))
        jobs = jobs or (self.chance.choice(self.questions["jobs"].choices).id,)
        return Given(jobs, ", ".join(jobs))

    def _choice(self, question: Question, kind: Kind | None, item: str | None) -> Given:
        found = resolve(self.book, question, self.units, kind, self.variants.get(item or ""))
        choices = [choice.id for choice in found.choices if choice.id != NONE]
        if question.type == "several":
            many = self.chance.randint(0, min(MOST_CHOSEN, len(choices)))
            some = tuple(c for c in choices if c in self.chance.sample(choices, many)) or (NONE,)
            some = some if some != (NONE,) or any(c.id == NONE for c in found.choices) else (choices[0],)
            return Given(some, ", ".join(some))
        chosen = self.chance.choice(choices)
        if question.type == "variant" and item is not None:
            self.variants[item] = chosen
        return Given(chosen, chosen)

    def _quantity(self, question: Question) -> Given:
        dimension = question.dimension or "ratio"
        ends = [band.value for band in question.bands] or list(question.plausible or ())
        if not ends:
            how = question.not_sure
            ends = [float(how.low), float(how.high)] if how.low is not None else [1.0, 2.0]
        value = self.chance.uniform(min(ends), max(ends))
        digits = 3 if value < 10 else 1
        text = f"{format_number(value, digits)} {DIMENSIONS[dimension].working}".strip()
        return Given(round(value, digits), text)
