"""Sizes of tyres as they are printed, to width of section and overall diameter.

Four ways of printing are read. In two of them nothing is left to guess: width in millimetres and height in percent
(320/85R24), and overall diameter by width by rim (26x12.00-12). Where only width and rim stand there in inches
(12.4-28, 6.00-16, 17.5L-24), the height of the section is the usual share of its width, which the book has for three
sorts of tyre; a test holds them to the overall diameters of a published table, which most meet within three percent and
all within six. Makers differ by as much. A tyre that was measured is better than any of this.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from firstfurrow.book.model import Figure
from firstfurrow.mechanics.tyres import overall_diameter
from firstfurrow.quantities import factor

DRIVE, OLD, LOW = "tyre_height_drive", "tyre_height_old", "tyre_height_low"
_LONGEST = 60
_INCH = factor("in", "m")
_NARROWEST, _WIDEST = 0.08, 1.3  # m
_LOWEST, _HIGHEST = 0.25, 2.6  # m
_OLD_NAMES_END = 9  # inches: below, a width in halves is an older size; above, 9.5 and 12.5 are drive tyres

_NUMBER = r"\d{1,2}(?:\.\d{1,2})?"
_RIM = r"(?P<rim>\d{1,2}(?:\.\d)?)"
_SIGN = r"\s*(?P<sign>-?\s*[RDB]|-|X)\s*"
_BEFORE = r"(?:(?:P|LT|ST|IF|VF|CFO)\s*)?"
_METRIC = re.compile(rf"{_BEFORE}(?P<width>\d{{3,4}})\s*/\s*(?P<share>\d{{2,3}}){_SIGN}{_RIM}")
_BY_DIAMETER = re.compile(rf"(?P<height>{_NUMBER})\s*X\s*(?P<width>{_NUMBER})L?L?{_SIGN}{_RIM}")
_INCHES = re.compile(rf"{_BEFORE}(?P<width>{_NUMBER})(?P<low>L?)(?:\s*/\s*(?P<second>{_NUMBER}))?{_SIGN}{_RIM}")
_STROKE = re.compile(rf"(?P<width>{_NUMBER})(?P<low>)(?P<second>)(?P<sign>/){_RIM}")  # 12.4/28, as some write
# What else stands beside the size: plies, tread, load and speed, tube, another name in brackets.
_AFTER = re.compile(
    r"(?:[\s,/]*(?:\d{1,2}\s*-?\s*(?:PR|PLY)|TL|TT|NHS|AG|IMP|IND|MPT|RADIAL|BIAS|[RFIG]-?\d[WM]?|HF-?\d|\d{2,3}\s?[A-K]\d?"
    r"|\*{1,3}|\([^()]*\)))*\s*"
)


@dataclass(frozen=True, slots=True)
class TyreSize:
    """A tyre: width of its section and overall diameter in m, without load; radial, or cross-ply."""

    width: float
    diameter: float
    radial: bool = False


def read_size(text: str, figures: Mapping[str, Figure]) -> TyreSize | None:
    """The tyre of a printed size; None where it cannot be read. `figures` holds the usual heights of sections."""
    if len(text) > _LONGEST:
        return None
    plain = " ".join(re.sub(r"(?<=\d),(?=\d)", ".", text.upper()).translate(_SIGNS).split())
    for pattern in (_BY_DIAMETER, _METRIC, _INCHES, _STROKE):
        found = pattern.match(plain)
        if found is not None and _AFTER.fullmatch(plain, found.end()):
            return _made(found, figures, "RADIAL" in plain)
    return None


_SIGNS = str.maketrans({"×": "X", "*": "*", "–": "-", "—": "-", "\u2010": "-", "\u2011": "-", "\u2212": "-"})


def _made(found: re.Match[str], figures: Mapping[str, Figure], radial: bool) -> TyreSize | None:
    parts = found.groupdict()
    rim, width = float(parts["rim"]), float(parts["width"])
    if found.re is _BY_DIAMETER:
        across, diameter = width * _INCH, float(parts["height"]) * _INCH
    elif found.re is _METRIC:
        across = width / 1000
        diameter = overall_diameter(rim, across, float(parts["share"]) / 100)
    else:
        if parts["sign"] in ("X", "/") and width >= rim:
            return None  # 26x12 is a diameter without its width
        across = width * _INCH
        diameter = overall_diameter(rim, across, _height(parts, width, rim, figures))
    fits = _NARROWEST <= across <= _WIDEST and _LOWEST <= diameter <= _HIGHEST
    if not fits or across >= diameter or diameter <= rim * _INCH:
        return None
    return TyreSize(round(across, 4), round(diameter, 4), radial or "R" in parts["sign"])


def _height(parts: Mapping[str, str | None], width: float, rim: float, figures: Mapping[str, Figure]) -> float:
    """Height of the section as a share of its width: printed after the stroke, or the usual one for that way of
    printing."""
    second = float(parts["second"] or 0)
    if second > width:  # 10.0/75-15.3; else it is the width by its older name, as in 16.9/14-30
        return second / 100
    text = parts["width"] or ""
    if parts["low"] or (rim % 1 == 0.5 and rim < 20):
        name = LOW
    elif "." not in text or re.fullmatch(r"\d+\.\d\d", text) or (width < _OLD_NAMES_END and text[-1] in "05"):
        name = OLD
    else:
        name = DRIVE
    return figures[name].planning / 100
