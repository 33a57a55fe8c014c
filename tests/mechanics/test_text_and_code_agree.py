"""Every mechanics formula: printed text and code agree, directions hold, results scale as physics does."""

from __future__ import annotations

import doctest
import importlib
import inspect
import math
import random
import re

import pytest
from farm_ranges import DECLARED, MODULES, RANGES, at_edges, ids, range_of, sampled

from firstfurrow.book.model import SOURCED, Book
from firstfurrow.mechanics.capacity import effective_capacity, hours_for, width_needed
from firstfurrow.mechanics.draft import band_draft, tool_draft, towed_pull
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.mechanics.hitch import lift_at_610, lift_at_610_bound, lift_at_ball_ends, lift_between
from firstfurrow.mechanics.power import climb_power, drawbar_power, installed_power, shaft_power_of_pull
from firstfurrow.reasoning import EITHER, FUNCTIONS, LOWERS, RAISES, Formula, NoSolutionError, evaluate

SAMPLES = 200
# Results that are a plain number or a share of one.
WITHOUT_UNIT = {
    "tools_on_width", "rear_share", "after_drive", "grip_to_stop", "mobility_number", "motion_resistance_ratio",
    "motion_resistance_ratio_radial", "towed_wheel_ratio", "gross_traction_ratio", "gross_traction_ratio_radial",
    "net_traction_ratio", "tractive_efficiency", "slip_of_advance", "slip_by_counting", "net_of_axles",
}  # fmt: skip
# Declared to go either way to be on the safe side: on a farm they go one way.
TO_BE_SAFE = {
    ("side_tip_angle_pivot", "front_share"),  # the other way where the pivot lies above the centre of mass
    ("track_for_side_slope", "front_share"),
    ("counterweight_downhill", "wheelbase"),  # the other way where the counterweight hangs far above the tractor
}
# Decimals by unit. A result that others read, or that is small on a small farm, keeps more; those are named.
DECIMALS = {
    "kg": 0, "N m": 0, "mm": 0, "sets": 0, "%": 1, "deg": 1, "h": 1, "km/h": 1, "kg/kW": 1, "kWh/ha": 1, "L/h": 1,
    "L/min": 1, "kW": 1, "m": 2, "kN": 2, "kW/m": 2, "L": 2, "ha": 2, "": 3, "ha/h": 3, "L/kWh": 3,
}  # fmt: skip
OWN_DECIMALS = {
    # what balances is small beside the axle loads that it is the difference of
    "front_axle_load": 1, "front_ballast": 1, "rear_ballast": 1, "counterweight": 1, "counterweight_downhill": 1,
    # parts of a sum or a product to come
    "drawbar_power": 2, "climb_power": 2, "rolling_power": 2, "rotary_power": 2, "spread_power": 2, "oil_power": 2,
    "angle_of": 2, "centre_in_front": 3, "overall_diameter": 3, "specific_draft_pull": 3,
    # compared with what a paper prints
    "fuel_mass": 1, "rolling_speed": 2, "least_lift_of_a_tractor": 3,
    # not known any better
    "side_of_square": 0, "share_of_hole": 0, "fuel_volume": 1, "cylinder_force": 1, "pull_to_lift_front": 1,
    "tools_on_width": 1, "mobility_number": 1, "rear_share": 2, "grip_to_stop": 2, "tractive_efficiency": 2,
}  # fmt: skip


def test_there_are_formulas_in_every_module() -> None:
    modules = {f.run.__module__.rsplit(".", 1)[1] for f in DECLARED}
    assert modules == set(MODULES)
    assert len(DECLARED) > 30


def test_every_public_function_of_mechanics_is_declared() -> None:
    declared = {f.run for f in DECLARED}
    for name in MODULES:
        module = importlib.import_module(f"firstfurrow.mechanics.{name}")
        for function in vars(module).values():
            if inspect.isfunction(function) and function.__module__ == module.__name__:
                assert function in declared, f"{name}.{function.__name__} has no printed text"


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_the_printed_text_is_what_the_code_does(declared: Formula) -> None:
    rng = random.Random(declared.name)
    for _ in range(SAMPLES):
        values = sampled(declared, rng)
        code, text = declared.run(**values), evaluate(declared.text, values)
        assert text == pytest.approx(code, rel=1e-8, abs=1e-9), values


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_text_parameters_and_directions_name_the_same_things(declared: Formula) -> None:
    parameters = list(inspect.signature(declared.run).parameters)
    named = set(re.findall(r"[A-Za-z_][A-Za-z_0-9]*", declared.text)) - set(FUNCTIONS)
    assert set(declared.directions) == set(parameters) == named
    assert set(declared.directions.values()) <= {RAISES, LOWERS, EITHER}
    for name in parameters:
        assert name in RANGES, f"give {name} a range"


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_the_declared_directions_hold(declared: Formula) -> None:
    rng = random.Random(f"ways of {declared.name}")
    moved = dict.fromkeys(declared.directions, False)
    for n in range(SAMPLES):
        values = sampled(declared, rng, edges=n % 2 == 1)
        before = declared.run(**values)
        for name, way in declared.directions.items():
            more = {**values, name: rng.uniform(values[name], range_of(declared, name)[1])}
            try:
                after = declared.run(**more)
            except NoSolutionError:
                after = math.inf
            if not math.isclose(after, before, rel_tol=1e-9, abs_tol=1e-12):
                moved[name] = True
                if way == RAISES:
                    assert after > before, (name, values, more[name])
                if way == LOWERS:
                    assert after < before, (name, values, more[name])
    assert all(moved.values()), f"never moved the result: {[n for n, m in moved.items() if not m]}"


