"""How wide words are on a drawing: broken into lines, or shortened, so that no two meet and none leaves the sheet."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from firstfurrow.report.drawing import SIZES, Label, Size

MORE = "…"  # at the end of what was shortened; the whole stands in the sentences below the drawing
# Advance of a letter in heights of the letters, by class, as in the usual sans serif letters.
_CLASSES = (
    (0.23, "'ijl"), (0.29, " \u00a0!,./:;I[]\\ft|…"), (0.35, "()-`r\""), (0.5, "cksvxyzJ*^"),
    (0.56, "abdeghnopquL0123456789?#$_"), (0.6, "+<=>~FTZ"), (0.68, "&ABEKPSVXY"), (0.73, "CDHNRUw"), (0.78, "GOQ"),
    (0.84, "mM"), (0.96, "%W"), (1.02, "@"),
)  # fmt: skip
_ADVANCE = {letter: advance for advance, letters in _CLASSES for letter in letters} | {MORE: 1.0}
_OTHER, _WIDE = 0.8, 1.25  # another alphabet; signs as wide as they are high
_BOLD = 1.11
_UNIT, _NUMBER = 4, 3  # longer ones stand by themselves
_ABOVE, _BELOW = 0.76, 0.22  # how far letters reach above and below their foot


def width(text: str, size: Size = "normal", *, bold: bool = False) -> float:
    """The width of a line of words in units of the drawing, rather too much than too little."""
    return sum(map(_advance, text)) * SIZES[size] * (_BOLD if bold else 1.0)


@lru_cache(maxsize=1024)
def _advance(letter: str) -> float:
    known = _ADVANCE.get(letter)
    if known is not None:
        return known
    plain = unicodedata.normalize("NFD", letter)[0]  # é is as wide as e
    if plain != letter and plain in _ADVANCE:
        return _ADVANCE[plain]
    return _WIDE if unicodedata.east_asian_width(letter) in "WF" or ord(letter) > 0x2100 else _OTHER


def fitted(text: str, room: float, size: Size = "normal", *, bold: bool = False) -> str:
    """The text on one line, shortened where it does not fit."""
    return "".join(lines(text, room, size, bold=bold, most=1))


def lines(text: str, room: float, size: Size = "normal", *, bold: bool = False, most: int = 2) -> tuple[str, ...]:
    """The text broken into at most so many lines; the last one shortened where it does not fit."""
    looked_at = most * _most(room)
    rest = _glued(text[:looked_at].split())
    found: list[str] = []
    while rest and len(found) < most - 1:
        line, rest = _line(rest, room, size, bold)
        found.append(line)
    if rest:
        last = " ".join(rest)
        if len(text) > looked_at or width(last, size, bold=bold) > room:
            last = _shortened(last, room, size, bold)
        found.append(last)
    return tuple(found)


def _glued(words: list[str]) -> list[str]:
    """No line ends between a number and its unit, or between a word and the number that belongs to it."""
    found: list[str] = []
    for word in words:
        before = found[-1] if found else ""
        unit = before[-1:].isdigit() and len(word) <= _UNIT
        number = word[0].isdigit() and len(word) <= _NUMBER and before[-1:].isalpha()
        if unit or number:
            found[-1] = f"{before}\u00a0{word}"
        else:
            found.append(word)
    return found


def _shortened(text: str, room: float, size: Size, bold: bool) -> str:
    while text and width(text + MORE, size, bold=bold) > room:
        text = text[:-1]
    return text.rstrip() + MORE


def _most(room: float) -> int:
    """More letters than ever fit, so that nobody measures a name of ten thousand."""
    return int(room / 2) + 1


def _line(words: list[str], room: float, size: Size, bold: bool) -> tuple[str, list[str]]:
    """As many words as fit, and the others; a single word that is too long is broken."""
    count = 1
    while count < len(words) and width(" ".join(words[: count + 1]), size, bold=bold) <= room:
        count += 1
    line = " ".join(words[:count])
    if width(line, size, bold=bold) <= room:
        return line, words[count:]
    cut = len(line)
    while cut > 1 and width(line[:cut], size, bold=bold) > room:
        cut -= 1
    return line[:cut], [line[cut:], *words[count:]]


def box(label: Label) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a label on the sheet."""
    wide, high = width(label.text, label.size, bold=label.bold), SIZES[label.size]
    left = label.x - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return left, label.y - _ABOVE * high, left + wide, label.y + _BELOW * high
