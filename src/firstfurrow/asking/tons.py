"""A bare ton from a reader who thinks in kilograms: it is the tonne; others are asked which ton they mean."""

from __future__ import annotations

import re

from firstfurrow.asking.answers import Units

_BARE_TON = re.compile(r"(?P<number>[\d.,\s/]*\d)\s*(?:t|tons?)\s*\.?", re.IGNORECASE)


def as_tonnes(line: str, dimension: str, units: Units) -> str:
    """The line with a bare ton spelled out, so that an answers file says which ton it is.

    >>> as_tonnes("6 t", "mass", "metric"), as_tonnes("1 ton", "mass", "metric"), as_tonnes("6 t", "mass", "us")
    ('6 tonnes', '1 tonne', '6 t')
    """
    found = _BARE_TON.fullmatch(line.strip()) if dimension == "mass" and units == "metric" else None
    if found is None:
        return line
    number = found["number"].strip()
    return f"{number} {'tonne' if number == '1' else 'tonnes'}"
