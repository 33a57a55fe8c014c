"""Conditions as data: built from YAML, evaluated, and listed by what they read."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, cast

from firstfurrow.book.model import Condition, Leaf
from firstfurrow.quantities import parse_figure_text

Scope = Literal["answer", "item", "any_item"]
SCOPES: tuple[str, ...] = ("answer", "item", "any_item")
TESTS: tuple[str, ...] = ("is", "in", "includes", "at_least", "below", "not_sure", "has")
OPS: tuple[str, ...] = ("all", "any", "not")


@dataclass(frozen=True, slots=True)
class Held:
    """An answer as a condition sees it: the planned value (also when unsure), and for a kind its features."""

    value: Any  # choice id, tuple of choice ids, number in the working unit, or None when left open
    unsure: bool = False
    features: frozenset[str] = frozenset()


# Gives what is held: nothing when the question is not answered; for `any_item` one entry for each item that has it.
Lookup = Callable[[Scope, str], Sequence[Held]]


def build(data: Mapping[str, Any]) -> Condition:
    """A condition from its YAML: `{all: [...]}`, `{any: [...]}` or `{not: [...]}`, or a single leaf.

    >>> build({"all": [{"answer": "soil", "is": "clay"}]}).parts[0].value
    'clay'
    """
    made = _part(data)
    return made if isinstance(made, Condition) else Condition("all", (made,))


def _part(data: Mapping[str, Any]) -> Condition | Leaf:
    for op in OPS:
        if op in data:
            parts = tuple(_part(part) for part in data[op])
            return Condition(cast(Literal["all", "any", "not"], op), parts)
    scope = next(s for s in SCOPES if s in data)
    test = next(t for t in TESTS if t in data)
    value = data[test]
    if test == "in":
        value = tuple(value)
    elif test in ("at_least", "below") and isinstance(value, str):
        value = parse_figure_text(value)[0]
    return Leaf(cast(Scope, scope), data[scope], cast(Any, test), value)


def evaluate(condition: Condition | None, lookup: Lookup) -> bool:
    """Whether the condition holds. A question that is not answered makes every test on it false."""
    if condition is None:
        return True
    if condition.op == "all":
        return all(_holds(part, lookup) for part in condition.parts)
    if condition.op == "any":
        return any(_holds(part, lookup) for part in condition.parts)
    return not any(_holds(part, lookup) for part in condition.parts)


def _holds(part: Condition | Leaf, lookup: Lookup) -> bool:
    if isinstance(part, Condition):
        return evaluate(part, lookup)
    return any(passes(part, held) for held in lookup(part.scope, part.subject))


def passes(leaf: Leaf, held: Held) -> bool:
    """Whether one answer passes the test of a leaf."""
    test, value = leaf.test, held.value
    if test == "not_sure":
        return held.unsure is bool(leaf.value)
    if test == "has":
        return leaf.value in held.features
    if value is None:
        return False
    if test == "is":
        return bool(value == leaf.value)
    if test == "in":
        return value in leaf.value
    if test == "includes":
        return isinstance(value, tuple | frozenset | list) and leaf.value in value
    if isinstance(value, str | tuple | frozenset | list):
        return False
    return bool(value >= leaf.value) if test == "at_least" else bool(value < leaf.value)


def leaves(condition: Condition | Leaf | None) -> Iterator[Leaf]:
    """Every leaf, in reading order."""
    if isinstance(condition, Leaf):
        yield condition
    elif condition is not None:
        for part in condition.parts:
            yield from leaves(part)
