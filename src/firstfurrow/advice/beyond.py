"""Where a figure says nothing any more: so many times what the largest size class has."""

from __future__ import annotations

from firstfurrow.book.model import Book


def beyond(book: Book, column: str) -> float:
    """The figure of a column of the size-class table above which no tractor is meant any more.

    >>> from firstfurrow.book.load import load
    >>> beyond(load(), "mass")  # kg
    27000.0
    """
    rows = book.tables["size_classes"].rows.values()
    return book.choice("beyond_any_tractor").planning * max(row[column].high for row in rows)
