"""Finding the words of a list in a text: whole words, plurals too, the longest first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache


@dataclass(frozen=True, slots=True)
class Hit:
    """A word of the list, as the list writes it, and where it stands in the text."""

    word: str
    start: int
    end: int


def hits(words: Iterable[str], text: str) -> Iterator[Hit]:
    """The words of the list in a text, from left to right.

    A longer word hides the shorter ones inside it. What a hyphen joins is one word; inside a word of the list a hyphen
    and a space are the same.

    >>> [hit.word for hit in hits(("PTO", "PTO power", "top link"), "PTO power and the top-links, no PTO-shaft")]
    ['PTO power', 'top link']
    """
    listed, pattern = _compiled(tuple(words))
    for found in pattern.finditer(text):
        yield Hit(listed[int(str(found.lastgroup)[1:])], found.start(), found.end())


@cache
def _compiled(words: tuple[str, ...]) -> tuple[tuple[str, ...], re.Pattern[str]]:
    listed = tuple(sorted(words, key=len, reverse=True))
    parts = "|".join(f"(?P<w{at}>{_forms(word)})" for at, word in enumerate(listed)) or r"(?!)"
    return listed, re.compile(rf"(?<![\w-])(?:{parts})(?![\w-])", re.IGNORECASE)


def _forms(word: str) -> str:
    """A pattern for a word in singular and plural."""
    *first, last = re.split(r"[\s-]+", word)
    if re.search(r"[^aeiou]y$", last):
        end = f"{re.escape(last[:-1])}(?:y|ies)"
    elif re.search(r"[^s]s$", last):  # written in the plural: ball ends, hydraulics
        end = f"{re.escape(last[:-1])}s?"
    else:
        end = f"{re.escape(last)}(?:e?s)?"
    return r"[\s-]+".join([*map(re.escape, first), end])
