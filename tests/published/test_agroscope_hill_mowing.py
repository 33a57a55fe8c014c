"""Mowing steep slopes: *Raufutterernte in Hanglagen* (Sauter, Latsch, Albisser), Agroscope, July 2010. Read.

Half of the farms' hill-equipped tractors reach their limit at 44 % with a front mower; two-axle mowers at 48 %. No
limit for an ordinary tractor: these have four driven wheels, dual tyres and a front linkage.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.draft import angle_of

pytestmark = pytest.mark.published("Raufutterernte in Hanglagen, Agroscope, 2010")


@pytest.mark.parametrize(("slope", "degrees"), [(44, 23.7), (48, 25.6)])
def test_median_limits(slope: float, degrees: float) -> None:
    assert angle_of(slope=slope) == pytest.approx(degrees, abs=0.06)


def test_our_ladder_stays_far_below_hill_equipment(book: Book) -> None:
    for choice in ("side_slope_most", "side_slope_most_behind"):
        assert book.choice(choice).high < 42  # the steepest that the more careful half of those farms mow
