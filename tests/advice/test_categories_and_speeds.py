"""A tool of an edited book may name any hitch category of the table; a shaft speed that no shaft has stops nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfurrow.advice.profile import Profile, advise
from firstfurrow.asking.answers_file import read
from firstfurrow.asking.complete import complete
from firstfurrow.book.load import load
from firstfurrow.book.model import Book, Kind

CUTTER = "rotary_cutter_light"
ANSWERS = f"""\
format: firstfurrow-answers/1
book: {{id: firstfurrow, version: 1}}
units: metric
answers:
  jobs: [rough_mowing]
  implements:
    - {{item: i1, kind: {CUTTER}, when: now, size: choose}}
"""


def profile_with(book: Book, kind: Kind) -> Profile:
    edited = replace(book, kinds={**book.kinds, CUTTER: kind})
    return advise(edited, complete(edited, read(ANSWERS, "answers.yaml", edited)))


@pytest.mark.parametrize("row", load().tables["hitch_categories"].rows)
def test_each_category_of_the_table_is_one_that_arms_may_have(book: Book, row: str) -> None:
    category = row.replace("_", " ")
    cutter = book.kinds[CUTTER]
    sizes = tuple(replace(size, categories=(category,)) for size in cutter.sizes)
    strictest = profile_with(book, replace(cutter, sizes=sizes)).outcomes["hitch_category"].sure
    assert strictest is not None
    assert category in strictest.stated


def test_a_speed_that_no_shaft_has_is_asked_for_and_leaves_the_type_of_the_shaft_open(book: Book) -> None:
    cutter = book.kinds[CUTTER]
    assert cutter.shaft is not None
    profile = profile_with(book, replace(cutter, shaft=replace(cutter.shaft, speeds=(450,))))
    speed = profile.outcomes["pto_speed"].sure
    assert speed is not None
    assert speed.stated == ((450,),)
    assert profile.outcomes["pto_shaft_type"].sure is None
