"""Formula texts: names, numbers, + - * / ** and a few named functions (angles in degrees), read and worked out."""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Mapping
from functools import lru_cache


def _up(value: float, step: float) -> float:
    """Round up to a multiple of `step`; a value already on a multiple (to nine digits) stays.

    >>> _up(23.4, 1), _up(24, 1), _up(0.31, 0.05)
    (24.0, 24.0, 0.35)
    """
    return round(math.ceil(round(value / step, 9)) * step, 9) + 0.0


def _down(value: float, step: float) -> float:
    """Round down to a multiple of `step`.

    >>> _down(2.44, 0.05)
    2.4
    """
    return round(math.floor(round(value / step, 9)) * step, 9) + 0.0


def _nearest(value: float, step: float) -> float:
    """Round to the nearest multiple of `step`."""
    return round(math.floor(value / step + 0.5) * step, 9) + 0.0


FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "sqrt": math.sqrt,
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
    "atan": lambda ratio: math.degrees(math.atan(ratio)),
    "up": _up,
    "down": _down,
    "nearest": _nearest,
}
_OPERATORS: Mapping[type[ast.AST], Callable[..., float]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.Pow: lambda a, b: a**b,
    ast.USub: lambda a: -a,
    ast.UAdd: lambda a: +a,
}


def evaluate(text: str, values: Mapping[str, float]) -> float:
    """Work out a formula text: names, numbers, + - * / **, and the named functions (angles in degrees).

    >>> evaluate("soil_factor * (A + C * speed**2)", {"soil_factor": 0.7, "A": 652, "C": 5.1, "speed": 6})
    584.92

    Raises
    ------
    ValueError
        When the text holds anything else.
    """
    return _walk(_tree(text), values)


@lru_cache(maxsize=4096)
def _tree(text: str) -> ast.expr:
    """The formula text as a tree; each text is read once."""
    return ast.parse(text, mode="eval").body


def _walk(node: ast.expr, values: Mapping[str, float]) -> float:
    if isinstance(node, ast.Constant) and type(node.value) in (int, float):
        return float(node.value)  # type: ignore[arg-type]
    if isinstance(node, ast.Name):
        return values[node.id]
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        return _OPERATORS[type(node.op)](_walk(node.left, values), _walk(node.right, values))
    if isinstance(node, ast.UnaryOp) and type(node.op) in _OPERATORS:
        return _OPERATORS[type(node.op)](_walk(node.operand, values))
    if isinstance(node, ast.Call) and not node.keywords and isinstance(node.func, ast.Name):
        function = FUNCTIONS.get(node.func.id)
        if function is not None:
            return function(*(_walk(argument, values) for argument in node.args))
    raise ValueError(f"not allowed in a formula: {ast.unparse(node)}")


def evaluator(text: str) -> Callable[..., float]:
    """The formula text as a function of its names."""
    found = _tree(text)

    def run(**values: float) -> float:
        return _walk(found, values)

    return run
