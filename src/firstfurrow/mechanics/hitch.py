"""Lift: what a load that hangs far back asks of the arms, and what a tested pair of figures gives there."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula(
    "load * (link + max(distance, test)) / (link + test) / movement", unit="kg", digits=0,
    raises="load distance", lowers="link test movement",
)  # fmt: skip
def lift_at_610(load: float, distance: float, link: float, test: float, movement: float) -> float:
    """Lift in kg that must be stated at the test distance behind the ball ends.

    Parameters
    ----------
    load : kg, full
    distance : m from the ball ends to the centre of the load
    link : m from the instant centre of the linkage to the ball ends
    test : test distance, 0.61 m (24 in)
    movement : share of the static lift that is left for moving ground

    Examples
    --------
    430 kg with its centre 1.15 m back, link 1.2 m (derived): 657 kg.

    >>> round(lift_at_610(load=430, distance=1.15, link=1.2, test=0.61, movement=0.85))
    657
    """
    return load * (link + max(distance, test)) / (link + test) / movement


@formula(
    "load * max(distance, test) / test / movement", unit="kg", digits=0, raises="load distance", lowers="test movement",
)  # fmt: skip
def lift_at_610_bound(load: float, distance: float, test: float, movement: float) -> float:
    """The same for any linkage whatever: never less is safe.

    >>> round(lift_at_610_bound(load=430, distance=1.15, test=0.61, movement=1))
    811
    """
    return load * max(distance, test) / test / movement


@formula(
    "load * (link + distance) / link / movement", unit="kg", digits=0, raises="load distance", lowers="link movement",
)  # fmt: skip
def lift_at_ball_ends(load: float, distance: float, link: float, movement: float) -> float:
    """Lift in kg that must be stated at the ball ends.

    >>> round(lift_at_ball_ends(load=430, distance=1.15, link=1.2, movement=0.85))
    991
    """
    return load * (link + distance) / link / movement


@formula("load / movement", unit="kg", digits=0, raises="load", lowers="movement")
def lift_where_it_hangs(load: float, movement: float) -> float:
    """Lift in kg at the load's own centre.

    >>> round(lift_where_it_hangs(load=430, movement=0.85))
    506
    """
    return load / movement


@formula("empty + carried", unit="kg", digits=0, raises="empty carried")
def gross_mass(empty: float, carried: float) -> float:
    """Mass in kg with what it carries.

    >>> gross_mass(empty=150, carried=600)
    750
    """
    return empty + carried


@formula("mass_per_width * width", unit="kg", digits=0, raises="mass_per_width width", grade="practice")
def mass_of_width(mass_per_width: float, width: float) -> float:
    """Mass in kg of a tool rated by width.

    >>> mass_of_width(mass_per_width=240, width=1.5)
    360.0
    """
    return mass_per_width * width


@formula(
    "ball_ends / (1 + distance / 0.61 * (ball_ends / at_610 - 1))", unit="kg", digits=0,
    raises="ball_ends at_610", lowers="distance",
)  # fmt: skip
def lift_between(ball_ends: float, at_610: float, distance: float) -> float:
    """Lift in kg at `distance` (m) behind the ball ends of a tractor with both test figures (virtual work).

    2000 kg at the ball ends and 1500 kg at 610 mm give 1714 kg halfway (derived):

    >>> round(lift_between(ball_ends=2000, at_610=1500, distance=0.305))
    1714
    """
    return ball_ends / (1 + distance / 0.61 * (ball_ends / at_610 - 1))


@formula(
    "min(power, 65) * 0.31 + max(power - 65, 0) * 0.155", unit="kN", digits=3, raises="power",
    grade="secondary", source="paes118", where="Table 5, clause 6.3",
)  # fmt: skip
def least_lift_of_a_tractor(power: float) -> float:
    """Lift force in kN at 610 mm that a tractor standard asks for by power in kW: a sanity band, never the requirement.

    >>> round(least_lift_of_a_tractor(power=100), 3)
    25.575
    """
    return min(power, 65) * 0.31 + max(power - 65, 0) * 0.155
