"""The words of the trade that stand in a document, with what they mean."""

from __future__ import annotations

from firstfurrow.asking.trade_words import glossary_words_in_texts
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Document, Terms, Working, texts_of


def terms_in(book: Book, document: Document) -> Terms:
    """The glossary as far as the document needs it, in the order of the alphabet; working is not looked at."""
    texts = [text for block in document if not isinstance(block, Working) for text in texts_of(block)]
    words = glossary_words_in_texts(book, texts)
    return Terms(tuple((word, book.glossary[word]) for word in sorted(words, key=str.casefold)))
