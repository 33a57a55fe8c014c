"""The proof about the graph: what it finds in small broken books, and that it agrees with trying every walk."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from book_making import book, closing, kind, question
from every_walk import EveryWalk, books
from hypothesis import given, settings

from firstfurrow.book import sweep
from firstfurrow.book.model import Book, Group, NotSure
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
    assert _said(proof) == 'never is asked on no walk: "soil is sand" and "soil is clay" are never true together.'


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
    assert 'cliff is asked on no walk: "slope at_least 101" is never true.' in _said(proof)


def test_tests_that_exclude_each_other_only_with_the_help_of_a_third_are_not_named() -> None:
    proof = prove(
        book(
            question("soil", choices=("sand", "clay")),
            question("wet", when={"all": [{"answer": "soil", "is": "clay"}]}),
            question("dry", when={"all": [{"answer": "soil", "is": "sand"}, {"any": [{"answer": "wet", "is": "a"}]}]}),
        )
    )
    assert any("dry is asked on no walk, and none of its choices can be taken." in str(f) for f in proof.findings)


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
    assert finding.witness == ("land=trees",)


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
    assert 'the question "soil" is there twice' in _said(prove(book(question("soil"), question("soil"))))


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
    assert finding.witness == ("i1.kind=mower",)  # shorter than to say what the soil is, too


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


@settings(max_examples=150, deadline=None)
@given(books())
def test_the_proof_agrees_with_trying_every_walk(made: Book) -> None:
    tried = EveryWalk(made)
    proof = prove(made)
    never = {f.question for f in proof.findings if "asked on no walk" in f.message}
    unguarded = {
        (f.question, f.message.split(" reads ")[1].split(",")[0]) for f in proof.findings if "may not have" in f.message
    }
    every = {q.id for s in made.sections for q in s.questions}
    every |= {q.id for s in made.sections if s.group for q in (*s.group.questions, s.group.closes)}
    assert every - never == tried.asked
    assert unguarded == tried.unguarded
