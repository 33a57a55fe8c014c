"""The power chain: drawbar, climbing, shaft and oil, brought together at the PTO."""

from __future__ import annotations

import math

from firstfurrow.reasoning import formula


@formula(
    "pull * speed / 3.6", unit="kW", digits=2, raises="pull speed", grade="read", source="uk73", where="drawbar power",
)  # fmt: skip
def drawbar_power(pull: float, speed: float) -> float:
    """Drawbar power in kW of a pull in kN at a speed in km/h.

    20 kN at 5 km/h (review problem, published 27.78 kW):

    >>> round(drawbar_power(pull=20, speed=5), 2)
    27.78
    """
    return pull * speed / 3.6


@formula("mass * 9.80665 * sin(angle) * speed / 3600", unit="kW", digits=2, raises="mass angle speed")
def climb_power(mass: float, angle: float, speed: float) -> float:
    """Power in kW that lifts `mass` (kg) up a slope of `angle` degrees at `speed` km/h.

    >>> round(climb_power(mass=1500, angle=8.53, speed=5), 2)
    3.03
    """
    return mass * 9.80665 * math.sin(math.radians(angle)) * speed / 3600


@formula(
    "mass * 9.80665 * rolling * cos(angle) * speed / 3600", unit="kW", digits=2, raises="mass rolling speed",
    lowers="angle",
)  # fmt: skip
def rolling_power(mass: float, rolling: float, angle: float, speed: float) -> float:
    """Power in kW that rolls `mass` (kg) over the ground at `speed` km/h.

    >>> round(rolling_power(mass=1500, rolling=0.058, angle=0, speed=5), 2)
    1.18
    """
    return mass * 9.80665 * rolling * math.cos(math.radians(angle)) * speed / 3600


@formula(
    "(draft_power * reserve + climb) / ratio", unit="kW", digits=1, raises="draft_power reserve climb", lowers="ratio",
    grade="derived", source="az", where="drawbar power as a share of PTO power",
)  # fmt: skip
def shaft_power_of_pull(draft_power: float, reserve: float, climb: float, ratio: float) -> float:
    """PTO-equivalent power in kW of drawbar work: reserve on the draft part, none on the climb.

    The plough of R1 without reserve and climb, 13.867 kW at 0.73 (derived): 19.0 kW.

    >>> round(shaft_power_of_pull(draft_power=13.867, reserve=1, climb=0, ratio=0.73), 1)
    19.0
    """
    return (draft_power * reserve + climb) / ratio


@formula(
    "typical + max(place, 0) * (high - typical) + min(place, 0) * (typical - low)", unit="kW/m", digits=2,
    raises="low typical high place", grade="practice",
)  # fmt: skip
def band_place(low: float, typical: float, high: float, place: float) -> float:
    """A value inside a band: `place` is -1 at the low end, 0 at typical, 1 at the high end.

    Easy conditions stand halfway below typical, hard ones halfway above (ours).

    >>> band_place(low=12, typical=16, high=24, place=0.5)
    20.0
    """
    return typical + max(place, 0) * (high - typical) + min(place, 0) * (typical - low)


@formula(
    "typical + max(place, 0) * (high - typical) + min(place, 0) * (typical - low)", unit="kW", digits=1,
    raises="low typical high place", grade="practice",
)  # fmt: skip
def band_place_power(low: float, typical: float, high: float, place: float) -> float:
    """The same inside a band in kW, for machines rated as a whole.

    >>> band_place_power(low=15, typical=20, high=30, place=-0.5)
    17.5
    """
    return typical + max(place, 0) * (high - typical) + min(place, 0) * (typical - low)


@formula("power_per_width * width", unit="kW", digits=1, raises="power_per_width width", grade="practice")
def installed_power(power_per_width: float, width: float) -> float:
    """Shaft power in kW of a machine rated by width, the usual reserve inside.

    >>> installed_power(power_per_width=20, width=1.5)
    30.0
    """
    return power_per_width * width


@formula(
    "a + b * width + c * feed", unit="kW", digits=2, raises="a b width c feed",
    grade="memory", source="d497", where="Table 2",
)  # fmt: skip
def rotary_power(a: float, b: float, width: float, c: float, feed: float) -> float:
    """Mean shaft power in kW of a rotary machine by its published row; pulling it is not in it.

    Small rectangular baler at 6 t/h (derived from the row): 8.0 kW.

    >>> rotary_power(a=2.0, b=0, width=0, c=1.0, feed=6)
    8.0
    """
    return a + b * width + c * feed


@formula("mean * spread", unit="kW", digits=2, raises="mean spread")
def spread_power(mean: float, spread: float) -> float:
    """Mean shaft power within the stated range of its row.

    >>> spread_power(mean=8.0, spread=1.5)
    12.0
    """
    return mean * spread


@formula("installed + climb / ratio", unit="kW", digits=1, raises="installed climb", lowers="ratio")
def shaft_power_installed(installed: float, climb: float, ratio: float) -> float:
    """Shaft power in kW by the installed band, with the climb added (the band is for level ground).

    >>> round(shaft_power_installed(installed=30, climb=3.03, ratio=0.77), 1)
    33.9
    """
    return installed + climb / ratio


@formula("mean * reserve + travel / ratio", unit="kW", digits=1, raises="mean reserve travel", lowers="ratio")
def shaft_power_computed(mean: float, reserve: float, travel: float, ratio: float) -> float:
    """Shaft power in kW by the published mean with our reserve, plus moving tractor and machine.

    >>> round(shaft_power_computed(mean=8.0, reserve=1.25, travel=3.0, ratio=0.77), 1)
    13.9
    """
    return mean * reserve + travel / ratio


@formula("pressure * flow / 600 / efficiency", unit="kW", digits=2, raises="pressure flow", lowers="efficiency")
def oil_power(pressure: float, flow: float, efficiency: float) -> float:
    """Power in kW that oil takes from the engine: bar, L/min, share of it that leaves pump and lines as work.

    20 MPa and 60 L/min without losses (derived): 20 kW.

    >>> round(oil_power(pressure=200, flow=60, efficiency=1), 2)
    20.0
    """
    return pressure * flow / 600 / efficiency


@formula("shaft + oil", unit="kW", digits=1, raises="shaft oil")
def with_oil(shaft: float, oil: float) -> float:
    """Shaft power in kW with the oil motors that run at the same time.

    >>> with_oil(shaft=30.0, oil=8.5)
    38.5
    """
    return shaft + oil


@formula("9549.3 * power / speed", unit="N m", digits=0, raises="power", lowers="speed")
def shaft_torque(power: float, speed: float) -> float:
    """Torque in N m of a shaft: kW, rev/min.

    >>> round(shaft_torque(power=50, speed=540))
    884
    """
    return 9549.3 * power / speed
