"""One thing known about the buyer's land, job or implement: its value with both ends, and where it came from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

Origin = Literal["said", "assumed", "missing"]


@dataclass(frozen=True, slots=True)
class Fact:
    """A number in the working unit of its dimension.

    `origin` is said (the buyer answered), assumed (not sure: planned from the book) or missing (not asked yet: planned
    the same way, but not listed as an assumption).
    """

    question: str  # question id, with the item before it where it belongs to one: i2.depth
    dimension: str
    value: float
    low: float
    high: float
    origin: Origin
    text: str | None = None  # as typed

    @property
    def ranged(self) -> bool:
        """True when low and high differ."""
        return self.low != self.high


@dataclass(frozen=True, slots=True)
class Pick:
    """A choice of the buyer: the choice id planned with, and the ids at the easy and the hard end."""

    question: str
    value: str
    low: str
    high: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Assumption:
    """Something the plan took because nobody knew: shown in the profile, with how to find it out."""

    question: str  # question id, with the item before it where it belongs to one
    item: str | None
    text: str  # what was taken
    range: str | None  # the range it may lie in, as text
    moves: tuple[str, ...]  # requirement ids
    how: str | None  # guide id


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Something that was left out of the plan because the buyer was not sure of wanting it."""

    question: str
    item: str | None
    text: str


@lru_cache(maxsize=4096)
def decimals(*values: float | None, most: int = 4) -> int:
    """The fewest decimals that show all the values exactly, up to `most`.

    >>> decimals(0.31, 2.0, 14), decimals(3), decimals(1/3)
    (2, 0, 4)
    """
    for digits in range(most):
        if all(abs(round(v, digits) - v) < 1e-9 for v in values if v is not None):
            return digits
    return most
