"""The sentences of the pictures, and the few things that all pictures ask of a page."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from firstfurrow.book.model import Book

Say = Callable[..., str]


def sayer(book: Book) -> Say:
    """What says the sentences of `pictures.yaml`, with their slots filled."""

    def say(id_: str, **slots: Any) -> str:
        return book.messages[f"picture.{id_}"].format(**slots)

    return say


def begun(text: str) -> str:
    """A name where it begins a line.

    >>> begun("hay wagon")
    'Hay wagon'
    """
    return text[:1].upper() + text[1:]
