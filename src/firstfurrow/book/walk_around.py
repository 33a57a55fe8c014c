"""The walk around a tractor, from its YAML: stops with the keys filled in there, and the numbered boxes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from firstfurrow.book.lazy import LazyWhole
from firstfurrow.book.model import Book, OfferKey, Round, Stop
from firstfurrow.quantities import Units

LAST = "papers"  # where a key goes that an edited book has and no stop names


@dataclass(frozen=True, slots=True)
class Box:
    """One numbered thing to fill in: its number, where one stands, and what it is."""

    number: int
    stop: Stop
    key: OfferKey


def walk_round(data: Callable[[], Mapping[str, Any]]) -> Round:
    """All of it, read when it is first looked at."""
    return Round(
        bring=LazyWhole(lambda: tuple(data()["bring"])),
        cautions=LazyWhole(lambda: tuple(data()["cautions"])),
        units=LazyWhole(lambda: tuple((name, u["us"], u["metric"]) for name, u in data()["units"].items())),
        stops=LazyWhole(lambda: tuple(_stop(s) for s in data()["stops"])),
    )


def _stop(data: Mapping[str, Any]) -> Stop:
    return Stop(data["id"], data["title"], data["look"], tuple(data["cautions"]), tuple(data["keys"]))


def boxes(book: Book) -> tuple[Box, ...]:
    """Every key of an offer once, in the order walked.

    A key that the walk does not name (an edited book beside the shipped walk) comes last, among the papers.
    """
    assert book.round is not None
    stops = tuple(book.round.stops)
    named = {key for stop in stops for key in stop.keys}
    left = tuple(key for key in book.offer_keys if key not in named)
    last = next((stop for stop in stops if stop.id == LAST), stops[-1])
    pairs = [
        (stop, key) for stop in stops for key in (*stop.keys, *(left if stop is last else ())) if key in book.offer_keys
    ]
    return tuple(Box(number, stop, book.offer_keys[key]) for number, (stop, key) in enumerate(pairs, 1))


def unit_of(book: Book, key: OfferKey, units: Units) -> str:
    """The unit printed behind the box; empty for a count and for words."""
    assert book.round is not None
    by_name = {name: us if units == "us" else metric for name, us, metric in book.round.units}
    return by_name.get(key.id) or by_name.get(key.dimension or "") or ""
