"""The proof about the graph: what it finds in small broken books, and that it agrees with trying every walk."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from book_making import book, closing, kind, question
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfurrow.book import sweep
from firstfurrow.book.conditions import Held, passes
from firstfurrow.book.model import Book, Condition, Group, Leaf, NotSure, Question
from firstfurrow.book.proof import Proof, prove


def _said(proof: Proof) -> str:
    return "\n".join(str(finding) for finding in proof.findings)


def test_a_sound_book_is_proven() -> None:
    proof = prove(
        book(
            question("soil", choices=("sand", "clay")),
            question("slope", "quantity", possible=(0.0, 100.0)),
            question("wet", when={"all": [{"answer": "soil", "is": "clay"}, {"answer": "slope", "below": 5}]}),
            question("drain", when={"all": [{"answer": "soil", "is": "clay"}, {"answer": "slope", "below": 5},
                                            {"answer": "wet", "is": "a"}]}),
        )
    )  # fmt: skip
    assert proof.holds
    assert (proof.questions, proof.choices, proof.tests) == (4, 6, 5)


def test_a_question_asked_on_no_walk_is_found() -> None:
    proof = prove(
        book(
            question("soil", choices=("sand", "clay")),
            question("never", when={"all": [{"answer": "soil", "is": "sand"}, {"answer": "soil", "is": "clay"}]}),
        )
    )
    assert [f.question for f in proof.findings] == ["never"]
    assert "asked on no walk" in _said(proof)


def test_a_threshold_outside_what_is_possible_is_found() -> None:
    proof = prove(
        book(
            question("slope", "quantity", possible=(0.0, 100.0)),
            question("cliff", when={"all": [{"answer": "slope", "at_least": 101}]}),
            question("edge", when={"all": [{"answer": "slope", "at_least": 100}]}),
            question("under", when={"all": [{"answer": "slope", "below": 0}]}),
        )
    )
    assert {f.question for f in proof.findings} == {"cliff", "under"}


def test_a_number_between_two_thresholds_is_tried() -> None:
    between = {"all": [{"answer": "slope", "at_least": 10}, {"answer": "slope", "below": 10.5}]}
    assert prove(book(question("slope", "quantity", possible=(0.0, 100.0)), question("narrow", when=between))).holds
    count = prove(book(question("times", "count", possible=(0.0, 9.0)),
                       question("half", when={"all": [{"answer": "times", "at_least": 2.2},
                                                      {"answer": "times", "below": 2.8}]})))  # fmt: skip
    assert [f.question for f in count.findings] == ["half"]


def test_a_test_that_is_never_true_is_found() -> None:
    proof = prove(
        book(
            question("soil", choices=("sand", "clay")),
            question("next", when={"any": [{"answer": "soil", "is": "sand"}, {"answer": "soil", "is": "cley"}]}),
        )
    )
    assert _said(proof) == 'in the condition of next, the test "soil is cley" is true on no walk.'


def test_a_dead_choice_of_an_implement_is_found() -> None:
    group = Group("tools", "Tool", (
        question("kind", "kind"),
        question("variant", "variant", when={"all": [{"item": "kind", "has": "shaft"}]}),
    ), closing(), 40)  # fmt: skip
    shaft: Any = object()
    broken = book(group, kinds=[kind("mower", builds=2, shaft=shaft), kind("plough", builds=2), kind("spade")])
    assert _said(prove(broken)) == "variant is never asked for plough; its choices there cannot be taken."
    right = question("variant", "variant", when={"all": [{"item": "kind", "has": "variants"}]})
    whole = book(Group("tools", "Tool", (group.questions[0], right), closing(), 40), kinds=list(broken.kinds.values()))
    assert prove(whole).holds


def test_sizes_and_wishes_for_oil_must_be_reachable_too() -> None:
    only_owned = {"all": [{"item": "kind", "is": "mower"}]}
    group = Group("tools", "Tool", (
        question("kind", "kind"),
        question("size", "size", when=only_owned),
        question("options", "several", choices=(), when=only_owned),
    ), closing(), 40)  # fmt: skip
    said = _said(prove(book(group, kinds=[kind("mower", sizes=2, oil=True), kind("blade", sizes=2, oil=True)])))
    assert "size is never asked for blade" in said
    assert "options is never asked for blade" in said


def test_a_read_that_nothing_guards_is_found_with_answers_that_lead_there() -> None:
    proof = prove(
        book(
            question("land", "several", choices=("slopes", "trees", "none_of_these")),
            question("steep", when={"all": [{"answer": "land", "includes": "slopes"}]}),
            question("weight", when={"all": [{"answer": "steep", "is": "a"}]}),
        )
    )
    (finding,) = proof.findings
    assert finding.question == "weight"
    assert "reads steep, which may not have been asked" in finding.message
    assert finding.witness == ("land: some", "land: not slopes")


@pytest.mark.parametrize(
    ("guarded", "when"),
    [
        (True, {"all": [{"answer": "land", "is": "a"}, {"answer": "steep", "is": "a"}]}),
        (False, {"all": [{"answer": "steep", "is": "a"}, {"answer": "land", "is": "a"}]}),
        (True, {"any": [{"answer": "land", "is": "b"}, {"answer": "steep", "is": "a"}]}),
        (False, {"any": [{"answer": "land", "is": "a"}, {"answer": "steep", "is": "a"}]}),
        (False, {"not": [{"answer": "steep", "is": "a"}]}),
        (True, {"all": [{"not": [{"answer": "land", "is": "b"}]}, {"not": [{"answer": "steep", "is": "a"}]}]}),
    ],
)
def test_an_earlier_part_of_the_same_condition_guards(guarded: bool, when: Mapping[str, Any]) -> None:
    asked = question("steep", when={"all": [{"answer": "land", "is": "a"}]})
    assert prove(book(question("land"), asked, question("weight", when=when))).holds is guarded


def test_the_same_condition_on_both_questions_guards_through_a_third() -> None:
    """`weight` is asked only after `steep`, and so may be the guard of whoever reads `steep`."""
    proof = prove(
        book(
            question("land"),
            question("steep", when={"all": [{"answer": "land", "is": "a"}]}),
            question("last", when={"all": [{"answer": "land", "in": ["a"]}, {"answer": "steep", "is": "b"}]}),
        )
    )
    assert proof.holds


def test_an_unknown_id_is_found_with_a_suggestion() -> None:
    proof = prove(book(question("soil"), question("wet", when={"all": [{"answer": "soill", "is": "a"}]})))
    said = _said(proof)
    assert 'the condition of wet reads "soill", which does not exist. Did you mean "soil"?' in said
    assert "wet is asked on no walk" in said


def test_reading_a_later_answer_is_found() -> None:
    proof = prove(book(question("wet", when={"all": [{"answer": "soil", "is": "a"}]}), question("soil")))
    assert "the condition of wet reads soil, which is asked later" in _said(proof)


def test_a_question_written_twice_is_found() -> None:
    assert "the question soil is there twice" in _said(prove(book(question("soil"), question("soil"))))


def test_wrong_scopes_are_found() -> None:
    early = question("early", when={"all": [{"any_item": "when", "is": "a"}]})
    inside = (question("kind", "kind"), question("when"), early)
    group = Group("tools", "Tool", inside, closing(), 40)
    said = _said(
        prove(
            book(
                question("soil"),
                group,
                question("one", when={"all": [{"answer": "when", "is": "a"}]}),
                question("two", when={"all": [{"item": "when", "is": "a"}]}),
                question("three", when={"all": [{"any_item": "soil", "is": "a"}]}),
                kinds=[kind("mower")],
            )
        )
    )
    assert "the condition of early reads the group before it is closed" in said
    assert "the condition of one cannot read when as answer" in said
    assert "the condition of two cannot read when as item" in said
    assert "three" in said


def test_a_dead_end_is_found() -> None:
    proof = prove(book(question("slope", "quantity", possible=(5.0, 1.0)), question("next")))
    assert _said(proof) == "nobody can answer slope: no answer is allowed there."
    assert "nobody can answer which" in _said(prove(book(question("which", choices=()))))
    no_kinds = book(Group("tools", "Tool", (question("kind", "kind"),), closing(), 40))
    assert "nobody can answer kind" in _said(prove(no_kinds))


def test_a_group_that_nobody_can_leave_is_found() -> None:
    stuck = Group("tools", "Tool", (question("kind", "kind"),), question("complete", choices=("another", "more")), 40)
    assert "no walk leaves the group" in _said(prove(book(stuck, kinds=[kind("mower")])))


def test_another_item_that_never_comes_is_found() -> None:
    one = Group("tools", "Tool", (question("kind", "kind"),), closing(), 1)
    assert "another of complete can never be taken" in _said(prove(book(one, kinds=[kind("mower")])))


def test_not_sure_reads_the_planned_value() -> None:
    planned = NotSure("planned", planning="b", low="a", high="b")
    both = {"all": [{"answer": "soil", "not_sure": True}, {"answer": "soil", "is": "b"}]}
    other = {"all": [{"answer": "soil", "not_sure": True}, {"answer": "soil", "is": "a"}]}
    soil = question("soil", not_sure=planned)
    assert prove(book(soil, question("next", when=both))).holds
    assert "asked on no walk" in _said(prove(book(soil, question("next", when=other))))


def test_something_was_picked_when_several_were_asked() -> None:
    """With every choice read, a walk on which none was picked does not exist."""
    none = {"all": [{"not": [{"answer": "jobs", "includes": "a"}]}, {"not": [{"answer": "jobs", "includes": "b"}]}]}
    assert "asked on no walk" in _said(prove(book(question("jobs", "several"), question("idle", when=none))))
    allowed = question("jobs", "several", choices=("a", "b", "none_of_these"))
    assert prove(book(allowed, question("idle", when=none))).holds


def test_two_items_can_leave_what_one_cannot() -> None:
    both = {"all": [{"any_item": "kind", "is": "mower"}, {"any_item": "kind", "is": "plough"}]}
    kinds = [kind("mower"), kind("plough")]
    two = Group("tools", "Tool", (question("kind", "kind"),), closing(), 2)
    assert prove(book(two, question("both", when=both), kinds=kinds)).holds
    one = Group("tools", "Tool", (question("kind", "kind"),), closing(), 1)
    assert "both is asked on no walk" in _said(prove(book(one, question("both", when=both), kinds=kinds)))


def test_an_unguarded_read_inside_an_item_is_shown_from_the_start() -> None:
    group = Group("tools", "Tool", (
        question("kind", "kind"),
        question("depth", when={"all": [{"item": "kind", "is": "plough"}, {"answer": "soil", "is": "a"}]}),
        question("deep", when={"all": [{"item": "depth", "is": "a"}]}),
    ), closing(), 40)  # fmt: skip
    proof = prove(book(question("soil"), group, kinds=[kind("mower"), kind("plough")]))
    (finding,) = proof.findings
    assert finding.question == "deep"
    assert finding.witness[0].startswith("soil: ")
    assert finding.witness[1].startswith("kind: ")


def test_many_choices_read_one_after_the_other_stay_few_states() -> None:
    names = [f"job{n}" for n in range(30)]
    asked = [question(f"area_{n}", when={"all": [{"answer": "jobs", "includes": n}]}) for n in names]
    proof = prove(book(question("jobs", "several", choices=names), *asked))
    assert proof.holds
    assert proof.widest < 10


def test_too_many_states_end_with_a_clear_message(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sweep, "MOST_STATES", 50)
    first = [question(f"q{n}") for n in range(10)]
    last = question("last", when={"any": [{"answer": q.id, "is": "a"} for q in first]})
    said = _said(prove(book(*first, last)))
    assert "too many states to prove at q5" in said
    assert "q0, q1" in said


# ------------------------------------------------------- against every walk

Answers = dict[str, Held]
SORTS = st.sampled_from(["choice", "several", "quantity"])
PLANNED = {"choice": NotSure("planned", planning="b"), "several": NotSure("planned", planning=("b",)),
           "quantity": NotSure("planned", planning=20.0)}  # fmt: skip


@st.composite
def _books(draw: st.DrawFn) -> Book:
    """Books of a few questions, with or without a group of at most two items, and conditions on anything earlier."""
    outer: list[Question] = []
    inside: list[Question] = [question("kind", "kind")]
    for n in range(draw(st.integers(1, 3))):
        outer.append(_question(draw, f"q{n}", outer, [], "answer"))
    if draw(st.booleans()):
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


class _EveryWalk:
    """Plays every walk, without merging anything: what is asked, and what is read although it was not asked."""

    def __init__(self, of: Book) -> None:
        self.book = of
        self.asked: set[str] = set()
        self.unguarded: set[tuple[str, str]] = set()
        parts: list[Question | Group] = []
        for section in of.sections:
            parts += [section.group] if section.group is not None else section.questions
        self._outside(parts, {}, [])

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
        for answer in self._answers(first, given, items, None):
            self._outside(rest, {**given, **answer}, items)

    def _inside(self, questions: list[Question], given: Answers, item: Answers) -> Iterator[Answers]:
        if not questions:
            yield item
            return
        for answer in self._answers(questions[0], given, [], item):
            yield from self._inside(questions[1:], given, {**item, **answer})

    @staticmethod
    def _distinct(items: Iterator[Answers]) -> list[Answers]:
        return list({tuple(item.items()): item for item in items}.values())

    def _answers(
        self, asked: Question, given: Answers, items: list[Answers], item: Answers | None
    ) -> Iterator[Answers]:
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


@settings(max_examples=150, deadline=None)
@given(_books())
def test_the_proof_agrees_with_trying_every_walk(made: Book) -> None:
    tried = _EveryWalk(made)
    proof = prove(made)
    never = {f.question for f in proof.findings if "asked on no walk" in f.message}
    unguarded = {
        (f.question, f.message.split(" reads ")[1].split(",")[0]) for f in proof.findings if "may not have" in f.message
    }
    every = {q.id for s in made.sections for q in s.questions}
    every |= {q.id for s in made.sections if s.group for q in (*s.group.questions, s.group.closes)}
    assert every - never == tried.asked
    assert unguarded == tried.unguarded
