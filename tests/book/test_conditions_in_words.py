"""Conditions in words: each test, turned round, one inside the other; in the words of whoever prints them."""

from __future__ import annotations

from typing import Any

import pytest
from book_making import book, closing, kind, question

from firstfurrow.book.conditions import build, leaves
from firstfurrow.book.conditions_in_words import WORDS, in_words
from firstfurrow.book.model import Book, Choice, Condition, Group, Leaf, Question

SOIL = question("soil", choices=("sand", "clay"))
JOBS = question("jobs", "several", choices=("hay", "snow"))
STEEP = question("steep", "quantity", dimension="slope")
TOOLS = Group("tools", "Tool", (question("kind", "kind"), question("when")), closing(), 3)
SMALL = book(SOIL, JOBS, STEEP, TOOLS, kinds=[kind("mower"), kind("plough")])


@pytest.mark.parametrize(
    ("when", "said"),
    [
        ({"answer": "soil", "is": "clay"}, 'soil is "clay"'),
        ({"answer": "soil", "in": ["sand", "clay"]}, 'soil is "sand" or "clay"'),
        ({"answer": "jobs", "includes": "hay"}, '"hay" is among jobs'),
        ({"answer": "steep", "at_least": "12 %"}, "steep is 12 % or more"),
        ({"answer": "steep", "below": 12.5}, "steep is less than 12.5 %"),
        ({"answer": "soil", "not_sure": True}, "soil is left open"),
        ({"answer": "soil", "not_sure": False}, "soil is not left open"),
        ({"item": "kind", "has": "shaft"}, "the shaft turns it"),
        ({"any_item": "kind", "is": "plough"}, 'of one implement at least: kind is "plough"'),
        ({"not": [{"answer": "soil", "is": "clay"}]}, 'soil is not "clay"'),
        ({"not": [{"answer": "steep", "below": 12}]}, "steep is 12 % or more"),
        ({"not": [{"answer": "jobs", "includes": "hay"}, {"answer": "jobs", "includes": "snow"}]},
         '"hay" is not among jobs and "snow" is not among jobs'),
        ({"not": [{"any_item": "kind", "has": "loader"}]}, "not so: of one implement at least: it hangs on the loader"),
        ({"not": [{"answer": "soil", "not_sure": False}]}, "soil is left open"),
        ({"all": [{"answer": "soil", "is": "clay"}, {"any": [{"answer": "steep", "below": 5}, {"item": "kind", "has":
         "oil"}]}]}, 'soil is "clay" and (steep is less than 5 % or oil moves a part of it)'),
        ({"not": [{"all": [{"answer": "soil", "is": "clay"}, {"answer": "steep", "below": 5}]}]},
         'not so: (soil is "clay" and steep is less than 5 %)'),
    ],
)  # fmt: skip
def test_each_test_has_its_words(when: dict[str, Any], said: str) -> None:
    assert in_words(SMALL, build(when)) == said


def test_labels_and_names_stand_for_ids(book: Book) -> None:
    when = build({"all": [{"item": "kind", "is": "rotary_tiller"}, {"item": "when", "is": "owned"}]})
    assert in_words(book, when) == 'kind is "rotary tiller" and when is "I own it already"'


def test_whoever_prints_it_has_his_own_words() -> None:
    """On paper a question has a number, and a slope is asked for in steps that one can count."""
    number = {question.id: n for n, question in enumerate((SOIL, JOBS, STEEP), 1)}

    def called(asked: Question) -> str:
        return f"question {number[asked.id]}"

    when = build({"all": [{"answer": "soil", "is": "clay"}, {"answer": "steep", "at_least": 25}]})
    words = {**WORDS, "is": "you ticked {what} at {question}", "and": ", and "}
    said = in_words(SMALL, when, called=called, words=words, number=lambda value, _: f"one in {100 / value:g}")
    assert said == "you ticked clay at question 1, and question 3 is one in 4 or more"


def test_every_feature_that_an_implement_can_have_has_words(book: Book) -> None:
    features = {feature for each in book.kinds.values() for feature in each.features}
    assert features <= {name.removeprefix("has.") for name in WORDS}


def test_every_condition_of_the_book_is_said_without_an_id_for_a_choice(book: Book) -> None:
    questions = [q for s in book.sections for q in (*s.questions, *(s.group.questions if s.group else ()))]
    said = [(q, in_words(book, q.when)) for q in questions if q.when is not None]
    assert len(said) > 40
    for asked, text in said:
        assert "{" not in text, asked.id
        assert "_of_" not in text, asked.id
        for leaf in leaves(asked.when):
            assert isinstance(leaf, Leaf)
            labels = {choice.id: choice.label for choice in _choices(book, leaf.subject)}
            if leaf.test in ("is", "includes"):
                assert labels.get(leaf.value, str(leaf.value)) in text


def _choices(book: Book, id_: str) -> tuple[Choice, ...]:
    asked = book.question(id_)
    return () if asked is None else asked.choices


def test_an_empty_condition_always_holds() -> None:
    assert in_words(SMALL, None) == "always"
    assert in_words(SMALL, Condition("all", ())) == ""
