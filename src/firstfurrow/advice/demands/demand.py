"""A demand: what one hookup asks of one interface, with the step that it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

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


@dataclass(frozen=True, slots=True)
class Setting:
    """What a hookup is worked out against: the size class that stands in for the tractor nobody has chosen yet."""

    size_class: str
    mass: Step  # kg, in working order, for climbing
