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
MANY = 6  # implements in one of any conversations
AT_AN_END = 0.1  # share of the numbers of any conversation that lie at an end of what is plausible
UNSURE = (0.0, 0.1, 0.3, 0.6, 1.0)  # shares of answers that are not sure, from one of any conversations to another


def random_answers(
    book: Book,
    seed: int,
    *,
    most: int = 4,
    unsure: float = 0.0,
    units: Units = "us",
    kinds: Sequence[Kind] | None = None,
) -> Answers:
    """A conversation to its end, about at most `most` implements, or those of `kinds`; a share `unsure` is *not sure*.

    The jobs fit the implements. Quantities lie between the rough answers of a question, or in its plausible range.

    >>> from firstfurrow.book.load import load
    >>> book = load()
    >>> random_answers(book, 7) == random_answers(book, 7)
    True
    """
    chance = random.Random(seed)
    if kinds is None:
        kinds = tuple(chance.choices(tuple(book.kinds.values()), k=chance.randint(1, most)))
    return _Talker(book, chance, kinds, unsure, units).answers()


def any_answers(book: Book, seed: int, number: int) -> Answers:
    """One of all sorts of conversations: without implements or with many, sure or not sure of anything, odd jobs too.

    Numbers may lie at an end of what the book calls plausible.

    >>> from firstfurrow.book.load import load
    >>> book = load()
    >>> any_answers(book, 1, 7) == any_answers(book, 1, 7)
    True
    >>> any_answers(book, 1, 7) == any_answers(book, 2, 7)
    False
    """
    chance = random.Random(f"{seed} {number}")
    kinds = tuple(book.kinds.values())
    chosen = tuple(chance.choices(kinds, k=chance.choice((0, 1, 1, 2, 2, 3, 4, MANY)))) if kinds else ()
    units: Units = chance.choice(("us", "metric"))
    return _Talker(book, chance, chosen, chance.choice(UNSURE), units, odd=True).answers()


def other_answer(book: Book, answers: Answers, ref: Ref, chance: random.Random) -> Given | None:
    """Another answer to a question of complete answers; None where there is none.

    One of a sort that the question takes, *not sure* among them; for a kind another kind of implement. A number often
    lies at an end of what is plausible.
    """
    talker = _Talker.of(book, answers, chance)
    before = talker.given[ref.key]
    for _ in range(8):  # a number or a set of choices may come out the same
        found = talker.other(ref, before)
        if found is not None and found.value != before.value:
            return found
    return None


class _Talker:
    """Answers whatever is asked."""

    def __init__(
        self,
        book: Book,
        chance: random.Random,
        kinds: Sequence[Kind],
        unsure: float,
        units: Units,
        *,
        odd: bool = False,
    ) -> None:
        self.book = book
        self.chance = chance
        self.kinds = {f"i{number}": kind for number, kind in enumerate(kinds, 1)}
        self.unsure = unsure
        self.units: Units = units
        self.odd = odd
        self.given: dict[str, Given] = {}
        self.variants: dict[str, str] = {}
        self.questions = {q.id: q for section in book.sections for q in section.questions}
        self.closes = ""
        for section in book.sections:
            if section.group is not None:
                self.questions |= {q.id: q for q in section.group.questions}
                self.closes = section.group.closes.id

    @classmethod
    def of(cls, book: Book, answers: Answers, chance: random.Random) -> _Talker:
        """Somebody who gave these answers."""
        made = cls(book, chance, (), 0.0, answers.units, odd=True)
        made.given = dict(answers.given)
        for item in answers.items:
            made.given |= {Ref(id_, item.id).key: given for id_, given in item.given.items()}
            for id_, given in item.given.items():
                if made.questions[id_].type == "kind" and not given.unsure:
                    made.kinds[item.id] = book.kinds[given.value]
                elif made.questions[id_].type == "variant" and not given.unsure:
                    made.variants[item.id] = given.value
        return made

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

    def other(self, ref: Ref, before: Given) -> Given | None:
        """One more answer to a question, as likely as any other that it takes."""
        question = self.questions.get(ref.question)
        if question is None:
            return None
        if question.type == "kind":
            kind = self.chance.choice(tuple(self.book.kinds.values()))
            return Given(kind.kind, kind.kind)
        if not before.unsure and question.not_sure.how != "refused" and self.chance.random() < 0.15:
            return NOT_SURE
        if question.type == "quantity" and self.chance.random() < 0.5:
            return self._quantity(question, at_an_end=True)
        return self._answer(ref)

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
            if question.type == "variant" and kind is not None and ref.item is not None:
                self.variants[ref.item] = kind.variants[0].id  # as the plan takes it
            return NOT_SURE
        if question.type == "quantity":
            return self._quantity(question)
        if question.type == "count":
            low, high = question.plausible or (1, 4)
            value = self.chance.randint(int(low) or 1, max(int(low) or 1, min(int(high), 8)))
            return Given(value, str(value))
        if question.type == "text":
            return Given("a narrow bridge", "a narrow bridge")
        if question.id == "jobs" and not (self.odd and self.chance.random() < 0.2):
            return self._jobs()
        return self._choice(question, kind, ref.item)

    def _jobs(self) -> Given:
        """The jobs that the implements do: a plan in which nothing fits nothing tells nobody anything."""
        jobs = tuple(dict.fromkeys(job for kind in self.kinds.values() for job in kind.jobs))
        jobs = jobs or (self.chance.choice(self.questions["jobs"].choices).id,)
        if self.odd:  # in the order of the book, as an answers file gives them back
            jobs = tuple(choice.id for choice in self.questions["jobs"].choices if choice.id in jobs)
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

    def _quantity(self, question: Question, *, at_an_end: bool = False) -> Given:
        dimension = question.dimension or "ratio"
        ends = [band.value for band in question.bands] or list(question.plausible or ())
        if not ends:
            how = question.not_sure
            ends = [float(how.low), float(how.high)] if how.low is not None else [1.0, 2.0]
        value = self.chance.uniform(min(ends), max(ends))
        if question.plausible is not None and (at_an_end or (self.odd and self.chance.random() < AT_AN_END)):
            value = self.chance.choice(question.plausible)
        digits = 3 if value < 10 else 1
        text = f"{format_number(value, digits)} {DIMENSIONS[dimension].working}".strip()
        return Given(round(value, digits), text)
