"""The words of the sheets: sentences by id, who made a sheet, units behind a blank, lists joined in plain English."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from firstfurrow import __version__
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.strictest import Strictest
from firstfurrow.asking.wording import listed
from firstfurrow.book.model import Book
from firstfurrow.quantities import Units
from firstfurrow.report.blocks import Block, Bullets, Paragraph
from firstfurrow.report.made_with import made_with

Say = Callable[..., str]
SAYS_LITTLE = 30  # signs of a sentence
BOTH: Sequence[Units] = ("us", "metric")


def saying(book: Book) -> Say:
    """Says a sentence of the sheets by its id, with its slots filled."""

    def say(id_: str, **slots: Any) -> str:
        return book.messages[f"sheet.{id_}"].format(**slots)

    return say


def wanted(units: Units | None) -> Sequence[Units]:
    """The measures to print: those of the reader, else both."""
    return BOTH if units is None else (units,)


def either(say: Say, words: Iterable[str]) -> str:
    """Words of which one counts: each once, the empty ones left out."""
    return listed(dict.fromkeys(filter(None, words)), say("or"))


def made_by(book: Book, say: Say) -> Paragraph:
    """Which program made the sheet from which edition of the book."""
    return Paragraph(say("made", version=__version__, book=made_with(book)), "quiet")


def head(say: Say, text: str, units: Units | None) -> Paragraph:
    """How the sheet is filled in, and what to do where both measures stand behind a blank."""
    return Paragraph(text if units is not None else " ".join((text, say("both_units"))))


def careful(say: Say, cautions: Iterable[str]) -> tuple[Block, ...]:
    """Cautions as a list that can be told from the rest without bold type; nothing where there are none."""
    lines = tuple(say("careful", caution=caution) for caution in cautions)
    return (Bullets(lines, "caution"),) if lines else ()


def need(book: Book, outcome: Outcome, strictest: Strictest) -> str:
    """What is asked for, with its sense: at least, at most."""
    return book.messages[f"report.sense.{outcome.requirement.sense}"].format(shown=strictest.shown)


def because(strictest: Strictest) -> str:
    """The implement that sets it; empty where none does."""
    return strictest.governed_by.name if strictest.governed_by is not None else ""


def in_short(text: str) -> str:
    """The first sentence, and the next one where the first says little.

    >>> in_short("Pull grows with depth and with width. Measure it."), in_short("Hay waits. Less time, more width.")
    ('Pull grows with depth and with width.', 'Hay waits. Less time, more width.')
    """
    first, stop, rest = text.partition(". ")
    if stop and len(first) < SAYS_LITTLE:
        return f"{first}. {in_short(rest)}"
    return f"{first.rstrip('.')}."
