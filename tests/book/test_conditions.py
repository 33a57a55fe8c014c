"""Conditions: evaluated on what is held, listed by what they read, and put into words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from book_making import book, kind, question

from firstfurrow.book.conditions import Held, build, depth, evaluate, find_question, leaves, passes, readers, words
from firstfurrow.book.model import Leaf

GIVEN: dict[tuple[str, str], list[Held]] = {
    ("answer", "soil"): [Held("clay")],
    ("answer", "land"): [Held(("slopes", "trees"))],
    ("answer", "slope"): [Held(12.0)],
    ("answer", "depth"): [Held(20.0, unsure=True)],
    ("answer", "gate"): [Held(None, unsure=True)],
    ("item", "kind"): [Held("mower", features=frozenset({"shaft", "width"}))],
    ("any_item", "kind"): [Held("plough"), Held("mower", features=frozenset({"shaft"}))],
    ("any_item", "mass"): [Held(200.0), Held(900.0)],
}


def _look(scope: str, subject: str) -> Sequence[Held]:
    return GIVEN.get((scope, subject), ())


@pytest.mark.parametrize(
    ("data", "holds"),
    [
        ({"answer": "soil", "is": "clay"}, True),
        ({"answer": "soil", "is": "sand"}, False),
        ({"answer": "soil", "in": ["sand", "clay"]}, True),
        ({"answer": "soil", "in": ["sand"]}, False),
        ({"answer": "land", "includes": "slopes"}, True),
        ({"answer": "land", "includes": "wet_places"}, False),
        ({"answer": "soil", "includes": "cl"}, False),
        ({"answer": "slope", "at_least": "12 %"}, True),
        ({"answer": "slope", "below": "12 %"}, False),
        ({"answer": "slope", "below": 12.5}, True),
        ({"answer": "soil", "at_least": 3}, False),
        ({"answer": "depth", "at_least": "20 cm"}, True),
        ({"answer": "depth", "not_sure": True}, True),
        ({"answer": "slope", "not_sure": True}, False),
        ({"answer": "gate", "below": "3 m"}, False),
        ({"answer": "gate", "at_least": "3 m"}, False),
        ({"answer": "gate", "not_sure": True}, True),
        ({"answer": "nothing", "is": "a"}, False),
        ({"answer": "nothing", "not_sure": True}, False),
        ({"item": "kind", "has": "shaft"}, True),
        ({"item": "kind", "has": "loader"}, False),
        ({"item": "kind", "is": "mower"}, True),
        ({"any_item": "kind", "has": "shaft"}, True),
        ({"any_item": "mass", "at_least": "500 kg"}, True),
        ({"any_item": "mass", "at_least": "1 tonne"}, False),
        ({"not": [{"answer": "soil", "is": "clay"}]}, False),
        ({"not": [{"answer": "nothing", "is": "a"}]}, True),
        ({"all": [{"answer": "soil", "is": "clay"}, {"answer": "slope", "below": 5}]}, False),
        ({"any": [{"answer": "soil", "is": "sand"}, {"answer": "slope", "below": 50}]}, True),
        ({"any": [{"answer": "soil", "is": "sand"}, {"not": [{"answer": "slope", "below": 5}]}]}, True),
    ],
)
def test_evaluated(data: dict[str, Any], holds: bool) -> None:
    assert evaluate(build(data), _look) is holds


def test_no_condition_always_holds() -> None:
    assert evaluate(None, _look) is True
    assert evaluate(build({"all": []}), _look) is True


NESTED = build({"all": [{"answer": "soil", "is": "clay"},
                        {"any": [{"answer": "slope", "at_least": "10 %"}, {"not": [{"item": "kind", "has": "shaft"}]},
                                 {"answer": "soil", "is": "sand"}]}]})  # fmt: skip


def test_what_a_condition_reads() -> None:
    assert readers(NESTED) == (("answer", "soil"), ("answer", "slope"), ("item", "kind"))
    assert len(list(leaves(NESTED))) == 4
    assert depth(NESTED) == 3
    assert readers(None) == ()


def test_thresholds_are_in_the_working_unit() -> None:
    (leaf,) = leaves(build({"answer": "area", "at_least": "10 acres"}))
    assert leaf == Leaf("answer", "area", "at_least", pytest.approx(4.0468564224))
    assert passes(leaf, Held(4.1))
    assert not passes(leaf, Held(4.0))


def test_in_words() -> None:
    small = book(
        question("soil", choices=("clay", "sand")),
        question("slope", "quantity", dimension="slope"),
        kinds=[kind("mower")],
    )
    assert words(NESTED, small) == (
        'you chose "clay" at "soil?" and (you answered 10 % or more at "slope?" '
        'or not (the implement is turned by the shaft) or you chose "sand" at "soil?")'
    )
    assert words(None, small) == "always"
    assert words(build({"answer": "soil", "not_sure": True}), small) == 'you were not sure at "soil?"'
    assert words(build({"any_item": "kind", "has": "loader"}), small) == (
        "at least one implement sits on the front loader"
    )
    assert words(build({"answer": "slope", "below": "5 %"}), small) == 'you answered less than 5 % at "slope?"'


def test_a_question_is_found_wherever_it_is_asked() -> None:
    small = book(question("soil"))
    found = find_question(small, "soil")
    assert found is not None
    assert found.ask == "soil?"
    assert find_question(small, "sol") is None