@pytest.mark.parametrize(
    ("declared", "name"),
    [
        pytest.param(f, name, id=f"{f.name}-{name}")
        for f in DECLARED
        for name, way in f.directions.items()
        if way == EITHER and (f.name, name) not in TO_BE_SAFE
    ],
)
def test_what_is_declared_to_go_either_way_goes_both_ways(declared: Formula, name: str) -> None:
    """An input that goes one way, declared so, would be tried at all its ends for nothing."""
    rng = random.Random(f"{name} of {declared.name} both ways")
    ways = set()
    for _ in range(6000):
        values = at_edges(declared, rng)
        less, more = sorted(rng.uniform(*range_of(declared, name)) for _ in range(2))
        try:
            before, after = (declared.run(**{**values, name: value}) for value in (less, more))
        except NoSolutionError:
            continue
        if not math.isclose(after, before, rel_tol=1e-9, abs_tol=1e-12):
            ways.add(after > before)
        if len(ways) == 2:
            return
    assert ways == {True, False}


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_a_result_has_the_decimals_of_its_unit(declared: Formula) -> None:
    assert declared.digits == OWN_DECIMALS.get(declared.name, DECIMALS[declared.unit])


def test_only_results_that_differ_from_their_unit_have_decimals_of_their_own() -> None:
    units = {declared.name: declared.unit for declared in DECLARED}
    assert not [name for name, digits in OWN_DECIMALS.items() if digits == DECIMALS[units[name]]]


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_every_docstring_works_an_example_with_a_number(declared: Formula) -> None:
    examples = [e for t in doctest.DocTestFinder().find(declared.run, declared.name) for e in t.examples]
    assert any(declared.name in e.source and re.search(r"\d", e.want) for e in examples)


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_every_formula_says_where_it_is_from(declared: Formula, book: Book) -> None:
    assert declared.grade in (*SOURCED, "derived", "practice")
    if declared.grade in SOURCED:
        assert declared.source in book.sources
        assert declared.where
    if declared.grade == "practice":
        assert declared.source is None
    assert bool(declared.unit) is (declared.name not in WITHOUT_UNIT)
    assert 0 <= declared.digits <= 3


# ---------------------------------------------------------------- how results scale

TOOL = {"soil_factor": 0.7, "A": 652, "B": 0, "C": 5.1, "speed": 6, "width": 0.7, "depth": 20}


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_draft_is_proportional_to_width_and_to_depth(times: float) -> None:
    one = tool_draft(**TOOL)
    assert tool_draft(**{**TOOL, "width": 0.7 * times}) == pytest.approx(times * one)
    assert tool_draft(**{**TOOL, "depth": 20 * times}) == pytest.approx(times * one)
    assert band_draft(4, 1.5 * times) == pytest.approx(times * band_draft(4, 1.5))


def test_draft_grows_with_the_square_of_speed_beyond_its_fixed_part() -> None:
    def beyond(speed: float) -> float:
        return tool_draft(**{**TOOL, "speed": speed}) - tool_draft(**{**TOOL, "speed": 0})

    assert beyond(8) == pytest.approx(4 * beyond(4))


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_power_is_proportional_to_pull_and_to_speed(times: float) -> None:
    assert drawbar_power(20 * times, 5) == pytest.approx(times * drawbar_power(20, 5))
    assert drawbar_power(20, 5 * times) == pytest.approx(times * drawbar_power(20, 5))
    assert installed_power(16, 1.5 * times) == pytest.approx(times * installed_power(16, 1.5))
    assert climb_power(1500 * times, 8, 5) == pytest.approx(times * climb_power(1500, 8, 5))
    assert climb_power(1500, 8, 5 * times) == pytest.approx(times * climb_power(1500, 8, 5))


