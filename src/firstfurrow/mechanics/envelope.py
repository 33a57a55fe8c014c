"""Envelope: what a gate or a door leaves for the machine."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("opening - margin", unit="m", digits=2, raises="opening", lowers="margin")
def room_left(opening: float, margin: float) -> float:
    """Largest width or height in m that passes an opening with a margin.

    >>> round(room_left(opening=3.0, margin=0.6), 2)
    2.4
    """
    return opening - margin
