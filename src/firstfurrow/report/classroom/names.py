"""Names that people gave: as text that is nothing but text, and as the name of a file that is safe everywhere."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Set

from firstfurrow.quantities.harmless import one_line

LONGEST_FILE = 60  # letters of the name of a file, its ending apart
CUT = "..."
_NOT_SAFE = re.compile(r"[^a-z0-9_]+")


def plain(text: str, longest: int) -> str:
    """The text in one line, cut where it is too long.

    >>> plain("Ann \\x1b[1m  Lee", 40), plain("a long name", 9)
    ('Ann [1m Lee', 'a long...')
    """
    line = " ".join(one_line(text[: 4 * longest + 100]).split())
    return line if len(line) <= longest else line[: longest - len(CUT)].rstrip() + CUT


def safe_file_name(before: str, names: tuple[str, ...], taken: Set[str]) -> str:
    """The name of a file, without ending, that none of `taken` has: `before` and the first of the names that gives one.

    Small letters of English, digits, - and _ alone, so that no system reads two of them as one, or one as a device.

    >>> safe_file_name("sheet-", ("Zo\\u00eb M\\u00fcller",), frozenset())
    'sheet-zoe-muller'
    >>> safe_file_name("sheet-", ("../..", "b.yaml"), {"sheet-b-yaml"})
    'sheet-b-yaml-2'
    """
    stem = next((safe for safe in map(_safe, names) if safe), "")
    number = 1
    while True:
        after = "" if number == 1 else f"-{number}"
        middle = stem[: LONGEST_FILE - len(before) - len(after)].strip("-")
        found = f"{before}{middle}{after}".replace("--", "-").strip("-")
        if found not in taken:
            return found
        number += 1


def _safe(name: str) -> str:
    ascii_ = unicodedata.normalize("NFKD", name[:1000]).encode("ascii", "ignore").decode("ascii")
    return _NOT_SAFE.sub("-", ascii_.lower()).strip("-")
