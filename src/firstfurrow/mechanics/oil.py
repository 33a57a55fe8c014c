"""Oil: cylinders and the time they take."""

from __future__ import annotations

import math

from firstfurrow.reasoning import formula


@formula("3.14159265 / 4 * bore**2 * stroke / 1000000", unit="L", digits=2, raises="bore stroke")
def cylinder_volume(bore: float, stroke: float) -> float:
    """Oil in L that fills a cylinder once: bore and stroke in mm.

    A top link of 63 mm bore and 200 mm stroke (derived): 0.62 L.

    >>> round(cylinder_volume(bore=63, stroke=200), 2)
    0.62
    """
    return math.pi / 4 * bore**2 * stroke / 1e6


@formula("volume / seconds * 60", unit="L/min", digits=1, raises="volume", lowers="seconds")
def flow_for_time(volume: float, seconds: float) -> float:
    """Flow in L/min that moves `volume` (L) in `seconds`.

    >>> round(flow_for_time(volume=0.62, seconds=3), 1)
    12.4
    """
    return volume / seconds * 60


@formula("3.14159265 / 4 * bore**2 * pressure / 10000", unit="kN", digits=1, raises="bore pressure")
def cylinder_force(bore: float, pressure: float) -> float:
    """Push in kN of a cylinder: bore in mm, pressure in bar.

    63 mm at 180 bar (derived): 56.1 kN.

    >>> round(cylinder_force(bore=63, pressure=180), 1)
    56.1
    """
    return math.pi / 4 * bore**2 * pressure / 1e4
