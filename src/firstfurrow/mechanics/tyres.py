"""Tyres: how high one is by its printed size, what rests on it, and what two axles pull together."""

from __future__ import annotations

from firstfurrow.reasoning import formula


@formula("rim * 0.0254 + 2 * height_share * width", unit="m", digits=3, raises="rim height_share width")
def overall_diameter(rim: float, width: float, height_share: float) -> float:
    """Overall diameter in m of a tyre without load: the rim and twice the height of its section.

    Parameters
    ----------
    rim : diameter of the rim in inches, the last number of a printed size
    width : width of the section in m
    height_share : height of the section as a share of its width; printed sizes with a stroke give it in percent

    Examples
    --------
    320/85R24: 609.6 mm and twice 85 % of 320 mm.

    >>> round(overall_diameter(rim=24, width=0.32, height_share=0.85), 4)
    1.1536
    """
    return rim * 0.0254 + 2 * height_share * width


@formula("axle * 9.80665 / 2000", unit="kN", digits=2, raises="axle")
def wheel_load(axle: float) -> float:
    """Load in kN on one of the two wheels of an axle that carries `axle` kg.

    >>> round(wheel_load(axle=1000), 2)
    4.9
    """
    return axle * 9.80665 / 2000


@formula(
    "(front * front_load + rear * rear_load) / (front_load + rear_load)", unit="", digits=3, raises="front rear",
    either="front_load rear_load",
)  # fmt: skip
def net_of_axles(front: float, front_load: float, rear: float, rear_load: float) -> float:
    """Net traction ratio of a tractor with four driven wheels, from those of its axles and what rests on each.

    600 kg in front pull 0.40 of it and 900 kg behind 0.45: together 0.43 of the 1500 kg.

    >>> round(net_of_axles(front=0.40, front_load=600, rear=0.45, rear_load=900), 3)
    0.43
    """
    return (front * front_load + rear * rear_load) / (front_load + rear_load)
