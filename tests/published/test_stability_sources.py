"""Grade, altitude, engine and tongue cases of several outside sources; each test names its own."""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.balance import front_axle_load, front_ballast, mass_for_balance, rear_ballast
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


# ------------------------------------------------------------------------------ balance


@pytest.mark.published("university mechanics homework with answers (secondary)")
def test_axle_loads_of_a_tractor_with_a_load_in_front() -> None:
    """4500 N tractor, centre 0.9 m ahead of the rear axle; 2500 N at 0.9 m ahead of the front axle: 6700 and 300 N."""
    front = front_axle_load(front=2500, ahead=0.9, wheelbase=1.5, front_axle=2700, rear=0, overhang=0, reach=0)
    assert front == pytest.approx(6700)
    assert 4500 + 2500 - front == pytest.approx(300)


@pytest.mark.published("truck body-builder guide, 2018, p. 331 (secondary)")
def test_a_load_between_the_axles() -> None:
    """260 kg at 1.600 m behind the front axle, wheelbase 4.500 m: 168 kg in front, 92 kg behind, rounded by them."""
    front = front_axle_load(front=260, ahead=-1.6, wheelbase=4.5, front_axle=0, rear=0, overhang=0, reach=0)
    assert front == pytest.approx(168, abs=0.5)
    assert 260 - front == pytest.approx(92, abs=0.5)


BALANCE = [  # constructed cases for the ballast equations printed alike in many operators' manuals (derived)
    # T_L, T_V, T_H, G_V, G_H, a, b, c+d, G_Vmin, G_Hmin, T_Vact, T_Hact
    (1500, 600, 900, 0, 350, 0.95, 1.70, 1.60, 18.9, -115.9, 270.6, 1579.4),
    (1100, 460, 640, 0, 400, 0.85, 1.55, 1.45, 86.7, -74.9, 85.8, 1414.2),
    (3300, 1320, 1980, 900, 0, 1.10, 2.20, 1.55, -440.0, -26.4, 2670.0, 1530.0),
]


@pytest.mark.derived
@pytest.mark.parametrize("case", BALANCE, ids=["350 kg behind", "400 kg behind", "900 kg in front"])
def test_ballast_equations(case: tuple[float, ...]) -> None:
    empty, in_front, behind, front, rear, ahead, wheelbase, reach, least_front, least_rear, then_front, then_rear = case
    common = {"wheelbase": wheelbase, "overhang": 0, "reach": reach, "ahead": ahead}
    ballast = front_ballast(rear=rear, front_axle=in_front, empty=empty, **common)
    assert ballast == pytest.approx(least_front, abs=0.05)
    assert rear_ballast(front=front, rear_axle=behind, empty=empty, **common) == pytest.approx(least_rear, abs=0.05)
    load = front_axle_load(front=front, front_axle=in_front, rear=rear, **common)
    assert load == pytest.approx(then_front, abs=0.05)
    assert empty + front + rear - load == pytest.approx(then_rear, abs=0.05)
    if not front:  # put back: exactly a fifth in front
        assert front_axle_load(front=ballast, front_axle=in_front, rear=rear, **common) == pytest.approx(0.2 * empty)


@pytest.mark.derived
def test_the_largest_rear_mass_without_ballast_asks_for_just_this_tractor() -> None:
    mass = mass_for_balance(
        rear=318.75, overhang=0.6, reach=1.0, front=0, ahead=0.9, front_share=40, wheelbase=1.7, kept=0.2
    )
    assert mass == pytest.approx(1500)
