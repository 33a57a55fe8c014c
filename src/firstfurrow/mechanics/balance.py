"""Balance: axle loads of a tractor with something mounted in front or behind, level and uphill."""

from __future__ import annotations

import math

from firstfurrow.reasoning import NoSolutionError, formula

_SOURCE = {"grade": "secondary", "source": "stab_om", "where": "front and rear ballast equations"}


@formula(
    "(front * (ahead + wheelbase) + front_axle * wheelbase - rear * (overhang + reach)) / wheelbase",
    unit="kg", digits=1, raises="front ahead front_axle", lowers="rear overhang reach", either="wheelbase", **_SOURCE,
)  # fmt: skip
def front_axle_load(
    front: float, ahead: float, wheelbase: float, front_axle: float, rear: float, overhang: float, reach: float
) -> float:
    """Load in kg on the front axle with something in front and behind (kg and m; moment about the rear axle).

    Parameters
    ----------
    front : mass in front, its centre `ahead` of the front axle
    front_axle : load of the empty tractor on its front axle
    rear : mass behind, its centre `overhang` + `reach` behind the rear axle

    Examples
    --------
    University mechanics homework: 2500 N at 0.9 m ahead of the front axle of a 4500 N tractor give 6700 N in front.

    >>> round(front_axle_load(front=2500, ahead=0.9, wheelbase=1.5, front_axle=2700, rear=0, overhang=0.6, reach=0.9))
    6700
    """
    return (front * (ahead + wheelbase) + front_axle * wheelbase - rear * (overhang + reach)) / wheelbase


@formula(
    "(rear * (overhang + reach) - front_axle * wheelbase + 0.2 * empty * wheelbase) / (ahead + wheelbase)",
    unit="kg", digits=1, raises="rear overhang reach empty", lowers="front_axle", either="ahead wheelbase", **_SOURCE,
)  # fmt: skip
def front_ballast(
    rear: float, overhang: float, reach: float, front_axle: float, wheelbase: float, empty: float, ahead: float
) -> float:
    """Front ballast in kg that keeps a fifth of the empty tractor on the front axle; negative: none is needed.

    Constructed case: 350 kg at 1.60 m behind a 1500 kg tractor ask for 18.9 kg.

    >>> round(front_ballast(rear=350, overhang=0.6, reach=1, front_axle=600, wheelbase=1.7, empty=1500, ahead=0.95), 1)
    18.9
    """
    return (rear * (overhang + reach) - front_axle * wheelbase + 0.2 * empty * wheelbase) / (ahead + wheelbase)


@formula(
    "(front * ahead - rear_axle * wheelbase + 0.45 * empty * wheelbase) / (wheelbase + overhang + reach)",
    unit="kg", digits=1, raises="front ahead empty", lowers="rear_axle", either="overhang reach wheelbase", **_SOURCE,
)  # fmt: skip
def rear_ballast(
    front: float, ahead: float, rear_axle: float, wheelbase: float, empty: float, overhang: float, reach: float
) -> float:
    """Rear ballast in kg for something heavy in front; negative: none is needed.

    Constructed case: 900 kg at 1.10 m ahead of a 3300 kg tractor need none (-26.4 kg).

    >>> round(rear_ballast(front=900, ahead=1.1, rear_axle=1980, wheelbase=2.2, empty=3300, overhang=0.7, reach=0.85))
    -26
    """
    return (front * ahead - rear_axle * wheelbase + 0.45 * empty * wheelbase) / (wheelbase + overhang + reach)


@formula(
    "max(rear * (overhang + reach) - front * (ahead + wheelbase), 0) / ((front_share / 100 - kept) * wheelbase)",
    unit="kg", digits=0, raises="rear overhang reach kept", lowers="front ahead wheelbase front_share", **_SOURCE,
)  # fmt: skip
def mass_for_balance(
    rear: float, overhang: float, reach: float, front: float, ahead: float, front_share: float, wheelbase: float,
    kept: float,
) -> float:  # fmt: skip
    """Empty tractor mass in kg that keeps the share `kept` of itself on the front axle with `rear` raised, level.

    The ballast equation solved for a tractor whose front axle carries `front_share` % of it when empty. The tractor of
    the constructed case (front share 40 %, wheelbase 1.70 m) may carry 318.75 kg at 1.60 m without ballast:

    >>> round(mass_for_balance(rear=318.75, overhang=0.6, reach=1, front=0, ahead=0.9, front_share=40, wheelbase=1.7,
    ...     kept=0.2))
    1500

    Raises
    ------
    NoSolutionError
        When the empty tractor has no more than that in front.
    """
    left = (front_share / 100 - kept) * wheelbase
    if left <= 0:
        raise NoSolutionError("a tractor with so little weight in front cannot carry anything behind")
    return max(rear * (overhang + reach) - front * (ahead + wheelbase), 0) / left


@formula(
    "max(rear * ((overhang + reach) * cos(angle) + raised * sin(angle)) - "
    "front * ((ahead + wheelbase) * cos(angle) - raised * sin(angle)), 0) / "
    "((front_share / 100 - kept) * wheelbase * cos(angle) - centre_height * sin(angle))",
    unit="kg", digits=0, raises="rear overhang reach raised kept centre_height angle",
    lowers="front ahead front_share wheelbase",
)  # fmt: skip
def mass_for_balance_uphill(
    rear: float, overhang: float, reach: float, raised: float, front: float, ahead: float, front_share: float,
    wheelbase: float, centre_height: float, kept: float, angle: float,
) -> float:  # fmt: skip
    """Empty tractor mass in kg that keeps the share `kept` of itself on the front axle, facing up a slope.

    Heights in m above the ground: `raised` of what is carried, `centre_height` of the tractor. On level ground with a
    fifth kept it is the level equation:

    >>> round(mass_for_balance_uphill(rear=318.75, overhang=0.6, reach=1, raised=0.8, front=0, ahead=0.9,
    ...     front_share=40, wheelbase=1.7, centre_height=0.7, kept=0.2, angle=0))
    1500

    Raises
    ------
    NoSolutionError
        When the tractor alone has no such share in front on that slope: it goes over backwards first.
    """
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    left = (front_share / 100 - kept) * wheelbase * cosine - centre_height * sine
    if left <= 0:
        raise NoSolutionError("on this slope the front wheels get too light however heavy the tractor is")
    pressing = front * ((ahead + wheelbase) * cosine - raised * sine)
    return max(rear * ((overhang + reach) * cosine + raised * sine) - pressing, 0) / left
