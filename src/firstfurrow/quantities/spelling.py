"""How people spell units: patterns that find them, and the one name that each spelling stands for."""

from __future__ import annotations

import re

from firstfurrow.quantities.units import DIMENSIONS, UNITS


def _spellings() -> dict[str, str]:
    table: dict[str, str] = {}
    for unit, (_, _, _, others) in UNITS.items():
        if not unit:
            continue
        for spelling in (unit, *filter(None, others.split("|"))):
            table[spelling] = unit
            table.setdefault(spelling.lower(), unit)
    return table


_SPELLED = _spellings()
TONS = re.compile(r"(t|tons?)(?![A-Za-z/])", re.IGNORECASE)
KNOT = re.compile(r"[kK]n(?![A-Za-z])")
DAYS = re.compile(r"(days?|d|weeks?)(?![A-Za-z])", re.IGNORECASE)
_PATTERNS: dict[str, re.Pattern[str]] = {}


def pattern_of(dimension: str) -> re.Pattern[str]:
    """The spellings of one dimension (or of all, for "") as a pattern, longest first."""
    known = _PATTERNS.get(dimension)
    if known is None:
        allowed = set(DIMENSIONS[dimension].units) if dimension else set(UNITS)
        words = sorted((s for s, unit in _SPELLED.items() if unit in allowed), key=len, reverse=True)
        joined = "|".join(re.escape(word).replace(r"\ ", r"\s*") for word in words) or r"(?!)"
        known = re.compile(rf"({joined})\.?(?![A-Za-z])", re.IGNORECASE)
        _PATTERNS[dimension] = known
    return known


def canonical(found: str) -> str:
    """The one name of a unit that a pattern found."""
    words = " ".join(found.split())
    unit = _SPELLED.get(words) or _SPELLED.get(words.lower())
    if unit is not None:
        return unit
    squeezed = words.lower().replace(" ", "")  # "USgal", "sqft" typed without the space
    return next(unit for spelling, unit in _SPELLED.items() if spelling.lower().replace(" ", "") == squeezed)
