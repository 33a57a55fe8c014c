"""Every printed formula in SI units: what is added has one dimension, and with no factor between units it still holds.

Each input gets its unit; what stands in a text only to bring one unit to another (3.6, 1000, 9549.3) is struck out.
The rest, worked out in metres, kilograms and seconds, must have the dimension of the declared unit and be what the
code gives in that unit. So a wrong factor, a wrong unit, and a term that does not belong to the sum are found without
a known result.
"""

from __future__ import annotations

import ast
import math
import random
from dataclasses import dataclass

import pytest
from farm_ranges import DECLARED, ids, sampled

from firstfurrow.mechanics import STANDARD_GRAVITY
from firstfurrow.reasoning import Formula

Dimension = tuple[int, int, int]  # powers of m, kg, s
NONE: Dimension = (0, 0, 0)


@dataclass(frozen=True, slots=True)
class Amount:
    """A number in SI units and its dimension."""

    value: float
    of: Dimension = NONE

    def times(self, other: Amount, power: int = 1) -> Amount:
        a, b = self.of, other.of
        of = (a[0] + power * b[0], a[1] + power * b[1], a[2] + power * b[2])
        return Amount(self.value * other.value**power, of)


# Definitions: SI brochure; inch 0.0254 m; hour 3600 s; hectare 10 000 m2; standard gravity by CGPM 1901.
SI: dict[str, Amount] = {
    "m": Amount(1, (1, 0, 0)), "cm": Amount(0.01, (1, 0, 0)), "mm": Amount(0.001, (1, 0, 0)),
    "km": Amount(1000, (1, 0, 0)), "in": Amount(0.0254, (1, 0, 0)), "ha": Amount(1e4, (2, 0, 0)),
    "cm2": Amount(1e-4, (2, 0, 0)), "L": Amount(1e-3, (3, 0, 0)), "kg": Amount(1, (0, 1, 0)),
    "g": Amount(1e-3, (0, 1, 0)), "t": Amount(1000, (0, 1, 0)), "s": Amount(1, (0, 0, 1)),
    "min": Amount(60, (0, 0, 1)), "h": Amount(3600, (0, 0, 1)), "N": Amount(1, (1, 1, -2)),
    "kN": Amount(1e3, (1, 1, -2)), "bar": Amount(1e5, (-1, 1, -2)), "kPa": Amount(1e3, (-1, 1, -2)),
    "kW": Amount(1e3, (2, 1, -3)), "kWh": Amount(3.6e6, (2, 1, -2)), "deg": Amount(math.pi / 180),
    "turn": Amount(2 * math.pi), "%": Amount(0.01), "K": Amount(1), "day": Amount(1), "sets": Amount(1),
    "1": Amount(1), "": Amount(1),
}  # fmt: skip

# Inputs by unit. What is not named is a plain number: a share, a ratio, a count.
INPUTS = {
    "kg": "mass axle front rear front_axle rear_axle empty total payload counterweight carried weights loader towed "
    "cap trailer gross_rating fluids pressed_on lifted_front_axle load ball_ends at_610 reading board_only front_load "
    "rear_load",
    "m": "ahead wheelbase overhang reach raised centre_height behind payload_height counter_height height "
    "carried_height hitch_height pivot_height track radius centre_ahead wheel_radius width pass_length opening margin "
    "distance link test gap board pace beam arm spacing diameter weights_ahead loader_ahead altitude free unloaded "
    "loaded",
    "cm": "depth", "mm": "bore stroke span ball", "in": "rim", "ha": "area", "h": "hours", "s": "seconds turn_seconds",
    "km/h": "speed", "deg": "angle", "m/s/s": "deceleration", "kPa": "cone_index", "bar": "pressure", "L/min": "flow",
    "L": "volume", "kg/L": "density", "L/kWh": "per_work", "g/kWh": "specific", "ha/h": "capacity",
    "1/min": "revolutions", "h/day": "hours_a_day", "K": "above", "kN": "pull draft", "kN/m": "force_per_width",
    "kN/1": "force_per_tool", "1/m": "tools_per_width", "kg/cm2": "specific_draft", "kg/m": "mass_per_width",
    "%": "efficiency table_efficiency workable front_share slope loss loss_per_step",
    "kW": "power draft_power climb installed mean travel shaft oil a", "kW/m": "power_per_width", "t/h": "feed",
    "kWh/t": "c", "N/m/cm": "A", "N h/m/cm/km": "B", "N h h/m/cm/km/km": "C",
}  # fmt: skip
OWN_INPUTS = {
    ("axle_share", "share"): "%", ("tongue_load", "share"): "%", ("altitude_loss", "step"): "m",
    ("heat_loss", "step"): "K", ("oil_power", "efficiency"): "1", ("shaft_torque", "speed"): "turn/min",
    ("rotary_power", "b"): "kW/m", ("mobility_number", "load"): "kN", ("fuel_per_work", "load"): "1",
    ("fuel_per_work_older", "load"): "1", ("share_of_hole", "width"): "mm", ("net_of_axles", "front"): "1",
    ("net_of_axles", "rear"): "1", ("band_place", "low"): "kW/m", ("band_place", "typical"): "kW/m",
    ("band_place", "high"): "kW/m", ("band_place_power", "low"): "kW", ("band_place_power", "typical"): "kW",
    ("band_place_power", "high"): "kW",
}  # fmt: skip
# Numbers of a text that are measured: their units.
FIGURES = {
    str(STANDARD_GRAVITY): "m/s/s", "0.61": "m",  # the test distance behind the ball ends
    "0.22": "L/kWh", "0.096": "L/kWh", "2.64": "L/kWh", "3.91": "L/kWh", "0.203": "L/kWh", "0.223": "L/kWh",
    "65": "kW", "0.31": "kN/kW", "0.155": "kN/kW",
}  # fmt: skip
# Numbers that only bring one unit to another: what is left of them.
FACTORS = {
    "3.6": 1, "10": 1, "60": 1, "100": 1, "600": 1, "1000": 1, "3600": 1, "10000": 1, "1000000": 1, "2000": 2,
    "0.0254": 1, "9549.3": 1,
}  # fmt: skip


