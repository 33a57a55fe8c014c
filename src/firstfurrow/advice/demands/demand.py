"""A demand: what one hookup asks of one interface, with the step that it rests on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from firstfurrow.advice.desk import Desk
from firstfurrow.book.model import Row
from firstfurrow.mechanics.axles import axle_share, other_axle, rear_share
from firstfurrow.reasoning import Step


@dataclass(frozen=True, slots=True)
class Demand:
    """`value` is a number for floors and ceilings, a tuple of allowed words or numbers for sets, a word for levels."""

    requirement: str
    hookup: str  # item id; "tow", "space" or "you" for what is not an item
    name: str
    value: Any
    top: Step
    notes: tuple[str, ...] = ()
    more: Callable[[], tuple[str, ...]] | None = None  # notes worked out only for the demand that governs

    @property
    def all_notes(self) -> tuple[str, ...]:
        """The notes, those with lines of their own included."""
        return self.notes if self.more is None else (*self.notes, *self.more())


class Setting:
    """What a hookup is worked out against: the size class that stands in for the tractor nobody has chosen yet.

    Its mass becomes steps only when something climbs.
    """

    def __init__(self, desk: Desk, row: Row, loader: bool) -> None:
        self.key = (row.id, loader)
        self.row = row
        self.loader = loader
        self._desk = desk

    @property
    def name(self) -> str:
        """What the class is called."""
        return self.row.name

    @property
    def empty(self) -> float:
        """Mass in kg of the bare tractor."""
        return self.row["mass"].planning

    @property
    def covers(self) -> float:
        """Mass in kg that the class itself brings for grip: the usual tractor and the driver, never the loader.

        A loader that may be off must not make a smaller tractor do.
        """
        return self.row["mass"].planning + self._desk.book.choice("operator_mass").planning

    @cached_property
    def mass(self) -> Step:
        """Mass in kg, in working order, for climbing."""
        desk, row = self._desk, self.row
        kept = desk.kept(("setting", self.key))
        if kept is not None:
            return kept
        parts = {"tractor": desk.cell("size_classes", row.id, "mass")}
        if self.loader:
            parts["loader"] = desk.cell("size_classes", row.id, "loader_mass")
        parts["driver"] = desk.choice("operator_mass")
        return desk.keep(("setting", self.key), desk.ledger.sum(desk.say("setting_mass", row=row.name), parts))

    def cell(self, column: str) -> Step:
        """A figure of the class as typical, without its spread: the class stands for itself, not for its members."""
        return typical(self._desk, self.row, column)

    @cached_property
    def front_axle(self) -> Step:
        """Load in kg on the front axle of the bare tractor."""
        return self._kept(
            "front_axle",
            lambda title: self._desk.ledger.work(
                axle_share, title, mass=self.cell("mass"), share=self.cell("front_share")
            ),
        )

    @cached_property
    def rear_axle(self) -> Step:
        """Load in kg on the rear axle of the bare tractor."""
        return self._kept("rear_axle", lambda title: self._desk.ledger.work(
            other_axle, title, mass=self.cell("mass"), axle=self.front_axle
        ))  # fmt: skip

    @cached_property
    def rear_share(self) -> Step:
        """Share of the bare tractor on its rear axle."""
        return self._kept("rear_share", lambda title: self._desk.ledger.work(
            rear_share, title, front_share=self.cell("front_share")
        ))  # fmt: skip

    def _kept(self, name: str, make: Callable[[str], Step]) -> Step:
        key = ("setting", self.row.id, name)
        desk = self._desk
        return desk.kept(key) or desk.keep(key, make(desk.say(f"setting_{name}", row=self.row.name)))


def typical(desk: Desk, row: Row, column: str, sentence: str | None = None) -> Step:
    """A figure of a size class as typical, without its spread."""
    key = ("size_classes", row.id, column, "typical")
    found = desk.kept(key)
    if found is None:
        exact = replace(row[column], low=row[column].planning, high=row[column].planning)
        title = desk.say(sentence or f"cell.size_classes.{column}", row=row.name)
        found = desk.keep(key, desk.figure(key, exact, title))
    return found
