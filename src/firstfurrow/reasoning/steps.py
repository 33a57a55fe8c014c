"""Steps: one line of reasoning each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

StepType = Literal["answer", "assumption", "table", "constant", "convert", "formula", "greatest", "set", "round"]
RECOMPUTED: frozenset[str] = frozenset({"convert", "formula", "greatest", "round"})


@dataclass(slots=True, eq=False)
class Step:
    """One line of reasoning. Made by a `Ledger`, never changed afterwards."""

    id: str
    index: int
    type: StepType
    title: str
    value: Any
    unit: str
    digits: int
    formula: str | None = None
    inputs: Mapping[str, Step] | None = None
    low: float | None = None  # leaves only
    high: float | None = None
    grade: str | None = None
    source: str | None = None
    where: str | None = None
    derived_from: str | None = None
    note: str | None = None
    question: str | None = None  # answers and assumptions: which question (and item) it came from
    run: Callable[..., float] | None = None
    directions: Mapping[str, int] | None = None
    reads: tuple[tuple[str, int, float], ...] = ()  # name, index and value of each input: what working it again needs
    moves: bool = False  # it, or a leaf below it, has a low and a high end

    @property
    def ranged(self) -> bool:
        """True for a leaf that has a low and a high end."""
        return self.inputs is None and self.moves
