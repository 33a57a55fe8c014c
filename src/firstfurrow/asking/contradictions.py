"""Answers that do not go together, as the book describes them: found anew from the answers each time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.asking.answers import Answers, Given, Kept
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.resolve import CHOOSE, roughly
from firstfurrow.asking.walk import Step, id_of_type
from firstfurrow.asking.wording import wording
from firstfurrow.asking.words import in_words
from firstfurrow.book.conditions import Held, Lookup, Scope, evaluate, leaves
from firstfurrow.book.model import Book, ContradictionRule, Kind

JOBS = "jobs"  # the question for the jobs; the records of the implements name its choices


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Answers that do not go together. `places`: where it is asked about, then the others that it is between."""

    id: str
    places: tuple[Ref, ...]
    sentence: str
    texts: tuple[str, ...]  # of the answers at these places
    kept: bool  # the buyer was asked about it, with these answers, and kept them

    @property
    def memory(self) -> Kept:
        """What the answers remember when it is kept: other answers at these places would be asked about again."""
        return Kept(self.id, self.places[0].key, self.texts)


def contradictions(book: Book, answers: Answers) -> tuple[Contradiction, ...]:
    """Every contradiction that stands in these answers, in the order of the book; kept ones too.

    Only answers that apply and are sure contradict each other: who is not sure has said nothing. Nothing but book and
    answers is read, so an answers file that somebody wrote by hand gives the same.
    """
    if not book.contradictions:
        return ()
    search = _Search(book, answers)
    return tuple(found for rule in book.contradictions for found in search.by(rule))


