"""A drawing as data: lines, areas and words on a sheet, before anybody decides in which format it is written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Fill = Literal["none", "paper", "light", "mid", "dark", "hatch"]  # black and white: it must survive a cheap printer
Stroke = Literal["none", "thin", "normal", "thick", "dashed"]
Size = Literal["small", "normal", "large"]
SIZES: dict[Size, float] = {"small": 12.0, "normal": 13.0, "large": 16.0}  # of letters, in units of the drawing


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    stroke: Stroke = "normal"
    arrow: Literal["none", "end", "both"] = "none"


@dataclass(frozen=True, slots=True)
class Area:
    """A polygon, closed."""

    points: tuple[tuple[float, float], ...]
    fill: Fill = "light"
    stroke: Stroke = "normal"


@dataclass(frozen=True, slots=True)
class Path:
    """Straight pieces one after the other, open."""

    points: tuple[tuple[float, float], ...]
    stroke: Stroke = "normal"


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle."""

    x: float
    y: float
    r: float
    fill: Fill = "light"
    stroke: Stroke = "normal"


@dataclass(frozen=True, slots=True)
class Label:
    """One line of words; `y` is the foot of the letters."""

    x: float
    y: float
    text: str
    anchor: Literal["start", "middle", "end"] = "start"
    size: Size = "normal"
    bold: bool = False


Shape = Line | Area | Path | Disc | Label


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes on a sheet of `width` by `height` units, x to the right and y down, later ones on top."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
