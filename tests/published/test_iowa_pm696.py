"""Field capacity of 22 machines: *Estimating Field Capacity of Farm Machines*, PM 696.

Iowa State University Extension, revised April 2001. Read. Widths in feet (knives taken at 30 in spacing, which is
inferred and fits every knife row), speeds in miles an hour, published answers in acres an hour.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.capacity import effective_capacity, hours_for, width_needed
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("PM 696, Iowa State University Extension, 2001")

# machine, width ft, speed mph, field efficiency %, published acres an hour
ROWS = [
    ("fertilizer spreader 40 ft", 40, 6, 70, 20.4),
    ("fertilizer spreader 50 ft", 50, 6, 70, 25.5),
    ("manure spreader 10 ft", 10, 5, 63, 3.8),
    ("manure spreader 15 ft", 15, 5, 63, 5.7),
    ("manure spreader 15 ft, faster", 15, 6, 63, 6.9),
    ("manure spreader 20 ft", 20, 6, 63, 9.2),
    ("manure spreader 30 ft", 30, 6, 60, 13.1),
    ("anhydrous ammonia, 9 knives", 9 * 30 / 12, 5, 65, 8.9),
    ("anhydrous ammonia, 13 knives", 13 * 30 / 12, 5, 65, 12.8),
    ("anhydrous ammonia, 17 knives", 17 * 30 / 12, 5, 63, 16.2),
    ("plough 7 x 16 in", 7 * 16 / 12, 5, 85, 4.8),
    ("plough 8 x 16 in", 8 * 16 / 12, 5, 85, 5.5),
    ("plough 8 x 18 in", 8 * 18 / 12, 5, 85, 6.2),
    ("plough 10 x 18 in", 10 * 18 / 12, 5, 83, 7.5),
    ("plough 12 x 18 in", 12 * 18 / 12, 5, 83, 9.1),
    ("subsoiler 5 x 24 in", 5 * 24 / 12, 5, 85, 5.2),
    ("subsoiler 5 x 30 in", 5 * 30 / 12, 5, 85, 6.4),
    ("subsoiler 7 x 24 in", 7 * 24 / 12, 5, 85, 7.2),
    ("subsoiler 7 x 30 in", 7 * 30 / 12, 5, 83, 8.8),
    ("chisel plough 11 ft 3 in", 11.25, 5.5, 85, 6.4),
    ("chisel plough 13 ft 9 in", 13.75, 5.5, 85, 7.8),
    ("chisel plough 16 ft 3 in", 16.25, 5.5, 83, 9.0),
]
PRINTED_TO = 0.05  # acres an hour: half a unit of the last printed digit


@pytest.mark.parametrize(("machine", "feet", "mph", "efficiency", "published"), ROWS)
def test_capacity_is_the_published_one(
    machine: str, feet: float, mph: float, efficiency: float, published: float
) -> None:
    hectares = effective_capacity(
        speed=convert(mph, "mph", "km/h"), width=convert(feet, "ft", "m"), efficiency=efficiency
    )
    assert convert(hectares, "ha", "acre") == pytest.approx(published, abs=PRINTED_TO)


@pytest.mark.parametrize(("machine", "feet", "mph", "efficiency", "published"), ROWS)
def test_the_way_back_gives_the_width(
    machine: str, feet: float, mph: float, efficiency: float, published: float
) -> None:
    """Hours for 40 acres at the worked-out rate, and from those hours the width again."""
    speed, width = convert(mph, "mph", "km/h"), convert(feet, "ft", "m")
    area = convert(40, "acre", "ha")
    hours = hours_for(area=area, capacity=effective_capacity(speed=speed, width=width, efficiency=efficiency))
    assert hours == pytest.approx(40 / published, rel=0.01)  # the published rate is printed to two digits at worst
    assert width_needed(area=area, hours=hours, speed=speed, efficiency=efficiency) == pytest.approx(width, rel=1e-12)


def test_there_are_all_22_rows() -> None:
    assert len(ROWS) == 22
