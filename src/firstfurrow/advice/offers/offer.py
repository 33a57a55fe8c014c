"""An offer: a name, and what is known of one tractor, each value in its working unit and as it was written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Said:
    """One thing that an offer says: a number, or a tuple of numbers or words where several may be written."""

    value: Any
    text: str
    place: str = ""  # file and line, for messages; "" where that of the offer says enough


@dataclass(frozen=True, slots=True)
class Offer:
    """One tractor as it is offered. What is not in `said` is not known."""

    name: str
    place: str
    said: Mapping[str, Said]

    def get(self, key: str) -> Any:
        """The value under a key; None where it is not known."""
        found = self.said.get(key)
        return None if found is None else found.value


@dataclass(frozen=True, slots=True)
class Offers:
    """What could be read of one or more files, and a sentence for each thing that could not."""

    offers: tuple[Offer, ...]
    problems: tuple[str, ...]
