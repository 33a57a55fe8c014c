"""Slope: the angle at which a tractor tips sideways or backwards, the speed at which it tips in a turn, and grip."""

from __future__ import annotations

import math

from firstfurrow.reasoning import NoSolutionError, formula


@formula("100 * tan(angle)", unit="%", digits=1, raises="angle")
def slope_of(angle: float) -> float:
    """Slope in % of an angle in degrees.

    15 degrees, the limit printed in many manuals for garden tractors: 26.8 %.

    >>> round(slope_of(angle=15), 1)
    26.8
    """
    return 100 * math.tan(math.radians(angle))


@formula("mass * 9.80665 * sin(angle) / 1000", unit="kN", digits=2, raises="mass angle")
def gravity_along(mass: float, angle: float) -> float:
    """Force in kN with which the weight of `mass` (kg) pulls down along a slope of `angle` degrees.

    >>> round(gravity_along(mass=2000, angle=25), 2)
    8.29
    """
    return mass * 9.80665 * math.sin(math.radians(angle)) / 1000


@formula(
    "front_axle * wheelbase / mass", unit="m", digits=2, raises="front_axle wheelbase", lowers="mass",
    grade="read", source="stab_s10", where="centre of gravity fore and aft",
)  # fmt: skip
def centre_of_mass_ahead(front_axle: float, mass: float, wheelbase: float) -> float:
    """Distance in m of the centre of mass ahead of the rear axle, from the load on the front axle and the mass (kg).

    >>> round(centre_of_mass_ahead(front_axle=600, mass=1500, wheelbase=1.7), 2)
    0.68
    """
    return front_axle * wheelbase / mass


@formula(
    "wheel_radius + (centre_ahead - lifted_front_axle * wheelbase / mass) / tan(angle)", unit="m", digits=2,
    raises="wheel_radius centre_ahead mass", lowers="lifted_front_axle wheelbase angle",
)  # fmt: skip
def centre_of_mass_height(
    wheel_radius: float, centre_ahead: float, lifted_front_axle: float, wheelbase: float, mass: float, angle: float
) -> float:
    """Height in m of the centre of mass, from weighing the front axle level and then lifted by `angle` degrees.

    Parameters
    ----------
    wheel_radius : m, all four wheels alike
    centre_ahead : m from the rear axle to the centre of mass
    lifted_front_axle : kg on the scale under the front axle while it is lifted
    wheelbase, mass : m and kg

    Examples
    --------
    1500 kg, 0.68 m ahead of the rear axle, wheelbase 1.7 m: lifted by 15 degrees 564.5 kg stay in front (derived).

    >>> round(centre_of_mass_height(wheel_radius=0.55, centre_ahead=0.68, lifted_front_axle=564.5, wheelbase=1.7,
    ...     mass=1500, angle=15), 2)
    0.7
    """
    lifted = centre_ahead - lifted_front_axle * wheelbase / mass
    return wheel_radius + lifted / math.tan(math.radians(angle))


@formula(
    "(mass * height + carried * carried_height) / (mass + carried)", unit="m", digits=2,
    raises="height carried_height", either="mass carried",
)  # fmt: skip
def combined_height(mass: float, height: float, carried: float, carried_height: float) -> float:
    """Height in m of the common centre of mass of a tractor and what it carries (kg, m above the ground).

    A driver of 90 kg whose centre is at 1.5 m raises that of a 1500 kg tractor from 0.75 to 0.79 m (derived):

    >>> round(combined_height(mass=1500, height=0.75, carried=90, carried_height=1.5), 2)
    0.79
    """
    return (mass * height + carried * carried_height) / (mass + carried)


@formula(
    "atan(track / (2 * centre_height))", unit="deg", digits=1, raises="track", lowers="centre_height",
    grade="secondary", source="stab_s2c", where="problem 11-43",
)  # fmt: skip
def side_tip_angle(track: float, centre_height: float) -> float:
    """Static angle in degrees at which a rigid base tips sideways: distance of the wheels' middles and height in m.

    Textbook problem: half of the track 1.5 m, centre at 3.5 m: 23.2 degrees.

    >>> round(side_tip_angle(track=3.0, centre_height=3.5), 1)
    23.2
    """
    return math.degrees(math.atan(track / (2 * centre_height)))


@formula(
    "atan(track / 2 * (1 - front_share / 100) / (centre_height - pivot_height * front_share / 100))",
    unit="deg", digits=1, raises="track pivot_height", lowers="centre_height", either="front_share",
)  # fmt: skip
def side_tip_angle_pivot(track: float, front_share: float, centre_height: float, pivot_height: float) -> float:
    """Static angle in degrees at which a tractor whose front axle swings on a pivot starts to tip sideways.

    It tips about the line from the lower rear wheel to the pivot, until the axle meets its stop. The share of the
    weight on the front axle says where between the axles the centre of mass is, so that the wheelbase cancels.

    Parameters
    ----------
    track : m between the middles of the rear wheels
    front_share : % of the weight on the front axle
    centre_height, pivot_height : m above the ground

    Examples
    --------
    1.2 m track, centre at 0.75 m, 40 % in front, pivot at 0.35 m (derived): 30.5 degrees; a rigid base has 38.7.

    >>> round(side_tip_angle_pivot(track=1.2, front_share=40, centre_height=0.75, pivot_height=0.35), 1)
    30.5

    Raises
    ------
    NoSolutionError
        When the centre of mass lies below the line about which it would tip.
    """
    share = front_share / 100
    above = centre_height - pivot_height * share
    if above <= 0:
        raise NoSolutionError("with its centre of mass that low the tractor does not tip sideways")
    return math.degrees(math.atan(track / 2 * (1 - share) / above))


