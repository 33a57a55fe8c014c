"""The words of the advice: sentences and step titles come from the book, never from Python."""

from __future__ import annotations

from typing import Any

from firstfurrow.book.model import Book


def say(book: Book, id_: str, **slots: Any) -> str:
    """The sentence `id_` of the book's reasons, with its slots filled.

    Raises
    ------
    KeyError
        When the book has no such sentence or a slot is missing; a test goes through all of them.
    """
    return book.messages[f"reason.{id_}"].format(**slots)
