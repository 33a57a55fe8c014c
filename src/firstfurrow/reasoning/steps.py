"""Steps: one line of reasoning each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

StepType = Literal["answer", "assumption", "table", "constant", "convert", "formula", "greatest", "set", "round"]
RECOMPUTED: frozenset[str] = frozenset({"convert", "formula", "greatest", "round"})


@dataclass(frozen=True, slots=True, eq=False)
class How:
    """What all steps that come about in the same way have in common; kept once, for there are many such steps."""

    type: StepType
    unit: str
    digits: int
    formula: str | None = None
    run: Callable[..., float] | None = None
    directions: Mapping[str, int] | None = None
    grade: str | None = None
    source: str | None = None
    where: str | None = None
    derived_from: str | None = None


@dataclass(slots=True, eq=False)
class Step:
    """One line of reasoning. Made by a `Ledger`, never changed afterwards."""

    index: int
    how: How
    title: str
    value: Any
    inputs: Mapping[str, Step] | None = None
    moves: bool = False  # it, or a leaf below it, has a low and a high end
    low: float | None = None  # leaves only
    high: float | None = None
    note: str | None = None
    question: str | None = None  # answers and assumptions: which question (and item) it came from

    @property
    def id(self) -> str:
        """What the step is called on the page."""
        return f"s{self.index + 1}"

    @property
    def type(self) -> StepType:
        """Of which sort it is."""
        return self.how.type

    @property
    def unit(self) -> str:
        """The unit of its value."""
        return self.how.unit

    @property
    def digits(self) -> int:
        """The decimals that its value is rounded to."""
        return self.how.digits

    @property
    def formula(self) -> str | None:
        """The formula with the names of its inputs; None for what is not computed."""
        return self.how.formula

    @property
    def run(self) -> Callable[..., float] | None:
        """The formula as a function."""
        return self.how.run

    @property
    def directions(self) -> Mapping[str, int] | None:
        """Which way each input moves it."""
        return self.how.directions

    @property
    def grade(self) -> str | None:
        """How well its figure or formula is founded."""
        return self.how.grade

    @property
    def source(self) -> str | None:
        """The id of the source that says so."""
        return self.how.source

    @property
    def where(self) -> str | None:
        """Where in the source."""
        return self.how.where

    @property
    def derived_from(self) -> str | None:
        """What a derived figure is derived from."""
        return self.how.derived_from

    @property
    def ranged(self) -> bool:
        """True for a leaf that has a low and a high end."""
        return self.inputs is None and self.moves
