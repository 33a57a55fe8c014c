"""Traction: what a tyre can pull, and what its own rolling costs, by the equations of mobility number and slip."""

from __future__ import annotations

import math

from firstfurrow.reasoning import formula

_SOURCE = {"grade": "memory", "source": "d497", "where": "clause 3, traction equations"}


@formula(
    "cone_index * width * diameter / load * (1 + 5 * deflection) / (1 + 3 * width / diameter)", unit="", digits=1,
    raises="cone_index diameter deflection width", lowers="load", **_SOURCE,
)  # fmt: skip
def mobility_number(cone_index: float, width: float, diameter: float, load: float, deflection: float) -> float:
    """Mobility number of a tyre on a soil: the larger, the better it pulls and the less it sinks.

    Parameters
    ----------
    cone_index : strength of the soil in kPa
    width, diameter : m, of the tyre's section and of the whole tyre without load
    load : kN on the one wheel
    deflection : how far the tyre gives way under its load, as a share of its section height (0.2 for a fifth)

    Examples
    --------
    A tyre of 0.38 m by 1.45 m under 8 kN on firm soil of 900 kPa (derived): 69.4.

    >>> round(mobility_number(cone_index=900, width=0.38, diameter=1.45, load=8, deflection=0.2), 1)
    69.4
    """
    return cone_index * width * diameter / load * (1 + 5 * deflection) / (1 + 3 * width / diameter)


@formula(
    "1 / mobility + 0.04 + 0.5 * slip / sqrt(mobility)", unit="", digits=3, raises="slip", lowers="mobility",
    **_SOURCE,
)  # fmt: skip
def motion_resistance_ratio(mobility: float, slip: float) -> float:
    """Rolling resistance of a driven wheel as a share of the load on it; slip as a share, 0.1 for a tenth.

    Firm soil, mobility number 55, slip 0.09 (derived): 0.064.

    >>> round(motion_resistance_ratio(mobility=55, slip=0.09), 3)
    0.064
    """
    return 1 / mobility + 0.04 + 0.5 * slip / math.sqrt(mobility)


@formula("1 / mobility + 0.04", unit="", digits=3, lowers="mobility", **_SOURCE)
def towed_wheel_ratio(mobility: float) -> float:
    """Rolling resistance of a wheel that is not driven, as a share of the load on it.

    >>> round(towed_wheel_ratio(mobility=55), 3)
    0.058
    """
    return 1 / mobility + 0.04


@formula(
    "0.88 * (1 - 2.718281828 ** (-0.1 * mobility)) * (1 - 2.718281828 ** (-7.5 * slip)) + 0.04",
    unit="", digits=3, raises="mobility slip", **_SOURCE,
)  # fmt: skip
def gross_traction_ratio(mobility: float, slip: float) -> float:
    """What a driven wheel pushes at its rim, as a share of the load on it; slip as a share.

    >>> round(gross_traction_ratio(mobility=55, slip=0.09), 3)
    0.47
    """
    return 0.88 * (1 - math.exp(-0.1 * mobility)) * (1 - math.exp(-7.5 * slip)) + 0.04


@formula("gross - resistance", unit="", digits=3, raises="gross", lowers="resistance", **_SOURCE)
def net_traction_ratio(gross: float, resistance: float) -> float:
    """What is left for the pull when the wheel has rolled itself, as a share of the load on it.

    >>> round(net_traction_ratio(gross=0.470, resistance=0.064), 3)
    0.406
    """
    return gross - resistance


@formula("(1 - slip) * net / gross", unit="", digits=2, raises="net", lowers="slip gross", **_SOURCE)
def tractive_efficiency(slip: float, net: float, gross: float) -> float:
    """Share of the axle's power that becomes pull times speed.

    >>> round(tractive_efficiency(slip=0.09, net=0.406, gross=0.470), 2)
    0.79
    """
    return (1 - slip) * net / gross


