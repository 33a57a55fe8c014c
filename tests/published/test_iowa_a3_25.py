"""Workable days: *Fieldwork Days in Iowa*, A3-25, Iowa State University Extension, October 2014. Read.

It plans with the median, that is with an even chance. A study of machinery sizing in Oklahoma (secondary) used 85 %.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.capacity import width_needed, workable_hours

pytestmark = pytest.mark.published("A3-25, Iowa State University Extension, 2014")


def test_our_share_of_workable_days_stands_between_the_published_practices(book: Book) -> None:
    share = book.choice("workable_share")
    assert (share.low, share.high) == (50, 85)
    assert share.low < share.planning < share.high
    assert share.grade == "practice"  # the choice between them is ours


@pytest.mark.derived("from the published way of counting days")
def test_twelve_hectares_in_six_days() -> None:
    """12 ha, six days of five hours, 60 % workable: 1.190 m at 7 km/h and 80 %."""
    hours = workable_hours(days=6, hours_a_day=5, workable=60)
    assert 12 / hours == pytest.approx(0.6667, abs=5e-5)
    assert width_needed(area=12, hours=hours, speed=7, efficiency=80) == pytest.approx(1.190, abs=5e-4)
