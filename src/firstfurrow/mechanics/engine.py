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
