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


@formula(
    "rear_axle + rear * (wheelbase + overhang + reach) / wheelbase", unit="kg", digits=0,
    raises="rear_axle rear overhang reach", lowers="wheelbase",
)  # fmt: skip
def rear_axle_load(rear_axle: float, rear: float, overhang: float, reach: float, wheelbase: float) -> float:
    """Load in kg on the rear axle with `rear` (kg) at `overhang` + `reach` m behind it: always more than it weighs.

    A load on the drawbar has the reach 0.

    >>> round(rear_axle_load(rear_axle=900, rear=350, overhang=0.6, reach=1, wheelbase=1.7), 1)
    1579.4
    """
    return rear_axle + rear * (wheelbase + overhang + reach) / wheelbase


@formula(
    "max(front_axle - kept * empty, 0) * wheelbase / (overhang + reach)", unit="kg", digits=0,
    raises="front_axle wheelbase", lowers="kept empty overhang reach",
)  # fmt: skip
def most_behind(front_axle: float, kept: float, empty: float, wheelbase: float, overhang: float, reach: float) -> float:
    """Largest mass in kg that may hang `overhang` + `reach` m behind the rear axle without weights in front, level.

    `kept` is the share of the empty tractor's mass that must stay on the front axle.

    >>> round(most_behind(front_axle=600, kept=0.2, empty=1500, wheelbase=1.7, overhang=0.6, reach=1), 2)
    318.75
    """
    return max(front_axle - kept * empty, 0) * wheelbase / (overhang + reach)


@formula(
    "max(front_axle - kept * empty, 0) * wheelbase / overhang", unit="kg", digits=0,
    raises="front_axle wheelbase", lowers="kept empty overhang",
)  # fmt: skip
def most_on_tongue(front_axle: float, kept: float, empty: float, wheelbase: float, overhang: float) -> float:
    """Largest load in kg on a hitch `overhang` m behind the rear axle without weights in front, level.

    >>> round(most_on_tongue(front_axle=1000, kept=0.2, empty=2500, wheelbase=2.05, overhang=0.95))
    1079
    """
    return max(front_axle - kept * empty, 0) * wheelbase / overhang


_LOADER = {"grade": "secondary", "source": "stab_s2", "where": "counterweight equation, as quoted in loader manuals"}


@formula(
    "(share * (total + payload) - rear_axle + payload * ahead / wheelbase) / (1 + behind / wheelbase - share)",
    unit="kg", digits=1, raises="share total payload ahead", lowers="rear_axle", either="wheelbase behind", **_LOADER,
)  # fmt: skip
def counterweight(
    rear_axle: float, total: float, payload: float, ahead: float, wheelbase: float, behind: float, share: float
) -> float:
    """Counterweight in kg that keeps `share` of everything on the rear axle, loader loaded, level; negative: none.

    Parameters
    ----------
    rear_axle, total : load on the rear axle, and mass, of the tractor with loader and empty tool
    payload : load in the loader's tool, its centre `ahead` m in front of the front axle
    behind : m from the rear axle back to the counterweight
    share : 0.20 with the arms level

    Examples
    --------
    Constructed case: 1700 kg with 800 kg behind, 450 kg at 1.50 m ahead ask for 26.7 kg at 1.10 m behind.

    >>> round(counterweight(rear_axle=800, total=1700, payload=450, ahead=1.5, wheelbase=1.65, behind=1.1,
    ...     share=0.2), 1)
    26.7
    """
    return (share * (total + payload) - rear_axle + payload * ahead / wheelbase) / (1 + behind / wheelbase - share)


