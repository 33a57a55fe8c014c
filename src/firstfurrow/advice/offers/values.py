"""One value of an offer as written, to a number in the working unit or to words. Every damage gets one sentence."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from firstfurrow.advice.offers.tyre_size import read_size
from firstfurrow.advice.say import say
from firstfurrow.book.model import Book, OfferKey, OfferWord
from firstfurrow.book.problems import did_you_mean
from firstfurrow.quantities import QuantityError, format_number, parse, parse_figure_text

SMALLEST, LARGEST = 0.001, 1e6  # in working units; nothing of a tractor is smaller or larger
NOT_KNOWN = frozenset({"", "?", "-", "unknown", "not sure", "not known", "n/a"})
NOTHING = frozenset({"none", "0", "nothing"})
_PLAIN = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,6})? [A-Za-z/%]{1,12}")
_BETWEEN = re.compile(r"[\s_.-]+")
_PARTS = re.compile(r"[,;&+]|\band\b")
_PARTS_OF_SPEEDS = re.compile(r"[,;&+/]|\band\b")


class ValueProblemError(ValueError):
    """A value cannot be used; the message is one plain sentence without its place."""


def is_not_known(raw: Any) -> bool:
    """True for what says nothing: an empty cell, a question mark, the word unknown."""
    return raw is None or (isinstance(raw, str) and raw.strip().lower() in NOT_KNOWN)


def as_text(raw: Any) -> str:
    """What was written, for people."""
    if isinstance(raw, list):
        return ", ".join(as_text(part) for part in raw)
    if isinstance(raw, float):
        return format_number(raw, 6) if math.isfinite(raw) else str(raw)
    return str(raw).strip()


def value_of(book: Book, key: OfferKey, raw: Any) -> Any:
    """The value in the working unit, the word, or what a print says; a tuple of them where several may be written.

    Raises
    ------
    ValueProblemError
        When it is not a value for this key.
    """
    if isinstance(raw, bool | dict):
        raise ValueProblemError(say(book, "offer_not_a_value", name=key.name))
    if not key.many:
        if isinstance(raw, list):
            raise ValueProblemError(say(book, "offer_one_value", name=key.name))
        return _one(book, key, as_text(raw))
    parts = _parts(key, raw)
    ids = {word.id for word in key.words}
    found = tuple(
        dict.fromkeys(
            "none" if part.lower() in NOTHING and part not in ids else _one(book, key, part) for part in parts
        )
    )
    if "none" in found:
        if len(found) > 1:
            raise ValueProblemError(say(book, "offer_none_and_more", name=key.name))
        return ()
    return found


def _parts(key: OfferKey, raw: Any) -> list[str]:
    if isinstance(raw, list):
        return [as_text(part) for part in raw]
    text = as_text(raw)
    if _word(key, text) is not None:
        return [text]
    split = _PARTS_OF_SPEEDS if key.dimension == "rotation" else _PARTS
    return [part.strip() for part in split.split(text) if part.strip()]


def _one(book: Book, key: OfferKey, text: str) -> Any:
    if key.words:
        found = _word(key, text)
        if found is None:
            listed = ", ".join(word.id for word in key.words)
            meant = did_you_mean(text.lower(), [w for word in key.words for w in (word.id, word.label.lower())])
            raise ValueProblemError(say(book, "offer_word", name=key.name, text=text[:40], listed=listed) + meant)
        return found
    if key.printed:
        tyre = read_size(text, book.offer_figures)
        if tyre is None:
            raise ValueProblemError(say(book, "offer_tyre", name=key.name, text=text[:40]))
        return tyre
    assert key.dimension is not None
    try:
        # A number and one of our units is read by the fast way of the book, anything else by the patient one.
        plain = _PLAIN.fullmatch(text) is not None
        value = (
            parse_figure_text(text, key.dimension)[0] if plain else parse(text, key.dimension, key.bare).working
        )  # fmt: skip
    except QuantityError as error:
        raise ValueProblemError(say(book, "offer_quantity", name=key.name, problem=str(error))) from None
    if value > LARGEST:
        raise ValueProblemError(say(book, "offer_too_large", name=key.name))
    if value < SMALLEST and not (key.zero and value == 0):
        raise ValueProblemError(say(book, "offer_zero", name=key.name))
    return value


def _word(key: OfferKey, text: str) -> str | None:
    return _spellings(key.words).get(_plain(text))


@lru_cache(maxsize=256)
def _spellings(words: tuple[OfferWord, ...]) -> Mapping[str, str]:
    """Every way in which the words may be written; where two are alike, the first one."""
    found: dict[str, str] = {}
    for word in words:
        for spelling in (word.id, word.label, *word.also):
            found.setdefault(_plain(spelling), word.id)
    return found


def _plain(text: str) -> str:
    return " ".join(_BETWEEN.sub(" ", text.lower()).split())
