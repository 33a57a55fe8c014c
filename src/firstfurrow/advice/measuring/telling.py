"""Words and numbers of a finding: sentences of the book, measures in millimetres and in fractions of an inch."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from firstfurrow.book.model import Book, Figure, Measuring
from firstfurrow.quantities import convert, format_number, show

Readings = Mapping[str, str | float]  # by step; numbers in the working unit
SIXTEENTH = 16  # a tape in inches is read to so many parts


@dataclass(frozen=True, slots=True)
class Finding:
    """What it is, what else it could be, what to measure next, what to heed."""

    what: tuple[str, ...] = ()
    other: tuple[str, ...] = ()
    next: tuple[str, ...] = ()
    care: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A heading and its sentences."""

    heading: str
    lines: tuple[str, ...]


class Teller:
    """Says the book's sentences about measuring."""

    def __init__(self, book: Book) -> None:
        self._words = measuring_of(book).words

    def __call__(self, id_: str, **slots: object) -> str:
        """The sentence with its slots filled."""
        return self._words[id_].format(**slots)

    def grade(self, figure: Figure) -> str:
        """How far a figure can be trusted, in words."""
        return self(f"grade_{figure.grade}")


def measuring_of(book: Book) -> Measuring:
    """The part of the book about measuring.

    Raises
    ------
    ValueError
        When the book was made without it.
    """
    if book.measuring is None:
        raise ValueError("This book says nothing about measuring.")
    return book.measuring


def limit(book: Book, name: str) -> float:
    """A tolerance or single figure of the measuring."""
    return measuring_of(book).figures[name].planning


def length(mm: float) -> str:
    """A short length in millimetres and in the nearest sixteenth of an inch.

    >>> length(22), length(825), length(25.4)
    ('22 mm (about 7/8 in)', '825 mm (about 32 1/2 in)', '25.4 mm (about 1 in)')
    """
    parts = Fraction(round(convert(mm, "mm", "in") * SIXTEENTH), SIXTEENTH)
    whole, rest = divmod(parts, 1)
    inches = " ".join(str(part) for part in (whole, rest) if part) or "0"
    return f"{format_number(mm, 1)} mm (about {inches} in)"


def measured(value: float, unit: str) -> str:
    """A value in its working unit, and for readers of other units beside it."""
    if unit == "mm":
        return length(value)
    if unit == "":
        return format_number(value, 0)
    return both(value, unit)


def both(value: float, unit: str, dimension: str | None = None, digits: int | None = None) -> str:
    """A value in its working unit, and in the unit of the United States beside it where that is another.

    >>> both(40, "kW"), both(540, "rev/min")
    ('40 kW (54 hp)', '540 rev/min')
    """
    metric = show(value, unit, "metric", digits, dimension=dimension)
    us = show(value, unit, "us", digits, dimension=dimension)
    return metric if us == metric else f"{metric} ({us.split(' (')[0]})"
