"""The shipped book with one file of it edited, for tests of what the check says of that file."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterable

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem
from firstfurrow.book.rules import shape
from firstfurrow.book.yaml_strict import parse_marked

Rule = Callable[[Files], Iterable[Problem]]


def said_of(shipped: Files, name: str, old: str, new: str, *rules: Rule) -> list[str]:
    """What is said of the shipped file `name` with `old` once replaced: of its shape, else of its meaning."""
    text = (book_folder() / name).read_text(encoding="utf-8")
    assert old in text
    files = copy.copy(shipped)
    placed = Placed(*parse_marked(text.replace(old, new, 1), name), ())
    files.read = {**shipped.read, name: placed}
    wrong = shape.misshapen(placed, name.removesuffix(".yaml")) or [p for rule in rules for p in rule(files)]
    return [str(problem) for problem in wrong]
