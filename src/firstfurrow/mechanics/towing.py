"""Towing: the tractor mass that may hold back, or stop, what is towed without brakes of its own."""

from __future__ import annotations

import math

from firstfurrow.reasoning import NoSolutionError, formula


@formula("towed / ratio", unit="kg", digits=0, raises="towed", lowers="ratio", grade="practice")
def mass_to_hold(towed: float, ratio: float) -> float:
    """Tractor mass in kg for a towed mass (kg) and the greatest ratio of towed to tractor mass.

    A rule, not a proof that it stops: grip, speed and the tractor's own brakes decide that.

    >>> round(mass_to_hold(towed=2000, ratio=1.5))
    1333
    """
    return towed / ratio


@formula(
    "max((1 + ratio) * (sin(angle) - rolling * cos(angle) + deceleration / 9.80665), 0) / cos(angle)",
    unit="", digits=2, raises="ratio angle deceleration", lowers="rolling",
)  # fmt: skip
def grip_to_stop(ratio: float, rolling: float, angle: float, deceleration: float) -> float:
    """Grip that the tractor's wheels must have, all of them braked, to stop itself and what it tows downhill.

    Parameters
    ----------
    ratio : mass towed without brakes by the mass of the tractor
    rolling : rolling resistance of the wheels, which helps to stop
    angle : slope in degrees, going down
    deceleration : m/s2; 0 only keeps it from running away

    Examples
    --------
    A trailer of twice the tractor's mass, held at a steady speed on 15 %, rolling 0.03 (derived): 0.36.

    >>> round(grip_to_stop(ratio=2, rolling=0.03, angle=8.5308, deceleration=0), 2)
    0.36
    """
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    return max((1 + ratio) * (sine - rolling * cosine + deceleration / 9.80665), 0) / cosine


@formula(
    "max(towed * (sin(angle) - rolling * cos(angle) + deceleration / 9.80665), 0) / "
    "(grip * cos(angle) - (sin(angle) - rolling * cos(angle) + deceleration / 9.80665))",
    unit="kg", digits=0, raises="towed angle deceleration", lowers="grip rolling",
)  # fmt: skip
def mass_to_stop(towed: float, grip: float, rolling: float, angle: float, deceleration: float) -> float:
    """Tractor mass in kg that stops itself and `towed` (kg) downhill, all its wheels braked, the trailer's not.

    Parameters
    ----------
    grip : share of the weight on braked wheels that they can push back
    rolling : rolling resistance of the wheels, which helps to stop
    angle : slope in degrees, going down
    deceleration : m/s2; 0 only keeps it from running away

    Examples
    --------
    2000 kg on 15 % with grip 0.36 at a steady speed: half of that, the table above the other way round.

    >>> round(mass_to_stop(towed=2000, grip=0.36, rolling=0.03, angle=8.5308, deceleration=0))
    1000

    Raises
    ------
    NoSolutionError
        When the wheels cannot even stop the tractor by itself: no mass is enough.
    """
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    asked = sine - rolling * cosine + deceleration / 9.80665
    left = grip * cosine - asked
    if left <= 0:
        raise NoSolutionError("the wheels cannot grip enough to stop the tractor by itself, however heavy it is")
    return max(towed * asked, 0) / left


@formula(
    "max(towed * (sin(angle) - rolling * cos(angle) + deceleration / 9.80665), 0) * "
    "(1 + grip * hitch_height / wheelbase) / "
    "(grip * (rear_share * cos(angle) - (sin(angle) + deceleration / 9.80665) * centre_height / wheelbase) - "
    "(sin(angle) - rolling * cos(angle) + deceleration / 9.80665))",
    unit="kg", digits=0, raises="towed angle deceleration centre_height hitch_height",
    lowers="grip rolling rear_share wheelbase",
)  # fmt: skip
def mass_to_stop_rear(
    towed: float, grip: float, rolling: float, angle: float, deceleration: float, rear_share: float, wheelbase: float,
    centre_height: float, hitch_height: float,
) -> float:  # fmt: skip
    """Tractor mass in kg that stops itself and `towed` (kg) downhill with its rear wheels alone.

    Going down and slowing, weight leaves the rear wheels twice: the tractor leans forward by its own centre of mass,
    and the trailer pushes at the hitch. Moment about the ground under the front wheels; the rest as in `mass_to_stop`.

    Parameters
    ----------
    rear_share : share of the tractor's weight on the rear axle on level ground, 0 to 1
    wheelbase, centre_height, hitch_height : m; heights above the ground

    Examples
    --------
    2000 kg on 15 % with grip 0.60 (derived): 500 kg with all wheels braked, 1189 kg with the rear ones and 65 % there.

    >>> round(mass_to_stop_rear(towed=2000, grip=0.60, rolling=0.03, angle=8.5308, deceleration=0, rear_share=0.65,
    ...     wheelbase=1.7, centre_height=0.75, hitch_height=0.4))
    1189

    Raises
    ------
    NoSolutionError
        When the rear wheels cannot even stop the tractor by itself: no mass is enough.
    """
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    forward = sine + deceleration / 9.80665
    asked = forward - rolling * cosine
    left = grip * (rear_share * cosine - forward * centre_height / wheelbase) - asked
    if left <= 0:
        raise NoSolutionError("the rear wheels cannot grip enough to stop the tractor by itself, however heavy it is")
    return max(towed * asked, 0) * (1 + grip * hitch_height / wheelbase) / left


@formula("min(mass * share, cap)", unit="kg", digits=0, raises="mass share cap")
def share_or_cap(mass: float, share: float, cap: float) -> float:
    """What some laws allow: a share of a mass (0 to 1), but never more than `cap` kg. Check the law of the place.

    German law for an unbraked single axle behind a slow tractor: half of the tractor's empty mass, at most 3000 kg.

    >>> share_or_cap(mass=4000, share=0.5, cap=3000), share_or_cap(mass=8000, share=0.5, cap=3000)
    (2000.0, 3000)
    """
    return min(mass * share, cap)
