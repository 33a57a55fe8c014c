"""Efficiency against capacity: an article of the trade press (secondary; title, author and year not known)."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.capacity import effective_capacity
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("trade press, article on efficiency against capacity")


@pytest.mark.parametrize(("efficiency", "published"), [(100, 18.2), (80, 14.5), (60, 10.9)])
def test_thirty_feet_at_five_miles_an_hour(efficiency: float, published: float) -> None:
    hectares = effective_capacity(speed=convert(5, "mph", "km/h"), width=convert(30, "ft", "m"), efficiency=efficiency)
    assert convert(hectares, "ha", "acre") == pytest.approx(published, abs=0.05)