@formula(
    "(unloaded - loaded) / unloaded", unit="", digits=3, raises="unloaded", lowers="loaded",
    grade="read", source="stab_s31", where="wheel slip",
)  # fmt: skip
def slip_of_advance(unloaded: float, loaded: float) -> float:
    """Slip as a share, from the way in m that a turn of the wheel makes without and with load.

    >>> round(slip_of_advance(unloaded=4.57, loaded=3.81), 3)
    0.166
    """
    return (unloaded - loaded) / unloaded


@formula(
    "(loaded_turns - unloaded_turns) / loaded_turns", unit="", digits=3, raises="loaded_turns",
    lowers="unloaded_turns", grade="secondary", source="stab_om", where="slip by counting turns of the wheel",
)  # fmt: skip
def slip_by_counting(loaded_turns: float, unloaded_turns: float) -> float:
    """Slip as a share, from the turns of a driven wheel over the same way with the tool at work and with it raised.

    Ten turns at work, eight with the tool raised: a fifth.

    >>> slip_by_counting(loaded_turns=10, unloaded_turns=8)
    0.2
    """
    return (loaded_turns - unloaded_turns) / loaded_turns


@formula(
    "ratio / (grip * 9.80665 * speed / 3.6) * 1000", unit="kg/kW", digits=1, raises="ratio", lowers="grip speed",
)  # fmt: skip
def mass_per_power(ratio: float, grip: float, speed: float) -> float:
    """Mass in kg for each kW of shaft power that a tractor needs to bring it all to the ground as pull.

    Parameters
    ----------
    ratio : share of the shaft power that reaches the drawbar
    grip : net traction ratio
    speed : km/h

    Examples
    --------
    0.77, 0.40 and 8 km/h (derived): 88.3 kg/kW, the published 145 lb for each horsepower.

    >>> round(mass_per_power(ratio=0.77, grip=0.40, speed=8), 1)
    88.3
    """
    return ratio / (grip * 9.80665 * speed / 3.6) * 1000


@formula(
    "0.88 * (1 - 2.718281828 ** (-0.1 * mobility)) * (1 - 2.718281828 ** (-9.5 * slip)) + 0.0325",
    unit="", digits=3, raises="mobility slip", grade="memory", source="zg", where="traction equations, radial tyres",
)  # fmt: skip
def gross_traction_ratio_radial(mobility: float, slip: float) -> float:
    """The same as `gross_traction_ratio` for radial tyres, which bite earlier.

    >>> round(gross_traction_ratio_radial(mobility=55, slip=0.09), 3)
    0.536
    """
    return 0.88 * (1 - math.exp(-0.1 * mobility)) * (1 - math.exp(-9.5 * slip)) + 0.0325


@formula(
    "0.9 / mobility + 0.0325 + 0.5 * slip / sqrt(mobility)", unit="", digits=3, raises="slip", lowers="mobility",
    grade="memory", source="zg", where="traction equations, radial tyres",
)  # fmt: skip
def motion_resistance_ratio_radial(mobility: float, slip: float) -> float:
    """The same as `motion_resistance_ratio` for radial tyres, which roll more easily.

    >>> round(motion_resistance_ratio_radial(mobility=55, slip=0.09), 3)
    0.055
    """
    return 0.9 / mobility + 0.0325 + 0.5 * slip / math.sqrt(mobility)


@formula(
    "3.14159265 * diameter * revolutions / ratio * 60 / 1000", unit="km/h", digits=2, raises="diameter revolutions",
    lowers="ratio",
)  # fmt: skip
def rolling_speed(diameter: float, revolutions: float, ratio: float) -> float:
    """Speed in km/h of a wheel without slip: diameter in m, engine turns a minute, and engine turns for one wheel turn.

    Teaching problem: 1.5 m at 1200 turns through 30 to 1 makes 11.3 km/h.

    >>> round(rolling_speed(diameter=1.5, revolutions=1200, ratio=30), 1)
    11.3
    """
    return math.pi * diameter * revolutions / ratio * 60 / 1000
