"""Envelope: what a gate, a door, a hauling trailer or a bridge leaves for the machine."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("opening - margin", unit="m", digits=2, raises="opening", lowers="margin")
def room_left(opening: float, margin: float) -> float:
    """Largest width or height in m that passes an opening with a margin.

    >>> round(room_left(opening=3.0, margin=0.6), 2)
    2.4
    """
    return opening - margin


@formula("gross_rating - trailer", unit="kg", digits=0, raises="gross_rating", lowers="trailer", grade="practice")
def haul_left(gross_rating: float, trailer: float) -> float:
    """Mass in kg that may stand on a hauling trailer: its gross rating less its own mass.

    >>> haul_left(gross_rating=3200, trailer=700)
    2500
    """
    return gross_rating - trailer


@formula(
    "max(payload - loader - carried - fluids, 0)", unit="kg", digits=0, raises="payload",
    lowers="loader carried fluids", grade="practice",
)  # fmt: skip
def mass_left(payload: float, loader: float, carried: float, fluids: float) -> float:
    """Mass in kg that is left for the bare tractor where loader, implement, fuel and tyre fluid count as well.

    Nothing, and never less, where these alone are too much.

    >>> mass_left(payload=2000, loader=300, carried=250, fluids=150)
    1300
    >>> mass_left(payload=500, loader=300, carried=250, fluids=150)
    0
    """
    return max(payload - loader - carried - fluids, 0)
