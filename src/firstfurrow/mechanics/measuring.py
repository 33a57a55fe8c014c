"""Measuring by hand: a slope with board and level, an area by paces, a tongue on a scale, ports to sets."""

from __future__ import annotations

import math

from firstfurrow.reasoning import NoSolutionError, formula


@formula("100 * gap / board", unit="%", digits=1, raises="gap", lowers="board")
def slope_of_board(gap: float, board: float) -> float:
    """Slope in % under a board that is held level: the gap under its free end over its length, both in m.

    A gap of 15 cm under a board of 1 m (our own example): 15 %.

    >>> round(slope_of_board(gap=0.15, board=1), 1)
    15.0
    """
    return 100 * gap / board


@formula("atan(slope / 100)", unit="deg", digits=1, raises="slope")
def angle_of_slope(slope: float) -> float:
    """Angle in degrees of a slope in %.

    26.8 % is the 15 degrees that many manuals for garden tractors print.

    >>> round(angle_of_slope(slope=26.8), 1)
    15.0
    """
    return math.degrees(math.atan(slope / 100))


@formula("part * paces * paces_across * pace**2 / 10000", unit="ha", digits=2, raises="part paces paces_across pace")
def area_of_paces(part: float, paces: float, paces_across: float, pace: float) -> float:
    """Area in ha of a piece of land that was paced; `pace` is the length of one step in m.

    Parameters
    ----------
    part : 1 for a rectangle, 0.5 for a triangle inside of it
    paces, paces_across : steps along and across

    Examples
    --------
    125 by 100 steps of 0.8 m are 100 m by 80 m (our own example).

    >>> round(area_of_paces(part=1, paces=125, paces_across=100, pace=0.8), 2)
    0.8
    """
    return part * paces * paces_across * pace**2 / 10000


@formula("reading - board_only", unit="kg", digits=0, raises="reading", lowers="board_only")
def tongue_on_scale(reading: float, board_only: float) -> float:
    """Load in kg of a tongue that stands on a scale; `board_only` is what the scale shows without the tongue.

    85 kg with and 5 kg without the tongue (our own example): 80 kg.

    >>> tongue_on_scale(reading=85, board_only=5)
    80
    """
    if reading < board_only:
        raise NoSolutionError("The scale shows less with the tongue on it than without.")
    return reading - board_only


@formula(
    "(reading - board_only) * beam / arm", unit="kg", digits=0, raises="reading beam", lowers="board_only arm",
    grade="practice",
)  # fmt: skip
def tongue_on_beam(reading: float, board_only: float, beam: float, arm: float) -> float:
    """Load in kg of a tongue on a beam, one end of which lies on a block and the other on a scale.

    Moments about the block: the scale carries only the part arm / beam of the load.

    Parameters
    ----------
    reading, board_only : kg on the scale with the tongue on the beam, and with the beam alone
    beam : m from the middle of the block to the middle of the scale
    arm : m from the middle of the block to the tongue

    Examples
    --------
    Scale 0.9 m from the block, tongue 0.3 m from it: three times what the scale shows.

    >>> round(tongue_on_beam(reading=60, board_only=4, beam=0.9, arm=0.3))
    168
    """
    if reading < board_only:
        raise NoSolutionError("The scale shows less with the tongue on it than without.")
    return (reading - board_only) * beam / arm


@formula("100 * load / mass", unit="%", digits=1, raises="load", lowers="mass")
def share_on_tongue(load: float, mass: float) -> float:
    """Share in % of the mass of a trailer that its tongue puts on the tractor.

    80 kg of 1000 kg (our own example): 8 %.

    >>> share_on_tongue(load=80, mass=1000)
    8.0
    """
    return 100 * load / mass


@formula("down((ports - returns) / 2, 1)", unit="sets", digits=0, raises="ports", lowers="returns")
def sets_of_ports(ports: float, returns: float) -> float:
    """Remote sets from the ports counted: two ports with one lever are one set; a free return belongs to none.

    Five ports of which one is a free return (our own example): two sets.

    >>> sets_of_ports(ports=5, returns=1)
    2.0
    """
    return float(math.floor((ports - returns) / 2))


@formula("100 * bore / width", unit="%", digits=0, raises="bore", lowers="width")
def share_of_hole(bore: float, width: float) -> float:
    """Share in % of the width of a drawbar that its pin or hole takes up, both in mm.

    A hole of 33 mm in a bar of 66 mm (our own example): half of it.

    >>> share_of_hole(bore=33, width=66)
    50.0
    """
    return 100 * bore / width


@formula("span + ball", unit="mm", digits=0, raises="span ball")
def span_of_balls(span: float, ball: float) -> float:
    """Span in mm between ball centres from the span between the shoulders and the width of one ball.

    Category 1: 683 mm and a ball of 35 mm; a trade table has 718 mm.

    >>> span_of_balls(span=683, ball=35)
    718
    """
    return span + ball
