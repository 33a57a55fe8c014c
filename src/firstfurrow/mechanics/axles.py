"""Axles: how a tractor's mass lies on its two axles, by shares."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("mass * share / 100", unit="kg", digits=0, raises="mass share")
def axle_share(mass: float, share: float) -> float:
    """Load in kg on one axle from the mass (kg) and the share that rests there (%).

    >>> axle_share(mass=1500, share=40)
    600.0
    """
    return mass * share / 100


@formula("mass - axle", unit="kg", digits=0, raises="mass", lowers="axle")
def other_axle(mass: float, axle: float) -> float:
    """Load in kg on the other axle.

    >>> other_axle(mass=1500, axle=600)
    900
    """
    return mass - axle


@formula("1 - front_share / 100", unit="", digits=2, lowers="front_share")
def rear_share(front_share: float) -> float:
    """Share of the mass on the rear axle, from the share on the front axle in %.

    >>> round(rear_share(front_share=42), 2)
    0.58
    """
    return 1 - front_share / 100


@formula("axle - mass * ahead / wheelbase", unit="kg", digits=0, raises="axle wheelbase", lowers="mass ahead")
def rear_axle_relieved(axle: float, mass: float, ahead: float, wheelbase: float) -> float:
    """Load in kg left on the rear axle with `mass` at `ahead` m in front of the front axle.

    A loader of 300 kg, 0.75 m ahead on a wheelbase of 1.5 m, takes 150 kg off the rear axle:

    >>> rear_axle_relieved(axle=900, mass=300, ahead=0.75, wheelbase=1.5)
    750.0
    """
    return axle - mass * ahead / wheelbase


@formula("mass * (1 + ahead / wheelbase)", unit="kg", digits=0, raises="mass ahead", lowers="wheelbase")
def lever_on_front(mass: float, ahead: float, wheelbase: float) -> float:
    """Load in kg that `mass` at `ahead` m in front of the front axle adds to that axle.

    >>> lever_on_front(mass=300, ahead=0.75, wheelbase=1.5)
    450.0
    """
    return mass * (1 + ahead / wheelbase)