@formula(
    "(kept * mass * wheelbase * cos(angle) + payload * (ahead * cos(angle) + payload_height * sin(angle)) - "
    "mass * ((1 - front_share / 100) * wheelbase * cos(angle) - centre_height * sin(angle))) / "
    "((wheelbase + behind) * cos(angle) - counter_height * sin(angle))",
    unit="kg", digits=1, raises="front_share payload ahead payload_height centre_height kept",
    either="mass wheelbase behind counter_height angle",
)  # fmt: skip
def counterweight_downhill(
    mass: float, front_share: float, payload: float, ahead: float, payload_height: float, wheelbase: float,
    centre_height: float, behind: float, counter_height: float, kept: float, angle: float,
) -> float:  # fmt: skip
    """Counterweight in kg that keeps `kept` of the tractor's weight on the rear axle, facing down; negative: none.

    Moment about the ground under the front wheels. On a slope everything leans forward over them, the higher the more.

    Parameters
    ----------
    mass, front_share : kg, and % of it on the front axle on level ground
    payload, ahead, payload_height : kg, and m in front of the front axle and above the ground
    centre_height : m above the ground, of the tractor's centre of mass
    behind, counter_height : m behind the rear axle and above the ground, of the counterweight
    kept : share of the tractor's weight that must stay on the rear axle
    angle : slope in degrees

    Examples
    --------
    1500 kg with 40 % in front, 600 kg at 1.50 m ahead carried 0.6 m high, down 15 % (derived): 49.9 kg.

    >>> round(counterweight_downhill(mass=1500, front_share=40, payload=600, ahead=1.5, payload_height=0.6,
    ...     wheelbase=1.65, centre_height=0.75, behind=1.1, counter_height=0.6, kept=0.2, angle=8.5308), 1)
    49.9

    Raises
    ------
    NoSolutionError
        Where even the counterweight leans over the front wheels: it cannot help.
    """
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    arm = (wheelbase + behind) * cosine - counter_height * sine
    if arm <= 0:
        raise NoSolutionError("on this slope a counterweight behind cannot help: it leans over the front wheels too")
    over = payload * (ahead * cosine + payload_height * sine)
    held = mass * ((1 - front_share / 100) * wheelbase * cosine - centre_height * sine)
    return (kept * mass * wheelbase * cosine + over - held) / arm


@formula(
    "front_axle + payload * (wheelbase + ahead) / wheelbase - counterweight * behind / wheelbase", unit="kg", digits=0,
    raises="front_axle payload ahead", lowers="counterweight behind", either="wheelbase",
)  # fmt: skip
def front_axle_loaded(
    front_axle: float, payload: float, ahead: float, wheelbase: float, counterweight: float, behind: float
) -> float:
    """Load in kg on the front axle with the loader loaded and a counterweight behind, level.

    The case above, with its 26.7 kg: four fifths of everything are in front.

    >>> round(front_axle_loaded(front_axle=900, payload=450, ahead=1.5, wheelbase=1.65, counterweight=26.65,
    ...     behind=1.1), 1)
    1741.3
    """
    return front_axle + payload * (wheelbase + ahead) / wheelbase - counterweight * behind / wheelbase


@formula(
    "pull * 1000 / 9.80665 * hitch_height / wheelbase", unit="kg", digits=0, raises="pull hitch_height",
    lowers="wheelbase",
)  # fmt: skip
def weight_transfer(pull: float, hitch_height: float, wheelbase: float) -> float:
    """Load in kg that a pull (kN, level, at `hitch_height` m above the ground) moves from the front to the rear axle.

    >>> round(weight_transfer(pull=6, hitch_height=0.4, wheelbase=1.7))
    144
    """
    return pull * 1000 / 9.80665 * hitch_height / wheelbase


@formula(
    "(weights * weights_ahead + loader * loader_ahead) / (weights + loader)", unit="m", digits=3,
    raises="weights_ahead loader_ahead", either="weights loader",
)  # fmt: skip
def centre_in_front(weights: float, weights_ahead: float, loader: float, loader_ahead: float) -> float:
    """How many m ahead of the front axle front weights and loader (kg) have their common centre.

    100 kg at 0.50 m and 300 kg at 0.70 m: together at 0.65 m.

    >>> round(centre_in_front(weights=100, weights_ahead=0.5, loader=300, loader_ahead=0.7), 3)
    0.65
    """
    return (weights * weights_ahead + loader * loader_ahead) / (weights + loader)
