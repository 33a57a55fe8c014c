"""Conditions: evaluated on what is held, and listed by what they read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

from firstfurrow.book.conditions import Held, build, evaluate, leaves, passes
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


@pytest.mark.parametrize(
    ("soil", "slope", "holds"), [("clay", 5, False), ("sand", 50, False), ("clay", 50, False), ("sand", 5, True)]
)
def test_not_of_several_holds_where_none_of_them_does(soil: str, slope: int, holds: bool) -> None:
    """It is clay, and 12 %."""
    tests = [{"answer": "soil", "is": soil}, {"answer": "slope", "below": slope}]
    assert evaluate(build({"not": tests}), _look) is holds


def test_a_test_that_fails_is_false_and_nothing_else() -> None:
    for leaf in (Leaf("answer", "gate", "below", 3.0), Leaf("answer", "gate", "is", "a")):
        assert passes(leaf, Held(None, unsure=True)) is False
    assert passes(Leaf("answer", "soil", "at_least", 3.0), Held("clay")) is False


def test_an_answer_is_sure_and_has_no_features_unless_that_is_said() -> None:
    held = Held("clay")
    assert (held.unsure, held.features) == (False, frozenset())
    assert not passes(Leaf("answer", "soil", "not_sure", True), held)


def test_a_leaf_is_fixed_data() -> None:
    """So that it can be a key, and what was read once cannot change."""
    (leaf,) = leaves(build({"answer": "soil", "in": ["sand", "clay"]}))
    assert leaf.value == ("sand", "clay")
    assert {leaf: 1}[Leaf("answer", "soil", "in", ("sand", "clay"))] == 1


def test_no_condition_always_holds() -> None:
    assert evaluate(None, _look) is True
    assert evaluate(build({"all": []}), _look) is True


NESTED = build({"all": [{"answer": "soil", "is": "clay"},
                        {"any": [{"answer": "slope", "at_least": "10 %"}, {"not": [{"item": "kind", "has": "shaft"}]},
                                 {"answer": "soil", "is": "sand"}]}]})  # fmt: skip


def test_what_a_condition_reads() -> None:
    read = [(leaf.scope, leaf.subject) for leaf in leaves(NESTED)]
    assert read == [("answer", "soil"), ("answer", "slope"), ("item", "kind"), ("answer", "soil")]
    assert list(leaves(None)) == []


def test_thresholds_are_in_the_working_unit() -> None:
    (leaf,) = leaves(build({"answer": "area", "at_least": "10 acres"}))
    assert leaf == Leaf("answer", "area", "at_least", pytest.approx(4.0468564224))
    assert passes(leaf, Held(4.1))
    assert not passes(leaf, Held(4.0))
