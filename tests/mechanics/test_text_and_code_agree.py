"""Every mechanics formula: printed text and code agree, directions hold, results scale as physics does."""

from __future__ import annotations

import doctest
import importlib
import inspect
import math
import pkgutil
import random
import re

import pytest

import firstfurrow.mechanics
from firstfurrow.book.model import SOURCED, Book
from firstfurrow.mechanics.capacity import effective_capacity, hours_for, width_needed
from firstfurrow.mechanics.draft import band_draft, tool_draft, towed_pull
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.mechanics.hitch import lift_at_610, lift_at_610_bound, lift_at_ball_ends, lift_between
from firstfurrow.mechanics.power import climb_power, drawbar_power, installed_power, shaft_power_of_pull
from firstfurrow.reasoning import EITHER, FORMULAS, FUNCTIONS, LOWERS, RAISES, Formula, NoSolutionError, evaluate

MODULES = [module.name for module in pkgutil.iter_modules(firstfurrow.mechanics.__path__)]
for _module in MODULES:
    importlib.import_module(f"firstfurrow.mechanics.{_module}")

DECLARED = [f for run, f in FORMULAS.items() if run.__module__.startswith("firstfurrow.mechanics.")]
SAMPLES = 200
# Results that are a plain number or a share of one.
WITHOUT_UNIT = {
    "tools_on_width", "rear_share", "after_drive", "grip_to_stop", "mobility_number", "motion_resistance_ratio",
    "motion_resistance_ratio_radial", "towed_wheel_ratio", "gross_traction_ratio", "gross_traction_ratio_radial",
    "net_traction_ratio", "tractive_efficiency", "slip_of_advance", "slip_by_counting", "net_of_axles",
}  # fmt: skip

