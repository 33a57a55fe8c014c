"""The finding at a station: readings go in, four parts with sentences come out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from firstfurrow.advice.measuring import couplers, couplings, drawbar, hitch, land, ports, shaft, tongue
from firstfurrow.advice.measuring.telling import Finding, Part, Readings, Teller
from firstfurrow.book.model import Book

_STATIONS: Mapping[str, Callable[[Book, Readings], Finding]] = MappingProxyType(
    {
        "hitch": hitch.find,
        "shaft": shaft.find,
        "coupler": couplers.find,
        "drawbar": drawbar.find,
        "coupling": couplings.find,
        "ports": ports.find,
        "slope": land.find_slope,
        "area": land.find_area,
        "tongue": tongue.find,
    }
)

__all__ = ["Finding", "Part", "find"]


def find(book: Book, station: str, readings: Readings) -> tuple[Part, ...]:
    """What can be said from the readings at a station; what was not sure is not among them.

    Raises
    ------
    KeyError
        When the program knows no such station; a test goes through those of the shipped book.
    """
    found = _STATIONS[station](book, readings)
    tell = Teller(book)
    parts = (("is", found.what), ("else", found.other), ("next", found.next), ("care", found.care))
    return tuple(Part(tell(f"head_{name}"), tuple(dict.fromkeys(lines))) for name, lines in parts if lines)
