"""What an offer proves for each requirement: numbers as at least and at most, words as they are; None: nothing known.

A figure that is only a bound (engine power for the shaft, the pump for the sockets) can show that a tractor is short,
or that it is enough, and never more than that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice.offers.offer import Offer
from firstfurrow.book.model import Book, Requirement

Bounds = tuple[float, float]
_ENDLESS = float("inf")
_Get = Callable[[str], Any]
Read = Callable[[_Get], Any]


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads evidence for one book."""

    keys: Mapping[str, str]  # requirement: the key that is the figure itself
    brochure: float  # share counted of a lift figure that is no test result

    def reads(self, requirement: Requirement) -> Read:
        """What reads the evidence for one requirement: at least and at most for numbers, else the word or words."""
        special = _SPECIAL.get(requirement.id)
        if special is not None:
            return special(self)
        key = self.keys[requirement.id]
        if requirement.sense in ("at_least", "at_most"):
            return _first(key)
        return lambda get: get(key)

    def lift(self, get: _Get, key: str) -> Bounds | None:
        """A lift figure: a brochure's counts lower, and where nobody knows what it is, it is one or the other."""
        value = get(key)
        if value is None:
            return None
        source = get("lift_from")
        low = value if source == "test_report" else value * self.brochure
        return low, value if source is None else low


def reader(book: Book) -> Reader:
    """The reader for a book."""
    keys = {id_: requirement.offer_keys[0] for id_, requirement in book.requirements.items()}
    return Reader(keys, book.choice("lift_brochure").planning)


def _first(key: str, bound: str | None = None) -> Callable[[_Get], Bounds | None]:
    """The first key is the figure itself; the second is a figure that it cannot be above."""

    def read(get: _Get) -> Bounds | None:
        value = get(key)
        if value is not None:
            return value, value
        most = None if bound is None else get(bound)
        return None if most is None else (0.0, most)

    return read


def _plain(read: Callable[[_Get], Bounds | None]) -> Callable[[Reader], Read]:
    return lambda reader: read


def _bare(get: _Get) -> float | None:
    """The bare weight: said, or the two axles together."""
    front, rear = get("front_axle_mass"), get("rear_axle_mass")
    if front is not None and rear is not None:
        return float(front + rear)
    found = get("mass_bare")
    return None if found is None else float(found)


def _ready(get: _Get) -> Bounds | None:
    """Ready for work it weighs at least what it weighs bare."""
    value = get("mass")
    if value is not None:
        return value, value
    bare = _bare(get)
    return None if bare is None else (bare, _ENDLESS)


def _bare_bounds(get: _Get) -> Bounds | None:
    bare = _bare(get)
    if bare is not None:
        return bare, bare
    ready = get("mass")
    return None if ready is None else (0.0, ready)


def _axle(limit: str, tyre: str) -> Callable[[_Get], Bounds | None]:
    """The lower of the axle and its two tyres; the tyres alone only say that it is not more."""

    def read(get: _Get) -> Bounds | None:
        axle, one = get(limit), get(tyre)
        if axle is not None:
            least = axle if one is None else min(axle, 2 * one)
            return least, least
        return None if one is None else (0.0, 2 * one)

    return read


def _height(get: _Get) -> Bounds | None:
    value, folded = get("height"), get("height_folded")
    if value is not None:
        return value, value
    return None if folded is None else (folded, _ENDLESS)


def _circle(get: _Get) -> Bounds | None:
    value, radius = get("turning_circle"), get("turning_radius")
    if value is not None:
        return value, value
    return None if radius is None else (2 * radius, 2 * radius)


def _slowest(get: _Get) -> Bounds | None:
    value = get("slowest_speed")
    if value is not None:
        return value, value
    return (0.0, 0.0) if get("transmission") == "hydrostatic" else None


def _sets(get: _Get) -> Bounds | None:
    """Two sockets make one set; sockets may also belong to no lever, so they only bound the sets."""
    value, ports = get("rear_sets"), get("rear_ports")
    if value is not None:
        return value, value
    return None if ports is None else (0.0, float(ports // 2))


def _lift_610(reader: Reader) -> Read:
    def read(get: _Get) -> Bounds | None:
        own = reader.lift(get, "lift_610")
        if own is not None:
            return own
        ends = get("lift_ball_ends")
        return None if ends is None else (0.0, ends)

    return read


_SPECIAL: Mapping[str, Callable[[Reader], Read]] = {
    "pto_power": _plain(_first("pto_power", "engine_power")),
    "oil_flow": _plain(_first("oil_flow", "pump_flow")),
    "loader_lift": _plain(_first("loader_lift", "loader_breakout")),
    "rear_sets": _plain(_sets),
    "rear_sets_comfortable": _plain(_sets),
    "mass": _plain(_ready),
    "mass_towing": _plain(_ready),
    "mass_balance": _plain(_bare_bounds),
    "mass_most": _plain(_bare_bounds),
    "rear_axle_load": _plain(_axle("rear_axle_limit", "rear_tyre_load")),
    "front_axle_load": _plain(_axle("front_axle_limit", "front_tyre_load")),
    "height_most": _plain(_height),
    "turning_most": _plain(_circle),
    "slow_speed": _plain(_slowest),
    "lift_610": _lift_610,
    "lift_ball_ends": lambda reader: lambda get: reader.lift(get, "lift_ball_ends"),
}


def known(offer: Offer, *keys: str) -> bool:
    """True when the offer says all of these."""
    return all(key in offer.said for key in keys)