# What a small farm can meet, by parameter name, in working units.
RANGES: dict[str, tuple[float, float]] = {
    # land and time
    "area": (0.05, 40), "hours": (1, 40), "days": (1, 20), "hours_a_day": (1, 12), "workable": (30, 100),
    "speed": (0.5, 25), "width": (0.3, 6), "efficiency": (40, 95), "capacity": (0.05, 8), "table_efficiency": (50, 92),
    "pass_length": (10, 600), "turn_seconds": (5, 40), "altitude": (0, 4000), "free": (0, 500), "step": (200, 400),
    "loss_per_step": (1, 4), "loss": (0, 60), "slope": (0, 45), "angle": (0, 25), "rolling": (0.01, 0.25),
    # pull
    "soil_factor": (0.4, 1), "A": (10, 700), "B": (0, 30), "C": (0, 8), "depth": (1, 50), "draft": (0.1, 40),
    "spread": (0.4, 1.6), "force_per_width": (0.5, 8), "force_per_tool": (0.5, 15), "tools": (1, 24),
    "tools_per_width": (1, 8), "specific_draft": (0.2, 1.2), "speed_factor": (1, 2), "pull": (0.3, 30),
    "grip": (0.15, 0.6), "pressed_on": (0, 600), "driven_share": (0.55, 1), "mass": (50, 9000), "share": (0.5, 20),
    # power
    "draft_power": (0, 40), "reserve": (1, 1.4), "climb": (0, 25), "ratio": (0.5, 0.9), "low": (2, 9),
    "typical": (9, 16), "high": (16, 40), "place": (-1, 1), "power_per_width": (2, 30), "installed": (1, 80),
    "a": (0, 10), "b": (0, 10), "c": (0, 4), "feed": (0, 20), "mean": (0.5, 60), "travel": (0, 25), "power": (1, 120),
    "shaft": (1, 100), "oil": (0, 20),
    # oil, lift, envelope
    "bore": (20, 130), "stroke": (50, 1200), "volume": (0.1, 20), "seconds": (1, 60), "pressure": (80, 250),
    "flow": (5, 100), "load": (10, 3000), "distance": (0.1, 3), "link": (0.8, 4), "test": (0.5, 0.7),
    "movement": (0.7, 1), "empty": (20, 3000), "carried": (0, 5000), "mass_per_width": (50, 900),
    "at_610": (200, 1999), "ball_ends": (2000, 5000), "opening": (1, 12), "margin": (0, 1),
    "towed": (50, 9000), "front": (0, 400), "ahead": (0.3, 1.2), "wheelbase": (1.3, 3), "front_axle": (200, 3000),
    "rear": (50, 1500), "overhang": (0.5, 1.3), "reach": (0.2, 1.6), "front_share": (30, 60), "raised": (0.5, 1.2),
    "centre_height": (0.5, 1.2), "kept": (0.05, 0.2), "rear_axle": (200, 4000), "axle": (200, 4000),
    # stopping, side slope, loader
    "deceleration": (0, 3), "rear_share": (0.5, 0.7), "hitch_height": (0.25, 0.6), "cap": (500, 4000),
    "track": (0.8, 2), "pivot_height": (0.25, 0.5), "height": (0.5, 1.2), "carried_height": (0.3, 2),
    "radius": (2, 20), "centre_ahead": (0.4, 1.2), "wheel_radius": (0.25, 0.8), "lifted_front_axle": (100, 800),
    "total": (4000, 9000), "payload": (50, 2000), "behind": (0.5, 1.3), "payload_height": (0.3, 3),
    "counter_height": (0.3, 1), "counterweight": (0, 800),
    # tyres, fuel, heat, hauling
    "cone_index": (300, 1800), "diameter": (0.5, 1.8), "deflection": (0.1, 0.3), "mobility": (8, 90),
    "slip": (0.02, 0.3), "gross": (0.3, 0.9), "net": (0.1, 0.6), "resistance": (0.04, 0.2), "unloaded": (3, 5),
    "loaded": (2, 3), "loaded_turns": (10, 12), "unloaded_turns": (7, 10), "revolutions": (500, 2500),
    "discs": (8, 40), "spacing": (0.15, 0.3), "factor": (0.3, 1.2), "per_work": (0.3, 0.8), "specific": (220, 400),
    "density": (0.7, 0.9), "above": (0, 15), "gross_rating": (1000, 9000),
    "trailer": (200, 2000), "loader": (0, 900), "fluids": (0, 300),
    "rim": (8, 42), "height_share": (0.5, 1.1), "front_load": (1, 20), "rear_load": (1, 30), "weights": (0, 400),
    "weights_ahead": (0.3, 0.7), "loader_ahead": (0.5, 1.2),
    # measuring by hand
    "gap": (0, 0.6), "board": (0.8, 3), "part": (0.5, 1), "paces": (5, 400), "paces_across": (5, 400),
    "pace": (0.5, 1), "reading": (20, 150), "board_only": (0, 20), "beam": (0.5, 2), "arm": (0.1, 0.5),
    "ports": (5, 20), "returns": (0, 4), "span": (400, 1200), "ball": (30, 60),
}  # fmt: skip
OWN_RANGES: dict[tuple[str, str], tuple[float, float]] = {
    ("engine_power_usual", "share"): (0.7, 0.95), ("shaft_torque", "speed"): (400, 2200),
    ("oil_power", "efficiency"): (0.6, 1), ("mass_for_pull", "angle"): (0, 6), ("lift_between", "distance"): (0, 0.61),
    ("mass_to_hold", "ratio"): (0.8, 2), ("mass_for_balance_uphill", "angle"): (0, 12),
    ("front_ballast", "empty"): (500, 7000), ("rear_ballast", "empty"): (500, 7000),
    ("most_behind", "empty"): (500, 7000), ("most_on_tongue", "empty"): (500, 7000),
    ("grip_to_stop", "ratio"): (0, 3), ("share_or_cap", "share"): (0.1, 0.6), ("counterweight", "share"): (0.15, 0.3),
    ("after_drive", "kept"): (0.7, 1), ("track_for_side_slope", "angle"): (1, 25),
    ("track_for_side_slope", "share"): (0.3, 1), ("side_grip_angle", "share"): (1, 2),
    ("centre_of_mass_height", "angle"): (5, 25), ("centre_of_mass_height", "mass"): (6000, 9000),
    ("mobility_number", "width"): (0.15, 0.7), ("mobility_number", "load"): (2, 40), ("heat_loss", "step"): (2, 3),
    ("disc_width", "diameter"): (0.3, 0.7), ("rolling_speed", "ratio"): (10, 300), ("fuel_per_work", "load"): (0.1, 1),
    ("fuel_per_work_older", "load"): (0.1, 1), ("overall_diameter", "width"): (0.1, 0.8),
    ("net_of_axles", "front"): (0.1, 0.6), ("net_of_axles", "rear"): (0.1, 0.6),
}  # fmt: skip


def ids(declared: Formula) -> str:
    return declared.name


def sampled(declared: Formula, rng: random.Random) -> dict[str, float]:
    """Values within the ranges for which the formula has a solution."""
    for _ in range(1000):
        values = {
            n: rng.uniform(*OWN_RANGES.get((declared.name, n), RANGES.get(n, (0, 0)))) for n in declared.directions
        }
        try:
            declared.run(**values)
        except NoSolutionError:
            continue
        return values
    raise AssertionError(f"{declared.name} has no solution anywhere in the ranges")


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
    for _ in range(SAMPLES):
        values = sampled(declared, rng)
        before = declared.run(**values)
        for name, way in declared.directions.items():
            end = OWN_RANGES.get((declared.name, name), RANGES[name])[1]
            more = {**values, name: rng.uniform(values[name], end)}
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


@pytest.mark.parametrize("angle", [21.9, 25, 40])
def test_grip_that_cannot_hold_the_tractor_itself_has_no_solution(angle: float) -> None:
    with pytest.raises(NoSolutionError, match="however heavy"):
        mass_for_pull(pull=1, grip=0.4, pressed_on=0, driven_share=1, rolling=0.06, angle=angle)
