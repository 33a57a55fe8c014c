"""The steps that a buyer feels: every requirement has its place, and further apart never counts less."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfurrow.advice.study.felt import apart, scale_of
from firstfurrow.book.load import load
from firstfurrow.book.model import Book

quick = settings(max_examples=60, derandomize=True, deadline=None)
BOOK = load()
SCALE = scale_of(BOOK)
NUMBERS = [r.id for r in BOOK.requirements.values() if r.sense in ("at_least", "at_most")]


def test_every_requirement_is_one_thing_to_the_buyer(book: Book) -> None:
    named = [id_ for row in book.tables["felt_steps"].rows.values() for id_ in row.words.get("requirements", ())]
    assert sorted(named) == sorted(book.requirements)


def test_every_requirement_has_a_short_name(book: Book) -> None:
    assert [id_ for id_ in book.requirements if f"reason.brief.{id_}" not in book.messages] == []


def test_the_steps_are_those_that_were_agreed(book: Book) -> None:
    """A remote set, a category and a tenth of power, lift or mass weigh one step; a size class two, a refusal five."""

    def steps(id_: str, before: object, after: object) -> float:
        return apart(SCALE, book.requirements[id_], before, after)

    assert steps("rear_sets", 1, 2) == 1
    assert steps("hitch_category", ("1",), ("2",)) == 1
    for id_ in ("pto_power", "lift_610", "mass"):
        assert steps(id_, 90.0, 100.0) == pytest.approx(1)
    assert (SCALE.size_class, SCALE.crossing) == (2, 5)


@quick
@given(st.sampled_from(NUMBERS), st.floats(1, 5000), st.floats(0, 2000), st.floats(0, 2000))
def test_further_apart_never_counts_less(id_: str, first: float, more: float, still_more: float) -> None:
    requirement = BOOK.requirements[id_]
    near, far = (apart(SCALE, requirement, first, first + d) for d in (more, more + still_more))
    assert 0 <= near <= far + 1e-9
    assert apart(SCALE, requirement, first + more, first) == pytest.approx(near)


def test_every_kind_of_trouble_says_with_which_figures_it_is_shown(book: Book) -> None:
    for row in book.tables["way_figures"].rows.values():
        assert set(row.words["shows"]) <= set(book.requirements), row.id
        if "column" in row.words:
            assert row.words["column"] in book.tables["size_classes"].rows["subcompact"].figures
