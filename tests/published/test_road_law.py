"""Laws on towing of several countries: none is a verdict here, the law of the place comes first.

*Strassenverkehrs-Zulassungs-Ordnung*, Germany, sections 41 and 44, as of March 2022. Read. United Kingdom, 2014, at
second hand. Switzerland, *Schweizer Landtechnik* 8/2020. Read. Ireland, at second hand.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.towing import mass_to_hold, share_or_cap
from firstfurrow.quantities import convert


@pytest.mark.published("Strassenverkehrs-Zulassungs-Ordnung, section 41(11), Germany, 2022")
@pytest.mark.parametrize(("tractor", "axle"), [(4000, 2000), (6000, 3000), (8000, 3000)])
def test_german_unbraked_single_axle_behind_a_slow_tractor(tractor: float, axle: float) -> None:
    """Trailer built for up to 30 km/h: half of the tractor's empty mass, at most 3.0 t."""
    assert share_or_cap(mass=tractor, share=0.5, cap=3000) == axle


@pytest.mark.published("Strassenverkehrs-Zulassungs-Ordnung, section 41(11), Germany, 2022")
@pytest.mark.parametrize(("tractor", "axle"), [(1200, 600), (1500, 750), (4000, 750)])
def test_german_unbraked_single_axle_of_any_speed(tractor: float, axle: float) -> None:
    """The same without the limit of speed: at most 0.75 t."""
    assert share_or_cap(mass=tractor, share=0.5, cap=750) == axle


@pytest.mark.published("Strassenverkehrs-Zulassungs-Ordnung, section 44(3), Germany, 2022")
@pytest.mark.parametrize(("trailer", "nose"), [(10000, 1500), (20000, 2000)])
def test_german_nose_weight_of_a_fast_trailer(trailer: float, nose: float) -> None:
    """15 % of the actual mass, at most 2.00 t; trailers marked for 40 km/h or less have no such cap."""
    assert share_or_cap(mass=trailer, share=0.15, cap=2000) == nose


@pytest.mark.published("regional press and land-management bulletin, United Kingdom, 2014 (secondary)")
@pytest.mark.parametrize(("tonnes", "long_tons"), [(18.29, 18), (24.4, 24), (31, 30.5)])
def test_british_masses_are_round_in_long_tons(tonnes: float, long_tons: float) -> None:
    """Trailer 18.29 t, train formerly 24.4 t, now 31 t. The last is round in metric tonnes only."""
    assert convert(long_tons, "long ton", "tonne") == pytest.approx(tonnes, abs=0.02)


@pytest.mark.published("Schweizer Landtechnik 8/2020 (read); Irish and British rules (secondary, and owners' reports)")
@pytest.mark.parametrize(("country", "ratio"), [("Switzerland", 1 / 0.22 - 1), ("Ireland", 3), ("Great Britain", 4)])
def test_our_rule_for_unbraked_loads_is_stricter_than_any_known_law(book: Book, country: str, ratio: float) -> None:
    """22 % of the train on driven wheels; 3 and 4 times the tractor's mass.

    The first two hold for trailers with brakes too. What a law permits may still push a tractor down a hill.
    """
    by_law = mass_to_hold(towed=3000, ratio=ratio)
    for choice in ("unbraked_ratio_flat", "unbraked_ratio_slope"):
        assert mass_to_hold(towed=3000, ratio=book.choice(choice).planning) > 1.9 * by_law, country
