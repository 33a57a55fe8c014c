"""What the conditions see while the questions are asked: of which implement, of which question, sure or not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import pytest
from book_making import book as book_of
from book_making import closing, kind, question

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item
from firstfurrow.asking.contradictions import contradictions
from firstfurrow.asking.refs import ref_of
from firstfurrow.asking.walk import Walk, id_of_type
from firstfurrow.book.conditions import build
from firstfurrow.book.contradictions import rule
from firstfurrow.book.model import Book, Group, NotSure, OtherAsk, Question, Size

PLANNED = NotSure("planned", planning="b")
KINDS = (kind("trailer"), kind("mower", way="mid_mount", builds=2, oil=True), kind("blade", way="three_point"))
YES = {"all": [{"answer": "first", "is": "a"}]}


def given(value: Any) -> Given:
    return NOT_SURE if value == "not sure" else Given(value, str(value))


def asked(made: Book, said: Mapping[str, Any], items: Sequence[str] = (), **more: Any) -> list[str]:
    """The flat keys of what is asked when this is said."""
    held = {key: given(value) for key, value in said.items()}
    walk = Walk(made, items, len(items), held.get, **more)
    return [step.ref.key for step in walk.steps()]


def book(*parts: Question | Group) -> Book:
    return book_of(*parts, kinds=KINDS)


def group(*questions: Question, first: bool = True) -> Group:
    ask_kind = question("kind", "kind")
    return Group("tools", "Tool", (ask_kind, *questions) if first else (*questions, ask_kind), closing(), 4)


# ------------------------------------------------------------------------------ outside


def test_a_question_is_asked_where_its_condition_holds_and_only_there() -> None:
    made = book(question("first"), question("second", when=YES), question("third"))
    assert asked(made, {"first": "a"}) == ["first", "second"]
    assert asked(made, {"first": "b"}) == ["first", "third"]
    assert asked(made, {"first": "b", "third": "a"}) == ["first", "third"]


def test_the_asking_stops_at_the_first_gap_unless_it_is_told_to_go_past_it() -> None:
    made = book(question("first", not_sure=PLANNED), question("second"), question("third"))
    assert asked(made, {}) == ["first"]
    assert asked(made, {}, past_gaps=True) == ["first", "second", "third"]
    assert asked(made, {}, skips=frozenset({"first"})) == ["second"]
    assert asked(made, {"first": "a"}, skips=frozenset({"first"})) == ["first", "second"]


def test_on_not_sure_a_condition_sees_the_planned_value_and_that_nobody_was_sure() -> None:
    made = book(
        question("first", not_sure=PLANNED),
        question("planned", when={"all": [{"answer": "first", "is": "b"}]}),
        question("other", when=YES),
        question("unsure", when={"all": [{"answer": "first", "not_sure": True}]}),
        question("sure", when={"all": [{"answer": "first", "not_sure": False}]}),
    )
    assert asked(made, {"first": "not sure"}, past_gaps=True) == ["first", "planned", "unsure"]
    assert asked(made, {"first": "b"}, past_gaps=True) == ["first", "planned", "sure"]
    assert asked(made, {"first": "a"}, past_gaps=True) == ["first", "other", "sure"]
    assert asked(made, {}, past_gaps=True) == ["first", "planned", "unsure"]  # a gap counts as not sure


def test_an_answer_that_is_no_longer_allowed_is_a_gap() -> None:
    made = book(question("first", choices=("a", "c"), not_sure=PLANNED), question("second", when=YES))
    assert asked(made, {"first": "gone"}) == ["first"]


def test_a_condition_on_a_question_that_was_not_asked_is_false_and_no_error() -> None:
    made = book(
        question("first"), question("second", when=YES),
        question("third", when={"all": [{"answer": "second", "is": "a"}]}),
        question("fourth", when={"all": [{"not": [{"answer": "second", "is": "a"}]}]}),
    )  # fmt: skip
    assert asked(made, {"first": "b", "second": "a"}, past_gaps=True) == ["first", "fourth"]


# -------------------------------------------------------------------- for each implement

OWNED = {"all": [{"item": "when", "is": "a"}]}


def test_the_condition_of_an_implement_sees_its_own_answers_and_not_those_of_another() -> None:
    made = book(group(question("when"), question("mass", when=OWNED)))
    said = {
        "i1.kind": "mower", "i1.when": "a", "i1.mass": "b", "i2.kind": "blade", "i2.when": "b", "i3.kind": "blade",
        "i3.when": "a", "i3.mass": "a",
    }  # fmt: skip
    keys = asked(made, said, ["i1", "i2", "i3"])
    assert keys == ["i1.kind", "i1.when", "i1.mass", "i2.kind", "i2.when", "i3.kind", "i3.when", "i3.mass", "complete"]


def test_outside_no_implement_is_meant_by_itself_but_any_of_them_can_be() -> None:
    made = book(
        group(question("when")),
        question("its_own", when=OWNED),
        question("any", when={"all": [{"any_item": "when", "is": "a"}]}),
        question("drawn", when={"all": [{"any_item": "kind", "has": "drawbar"}]}),
    )
    one = {"i1.kind": "mower", "i1.when": "b", "i2.kind": "blade", "i2.when": "a", "complete": "that_is_all"}
    assert asked(made, one, ["i1", "i2"], past_gaps=True)[4:] == ["complete", "any"]
    none = {**one, "i2.when": "b", "i1.kind": "trailer"}
    assert asked(made, none, ["i1", "i2"], past_gaps=True)[4:] == ["complete", "drawn"]
    assert asked(made, {"complete": "that_is_all"}, past_gaps=True) == ["complete"]


def test_an_empty_list_that_was_not_closed_opens_the_next_implement() -> None:
    made = book(group(question("when")))
    walk = Walk(made, (), 2, {}.get)
    assert [step.ref.key for step in walk.steps()] == ["i3.kind"]


def test_only_the_answer_to_what_it_is_brings_features_not_the_same_word_elsewhere() -> None:
    made = book(
        question("note", "text", not_sure=PLANNED),
        question("outside", when={"all": [{"answer": "note", "has": "drawbar"}]}),
        group(question("note", "text"), question("drawn", when={"all": [{"item": "note", "has": "drawbar"}]}),
              question("pulled", when={"all": [{"item": "kind", "has": "drawbar"}]})),
    )  # fmt: skip
    said = {"note": "trailer", "i1.kind": "trailer", "i1.note": "trailer"}
    assert asked(made, said, ["i1"]) == ["note", "i1.kind", "i1.note", "i1.pulled"]
    other = {**said, "i1.kind": "mower"}
    assert asked(made, other, ["i1"]) == ["note", "i1.kind", "i1.note", "complete"]


def test_the_question_of_what_it_is_need_not_be_the_first() -> None:
    made = book(
        group(question("when"), first=False), question("drawn", when={"all": [{"any_item": "kind", "has": "drawbar"}]})
    )
    said = {"i1.when": "a", "i1.kind": "trailer", "complete": "that_is_all"}
    assert asked(made, said, ["i1"]) == ["i1.when", "i1.kind", "complete", "drawn"]
    assert id_of_type(made, "kind") == "kind"
    assert id_of_type(made, "size") is None


def test_a_list_of_words_or_a_word_that_is_no_kind_has_no_features() -> None:
    several = question("kind", "several", choices=("trailer", "mower"))
    made = book(
        Group("tools", "Tool", (several, question("drawn", when={"all": [{"item": "kind", "has": "drawbar"}]})),
              closing(), 4),
    )  # fmt: skip
    assert asked(made, {"i1.kind": ("trailer",)}, ["i1"]) == ["i1.kind", "complete"]
    gone = book(group(question("drawn", when={"all": [{"item": "kind", "has": "drawbar"}]})))
    assert asked(gone, {"i1.kind": "plough"}, ["i1"]) == ["i1.kind"]


def test_an_implement_of_which_nobody_is_sure_what_it_is_stays_open() -> None:
    drawn = question("drawn", when={"all": [{"item": "kind", "has": "drawbar"}]})
    unsure = Group("tools", "Tool", (question("kind", "kind", not_sure=PLANNED), drawn, question("when")), closing(), 4)
    assert asked(book(unsure), {"i1.kind": "not sure"}, ["i1"]) == ["i1.kind", "i1.when"]


def test_what_this_build_leaves_nothing_to_ask_about_is_passed_over_and_what_follows_is_asked() -> None:
    """Of two builds one has an oil function to wish for; without the build its first one counts."""
    plain = kind("mower", builds=2)
    mower = replace(plain, variants=(plain.variants[0], KINDS[1].variants[1]))
    options = question("options", "several", choices=())
    variant = question("variant", "variant", not_sure=NotSure("from_book"))
    made = book_of(group(variant, options, question("when")), kinds=[mower])
    first, second = ({"i1.kind": "mower", "i1.variant": f"build_{n}"} for n in (0, 1))
    assert asked(made, first, ["i1"]) == ["i1.kind", "i1.variant", "i1.when"]
    assert asked(made, second, ["i1"]) == ["i1.kind", "i1.variant", "i1.options"]
    assert asked(made, {**first, "i1.variant": "not sure"}, ["i1"]) == ["i1.kind", "i1.variant", "i1.when"]


def test_a_question_has_the_words_that_hold_for_this_implement() -> None:
    made = book(group(question("when"), question("mass", asks=(OtherAsk(build(OWNED), "What does its plate say?"),))))
    held = {key: given(v) for key, v in {
        "i1.kind": "mower", "i1.when": "a", "i1.mass": "a", "i2.kind": "mower", "i2.when": "b", "i2.mass": "a",
    }.items()}  # fmt: skip
    words = [step.question.ask for step in Walk(made, ["i1", "i2"], 2, held.get).steps() if step.ref.question == "mass"]
    assert words == ["What does its plate say?", "mass?"]


# ------------------------------------------------------------------------ contradictions


def stands(made: Book, said: Mapping[str, Any]) -> list[str]:
    """The places at which a contradiction stands."""
    items: dict[str, dict[str, Given]] = {}
    outside: dict[str, Given] = {}
    for key, value in said.items():
        place = ref_of(key)
        (outside if place.item is None else items.setdefault(place.item, {}))[place.question] = given(value)
    answers = Answers(given=outside, items=tuple(Item(n, held) for n, held in items.items()), items_made=len(items))
    found = contradictions(made, answers)
    assert all(isinstance(one.places, tuple) and not one.kept for one in found)
    return [one.places[0].key for one in found]


SAID = {
    "i1.kind": "trailer",
    "i1.when": "a",
    "i2.kind": "mower",
    "i2.when": "b",
    "complete": "that_is_all",
    "last": "a",
}


@pytest.mark.parametrize(
    ("when", "places"),
    [
        ({"answer": "last", "is": "a"}, ["last"]),
        ({"answer": "last", "is": "b"}, []),
        ({"any_item": "kind", "has": "drawbar"}, ["last"]),
        ({"any_item": "kind", "has": "loader"}, []),
        ({"any_item": "when", "is": "b"}, ["last"]),
        ({"item": "when", "is": "b"}, []),  # outside there is no implement by itself
        ({"answer": "last", "has": "drawbar"}, []),
        ({"answer": "last", "not_sure": True}, []),
        ({"answer": "unsure", "not_sure": True}, []),  # who is not sure has said nothing
        ({"not": [{"answer": "unsure", "is": "b"}]}, ["last"]),
    ],
)
def test_a_contradiction_outside_sees_what_was_said_surely(when: dict[str, Any], places: list[str]) -> None:
    rules = (rule({"id": "r", "asked_at": ["last"], "with": [], "when": {"all": [when]}, "say": "No."}),)
    made = with_rules(rules)
    assert stands(made, {**SAID, "unsure": "not sure"}) == places


@pytest.mark.parametrize(
    ("when", "places"),
    [
        ({"item": "kind", "is": "mower"}, ["i2.when"]),
        ({"item": "kind", "has": "drawbar"}, ["i1.when"]),
        ({"item": "when", "in": ["a", "b"]}, ["i1.when", "i2.when"]),
        ({"item": "when", "has": "drawbar"}, []),
        ({"any_item": "when", "is": "b"}, ["i1.when", "i2.when"]),
    ],
)
def test_a_contradiction_of_an_implement_sees_its_own_answers(when: dict[str, Any], places: list[str]) -> None:
    rules = (rule({"id": "r", "asked_at": ["when"], "with": [], "when": {"all": [when]}, "say": "No."}),)
    assert stands(with_rules(rules), {**SAID, "unsure": "a"}) == places


def test_of_the_list_nothing_is_said_while_nobody_knows_what_an_implement_is() -> None:
    """Of the other answers it is: they stand whatever it may be."""
    whole = {"any_item": "when", "is": "a"}
    list_, beside = (
        with_rules((rule({"id": "r", "asked_at": ["when"], "with": [], "when": {"all": parts}, "say": "No."}),))
        for parts in ([whole, {"item": "when", "is": "a"}], [{"item": "when", "is": "a"}])
    )
    known = {"unsure": "a", "i1.kind": "trailer", "i1.when": "a"}
    assert stands(list_, known) == stands(beside, known) == ["i1.when"]
    opened = {**known, "i2.when": "b"}
    assert stands(list_, opened) == []
    assert stands(beside, opened) == ["i1.when"]


def test_a_question_that_is_only_just_put_says_nothing() -> None:
    no = {"not": [{"answer": "last", "is": "b"}]}
    made = with_rules((rule({"id": "r", "asked_at": ["last"], "with": [], "when": {"all": [no]}, "say": "No."}),))
    said = {"unsure": "a", "i1.kind": "trailer", "i1.when": "a", "complete": "that_is_all"}
    assert stands(made, said) == []
    assert stands(made, {**said, "last": "a"}) == ["last"]


def test_a_number_is_more_than_another_only_beyond_it_and_only_where_there_is_one() -> None:
    numbers = [question(name, "count", not_sure=PLANNED) for name in ("most", "many")]
    more = {"answer": "most", "times": {"value": 1.5, "grade": "practice"}}
    data = {"id": "r", "asked_at": ["many"], "with": [], "more_than": more, "say": "{many} is more than {limit}."}
    made = replace(book(*numbers), contradictions=(rule(data),))
    for most, many, found in ((2.0, 3.0, []), (2.0, 3.1, ["many"]), ("not sure", 3.1, [])):
        assert stands(made, {"most": most, "many": many}) == found


def test_a_load_is_compared_with_its_size_only_where_both_are_known() -> None:
    trailer = replace(kind("trailer"), size_is="load", sizes=(Size("500 kg", 500.0), Size("1 t", 1000.0)))
    size, load = question("size", "size", not_sure=PLANNED), question("load", "count", not_sure=PLANNED)
    more = {"size_carries": True, "times": {"value": 1.5, "grade": "practice"}}
    data = {"id": "r", "asked_at": ["load"], "with": [], "more_than": more, "say": "{load} is more than {limit}."}
    tools = Group("tools", "Tool", (question("kind", "kind", not_sure=PLANNED), size, load), closing(), 4)
    made = replace(book_of(tools, kinds=[trailer]), contradictions=(rule(data),))
    for said, found in (
        ({"kind": "trailer", "size": "500 kg", "load": 751}, ["i1.load"]),
        ({"kind": "trailer", "size": "500 kg", "load": 750}, []),
        ({"kind": "trailer", "size": "not sure", "load": 5000}, []),
        ({"kind": "not sure", "size": "not sure", "load": 5000}, []),
    ):
        assert stands(made, {f"i1.{name}": value for name, value in said.items()}) == found


def test_where_nothing_is_wrong_nothing_is_found() -> None:
    assert contradictions(with_rules(()), Answers()) == ()


def with_rules(rules: Sequence[Any]) -> Book:
    made = book(question("unsure", not_sure=PLANNED), group(question("when")), question("last"))
    return replace(made, contradictions=tuple(rules))
