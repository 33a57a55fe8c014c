"""A small maker of answers and profiles from plain words, as somebody would type them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from firstfurrow.advice.plan import Plan, make_plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item, Units
from firstfurrow.asking.resolve import CHOOSE, SIZE_DIMENSION
from firstfurrow.asking.walk import Walk
from firstfurrow.book.model import Book, Kind, Question
from firstfurrow.quantities import parse, reader_unit

# Level, low, ordinary land on which nothing is in doubt: what a test does not name does not disturb it.
CERTAIN: Mapping[str, Any] = {
    "land_shape": ("flat",), "soil": "loam", "surface": "firm", "stones": "some", "altitude": "0 m", "growth": "usual",
    "wood": "usual", "snow_kind": "usual", "heat": "mild", "tow_other": "nothing", "drive": "gears",
    "quick_coupler": "pins", "driver": "experienced", "road": "never", "tight_more": ("none_of_these",),
}  # fmt: skip


def carried(book: Book, answers: Answers) -> Answers:
    """What applies, with *not sure* for the rest, in one walk (a test holds it to the slower way of the program)."""
    flat = dict(answers.given)
    for item in answers.items:
        flat |= {f"{item.id}.{question}": given for question, given in item.given.items()}
    ids = [item.id for item in answers.items]
    walk = Walk(book, ids, answers.items_made, lambda key: flat.get(key, NOT_SURE), past_gaps=True)
    outer: dict[str, Given] = {}
    own: dict[str, dict[str, Given]] = {item.id: {} for item in answers.items}
    for step in walk.steps():
        found = own[step.ref.item] if step.ref.item is not None else outer
        found[step.ref.question] = step.given or NOT_SURE
    return replace(answers, given=outer, items=tuple(Item(id_, given) for id_, given in own.items()), aside={})


@dataclass
class Maker:
    """Answers from plain words, as somebody would type them."""

    book: Book
    questions: dict[str, Question] = field(init=False)
    _read: dict[tuple[Any, ...], Given] = field(init=False, default_factory=dict)  # what was typed before

    def __post_init__(self) -> None:
        self.questions = {q.id: q for s in self.book.sections for q in s.questions}
        for section in self.book.sections:
            if section.group is not None:
                self.questions |= {q.id: q for q in section.group.questions}

    def kind(self, id_: str) -> Kind:
        return self.book.kinds[id_]

    def given(self, question_id: str, said: Any, units: Units, kind: Kind | None = None) -> Given:
        """One answer: `not sure`, a choice id, a tuple of choice ids, or a typed quantity."""
        if isinstance(said, Given):
            return said
        same = tuple(said) if isinstance(said, (list, set)) else said
        key = (question_id, same, units, None if kind is None else kind.kind)
        found = self._read.get(key)
        if found is None:
            found = self._read[key] = self._given(question_id, said, units, kind)
        return found

    def _given(self, question_id: str, said: Any, units: Units, kind: Kind | None) -> Given:
        question = self.questions[question_id]
        if said == "not sure":
            return NOT_SURE
        if question.type == "quantity":
            assert question.dimension is not None
            typed = parse(said, question.dimension, reader_unit(question.dimension, units))
            return Given(typed.working, said)
        if question.type == "count":
            return Given(int(said), str(said))
        if question.type == "several":
            return Given(tuple(said), ", ".join(said))
        if question.type == "size" and kind is not None and said != CHOOSE:
            if any(size.id == said for size in kind.sizes):
                return Given(said, said)
            dimension = SIZE_DIMENSION[kind.size_is]
            return Given(parse(said, dimension, reader_unit(dimension, units)).working, said)
        return Given(said, said)

    def raw(self, items: Sequence[Mapping[str, Any]] = (), *, units: Units = "metric", **said: Any) -> Answers:
        """The answers as said, whether they apply or not, on certain level land."""
        made = []
        for number, item in enumerate(items, 1):
            kind = self.kind(item["kind"])
            words = {"when": "now", "rank": "must", **item}
            made.append(
                Item(str(words.pop("item", f"i{number}")), {q: self.given(q, v, units, kind) for q, v in words.items()})
            )
        outer = {q: self.given(q, v, units) for q, v in {**CERTAIN, **said}.items() if v is not None}
        outer["implements_complete"] = Given("that_is_all", "that_is_all")
        return Answers(units=units, given=outer, items=tuple(made), items_made=len(made))

    def answers(
        self, items: Sequence[Mapping[str, Any]] = (), *, units: Units = "metric", strict: bool = True, **said: Any
    ) -> Answers:
        """The answers that apply, the rest *not sure*. `strict`: an answer that does not apply is an error."""
        whole = carried(self.book, self.raw(items, units=units, **said))
        if strict:
            lost = [q for q, v in said.items() if v is not None and q not in whole.given]
            for words, item in zip(items, whole.items, strict=True):
                lost += [f"{item.id}.{q}" for q in words if q != "item" and q not in item.given]
            assert not lost, f"these answers do not apply: {lost}"
        return whole

    def profile(
        self, items: Sequence[Mapping[str, Any]] = (), *, units: Units = "metric", strict: bool = True,
        lean: bool = False, **said: Any,
    ) -> Profile:  # fmt: skip
        """The profile of these answers; `lean` where only what is stated is looked at."""
        plan = self.plan(items, units=units, strict=strict, **said)
        return advise_plan(self.book, plan, lean=lean)

    def plan(
        self, items: Sequence[Mapping[str, Any]] = (), *, units: Units = "metric", strict: bool = True, **said: Any
    ) -> Plan:
        """The plan of these answers."""
        return make_plan(self.book, self.answers(items, units=units, strict=strict, **said))