def test_the_reserve_is_on_the_draft_and_not_on_the_climb() -> None:
    level, climbing = (shaft_power_of_pull(10, 1.25, climb, 0.8) for climb in (0, 4))
    assert level == pytest.approx(1.25 * shaft_power_of_pull(10, 1, 0, 0.8))
    assert climbing - level == pytest.approx(4 / 0.8)


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_capacity_is_bilinear(times: float) -> None:
    one = effective_capacity(5, 1.8, 80)
    assert effective_capacity(5 * times, 1.8, 80) == pytest.approx(times * one)
    assert effective_capacity(5, 1.8 * times, 80) == pytest.approx(times * one)
    assert effective_capacity(5, 1.8, 80 * times / 3) == pytest.approx(times / 3 * one)


def test_width_and_hours_are_each_others_reverse() -> None:
    width = width_needed(4, 8, 5, 80)
    assert hours_for(4, effective_capacity(5, width, 80)) == pytest.approx(8)


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_lift_is_proportional_to_the_load(times: float) -> None:
    for lift, more in ((lift_at_610, {"link": 1.2, "test": 0.61}), (lift_at_610_bound, {"test": 0.61}),
                       (lift_at_ball_ends, {"link": 1.2})):  # fmt: skip
        one = lift(load=430, distance=1.15, movement=0.85, **more)
        assert lift(load=430 * times, distance=1.15, movement=0.85, **more) == pytest.approx(times * one)


def test_the_bound_for_any_linkage_is_never_below_the_figure_for_one() -> None:
    for link in (0.8, 1.2, 4, 40):
        figure = lift_at_610(430, 1.15, link, 0.61, 0.85)
        assert figure <= lift_at_610_bound(430, 1.15, 0.61, 0.85)
    assert lift_at_610(430, 1.15, 1e-9, 0.61, 0.85) == pytest.approx(lift_at_610_bound(430, 1.15, 0.61, 0.85))


def test_a_load_inside_the_test_distance_asks_for_itself() -> None:
    assert lift_at_610(430, 0.4, 1.2, 0.61, 1) == pytest.approx(430)
    assert lift_at_610_bound(430, 0.4, 0.61, 1) == pytest.approx(430)


def test_the_two_lift_figures_of_a_tractor_give_themselves_back() -> None:
    assert lift_between(2000, 1500, 0) == pytest.approx(2000)
    assert lift_between(2000, 1500, 0.61) == pytest.approx(1500)
    link = 1.2
    ball_ends, at_610 = lift_at_ball_ends(500, 1.0, link, 1), lift_at_610(500, 1.0, link, 0.61, 1)
    assert lift_between(ball_ends, at_610, 1.0) == pytest.approx(500)


def test_pull_of_wheels_on_a_slope_is_rolling_and_grade() -> None:
    assert towed_pull(2000, 0.05, 0) == pytest.approx(2 * 9.80665 * 0.05)
    assert towed_pull(2000, 0, 30) == pytest.approx(2 * 9.80665 * 0.5)


def test_the_mass_of_the_grip_equation_balances_its_forces() -> None:
    """Put the mass back: what the driven wheels hold equals the pull, the grade and the rolling of the free wheels."""
    for pull, grip, pressed, share, rolling, angle in (
        (5, 0.4, 0, 1, 0.06, 0), (8, 0.4, 100, 1, 0.06, 8), (6, 0.35, 60, 0.62, 0.08, 5), (3, 0.28, 0, 0.6, 0.04, 4),
    ):  # fmt: skip
        mass = mass_for_pull(pull, grip, pressed, share, rolling, angle)
        sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        holds = grip * (share * mass * cosine + pressed)
        asked = pull * 1000 / 9.80665 + mass * ((1 - share) * rolling * cosine + sine)
        assert holds == pytest.approx(asked)


def test_nobody_needs_a_tractor_of_less_than_nothing() -> None:
    """What presses on the driven wheels can hold the whole pull; then the pull asks for no mass, not for less."""
    assert mass_for_pull(pull=0.3, grip=0.4, pressed_on=200, driven_share=1, rolling=0.06, angle=0) == 0


def test_wheels_without_grip_on_level_ground_pull_nothing_however_heavy() -> None:
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_for_pull(pull=1, grip=0, pressed_on=0, driven_share=1, rolling=0.06, angle=0)


@pytest.mark.parametrize("angle", [21.9, 25, 40])
def test_grip_that_cannot_hold_the_tractor_itself_has_no_solution(angle: float) -> None:
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_for_pull(pull=1, grip=0.4, pressed_on=0, driven_share=1, rolling=0.06, angle=angle)
