"""Mower-conditioner and grain drill: a public teaching data set quoting Schuler (secondary).

Schuler, University of Wisconsin Extension, with "ASAE Standards 2005, Table 5". The drill sums are the data set's own.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.capacity import effective_capacity, hours_for
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("teaching data set quoting Schuler, University of Wisconsin Extension, 2005")


def acres_an_hour(feet: float, mph: float, efficiency: float) -> float:
    hectares = effective_capacity(
        speed=convert(mph, "mph", "km/h"), width=convert(feet, "ft", "m"), efficiency=efficiency
    )
    return convert(hectares, "ha", "acre")


def test_mower_conditioner() -> None:
    assert acres_an_hour(12, 6, 75) == pytest.approx(6.55, abs=0.006)


@pytest.mark.parametrize(("mph", "efficiency", "acres", "hours"), [(4, 55, 4.00, 0.250), (7, 80, 10.18, 0.098)])
def test_grain_drill_at_the_corners_of_its_range(mph: float, efficiency: float, acres: float, hours: float) -> None:
    rate = acres_an_hour(15, mph, efficiency)
    assert rate == pytest.approx(acres, abs=0.005)
    assert hours_for(area=1, capacity=rate) == pytest.approx(hours, abs=0.0005)


def test_the_drill_row_has_the_quoted_range(book: Book) -> None:
    """55 to 80 % and 4 to 7 mph; the kilometres of the row are its own column, rounded to half a kilometre an hour."""
    drill = book.tables["field_rates"]["grain_drill"]
    assert (drill["efficiency"].low, drill["efficiency"].high) == (55, 80)
    assert drill["speed"].low == pytest.approx(convert(4, "mph", "km/h"), abs=0.25)
    assert drill["speed"].high == pytest.approx(convert(7, "mph", "km/h"), abs=0.3)
