"""Which words of a question the glossary explains: what a reader is offered to look up there."""

from __future__ import annotations

from collections.abc import Iterable

from firstfurrow.book.model import Book, Question
from firstfurrow.book.trade_words import hits


def glossary_words_in(book: Book, question: Question) -> tuple[str, ...]:
    """The words of the glossary that stand on the screen of a question, in the order met, as the glossary writes them.

    Looked at are the question itself, its answers and its lettered suggestions. Not its why, which is shown only when
    it is asked for; and not the list of implements, where each one has plain words of its own beside it.
    """
    choices = () if question.type == "kind" else question.choices
    texts = [question.ask, *(f"{c.label}\n{c.note or ''}" for c in choices), *(b.label for b in question.bands)]
    return glossary_words_in_texts(book, texts)


def glossary_words_in_texts(book: Book, texts: Iterable[str]) -> tuple[str, ...]:
    """The same for any texts, such as a why or the steps of a guide.

    Whole words, plurals too, the longest first: "PTO power" is not "PTO". A word that a text may use in another sense
    is left out; `words` still explains it.
    """
    skipped = frozenset(book.two_meanings)
    words = tuple(word for word in book.glossary if word not in skipped)
    return tuple(dict.fromkeys(hit.word for text in texts for hit in hits(words, text)))
