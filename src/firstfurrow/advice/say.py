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


def label(book: Book, question: str, choice: str) -> str:
    """The label of a choice; its id where the book has no such question or choice."""
    found = book.question(question)
    return next((one.label for one in found.choices if one.id == choice), choice) if found is not None else choice


def job_label(book: Book, job: str) -> str:
    """What to call a job that has no short name: the label of its choice, without what explains it in brackets."""
    return label(book, "jobs", job).partition(" (")[0]
