"""Small random books, and every walk through one, played without merging anything."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

from book_making import book, closing, kind, question
from hypothesis import strategies as st

from firstfurrow.book.conditions import Held, passes
from firstfurrow.book.model import Book, Condition, Group, Leaf, NotSure, Question

Answers = dict[str, Held]
SORTS = st.sampled_from(["choice", "several", "quantity"])
PLANNED = {"choice": NotSure("planned", planning="b"), "several": NotSure("planned", planning=("b",)),
           "quantity": NotSure("planned", planning=20.0)}  # fmt: skip


@st.composite
def books(draw: st.DrawFn, *, grouped: bool | None = None) -> Book:
    """Books of a few questions, with or without a group of at most two items, and conditions on anything earlier."""
    outer: list[Question] = []
    inside: list[Question] = [question("kind", "kind")]
    for n in range(draw(st.integers(1, 3))):
        outer.append(_question(draw, f"q{n}", outer, [], "answer"))
    if draw(st.booleans()) if grouped is None else grouped:
        for n in range(draw(st.integers(0, 2))):
            inside.append(_question(draw, f"i{n}", outer, inside, "item"))
        group = [Group("items", "Item", tuple(inside), closing(), 2)]
    else:
        group, inside = [], []
    after: list[Question] = []
    for n in range(draw(st.integers(1, 2))):
        after.append(_question(draw, f"z{n}", [*outer, *after], inside, "any_item"))
    kinds = [kind("mower", builds=2), kind("plough", way="three_point")]
    return book(*outer, *group, *after, kinds=kinds)


def _question(draw: st.DrawFn, name: str, outer: list[Question], items: list[Question], scope: str) -> Question:
    sort = draw(SORTS)
    readable = [("answer", q) for q in outer] + [(scope, q) for q in items]
    when = draw(st.none() | _conditions(readable, 2)) if readable else None
    unsure = PLANNED[sort] if draw(st.booleans()) else NotSure("refused", say="x")
    choices = ["a", "b"] if sort == "choice" or draw(st.booleans()) else ["a", "b", "none_of_these"]
    possible = (0.0, 50.0) if sort == "quantity" else None
    return question(name, sort, choices, when=when, not_sure=unsure, possible=possible)


def _conditions(readable: list[tuple[str, Question]], depth: int) -> st.SearchStrategy[dict[str, Any]]:
    leaf = st.sampled_from(readable).flatmap(lambda r: _leaves(*r))
    part = leaf if depth == 0 else leaf | _conditions(readable, depth - 1)
    lists = st.lists(part, min_size=1, max_size=3)
    return (
        lists.map(lambda parts: {"all": parts})
        | lists.map(lambda parts: {"any": parts})
        | part.map(lambda p: {"not": [p]})
    )


def _leaves(scope: str, read: Question) -> st.SearchStrategy[dict[str, Any]]:
    tests: dict[str, list[dict[str, Any]]] = {
        "choice": [{"is": "a"}, {"is": "b"}, {"in": ["a", "b"]}, {"not_sure": True}],
        "several": [{"includes": "a"}, {"includes": "b"}, {"not_sure": True}],
        "quantity": [{"at_least": 10}, {"below": 30}, {"at_least": 50}],
        "kind": [{"is": "mower"}, {"has": "variants"}, {"has": "three_point"}],
    }
    return st.sampled_from(tests[read.type]).map(lambda test: {scope: read.id, **test})


class EveryWalk:
    """Plays every walk, without merging anything: what is asked, and what is read although it was not asked."""

    def __init__(self, of: Book) -> None:
        self._begin(of)
        parts: list[Question | Group] = []
        for section in of.sections:
            parts += [section.group] if section.group is not None else section.questions
        self._outside(parts, {}, [])

    def _begin(self, of: Book) -> None:
        self.book = of
        self.asked: set[str] = set()
        self.unguarded: set[tuple[str, str]] = set()

    @classmethod
    def of(cls, made: Book) -> EveryWalk:
        """Of that book, with no walk played yet: for playing one by hand."""
        found = cls.__new__(cls)
        found._begin(made)
        return found

    def _outside(self, parts: list[Question | Group], given: Answers, items: list[Answers]) -> None:
        if not parts:
            return
        first, rest = parts[0], parts[1:]
        if isinstance(first, Group):
            self.asked.add(first.closes.id)
            left = self._distinct(self._inside(list(first.questions), given, {}))
            for number in range(first.most + 1):
                for several in itertools.combinations_with_replacement(left, number):
                    self._outside(rest, given, list(several))
            return
        for answer in self.answers(first, given, items, None):
            self._outside(rest, {**given, **answer}, items)

    def _inside(self, questions: list[Question], given: Answers, item: Answers) -> Iterator[Answers]:
        if not questions:
            yield item
            return
        for answer in self.answers(questions[0], given, [], item):
            yield from self._inside(questions[1:], given, {**item, **answer})

    @staticmethod
    def _distinct(items: Iterator[Answers]) -> list[Answers]:
        return list({tuple(item.items()): item for item in items}.values())

    def answers(self, asked: Question, given: Answers, items: list[Answers], item: Answers | None) -> Iterator[Answers]:
        if asked.when is not None and not self._holds(asked.id, asked.when, given, items, item):
            yield {}
            return
        self.asked.add(asked.id)
        for held in self._all_held(asked):
            yield {asked.id: held}

    def _all_held(self, asked: Question) -> Iterator[Held]:
        if asked.type == "kind":
            yield from (Held(k.kind, features=k.features) for k in self.book.kinds.values())
        elif asked.type == "choice":
            yield from (Held(c.id) for c in asked.choices)
        elif asked.type == "several":
            yield from (Held(v) for v in (("a",), ("b",), ("a", "b")))
            if len(asked.choices) == 3:
                yield Held(("none_of_these",))
        else:
            yield from (Held(v) for v in (0.0, 10.0, 20.0, 30.0, 40.0, 50.0))
        if asked.not_sure.how == "planned":
            yield Held(asked.not_sure.planning, unsure=True)

    def _holds(
        self, reader: str, part: Condition | Leaf, given: Answers, items: list[Answers], item: Answers | None
    ) -> bool:
        if isinstance(part, Leaf):
            if part.scope == "any_item":
                return any(passes(part, each[part.subject]) for each in items if part.subject in each)
            place = given if part.scope == "answer" else item or {}
            if part.subject not in place:
                self.unguarded.add((reader, part.subject))
                return False
            return passes(part, place[part.subject])
        for inner in part.parts:
            found = self._holds(reader, inner, given, items, item)
            if found != (part.op == "all"):
                return found if part.op != "not" else False
        return part.op in ("all", "not")
