"""Fuel: how much an engine burns for its work, and what a job on an area takes."""

from __future__ import annotations

import math

from firstfurrow.reasoning import formula


@formula(
    "0.22 + 0.096 / load", unit="L/kWh", digits=3, lowers="load", grade="secondary", source="stab_td",
    where="newer fuel equation of ASAE D497, diesel, full throttle",
)  # fmt: skip
def fuel_per_work(load: float) -> float:
    """Diesel in L for each kWh at the shaft, by the newer equation.

    `load` is the power asked as a share of the rated shaft power: a tractor with little to do burns more for its work.

    >>> round(fuel_per_work(load=0.8), 3)
    0.34
    """
    return 0.22 + 0.096 / load


@formula(
    "2.64 * load + 3.91 - 0.203 * sqrt(738 * load + 173)", unit="L/kWh", digits=3, either="load",
    grade="secondary", source="t2", where="older fuel equation of ASAE D497, diesel",
)  # fmt: skip
def fuel_per_work_older(load: float) -> float:
    """The same by the older equation, which comes out a seventh to a third higher.

    >>> round(fuel_per_work_older(load=0.8), 3)
    0.413
    """
    return 2.64 * load + 3.91 - 0.203 * math.sqrt(738 * load + 173)


@formula(
    "0.223 * power", unit="L/h", digits=1, raises="power", grade="read", source="vt_fuel",
    where="average over the year, equation 1",
)  # fmt: skip
def fuel_average(power: float) -> float:
    """Diesel in L an hour over the whole year, by the rated shaft power in kW.

    >>> round(fuel_average(power=30), 1)
    6.7
    """
    return 0.223 * power


@formula("per_work * power", unit="L/h", digits=1, raises="per_work power")
def fuel_rate(per_work: float, power: float) -> float:
    """Fuel in L an hour at `power` kW from the fuel for each kWh.

    >>> round(fuel_rate(per_work=0.34, power=24), 1)
    8.2
    """
    return per_work * power


@formula("power * specific / 1000 * hours", unit="kg", digits=1, raises="power specific hours")
def fuel_mass(power: float, specific: float, hours: float) -> float:
    """Fuel in kg for `hours` at `power` kW and `specific` g for each kWh.

    Review problem with key: 223.8 kW for eight hours at 350 g take 626.6 kg.

    >>> round(fuel_mass(power=223.8, specific=350, hours=8), 1)
    626.6
    """
    return power * specific / 1000 * hours


@formula("mass / density", unit="L", digits=1, raises="mass", lowers="density")
def fuel_volume(mass: float, density: float) -> float:
    """Fuel in L from its mass in kg and its density in kg/L (diesel about 0.84).

    >>> round(fuel_volume(mass=8.4, density=0.84), 1)
    10.0
    """
    return mass / density


@formula("10 * power_per_width / speed", unit="kWh/ha", digits=1, raises="power_per_width", lowers="speed")
def work_on_area(power_per_width: float, speed: float) -> float:
    """Work in kWh for each hectare that a tool takes by kW for each metre of its width, at `speed` km/h.

    >>> round(work_on_area(power_per_width=8.6, speed=8.05), 2)
    10.68
    """
    return 10 * power_per_width / speed
