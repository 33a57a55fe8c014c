"""No digit in a sentence: a number of the trade stands in a figure field with its grade, where it can be checked."""

from __future__ import annotations

import re
from collections.abc import Iterator

from firstfurrow.book.files import Placed
from firstfurrow.book.problems import Problem, Said

_DIGIT = re.compile(r"[0-9]")
_WHY = "Nobody can check a number in a sentence, turn it into the reader's units, or see how sure it is."


def digits(part: Placed, *keys: str) -> Iterator[Problem]:
    """Every sentence under these keys, alone or in a list, that has a digit in it."""
    for key in keys:
        value = part.data.get(key)
        if isinstance(value, str):
            yield from _digit(part, value, key)
        elif isinstance(value, list):
            for index, line in enumerate(value):
                yield from _digit(part, line, key, index)


def _digit(part: Placed, text: str, *path: str | int) -> Iterator[Problem]:
    found = _DIGIT.search(text)
    if found is not None:
        word = text[text.rfind(" ", 0, found.start()) + 1 :].split(" ")[0]
        what = f'a figure stands in a sentence ("{word}"); put it into a figure field, or into words.'
        write = "Write it in words, such as a third, or put it into a figure with its grade."
        yield part.problem(Said(what, _WHY, write), *path)


def has_digit(text: str) -> bool:
    """True when there is a digit in the text."""
    return _DIGIT.search(text) is not None
