"""Values on a drawing: in the reader's unit alone; with the working unit beside it in the sentences."""

from __future__ import annotations

from firstfurrow.quantities import Units, show


def bare(shown: str) -> str:
    """Without what stands in brackets: there is little room on a drawing.

    >>> bare("1050 lb (478 kg)"), bare("478 kg")
    ('1050 lb', '478 kg')
    """
    return shown.split(" (")[0]


def mass(kg: float, units: Units) -> str:
    """A mass."""
    return show(kg, "kg", units)


def near(m: float, units: Units) -> str:
    """A distance behind the arm ends: in inches where the reader thinks in them, as the trade does.

    >>> near(0.61, "us"), near(0.61, "metric")
    ('24 in (61 cm)', '0.61 m')
    """
    return show(100 * m, "cm", units, dimension="depth") if units == "us" else show(m, "m", units)


def arm(m: float, units: Units) -> str:
    """The arm of a lever, to the hundredth: a sum is worked out from it.

    >>> arm(1.68, "us"), arm(1.68, "metric")
    ('5.51 ft (1.68 m)', '1.68 m')
    """
    return show(m, "m", units, 2)