class _Search:
    """The sure answers by flat key, and what the rules ask of them."""

    def __init__(self, book: Book, answers: Answers) -> None:
        self.book = book
        self.answers = answers
        self.interview = Interview(book, answers)
        self.said: Mapping[str, Step] = {
            step.ref.key: step for step in self.interview.said() if step.given is not None and not step.given.unsure
        }

    def by(self, rule: ContradictionRule) -> Iterator[Contradiction]:
        """What one rule finds: at each of its places, and there once for each implement."""
        for question in rule.asked_at:
            for item in (None, *(item.id for item in self.answers.items)):
                if Ref(question, item).key in self.said:
                    yield from self._at(rule, Ref(question, item))

    def _at(self, rule: ContradictionRule, at: Ref) -> Iterator[Contradiction]:
        places = [at, *(self._beside(other, at) for other in rule.others)]
        if any(place.key not in self.said for place in places):
            return
        slots = self._stands(rule, at)
        if slots is None:
            return
        for place in places:
            slots[place.question] = self._words(place)
        slots |= {"said": self._words(at), "asked": self.interview.question(at).ask}
        if (kind := self.interview.kind(at.item)) is not None:
            slots["kind"] = kind.name
        sentence = wording({rule.id: rule.say}, rule.id, **slots)
        found = Contradiction(rule.id, tuple(places), sentence, tuple(map(self._text, places)), False)
        kept = found.memory in self.answers.kept
        yield Contradiction(found.id, found.places, found.sentence, found.texts, kept)

    def _beside(self, question: str, at: Ref) -> Ref:
        """The place of another question: of the same implement where it has that answer, else outside."""
        same = Ref(question, at.item)
        return same if same.key in self.said else Ref(question)

    def _given(self, place: Ref) -> Given:
        given = self.said[place.key].given
        assert given is not None
        return given

    def _words(self, place: Ref) -> str:
        return in_words(self.interview.question(place), self._given(place))

    def _text(self, place: Ref) -> str:
        """As an answers file would give it back."""
        return " ".join(self._given(place).text.split())

    # ------------------------------------------------------ the four ways

    def _stands(self, rule: ContradictionRule, at: Ref) -> dict[str, str] | None:
        """What the sentence may say beside the answers; None where nothing is wrong."""
        if self._list_open() and _about_the_list(rule):
            return None
        if rule.when is not None:
            return {} if evaluate(rule.when, self._lookup(at.item)) else None
        if rule.more_than is not None:
            limit = self._limit(rule, at)
            if limit is None or self._given(at).value <= limit * rule.more_than.times.planning:
                return None
            return {"limit": roughly(limit, self.said[at.key].question.dimension, self.answers.units)}
        missing = self._not_served(rule) if rule.no_tool is not None else self._not_chosen(rule, at)
        return {"missing": missing} if missing else None

    def _list_open(self) -> bool:
        """True while an implement is opened of which nobody knows what it is."""
        return any(self.interview.kind(item.id) is None for item in self.answers.items)

    def _lookup(self, item: str | None) -> Lookup:
        """What conditions may see: sure answers only."""

        def look(scope: Scope, subject: str) -> Sequence[Held]:
            places = [Ref(subject)]
            if scope == "item":
                places = [Ref(subject, item)]
            elif scope == "any_item":
                places = [Ref(subject, each.id) for each in self.answers.items]
            return [self._held(place) for place in places if place.key in self.said]

        return look

    def _held(self, place: Ref) -> Held:
        value = self._given(place).value
        asks_kind = self.said[place.key].question.type == "kind"
        kind = self.book.kinds.get(value) if asks_kind else None
        return Held(value, False, frozenset() if kind is None else kind.features)

    def _limit(self, rule: ContradictionRule, at: Ref) -> float | None:
        """The other number: another answer, or what the size of the implement carries."""
        assert rule.more_than is not None
        if rule.more_than.answer is not None:
            other = self.said.get(rule.more_than.answer)
            return None if other is None or other.given is None else float(other.given.value)
        question, kind = id_of_type(self.book, "size"), self.interview.kind(at.item)
        size = None if question is None else self.said.get(Ref(question, at.item).key)
        return None if kind is None or size is None or size.given is None else carries(kind, size.given)

    def _not_chosen(self, rule: ContradictionRule, at: Ref) -> str:
        """The jobs that this implement is for, when none of them was chosen."""
        kind = self.interview.kind(at.item)
        if kind is None or kind.kind in (rule.no_job or ()):
            return ""
        its = jobs_of(kind)
        return "" if its & self._jobs() else self._labels(its)

    def _not_served(self, rule: ContradictionRule) -> str:
        """The chosen jobs that nothing on the list does; an empty list says so by itself."""
        kinds = [kind for item in self.answers.items if (kind := self.interview.kind(item.id)) is not None]
        done = frozenset().union(*map(jobs_of, kinds))
        return self._labels(self._jobs() - done - set(rule.no_tool or ())) if kinds else ""

    def _jobs(self) -> frozenset[str]:
        return frozenset(self._given(Ref(JOBS)).value) if JOBS in self.said else frozenset()

    def _labels(self, jobs: frozenset[str]) -> str:
        question = self.interview.raw_question(Ref(JOBS))
        return "; ".join(choice.label for choice in question.choices if choice.id in jobs)


def _about_the_list(rule: ContradictionRule) -> bool:
    """True for what is missing on the list of implements."""
    return rule.no_tool is not None or any(leaf.scope == "any_item" for leaf in leaves(rule.when))


def jobs_of(kind: Kind) -> frozenset[str]:
    """The jobs that an implement is for."""
    return frozenset((*kind.jobs, *filter(None, (kind.area_job,))))


def carries(kind: Kind, size: Given) -> float | None:
    """What the size of an implement carries, in kg; None where the book does not say.

    A size typed as a load is what it carries; of a sold size the upper end counts.
    """
    if kind.size_is == "load" and isinstance(size.value, float):
        return size.value
    known = next((s for s in kind.sizes if s.id == size.value and size.value != CHOOSE), None)
    if known is None:
        return None
    figure = known.load or kind.load
    if figure is not None:
        return figure.high
    return known.value if kind.size_is == "load" else None
