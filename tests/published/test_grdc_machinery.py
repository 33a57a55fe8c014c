"""Work rate of seeding: *Machinery: replace or repair*. Read.

Grains Research and Development Corporation (GRDC), Australia; year not given.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.capacity import effective_capacity

pytestmark = pytest.mark.published("GRDC, Machinery: replace or repair")


def test_seeding_rate() -> None:
    assert effective_capacity(speed=8, width=18.33, efficiency=80) == pytest.approx(11.73, abs=0.005)
