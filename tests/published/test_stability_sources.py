"""Grade, altitude, engine and tongue cases of several outside sources; each test names its own."""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.draft import angle_of, towed_pull
from firstfurrow.mechanics.drawbar import tongue_load
from firstfurrow.mechanics.engine import altitude_loss, engine_power_usual, rated_at_sea_level
from firstfurrow.mechanics.power import climb_power, drawbar_power
from firstfurrow.quantities import convert


@pytest.mark.published("university homework with answers (secondary)")
def test_force_along_a_slope_of_25_degrees() -> None:
    """2000 kg: 8292 N with g 9.81."""
    assert towed_pull(mass=2000, rolling=0, angle=25) * 1000 == pytest.approx(8292, rel=0.0004)


@pytest.mark.published("university homework with answers (secondary)")
def test_rolling_of_forty_kilograms_a_tonne() -> None:
    """12 t pulled up 2 % with 720 kg where a per cent takes 10 kg a tonne: 40 kg a tonne of rolling."""
    pull = towed_pull(mass=12000, rolling=0.040, angle=angle_of(slope=2))
    assert convert(pull, "kN", "kgf") == pytest.approx(720, rel=0.001)


@pytest.mark.published("Agricultural engineering textbook, chapter on metric problems, in a copy (secondary)")
def test_drawbar_power_of_667_kn() -> None:
    assert drawbar_power(pull=6.67, speed=9) == pytest.approx(16.68, abs=0.006)


@pytest.mark.published("Agricultural engineering textbook, chapter on altitude, in a copy (secondary)")
@pytest.mark.parametrize(("feet", "loss"), [(1000, 1.5), (3000, 7.5), (5000, 13.5), (7000, 19.5)])
def test_altitude_loss(book: Book, feet: float, loss: float) -> None:
    """3 % for each 1000 ft above 500 ft, without turbocharger."""
    got = altitude_loss(
        altitude=convert(feet, "ft", "m"), free=book.choice("altitude_free").planning,
        step=book.choice("altitude_step").planning, loss_per_step=book.choice("altitude_loss").planning,
    )  # fmt: skip
    assert got == pytest.approx(loss, abs=0.02)  # 152 m and 305 m are rounded from 500 ft and 1000 ft
    assert book.choice("altitude_loss").source == "stab_s44"


@pytest.mark.derived("statement of the textbook, answer ours")
def test_diesel_of_225_hp_at_4500_feet() -> None:
    loss = altitude_loss(altitude=convert(4500, "ft", "m"), free=152, step=305, loss_per_step=3)
    assert loss == pytest.approx(12, abs=0.02)
    assert rated_at_sea_level(power=198, loss=loss) == pytest.approx(225, abs=0.1)


@pytest.mark.published("farm press on balers (secondary)")
def test_baler_of_55_pto_horsepower(book: Book) -> None:
    """The press says 65 to 70 engine hp."""
    band = book.choice("pto_of_engine_gears")
    assert engine_power_usual(power=55, share=band.planning) == pytest.approx(65, abs=0.5)
    assert 65 < engine_power_usual(power=55, share=band.low) < 70


@pytest.mark.published("Trade press, road trailers (secondary)")
def test_tongue_of_a_road_trailer(book: Book) -> None:
    share = book.choice("tongue_share")
    assert (share.low, share.high, share.source) == (10, 15, "stab_tp")
    assert tongue_load(mass=2000, share=share.high) == 300


@pytest.mark.published("Trade press, machine sheds (secondary): two statements that agree")
def test_shed_door(book: Book) -> None:
    """1.2 m [4 ft] over the widest machine, or 0.6 m [2 ft] on each side; 0.3 m [1 ft] overhead."""
    assert book.choice("door_margin").planning == 2 * 0.6
    assert convert(book.choice("door_margin").planning, "m", "ft") == pytest.approx(4, abs=0.1)
    assert convert(book.choice("door_height_margin").planning, "m", "ft") == pytest.approx(1, abs=0.05)


@pytest.mark.published("Trade press (secondary): a per cent of weight for each per cent of grade")
@pytest.mark.parametrize("slope", [1, 5, 10, 15])
def test_grade_resistance(slope: float) -> None:
    pull = towed_pull(mass=1000, rolling=0, angle=angle_of(slope=slope))
    assert convert(pull, "kN", "kgf") == pytest.approx(10 * slope, rel=0.012)  # sine against tangent


@pytest.mark.derived("statics")
@pytest.mark.parametrize(("slope", "kilonewtons"), [(0, 0.98), (5, 1.96), (15, 3.88)])
def test_pull_of_a_trailer_of_two_tonnes(slope: float, kilonewtons: float) -> None:
    assert towed_pull(mass=2000, rolling=0.05, angle=angle_of(slope=slope)) == pytest.approx(kilonewtons, abs=0.006)


@pytest.mark.derived("statics")
def test_climbing_is_the_grade_part_of_pulling() -> None:
    angle = angle_of(slope=15)
    pulled = drawbar_power(pull=towed_pull(mass=1500, rolling=0, angle=angle), speed=6)
    assert climb_power(mass=1500, angle=angle, speed=6) == pytest.approx(pulled, rel=1e-12)


@pytest.mark.published("slope limits of garden tractors, printed alike in many operators' manuals (secondary)")
@pytest.mark.parametrize(("choice", "degrees"), [("side_slope_most", 15), ("side_slope_most_behind", 10)])
def test_side_slope_limits(book: Book, choice: str, degrees: float) -> None:
    """15 and 10 degrees. Across the slope for a wheel tractor they are teaching figures from memory, and say so."""
    figure = book.choice(choice)
    assert figure.planning == pytest.approx(convert(degrees, "deg", "%"), abs=0.05)
    assert figure.grade == "memory"
