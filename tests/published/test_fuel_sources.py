"""Fuel: *Predicting Diesel Fuel Consumption* (Grisso, R.), Virginia Tech (opening read in a copy; year not given).

And the fuel equations of two editions of ASAE D497 (ASABE, 2003 and 2011), at second hand from public teaching sets.
"""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.fuel import fuel_average, fuel_per_work, fuel_per_work_older
from firstfurrow.quantities import convert


@pytest.mark.published("Predicting Diesel Fuel Consumption, Virginia Tech, equation 1")
def test_average_over_the_year_in_both_units() -> None:
    """0.223 L for each kWh beside 0.044 US gal for each horsepower hour, of the rated shaft power."""
    litres = fuel_average(power=convert(100, "hp", "kW"))
    assert convert(litres, "L", "US gal") == pytest.approx(4.4, abs=0.01)


@pytest.mark.published("public teaching data set (secondary): the newer equation in both units")
def test_newer_equation_in_us_units() -> None:
    """0.22 and 0.096 beside 0.0434 and 0.019 US gal for each horsepower hour."""
    us = convert(1, "hp", "kW") / convert(1, "US gal", "L")
    assert 0.22 * us == pytest.approx(0.0434, abs=0.0001)
    assert fuel_per_work(load=1) * us == pytest.approx(0.0434 + 0.019, abs=0.0002)


@pytest.mark.derived("the editions side by side")
@pytest.mark.parametrize(
    ("load", "older", "newer"),
    [(0.2, 0.803, 0.700), (0.4, 0.574, 0.460), (0.6, 0.456, 0.380), (0.8, 0.413, 0.340), (1.0, 0.423, 0.316)],
)
def test_editions_disagree_by_a_seventh_to_a_third(load: float, older: float, newer: float) -> None:
    assert fuel_per_work_older(load=load) == pytest.approx(older, abs=0.0006)
    assert fuel_per_work(load=load) == pytest.approx(newer, abs=0.0006)
    assert 1.14 < fuel_per_work_older(load=load) / fuel_per_work(load=load) < 1.35


@pytest.mark.derived("horsepower hours for a US gallon at 0.8 of full load")
def test_both_editions_stand_around_the_bulletin() -> None:
    """12.3 and 14.9; the bulletin of the University of Missouri works out at 12.8 to 14.2 under load."""
    us = convert(1, "hp", "kW") / convert(1, "US gal", "L")
    assert 1 / (fuel_per_work_older(load=0.8) * us) == pytest.approx(12.3, abs=0.05)
    assert 1 / (fuel_per_work(load=0.8) * us) == pytest.approx(14.9, abs=0.05)
