"""Work: from area and time to working width, and from width to hours."""

from __future__ import annotations

import math

from firstfurrow.reasoning import formula


@formula(
    "speed * width * efficiency / 1000", unit="ha/h", digits=3, raises="speed width efficiency",
    grade="read", source="uk73", where="field capacity",
)  # fmt: skip
def effective_capacity(speed: float, width: float, efficiency: float) -> float:
    """Effective field capacity in ha/h.

    Parameters
    ----------
    speed : km/h
    width : working width, m
    efficiency : field efficiency, %

    Examples
    --------
    Seeding at 8 km/h, 18.33 m and 80 % (GRDC, *Machinery: replace or repair*): 11.73 ha/h.

    >>> round(effective_capacity(speed=8, width=18.33, efficiency=80), 2)
    11.73
    """
    return speed * width * efficiency / 1000


@formula(
    "1000 * area / (hours * speed * efficiency)", unit="m", digits=2, raises="area",
    lowers="hours speed efficiency", grade="derived",
)  # fmt: skip
def width_needed(area: float, hours: float, speed: float, efficiency: float) -> float:
    """Working width in m that covers `area` (ha) in `hours` at `speed` (km/h) and `efficiency` (%).

    Twelve hectares in 18 hours at 7 km/h and 80 % (derived):

    >>> round(width_needed(area=12, hours=18, speed=7, efficiency=80), 3)
    1.19
    """
    return 1000 * area / (hours * speed * efficiency)


@formula("area / capacity", unit="h", digits=1, raises="area", lowers="capacity")
def hours_for(area: float, capacity: float) -> float:
    """Hours for one pass over `area` (ha) at `capacity` (ha/h).

    >>> round(hours_for(area=5.0, capacity=0.72), 1)
    6.9
    """
    return area / capacity


@formula("days * hours_a_day * workable / 100", unit="h", digits=1, raises="days hours_a_day workable")
def workable_hours(days: float, hours_a_day: float, workable: float) -> float:
    """Hours that the weather leaves: days in the window, hours a day, share of workable days (%).

    >>> workable_hours(days=6, hours_a_day=5, workable=60)
    18.0
    """
    return days * hours_a_day * workable / 100


@formula("100 * sqrt(area)", unit="m", digits=0, raises="area")
def side_of_square(area: float) -> float:
    """Side in m of a square plot of `area` ha: our guess of the length of a pass where nothing better is known.

    >>> side_of_square(area=4)
    200.0
    """
    return 100 * math.sqrt(area)


@formula(
    "min(table_efficiency, 100 * pass_length / (pass_length + speed / 3.6 * turn_seconds))", unit="%", digits=1,
    raises="table_efficiency pass_length", lowers="speed turn_seconds",
)  # fmt: skip
def turning_efficiency(table_efficiency: float, pass_length: float, speed: float, turn_seconds: float) -> float:
    """Field efficiency in % on a small plot: driving time over driving plus turning, capped by the table value.

    A pass of 40 m at 5 km/h with 15 s for each turn (derived):

    >>> round(turning_efficiency(table_efficiency=80, pass_length=40, speed=5, turn_seconds=15), 1)
    65.8
    """
    return min(table_efficiency, 100 * pass_length / (pass_length + speed / 3.6 * turn_seconds))


@formula(
    "0.95 * discs * spacing + factor * diameter", unit="m", digits=2, raises="discs spacing factor diameter",
    grade="secondary", source="t4", where="working width of a disc harrow",
)  # fmt: skip
def disc_width(discs: float, spacing: float, factor: float, diameter: float) -> float:
    """Working width in m of a disc harrow: number of discs, their spacing and diameter in m.

    `factor` is 0.3 for a single-action, 0.6 for an offset, 0.85 for a double offset and 1.2 for a tandem harrow.

    >>> round(disc_width(discs=24, spacing=0.20, factor=1.2, diameter=0.30), 2)
    4.92
    """
    return 0.95 * discs * spacing + factor * diameter
