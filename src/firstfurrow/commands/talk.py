"""The conversation itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.commands.common import UsageError, book_of, columns, text_of
from firstfurrow.shown import Shown

if TYPE_CHECKING:
    import argparse

    from firstfurrow.book.model import Book


def talk(parsed: argparse.Namespace) -> int:
    """Ask, and show what comes of it."""
    from firstfurrow.talk.start import start

    book = book_of(parsed)
    return start(
        book, plain=parsed.plain, units=parsed.units, resume=parsed.resume, setting=parsed.setting,
        views=Shown(book, columns), tractor=parsed.tractor, tractor_text=_tractor_text(book, parsed),
        record=parsed.record, keep=parsed.keep, book_folder=parsed.book,
    )  # fmt: skip


def _tractor_text(book: Book, parsed: argparse.Namespace) -> str:
    """What the file of a tractor says; empty where none was named."""
    if parsed.tractor is None:
        return ""
    from firstfurrow.pages import offer_problems

    text = text_of(parsed.tractor)
    problems = offer_problems(book, text, str(parsed.tractor), parsed.units or "us")
    if problems:
        raise UsageError(" ".join(problems))
    return text
