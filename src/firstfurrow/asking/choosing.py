"""One or several of the choices from a typed line: by number, by word, by the start of words, by the full label."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence

from firstfurrow.asking.resolve import NONE
from firstfurrow.asking.wording import listed, wording
from firstfurrow.book.model import Choice

LEAST_WORD = 3  # letters; shorter words, such as it and on, tell no two labels apart
NO = "no"
NO_NAMES = frozenset({"none", "nothing", "never"})
_SPLIT = re.compile(r"[,;]|\band\b|&|\+", re.IGNORECASE)
_NUMBERS = re.compile(r"\d+(?:\s*-\s*\d+)?(?:[\s,;]+\d+(?:\s*-\s*\d+)?)*[\s,;.]*")
_ONE = re.compile(r"(\d+)(?:\s*-\s*(\d+))?")
_STRANGE = re.compile(r"[^\w]+")


class ChoosingError(ValueError):
    """The line names none of the choices, or more than one; the message is one sentence."""


def plain(text: str) -> str:
    """Text for comparing: lower case, words apart, no signs.

    >>> plain("  Clay: sticky-when_wet! ")
    'clay sticky when wet'
    """
    return " ".join(_STRANGE.sub(" ", text.casefold().replace("_", " ")).split())


def names_of(choice: Choice) -> tuple[str, ...]:
    """Everything that stands for the choice when typed in full."""
    head = re.split(r"[:(,]", choice.label, maxsplit=1)[0]
    return tuple(filter(None, (plain(n) for n in (choice.id, choice.label, head, *choice.also))))


def candidates(choices: Sequence[Choice], text: str) -> tuple[Choice, ...]:
    """The choices that the words may mean: a full name wins over the start of a name, and that over the start of words.

    An id is on no screen, so that its start wins over nothing: "dry" is no more dry_grass than it is "firm, dry soil".
    """
    wanted = plain(text)
    if not wanted:
        return ()
    full = tuple(c for c in choices if wanted in names_of(c))
    if full:
        return full
    if wanted == NO:  # never the start of now, novice or notice; at most it is short for none
        return tuple(c for c in choices if any(name in NO_NAMES for name in names_of(c)))
    starts = tuple(c for c in choices if any(name.startswith(wanted) for name in _shown(c)))
    if starts:
        return starts
    return tuple(c for c in choices if _words_start(wanted.split(), c))


def whole_words(choices: Sequence[Choice], text: str) -> tuple[Choice, ...]:
    """The choices in whose names every word stands, whole: "hills" and "hill", but not "hard" for "hardly"."""
    wanted = plain(text)
    full = tuple(c for c in choices if wanted in names_of(c))
    words = {_single(word) for word in wanted.split()}
    if full or not words or all(len(word) < LEAST_WORD for word in words):
        return full
    return tuple(c for c in choices if words <= {_single(word) for name in names_of(c) for word in name.split()})


def _single(word: str) -> str:
    return word[:-1] if len(word) > LEAST_WORD and word.endswith("s") and not word.endswith("ss") else word


def _shown(choice: Choice) -> tuple[str, ...]:
    return tuple(name for name in names_of(choice) if name != plain(choice.id)) or names_of(choice)


def _words_start(wanted: Sequence[str], choice: Choice) -> bool:
    words = [word for name in names_of(choice) for word in name.split()]
    return all(any(word.startswith(part) for word in words) for part in wanted)


def choose_one(choices: Sequence[Choice], text: str, messages: Mapping[str, str]) -> Choice:
    """The choice that a line means.

    Raises
    ------
    ChoosingError
        When it is none of them, or not only one.
    """
    number = text.strip().rstrip(".)")
    if number.isascii() and number.isdigit():
        return _by_number(choices, int(number[:9]), messages)
    found = candidates(choices, text)
    if len(found) == 1:
        return found[0]
    if not found and _NUMBERS.fullmatch(text.strip()):
        raise ChoosingError(wording(messages, "choice_only_one", most=len(choices)))
    if found:
        which = listed((f'"{c.label}"' for c in found[:4]), "or")
        raise ChoosingError(wording(messages, "choice_unclear", text=text.strip(), which=which))
    raise ChoosingError(_unknown(choices, text, messages))


def choose_several(choices: Sequence[Choice], text: str, messages: Mapping[str, str]) -> tuple[str, ...]:
    """The ids of the choices that a line means, in the order of the book.

    Raises
    ------
    ChoosingError
        When a part of it is unclear, or "none" stands beside others.
    """
    found = {choice.id for choice in _parts(choices, text.strip(), messages)}
    if not found:
        raise ChoosingError(_unknown(choices, text, messages))
    if NONE in found and len(found) > 1:
        raise ChoosingError(wording(messages, "choice_none_with_others"))
    return tuple(choice.id for choice in choices if choice.id in found)


def _parts(choices: Sequence[Choice], text: str, messages: Mapping[str, str]) -> list[Choice]:
    if _NUMBERS.fullmatch(text):
        return _numbers(choices, text, messages)
    whole = candidates(choices, text)
    if len(whole) == 1:
        return [whole[0]]
    if plain(text) == "all" and not whole:
        return [c for c in choices if c.id != NONE]
    found: list[Choice] = []
    for part in filter(None, (p.strip() for p in _SPLIT.split(text))):
        found += _part(choices, part, messages)
    return found


def _part(choices: Sequence[Choice], part: str, messages: Mapping[str, str]) -> list[Choice]:
    if _NUMBERS.fullmatch(part):
        return _numbers(choices, part, messages)
    words = part.split()
    if len(words) > 1 and not candidates(choices, part) and any(candidates(choices, word) for word in words):
        return [choose_one(choices, word, messages) for word in words]
    return [choose_one(choices, part, messages)]


def _numbers(choices: Sequence[Choice], text: str, messages: Mapping[str, str]) -> list[Choice]:
    found: list[Choice] = []
    for first, last in _ONE.findall(text):
        start = _by_number(choices, int(first[:9]), messages)
        end = _by_number(choices, int(last[:9]), messages) if last else start
        low, high = choices.index(start), choices.index(end)
        if high < low:
            raise ChoosingError(wording(messages, "choice_backwards", first=first, last=last))
        found += choices[low : high + 1]
    return found


def _by_number(choices: Sequence[Choice], number: int, messages: Mapping[str, str]) -> Choice:
    if not 1 <= number <= len(choices):
        raise ChoosingError(wording(messages, "choice_number", number=number, most=len(choices)))
    return choices[number - 1]


def _unknown(choices: Sequence[Choice], text: str, messages: Mapping[str, str]) -> str:
    names = {name: choice for choice in choices for name in names_of(choice)}
    near = difflib.get_close_matches(plain(text), names, n=1, cutoff=0.7)
    meant = wording(messages, "did_you_mean", word=names[near[0]].label) if near else ""
    told = wording(messages, "choice_unknown", text=text.strip()[:40], most=len(choices))
    return f"{told} {meant}".strip()
