"""What a small farm can meet: the formulas of mechanics, and values for each of their inputs."""

from __future__ import annotations

import importlib
import pkgutil
import random

import firstfurrow.mechanics
from firstfurrow.reasoning import FORMULAS, Formula, NoSolutionError

MODULES = [module.name for module in pkgutil.iter_modules(firstfurrow.mechanics.__path__)]
for _module in MODULES:
    importlib.import_module(f"firstfurrow.mechanics.{_module}")

DECLARED = [f for run, f in FORMULAS.items() if run.__module__.startswith("firstfurrow.mechanics.")]

# By parameter name, in working units.
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
    ("turn_speed_on_slope", "angle"): (0, 18), ("centre_in_front", "loader"): (50, 900),
    ("net_of_axles", "front"): (0.1, 0.6), ("net_of_axles", "rear"): (0.1, 0.6),
}  # fmt: skip


def ids(declared: Formula) -> str:
    return declared.name


def range_of(declared: Formula, name: str) -> tuple[float, float]:
    """The range of one input of one formula; nothing but nought for one that has none."""
    return OWN_RANGES.get((declared.name, name), RANGES.get(name, (0, 0)))


def at_edges(declared: Formula, rng: random.Random) -> dict[str, float]:
    """Values most of which stand at an end of their range: what turns a direction round is often a rare mixture."""
    ends = {n: range_of(declared, n) for n in declared.directions}
    return {n: rng.choice((low, high, rng.uniform(low, high))) for n, (low, high) in ends.items()}


def sampled(declared: Formula, rng: random.Random, *, edges: bool = False) -> dict[str, float]:
    """Values within the ranges for which the formula has a solution."""
    for _ in range(1000):
        values = {n: rng.uniform(*range_of(declared, n)) for n in declared.directions}
        if edges:
            values = at_edges(declared, rng)
        try:
            declared.run(**values)
        except NoSolutionError:
            continue
        return values
    raise AssertionError(f"{declared.name} has no solution anywhere in the ranges")
