"""How fast a shaft winds something up: *Chipper and shredder safety*, p. 16, Kansas State University.

In a copy (secondary), year not given. At 540 turns a minute 424 ft a minute; a person of 6 ft in less than a second.
Keep every shield in place; shaft off and still before you step down; the manual comes first.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.traction import rolling_speed
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("Chipper and shredder safety, Kansas State University (secondary)")


def test_six_feet_in_less_than_a_second() -> None:
    """The printed 424 ft a minute belong to a shaft of 3 in across; 6 ft then take 0.85 s."""
    speed = rolling_speed(diameter=convert(3, "in", "m"), revolutions=540, ratio=1)
    feet_a_minute = convert(speed * 1000 / 60, "m", "ft")
    assert feet_a_minute == pytest.approx(424, abs=0.5)
    assert 6 / feet_a_minute * 60 == pytest.approx(0.85, abs=0.005)
