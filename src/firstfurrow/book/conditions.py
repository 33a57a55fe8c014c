"""Conditions as data: built from YAML, evaluated, listed by what they read, and put into words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal, cast

from firstfurrow.book.model import Book, Condition, Kind, Leaf, Question
from firstfurrow.quantities import DIMENSIONS, format_number, parse_figure_text

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


def readers(condition: Condition | None) -> tuple[tuple[Scope, str], ...]:
    """The subjects that the condition reads, each once, in reading order."""
    return tuple(dict.fromkeys((leaf.scope, leaf.subject) for leaf in leaves(condition)))


def depth(condition: Condition | Leaf) -> int:
    """How many levels of all, any and not stand over the deepest leaf."""
    if isinstance(condition, Leaf):
        return 0
    return 1 + max((depth(part) for part in condition.parts), default=0)


# ------------------------------------------------------------------ in words


def words(condition: Condition | None, book: Book) -> str:
    """The condition as part of a sentence: `you chose "some is hilly" at "What is your land like?"`."""
    if condition is None or not condition.parts:
        return "always"
    return _words(condition, book)


def _words(part: Condition | Leaf, book: Book) -> str:
    if isinstance(part, Leaf):
        return _leaf_words(part, book)
    inner = [_words(p, book) for p in part.parts]
    if len(inner) > 1:
        inner = [f"({w})" if isinstance(p, Condition) and len(p.parts) > 1 else w
                 for p, w in zip(part.parts, inner, strict=True)]  # fmt: skip
    if part.op == "not":
        return f"not ({' or '.join(inner)})"
    return (" and " if part.op == "all" else " or ").join(inner)


_FEATURE_WORDS = {
    "shaft": "is turned by the shaft",
    "oil": "is moved by oil",
    "oil_options": "can have more things moved by oil",
    "three_point": "hangs on the three arms",
    "wheels": "is always pulled on its own wheels",
    "drawbar": "is pulled",
    "loader": "sits on the front loader",
    "mid_mount": "hangs under the tractor",
    "variants": "is built in more than one way",
    "sizes": "is sold in more than one size",
    "width": "is sized by its width",
    "load": "carries a load",
    "depth": "works at a depth",
}


def _leaf_words(leaf: Leaf, book: Book) -> str:
    who = "at least one implement" if leaf.scope == "any_item" else "the implement"
    if leaf.test == "has":
        return f"{who} {_FEATURE_WORDS.get(leaf.value, str(leaf.value))}"
    question = find_question(book, leaf.subject)
    asked = f'"{question.ask}"' if question is not None else leaf.subject
    if leaf.scope == "any_item":
        asked += " for at least one implement"
    if leaf.test == "not_sure":
        return f"you were {'not sure' if leaf.value else 'sure'} at {asked}"
    if leaf.test == "at_least":
        return f"you answered {_number(leaf.value, question)} or more at {asked}"
    if leaf.test == "below":
        return f"you answered less than {_number(leaf.value, question)} at {asked}"
    chosen = leaf.value if isinstance(leaf.value, tuple) else (leaf.value,)
    return f"you chose {' or '.join(_label(c, question, book) for c in chosen)} at {asked}"


def _number(value: Any, question: Question | None) -> str:
    unit = DIMENSIONS[question.dimension].working if question is not None and question.dimension else ""
    return f"{format_number(float(value), 2)} {unit}".rstrip()


def _label(choice: Any, question: Question | None, book: Book) -> str:
    if question is not None:
        for known in question.choices:
            if known.id == choice:
                return f'"{known.label}"'
        if question.type == "kind" and choice in book.kinds:
            kind: Kind = book.kinds[choice]
            return f'"{kind.name}"'
    return f'"{choice}"'


def find_question(book: Book, question_id: str) -> Question | None:
    """The question with that id, wherever it is asked."""
    for section in book.sections:
        for question in section.questions:
            if question.id == question_id:
                return question
        if section.group is not None:
            for question in (*section.group.questions, section.group.closes):
                if question.id == question_id:
                    return question
    return None
