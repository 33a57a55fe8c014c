"""Which book made a page, and which local edition over it."""

from __future__ import annotations

from firstfurrow.book.model import Book


def made_with(book: Book) -> str:
    """Which book, and which local edition of it, this was made with."""

    def say(id_: str, **slots: object) -> str:
        return book.messages[f"report.{id_}"].format(book=book.id, version=book.version, **slots)

    if book.edition is None:
        return say("made_with")
    return say("made_with_edition", name=book.edition.name, edition=book.edition.version)
