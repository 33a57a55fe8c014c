"""Pull: draft of tools by published rows and bands, and the pull of a load on wheels."""

from __future__ import annotations

import math

from firstfurrow.reasoning import formula


@formula(
    "soil_factor * (A + B * speed + C * speed**2) * width * depth / 1000", unit="kN", digits=2,
    raises="soil_factor A B C speed width depth", grade="secondary", source="t1",
    where="clause 4, equation and Table 1",
)  # fmt: skip
def tool_draft(soil_factor: float, A: float, B: float, C: float, speed: float, width: float, depth: float) -> float:
    """Horizontal draft in kN by the draft equation of ASAE D497.

    Parameters
    ----------
    soil_factor : factor of the row for fine, medium or coarse soil
    A, B, C : coefficients of the row
    speed : km/h
    width : m, or number of tools or rows, as the row says
    depth : working depth in cm for major tillage, 1 for minor tillage and seeding

    Examples
    --------
    Two plough bottoms, 0.7112 m together, 20 cm deep at 6 km/h in medium soil (derived from the row): 8.32 kN.

    >>> round(tool_draft(soil_factor=0.7, A=652, B=0, C=5.1, speed=6, width=0.7112, depth=20), 4)
    8.3199
    """
    return soil_factor * (A + B * speed + C * speed**2) * width * depth / 1000


@formula("draft * spread", unit="kN", digits=2, raises="draft spread")
def spread_draft(draft: float, spread: float) -> float:
    """Draft within the stated range of its row: `spread` is 1, or 1 minus or plus the row's range.

    >>> round(spread_draft(draft=8.32, spread=1.4), 2)
    11.65
    """
    return draft * spread


@formula("force_per_width * width", unit="kN", digits=2, raises="force_per_width width", grade="practice")
def band_draft(force_per_width: float, width: float) -> float:
    """Draft in kN of a tool that has no published row, from a band in kN per metre of width.

    >>> band_draft(force_per_width=4.0, width=1.5)
    6.0
    """
    return force_per_width * width


@formula("force_per_tool * tools", unit="kN", digits=2, raises="force_per_tool tools", grade="practice")
def tools_draft(force_per_tool: float, tools: float) -> float:
    """Draft in kN from a band in kN for each tool.

    >>> tools_draft(force_per_tool=2.5, tools=3)
    7.5
    """
    return force_per_tool * tools


@formula("tools_per_width * width", unit="", digits=1, raises="tools_per_width width", grade="practice")
def tools_on_width(tools_per_width: float, width: float) -> float:
    """How many tools or rows stand on a working width.

    >>> round(tools_on_width(tools_per_width=5.25, width=1.8), 1)
    9.4
    """
    return tools_per_width * width


@formula(
    "specific_draft * 9.80665 * width * depth * speed_factor / 10", unit="kN", digits=3,
    raises="specific_draft width depth speed_factor", grade="secondary", source="plough_notes",
    where="specific draft and speed factor",
)  # fmt: skip
def specific_draft_pull(specific_draft: float, width: float, depth: float, speed_factor: float) -> float:
    """Older method: draft in kN from specific draft (kg/cm2), width (m), depth (cm) and a speed factor.

    Three bottoms of 14 in, 25.4 cm deep, 0.56 kg/cm2 at the slowest speed (review problem): 1517.4 kg.

    >>> round(specific_draft_pull(specific_draft=0.56, width=3 * 0.3556, depth=25.4, speed_factor=1) / 9.80665e-3, 1)
    1517.4
    """
    return specific_draft * 9.80665 * width * depth * speed_factor / 10


@formula("atan(slope / 100)", unit="deg", digits=2, raises="slope")
def angle_of(slope: float) -> float:
    """Angle in degrees of a slope in %.

    >>> round(angle_of(slope=15), 2)
    8.53
    """
    return math.degrees(math.atan(slope / 100))


@formula(
    "mass * 9.80665 * (rolling * cos(angle) + sin(angle)) / 1000", unit="kN", digits=2, raises="mass rolling angle",
)  # fmt: skip
def towed_pull(mass: float, rolling: float, angle: float) -> float:
    """Pull in kN that moves `mass` (kg) on wheels up a slope: rolling resistance and grade.

    2000 kg, rolling resistance 0.05, on 15 % (derived): 3.88 kN.

    >>> round(towed_pull(mass=2000, rolling=0.05, angle=8.53), 2)
    3.88
    """
    return mass * 9.80665 * (rolling * math.cos(math.radians(angle)) + math.sin(math.radians(angle))) / 1000
