"""Random conversations to their results: no error, and nothing in a result that cannot be meant."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest

from firstfurrow.advice import walked as module
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.walked import Walked, bounds, nonsense, walked
from firstfurrow.asking.random_walk import any_answers, random_answers
from firstfurrow.book.model import Book
from firstfurrow.reasoning import Ends
from making import Maker


@pytest.fixture(scope="module")
def most(book: Book) -> Mapping[str, float]:
    return bounds(book)


def walks(book: Book, most: Mapping[str, float], numbers: range) -> list[Walked]:
    return [walked(book, any_answers(book, 1, number), most) for number in numbers]


def test_two_hundred_conversations_come_to_a_result_that_can_be_meant(book: Book, most: Mapping[str, float]) -> None:
    found = walks(book, most, range(200))
    assert [walk.wrong for walk in found if walk.wrong] == []
    assert {walk.decides.split(":")[0] for walk in found} >= {"refusal", "conflict", "pto_power"}


@pytest.mark.long
def test_ten_thousand_conversations_come_to_a_result_that_can_be_meant(book: Book, most: Mapping[str, float]) -> None:
    assert [walk.wrong for walk in walks(book, most, range(10_000)) if walk.wrong] == []


def test_the_most_that_can_be_meant_is_ten_times_what_the_book_has(book: Book, most: Mapping[str, float]) -> None:
    """Of its own column of the size classes; else of its unit there; else of its unit anywhere in the book."""
    assert book.tables["plausible_bounds"]["times_any_figure"]["value"].planning == 10
    classes = book.tables["size_classes"].rows.values()
    assert most["pto_power"] == 10 * max(row["pto_power"].high for row in classes)
    assert most["drawbar_vertical"] == 10 * max(row["mass"].high for row in classes)  # kg
    rows = [row for id_, table in book.tables.items() if id_ != "plausible_bounds" for row in table.rows.values()]
    anywhere = [figure.high for row in rows for figure in row.figures.values() if figure.unit == "kN"]
    assert most["drawbar_pull"] == 10 * max(anywhere)
    room = book.question("turn_room")
    assert room is not None
    assert room.plausible is not None
    assert most["turning_most"] == room.plausible[1]  # what is told may be as much as it plausibly is
    numbers = {id_ for id_, r in book.requirements.items() if r.sense in ("at_least", "at_most") and r.unit}
    assert numbers <= set(most)


def test_a_book_without_that_table_is_bounded_too(book: Book, most: Mapping[str, float]) -> None:
    tables = {name: table for name, table in book.tables.items() if name != "plausible_bounds"}
    assert bounds(replace(book, tables=tables)) == most


@pytest.fixture(scope="module")
def profile(maker: Maker) -> Profile:
    return maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}])


def with_power(profile: Profile, **changes: Any) -> Profile:
    """The profile with other numbers for the power at the shaft."""
    before = profile.outcomes["pto_power"]
    assert before.sure is not None
    sure = replace(before.sure, **changes)
    after = Outcome(before.requirement, before.status, sure, sure, before.conflict, before.remarks)
    return replace(profile, outcomes={**profile.outcomes, "pto_power": after})


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"stated": -3}, "pto_power, sure, stated is negative: -3 kW"),
        ({"stated": math.inf}, "pto_power, sure, stated is inf"),
        ({"planning": math.nan}, "pto_power, sure, planned is nan"),
        ({"stated": 5000}, "pto_power, sure, stated is 5000 kW, above 1280 kW"),
        ({"ends": lambda: Ends(1.0, 2.0, 90_000.0)}, "pto_power, sure, high is 90000 kW, above 1280 kW"),
        ({"ends": lambda: Ends(-1.0, 2.0, None)}, "pto_power, sure, low is negative: -1 kW"),
    ],
)
def test_each_sort_of_nonsense_is_found(profile: Profile, most: Mapping[str, float], changes: Any, said: str) -> None:
    assert list(nonsense(profile, most)) == []
    assert list(nonsense(with_power(profile, **changes), most)) == [said]


def test_a_step_without_end_is_found(profile: Profile, most: Mapping[str, float]) -> None:
    step = replace(profile.steps[0], value=math.inf, title="a load")
    assert list(nonsense(replace(profile, steps=(step, *profile.steps[1:])), most)) == ['the step "a load" is inf']


def test_an_error_is_what_came_of_the_walk(
    book: Book, most: Mapping[str, float], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> Iterator[str]:
        raise ZeroDivisionError("a plough without width")

    monkeypatch.setattr(module, "advise", fails)
    found = walked(book, random_answers(book, 1), most)
    assert found.broke
    assert found.wrong == ("ZeroDivisionError: a plough without width",)
    assert found.questions > 10
