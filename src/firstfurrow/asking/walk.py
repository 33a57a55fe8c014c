"""The walk through the book: which questions apply to these answers, in asking order, with the answer to each.

Conditions see only answers that apply themselves. On *not sure* they see the planned value of the book.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from firstfurrow.asking.answers import NOT_SURE, Given
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.resolve import build, fits, pointless
from firstfurrow.book.conditions import Held, Lookup, Scope, evaluate
from firstfurrow.book.model import Book, Group, Kind, Question

Find = Callable[[str], Given | None]


def id_of_type(book: Book, sort: str) -> str | None:
    """The id of the question of that type inside the group of items; None when there is none."""
    for section in book.sections:
        for question in section.group.questions if section.group is not None else ():
            if question.type == sort:
                return question.id
    return None


@dataclass(frozen=True, slots=True)
class Step:
    """One question that applies, and its answer if there is one."""

    ref: Ref
    question: Question
    given: Given | None
    section: str


class Walk:
    """One walk. `past_gaps` goes on after a question without answer, as if the answer there were *not sure*.

    Questions in `skips` are not put; without an answer they count as *not sure*.
    """

    def __init__(
        self,
        book: Book,
        items: Sequence[str],
        made: int,
        find: Find,
        *,
        past_gaps: bool = False,
        skips: frozenset[str] = frozenset(),
    ) -> None:
        self._book = book
        self._items = items
        self._made = made
        self._find = find
        self._past_gaps = past_gaps
        self._skips = skips
        self._kind_id: str | None = None  # known from the group on; nothing before it can read a kind
        self._seen: dict[str, tuple[Any, bool]] = {}  # flat key: value as conditions see it, said to be unsure

    def steps(self) -> Iterator[Step]:
        """Every question that applies, up to and with the first one without answer."""
        for section in self._book.sections:
            steps = self._plain(section.questions, section.id)
            if section.group is not None:
                steps = self._grouped(section.group, section.id)
            for step in steps:
                yield step
                if step.given is None and not self._past_gaps:
                    return

    def _plain(self, questions: Sequence[Question], section: str) -> Iterator[Step]:
        for question in questions:
            if question.when is None or evaluate(question.when, self._lookup(None)):
                step = self._step(Ref(question.id), question, section, None, None)
                if not self._skipped(step):
                    yield step

    def _skipped(self, step: Step) -> bool:
        return step.given is None and step.ref.question in self._skips

    def _grouped(self, group: Group, section: str) -> Iterator[Step]:
        self._kind_id = next((q.id for q in group.questions if q.type == "kind"), None)
        closed = self._find(group.closes.id) is not None
        items = self._items or (() if closed else (f"i{self._made + 1}",))
        for item in items:
            yield from self._item(group, section, item)
        yield self._step(Ref(group.closes.id), group.closes, section, None, None)

    def _item(self, group: Group, section: str, item: str) -> Iterator[Step]:
        kind: Kind | None = None
        variant: str | None = None
        for question in group.questions:
            if question.when is not None and not evaluate(question.when, self._lookup(item)):
                continue
            if pointless(question, kind, variant):
                continue
            step = self._step(Ref(question.id, item), question, section, kind, variant)
            if step.given is not None:
                if question.type == "kind" and not step.given.unsure:
                    kind = self._book.kinds[step.given.value]
                elif question.type == "variant":
                    variant = build(kind, step.given)
            if not self._skipped(step):
                yield step

    def _step(self, ref: Ref, question: Question, section: str, kind: Kind | None, variant: str | None) -> Step:
        given = self._find(ref.key)
        if given is not None and not fits(self._book, question, given, kind, variant):
            given = None
        question = self._worded(question, ref.item)
        seen = given if given is not None else NOT_SURE
        self._seen[ref.key] = (question.not_sure.planning if seen.unsure else seen.value, seen.unsure)
        return Step(ref, question, given, section)

    def _worded(self, question: Question, item: str | None) -> Question:
        """The question in the words that hold here."""
        for other in question.asks:
            if evaluate(other.when, self._lookup(item)):
                return replace(question, ask=other.ask, choose=other.choose)
        return question

    def _lookup(self, item: str | None) -> Lookup:
        """What the conditions of a question of this item (or outside, for None) may see."""

        def look(scope: Scope, subject: str) -> Sequence[Held]:
            if scope == "answer":
                keys = [subject]
            elif scope == "item":
                keys = [] if item is None else [Ref(subject, item).key]
            else:
                keys = [Ref(subject, each).key for each in self._items]
            return [self._held(key) for key in keys if key in self._seen]

        return look

    def _held(self, key: str) -> Held:
        value, unsure = self._seen[key]
        features = frozenset[str]()
        if isinstance(value, str) and key.endswith(f".{self._kind_id}") and value in self._book.kinds:
            features = self._book.kinds[value].features
        return Held(value, unsure, features)