def amount(value: float, unit: str) -> Amount:
    """A number in a unit such as kN, N m, kWh/ha or m/s/s."""
    found = Amount(value)
    above, *below = unit.split("/")
    for part in above.split(" "):
        found = found.times(SI[part])
    for part in below:
        found = found.times(SI[part], -1)
    return found


def same(one: Amount, other: Amount) -> None:
    assert one.of == other.of, f"{one} and {other} are of different sorts"


def worked(node: ast.expr, inputs: dict[str, Amount]) -> Amount:
    if isinstance(node, ast.Constant):
        text = str(node.value)
        return amount(node.value, FIGURES[text]) if text in FIGURES else Amount(FACTORS.get(text, node.value))
    if isinstance(node, ast.Name):
        return inputs[node.id]
    if isinstance(node, ast.UnaryOp):
        assert isinstance(node.op, ast.USub)
        return worked(node.operand, inputs).times(Amount(-1))
    if isinstance(node, ast.Call):
        assert isinstance(node.func, ast.Name)
        return called(node.func.id, [worked(argument, inputs) for argument in node.args])
    assert isinstance(node, ast.BinOp)
    left, right = worked(node.left, inputs), worked(node.right, inputs)
    if isinstance(node.op, ast.Mult):
        return left.times(right)
    if isinstance(node.op, ast.Div):
        return left.times(right, -1)
    if isinstance(node.op, ast.Pow):
        assert right.of == NONE
        if left.of == NONE:
            return Amount(left.value**right.value)
        assert right.value == 2
        return left.times(left)
    if isinstance(node.op, ast.Add | ast.Sub):
        if nothing(left) or nothing(right):
            return left if nothing(right) else right
        same(left, right)
        sign = 1 if isinstance(node.op, ast.Add) else -1
        return Amount(left.value + sign * right.value, left.of)
    raise AssertionError(ast.unparse(node))


def nothing(one: Amount) -> bool:
    return one == Amount(0)


def called(name: str, given: list[Amount]) -> Amount:
    first = given[0]
    if name in ("min", "max"):
        for other in given[1:]:
            if not nothing(other):
                same(first, other)
        return Amount({"min": min, "max": max}[name](one.value for one in given), first.of)
    if name == "sqrt":
        assert all(power % 2 == 0 for power in first.of)
        return Amount(math.sqrt(first.value), (first.of[0] // 2, first.of[1] // 2, first.of[2] // 2))
    assert first.of == NONE
    if name == "down":
        return Amount(math.floor(first.value / given[1].value) * given[1].value)
    return Amount({"sin": math.sin, "cos": math.cos, "tan": math.tan, "atan": math.atan}[name](first.value))


UNIT_OF = {name: unit for unit, names in INPUTS.items() for name in names.split()}


def unit_of(declared: Formula, name: str) -> str:
    return OWN_INPUTS.get((declared.name, name), UNIT_OF.get(name, "1"))


@pytest.mark.parametrize("declared", DECLARED, ids=ids)
def test_in_si_units_a_formula_holds_without_any_factor_between_units(declared: Formula) -> None:
    rng = random.Random(f"units of {declared.name}")
    tree = ast.parse(declared.text, mode="eval").body
    for _ in range(10):
        values = sampled(declared, rng)
        inputs = {name: amount(value, unit_of(declared, name)) for name, value in values.items()}
        found, stated = worked(tree, inputs), amount(declared.run(**values), declared.unit)
        same(found, stated)
        assert found.value == pytest.approx(stated.value, rel=1e-6, abs=1e-9), values
