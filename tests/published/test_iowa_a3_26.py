"""PTO power of a tandem disc: *Matching Tractor Power and Implement Size*, A3-26 (Edwards, W.).

Iowa State University Extension, Ag Decision Maker, May 2007. Read.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.draft import band_draft
from firstfurrow.mechanics.power import drawbar_power, shaft_power_of_pull
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("A3-26, Iowa State University Extension, 2007")


def test_tandem_disc_needs_115_pto_horsepower() -> None:
    """24 ft at 6.0 mph, 200 lb/ft, soil factor 1.5 on firm soil: 115 PTO hp. The factor stands where 1/ratio stands."""
    draft = band_draft(force_per_width=convert(200, "lbf/ft", "kN/m"), width=convert(24, "ft", "m"))
    assert draft == pytest.approx(convert(4800, "lbf", "kN"), rel=1e-9)
    power = drawbar_power(pull=draft, speed=convert(6.0, "mph", "km/h"))
    pto = shaft_power_of_pull(draft_power=power, reserve=1, climb=0, ratio=1 / 1.5)
    assert convert(pto, "kW", "hp") == pytest.approx(115, abs=0.5)
