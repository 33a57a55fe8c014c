"""What stands between the engine's brochure figure and the shaft: altitude and the drive."""

from __future__ import annotations

from firstfurrow.reasoning import NoSolutionError, formula


@formula(
    "max(altitude - free, 0) / step * loss_per_step", unit="%", digits=1, raises="altitude loss_per_step",
    lowers="free step", grade="secondary", source="stab_s44", where="altitude losses, naturally aspirated engines",
)  # fmt: skip
def altitude_loss(altitude: float, free: float, step: float, loss_per_step: float) -> float:
    """Power loss in % of an engine without turbocharger: so much per step of height above a free height (m).

    1524 m with 3 % per 305 m above 152 m (derived from the rule): 13.5 %.

    >>> round(altitude_loss(altitude=1524, free=152, step=305, loss_per_step=3), 1)
    13.5
    """
    return max(altitude - free, 0) / step * loss_per_step


@formula("power / (1 - loss / 100)", unit="kW", digits=1, raises="power loss")
def rated_at_sea_level(power: float, loss: float) -> float:
    """Rated power in kW that leaves `power` after a loss in %.

    >>> round(rated_at_sea_level(power=20, loss=13.5), 1)
    23.1

    Raises
    ------
    NoSolutionError
        When nothing is left at that height.
    """
    if loss >= 100:
        raise NoSolutionError("an engine without turbocharger gives no power at that height")
    return power / (1 - loss / 100)


@formula(
    "power / share", unit="kW", digits=1, raises="power", lowers="share",
    grade="read", source="uga", where="PTO power as a share of engine power",
)  # fmt: skip
def engine_power_usual(power: float, share: float) -> float:
    """Engine power in kW that a brochure usually prints for this PTO power. Never the requirement.

    A baler that needs 55 PTO hp (41 kW): 65 hp at 0.85 (farm press).

    >>> round(engine_power_usual(power=55, share=0.85), 1)
    64.7
    """
    return power / share


@formula(
    "above / step * loss_per_step", unit="%", digits=1, raises="above loss_per_step", lowers="step",
    grade="secondary", source="stab_s44", where="temperature losses, naturally aspirated engines",
)  # fmt: skip
def heat_loss(above: float, step: float, loss_per_step: float) -> float:
    """Power loss in % of an engine without turbocharger on a hot day: so much per step of heat.

    Parameters
    ----------
    above : degrees (K) by which the air is hotter than the heat up to which nothing is lost
    step, loss_per_step : K, and the loss in % for each of them

    Examples
    --------
    A diesel at 40.6 C, 11.2 K above 29.4 C, 1 % for each 2.78 K (derived from the rule): 4 %.

    >>> round(heat_loss(above=11.2, step=2.78, loss_per_step=1), 1)
    4.0
    """
    return above / step * loss_per_step


@formula("power / ratio", unit="kW", digits=1, raises="power", lowers="ratio")
def hydrostatic(power: float, ratio: float) -> float:
    """Power in kW that a hydrostatic drive must get where a gear drive would do with `power`.

    `ratio` is what the hydrostatic drive brings on of what the gear drive does (derived: 0.78 to 0.89).

    >>> round(hydrostatic(power=10, ratio=0.8), 1)
    12.5
    """
    return power / ratio
