"""The line at the foot of a window: as many of its entries as there is room for, never a part of one."""

from __future__ import annotations

GAP = "  "  # between two entries


def foot(entries: str, width: int) -> str:
    """The first entries that fit.

    >>> foot("? help  u unsure  w why", 18)
    '? help  u unsure'
    >>> foot("? help", 4)
    ''
    """
    shown = ""
    for entry in filter(None, entries.split(GAP)):
        longer = f"{shown}{GAP}{entry}" if shown else entry
        if len(longer) > width:
            break
        shown = longer
    return shown
