"""Hydrostatic against gear drive: MSc thesis on a hydrostatic test stand, South Dakota State University.

Year not given. Read: a hydrostatic drive brings on 70 to 80 %, a gear drive about 90 %.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.engine import hydrostatic

pytestmark = pytest.mark.published("MSc thesis, hydrostatic test stand, South Dakota State University")


@pytest.mark.parametrize(("efficiency", "ratio"), [(70, 0.78), (80, 0.89)])
def test_what_the_hydrostatic_drive_keeps(efficiency: float, ratio: float) -> None:
    """10 kW at the wheels ask a gear drive for 11.1 kW, and a hydrostatic one for that over 0.78 to 0.89."""
    by_gears, by_oil = 10 / 0.90, 10 / (efficiency / 100)
    assert hydrostatic(power=by_gears, ratio=ratio) == pytest.approx(by_oil, rel=0.003)
