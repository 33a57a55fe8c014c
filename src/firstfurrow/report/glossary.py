"""The words of the trade that stand in a document, with what they mean."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from firstfurrow.asking.trade_words import glossary_words_in_texts
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Document, Picture, Terms, Working


def terms_in(book: Book, document: Document) -> Terms:
    """The glossary as far as the document needs it, in the order of the alphabet; working is not looked at."""
    texts = [text for block in document if not isinstance(block, (Working, Picture)) for text in _texts(asdict(block))]
    words = glossary_words_in_texts(book, texts)
    return Terms(tuple((word, book.glossary[word]) for word in sorted(words, key=str.casefold)))


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for each in value.values():
            yield from _texts(each)
    elif isinstance(value, (list, tuple)):
        for each in value:
            yield from _texts(each)
