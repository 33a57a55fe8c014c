"""Sprayer flow: *Integrated Pest and Crop Management* newsletter 15(5), University of Missouri, 15 April 2005. Read."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.capacity import effective_capacity
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("Integrated Pest and Crop Management 15(5), University of Missouri, 2005")


def test_sixty_foot_boom_takes_about_twenty_gallons_a_minute() -> None:
    """60 ft at 8 mph and 20 gal/ac: "approximately 20 gpm". The source rounds 19.4 up, hence the wide tolerance."""
    rate = effective_capacity(speed=convert(8, "mph", "km/h"), width=convert(60, "ft", "m"), efficiency=100)  # ha/h
    litres_a_hectare = convert(20, "US gal", "L") / convert(1, "acre", "ha")
    flow = rate * litres_a_hectare / 60  # L/min
    assert convert(flow, "L/min", "gpm") == pytest.approx(20, abs=0.7)
    assert convert(flow, "L/min", "gpm") == pytest.approx(19.39, abs=0.01)
