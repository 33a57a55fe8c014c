"""Heat, hydrostatic drive, fuel and what may be hauled: sums that add up and ways back."""

from __future__ import annotations

import pytest

from firstfurrow.mechanics.driveline import after_drive
from firstfurrow.mechanics.engine import altitude_loss, heat_loss, hydrostatic, rated_at_sea_level
from firstfurrow.mechanics.envelope import haul_left, mass_left
from firstfurrow.mechanics.fuel import (
    fuel_average,
    fuel_mass,
    fuel_per_work,
    fuel_per_work_older,
    fuel_rate,
    fuel_volume,
    work_on_area,
)
from firstfurrow.mechanics.power import shaft_power_of_pull
from firstfurrow.reasoning import NoSolutionError


def test_heat_up_to_the_free_heat_costs_nothing_and_each_step_the_same() -> None:
    assert heat_loss(above=0, step=2.78, loss_per_step=1) == 0
    assert heat_loss(above=5.56, step=2.78, loss_per_step=1) == pytest.approx(2)


@pytest.mark.parametrize("altitude", [0, 100, 152])
def test_up_to_the_free_height_thin_air_costs_nothing(altitude: float) -> None:
    assert altitude_loss(altitude=altitude, free=152, step=305, loss_per_step=3) == 0


def test_an_engine_that_loses_everything_has_no_rating_and_one_that_keeps_a_hundredth_has() -> None:
    assert rated_at_sea_level(power=1, loss=99) == pytest.approx(100)
    for loss in (100, 100.5):
        with pytest.raises(NoSolutionError, match="no power at that height"):
            rated_at_sea_level(power=1, loss=loss)


def test_losses_are_on_the_rated_power_not_on_what_is_left() -> None:
    assert rated_at_sea_level(power=90, loss=10) == pytest.approx(100)


def test_a_hydrostatic_drive_asks_the_shaft_for_what_its_share_loses() -> None:
    """Dividing the power by the drive's share is the same as counting a smaller share at the drawbar."""
    geared = shaft_power_of_pull(draft_power=10, reserve=1, climb=2, ratio=0.77)
    by_share = shaft_power_of_pull(draft_power=10, reserve=1, climb=2, ratio=after_drive(ratio=0.77, kept=0.84))
    assert hydrostatic(power=geared, ratio=0.84) == pytest.approx(by_share)
    assert hydrostatic(power=geared, ratio=1) == geared


def test_what_is_left_for_the_tractor_and_what_goes_with_it_make_the_rating() -> None:
    left = mass_left(haul_left(gross_rating=3200, trailer=700), loader=300, carried=250, fluids=150)
    assert left + 300 + 250 + 150 + 700 == 3200


def test_a_trailer_that_is_too_small_leaves_nothing() -> None:
    """A tractor of negative mass does not exist. What the empty trailer is over its rating stays to be seen."""
    assert mass_left(haul_left(gross_rating=900, trailer=700), loader=200, carried=0, fluids=100) == 0
    assert haul_left(gross_rating=500, trailer=700) == -200


def test_a_tractor_with_little_to_do_burns_more_for_its_work_but_less_an_hour() -> None:
    loads = (0.2, 0.4, 0.6, 0.8, 1)
    for_work = [fuel_per_work(load) for load in loads]
    an_hour = [fuel_rate(fuel_per_work(load), 30 * load) for load in loads]
    assert for_work == sorted(for_work, reverse=True)
    assert an_hour == sorted(an_hour)
    assert fuel_rate(fuel_per_work(1), 30) == pytest.approx((0.22 + 0.096) * 30)


def test_the_older_curve_turns_upward_before_full_load() -> None:
    assert fuel_per_work_older(0.8) < fuel_per_work_older(0.6)
    assert fuel_per_work_older(0.8) < fuel_per_work_older(1)


def test_the_average_over_the_year_is_the_newer_curve_at_a_bit_over_half_load() -> None:
    """0.223 = 0.22 of the load plus 0.096: at 58 % of the rated power."""
    assert fuel_rate(fuel_per_work(0.577), 0.577 * 30) == pytest.approx(fuel_average(30), rel=0.001)


def test_fuel_by_mass_and_by_volume() -> None:
    assert fuel_volume(fuel_mass(power=20, specific=280, hours=3), density=0.84) == pytest.approx(20)


def test_work_on_an_area_does_not_care_how_wide_the_tool_is() -> None:
    """Twice the width takes twice the power and half the time."""
    for width in (1.5, 3):
        hours_per_hectare = 10 / (8 * width)
        assert work_on_area(power_per_width=10, speed=8) == pytest.approx(10 * width * hours_per_hectare)