@formula(
    "2 * tan(angle / share) * (centre_height - pivot_height * front_share / 100) / (1 - front_share / 100)",
    unit="m", digits=2, raises="angle centre_height", lowers="share pivot_height", either="front_share",
)  # fmt: skip
def track_for_side_slope(
    angle: float, share: float, centre_height: float, front_share: float, pivot_height: float
) -> float:
    """Track in m between the rear wheels' middles for which `share` of the static tipping angle is the slope's angle.

    Parameters
    ----------
    angle : side slope in degrees
    share : share of the static angle that may be used, 0.5 for half
    centre_height, pivot_height : m above the ground, of the centre of mass and of the front axle's pivot
    front_share : % of the weight on the front axle

    Examples
    --------
    The tractor that tips at 30.5 degrees, the other way round: half of that angle asks for its track of 1.2 m.

    >>> round(track_for_side_slope(angle=15.25, share=0.5, centre_height=0.75, front_share=40, pivot_height=0.35), 2)
    1.2

    Raises
    ------
    NoSolutionError
        When the static angle would have to be upright: no track is wide enough.
    """
    if angle / share >= 90:
        raise NoSolutionError("no track is wide enough for this side slope")
    above = centre_height - pivot_height * front_share / 100
    return 2 * math.tan(math.radians(angle / share)) * above / (1 - front_share / 100)


@formula("atan(grip) / share", unit="deg", digits=1, raises="grip", lowers="share")
def side_grip_angle(grip: float, share: float) -> float:
    """Side slope in degrees that keeps the wheels from sliding: the angle of friction divided by `share`.

    Gravel, 0.35 (derived): 19.3 degrees; divided by 1.5 for safety 12.9.

    >>> round(side_grip_angle(grip=0.35, share=1), 1), round(side_grip_angle(grip=0.35, share=1.5), 1)
    (19.3, 12.9)
    """
    return math.degrees(math.atan(grip)) / share


@formula(
    "3.6 * sqrt(9.80665 * radius * track / (2 * centre_height))", unit="km/h", digits=1, raises="track radius",
    lowers="centre_height", grade="secondary", source="stab_td", where="speed in a level turn",
)  # fmt: skip
def turn_speed(track: float, centre_height: float, radius: float) -> float:
    """Speed in km/h at which a rigid base tips over in a level turn of `radius` m.

    >>> round(turn_speed(track=1.2, centre_height=0.75, radius=6), 1)
    24.7
    """
    return 3.6 * math.sqrt(9.80665 * radius * track / (2 * centre_height))


@formula(
    "3.6 * sqrt(9.80665 * radius * (track / (2 * centre_height) - tan(angle)) / "
    "(1 + track / (2 * centre_height) * tan(angle)))",
    unit="km/h", digits=1, raises="track radius", lowers="centre_height angle",
)  # fmt: skip
def turn_speed_on_slope(track: float, centre_height: float, radius: float, angle: float) -> float:
    """The same where the ground falls away to the outside of the turn by `angle` degrees.

    >>> round(turn_speed_on_slope(track=1.2, centre_height=0.75, radius=6, angle=10), 1)
    20.4

    Raises
    ------
    NoSolutionError
        When it tips standing still.
    """
    ratio, tangent = track / (2 * centre_height), math.tan(math.radians(angle))
    if ratio <= tangent:
        raise NoSolutionError("on this side slope it tips over standing still")
    return 3.6 * math.sqrt(9.80665 * radius * (ratio - tangent) / (1 + ratio * tangent))


@formula("atan(centre_ahead / centre_height)", unit="deg", digits=1, raises="centre_ahead", lowers="centre_height")
def rear_tip_angle(centre_ahead: float, centre_height: float) -> float:
    """Static angle in degrees, facing up and without any pull, at which it goes over backwards.

    Centre 0.68 m ahead of the rear axle and 0.75 m high (derived): 42.2 degrees.

    >>> round(rear_tip_angle(centre_ahead=0.68, centre_height=0.75), 1)
    42.2
    """
    return math.degrees(math.atan(centre_ahead / centre_height))


@formula(
    "mass * 9.80665 / 1000 * centre_ahead / hitch_height", unit="kN", digits=1, raises="mass centre_ahead",
    lowers="hitch_height",
)  # fmt: skip
def pull_to_lift_front(mass: float, centre_ahead: float, hitch_height: float) -> float:
    """Pull in kN at the hitch that lifts the front wheels of a tractor on level ground.

    1500 kg, centre 0.68 m ahead of the rear axle, pulled at 0.4 m above the ground (derived): 25 kN.

    >>> round(pull_to_lift_front(mass=1500, centre_ahead=0.68, hitch_height=0.4), 1)
    25.0
    """
    return mass * 9.80665 / 1000 * centre_ahead / hitch_height
