"""A demand: what one hookup asks of one interface, with the step that it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from firstfurrow.advice.desk import Desk
from firstfurrow.book.model import Row
from firstfurrow.reasoning import Step


@dataclass(frozen=True, slots=True)
class Demand:
    """`value` is a number for floors and ceilings, a tuple of allowed words or numbers for sets, a word for levels."""

    requirement: str
    hookup: str  # item id; "tow", "front_load" or "space" for what is not an item
    name: str
    value: Any
    top: Step
    notes: tuple[str, ...] = ()


class Setting:
    """What a hookup is worked out against: the size class that stands in for the tractor nobody has chosen yet.

    Its mass becomes steps only when something climbs.
    """

    def __init__(self, desk: Desk, row: Row, loader: bool) -> None:
        self.key = (row.id, loader)
        self._desk = desk
        self._row = row
        self._loader = loader

    @property
    def empty(self) -> float:
        """Mass in kg of the bare tractor."""
        return self._row["mass"].planning

    @property
    def covers(self) -> float:
        """Mass in kg that the class itself brings for grip: the usual tractor and the driver, never the loader.

        A loader that may be off must not make a smaller tractor do.
        """
        return self._row["mass"].planning + self._desk.book.choice("operator_mass").planning

    @cached_property
    def mass(self) -> Step:
        """Mass in kg, in working order, for climbing."""
        desk, row = self._desk, self._row
        kept = desk.kept(("setting", self.key))
        if kept is not None:
            return kept
        parts = {"tractor": desk.cell("size_classes", row.id, "mass")}
        if self._loader:
            parts["loader"] = desk.cell("size_classes", row.id, "loader_mass")
        parts["driver"] = desk.choice("operator_mass")
        return desk.keep(("setting", self.key), desk.ledger.sum(desk.say("setting_mass", row=row.name), parts))
