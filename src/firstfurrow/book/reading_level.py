"""How hard a text is to read: Flesch reading ease and the Flesch-Kincaid grade. Pure, for English.

Both formulas know only how long sentences and words are. A low grade does not make a sentence right or clear; a high
one shows where to look. Formulas: sources `flesch1948` and `kincaid1975` in sources.yaml.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

from firstfurrow.book.syllables import syllables

_SLOT = re.compile(r"\{[^{}]*\}")
_WORD = re.compile(r"[^\W_]+(?:['\u2019.,-]?[^\W_]+)*")
# A full stop, question or exclamation mark, and what closes behind it; a stop inside a number or word ends nothing.
_END = re.compile(r"(?<=[.!?])[\"')\u201d]*\s+|\n+")


@dataclass(frozen=True, slots=True)
class Counts:
    """What the formulas read: sentences, words and syllables of a text, or of many."""

    sentences: int = 0
    words: int = 0
    syllables: int = 0

    def __add__(self, other: Counts) -> Counts:
        return Counts(self.sentences + other.sentences, self.words + other.words, self.syllables + other.syllables)

    @property
    def ease(self) -> float:
        """Flesch reading ease; higher is easier, 60 to 70 is plain English.

        Source flesch1948. Worked number (source flesch_kincaid_web): one sentence of 13 words with 24 syllables.

        >>> round(Counts(1, 13, 24).ease, 1)
        37.5
        """
        return 206.835 - 1.015 * self.words / self.sentences - 84.6 * self.syllables / self.words

    @property
    def grade(self) -> float:
        """Flesch-Kincaid grade: the years of school in the United States that it takes; may fall below nothing.

        Source kincaid1975. Worked number (source flesch_kincaid_web): one sentence of 13 words with 24 syllables.

        >>> round(Counts(1, 13, 24).grade, 1)
        11.3
        """
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text. A slot such as {what} is one word of one syllable, and so is a number.

    >>> words_of("Type {number} %, a three-point hitch, or 1,200 lb.")
    ('Type', 'x', 'a', 'three-point', 'hitch', 'or', '1,200', 'lb')
    """
    return tuple(_WORD.findall(_SLOT.sub("x", text)))


def sentences_of(text: str) -> tuple[str, ...]:
    """The sentences of a text; a label or a title without a stop is one.

    >>> sentences_of("Lower it. Engine off, key out! Is it 1.5 m?")
    ('Lower it.', 'Engine off, key out!', 'Is it 1.5 m?')
    """
    return tuple(part.strip() for part in _END.split(text) if words_of(part))


def counts(text: str) -> Counts:
    """Sentences, words and syllables of one text.

    >>> counts("The cat sat on the mat.")
    Counts(sentences=1, words=6, syllables=6)
    """
    words = words_of(text)
    return Counts(len(sentences_of(text)), len(words), sum(map(_syllables, words)))


def _syllables(word: str) -> int:
    return sum(syllables(part) for part in word.split("-") if part)


def together(texts: Iterable[str]) -> Counts:
    """The counts of many texts, one after the other."""
    return sum((counts(text) for text in texts), Counts())


def median_grade(texts: Iterable[str]) -> float:
    """The grade that half of the texts do not exceed.

    Raises
    ------
    statistics.StatisticsError
        When there is no text.
    """
    return median(counts(text).grade for text in texts if words_of(text))
