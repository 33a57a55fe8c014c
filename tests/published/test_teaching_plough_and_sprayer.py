"""A plough and a sprayer worked through: a public teaching data set (secondary; no author or year named)."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.capacity import effective_capacity
from firstfurrow.mechanics.draft import specific_draft_pull
from firstfurrow.mechanics.power import drawbar_power

pytestmark = pytest.mark.published("public teaching data set with plough and sprayer examples")


def test_four_bottoms_of_41_cm() -> None:
    """18 cm deep, 6 km/h, 15 kN, 57 %: 5.08 N/cm2, 25 kW, 0.56 ha/h."""
    kilograms_a_square_centimetre = 5.08 / 9.80665
    pull = specific_draft_pull(specific_draft=kilograms_a_square_centimetre, width=4 * 0.41, depth=18, speed_factor=1)
    assert pull == pytest.approx(15, rel=0.005 / 5.08)  # the published 5.08 is printed to two decimals
    assert drawbar_power(pull=15, speed=6) == pytest.approx(25, abs=0.005)
    assert effective_capacity(speed=6, width=4 * 0.41, efficiency=57) == pytest.approx(0.56, abs=0.005)


def test_boom_sprayer() -> None:
    """Six nozzles of 150 cm, 5 km/h, 95 %: 4.28 ha/h."""
    assert effective_capacity(speed=5, width=6 * 1.5, efficiency=95) == pytest.approx(4.28, abs=0.006)
