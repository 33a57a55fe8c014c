"""Finding a kind of implement by the words that people use for it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from firstfurrow.asking.choosing import plain
from firstfurrow.book.model import Book, Kind

# Words that are in the names of some implements ("carry-all", "no-till drill") and by themselves name none.
NAMES_NOTHING = frozenset(
    {
        "a",
        "all",
        "an",
        "and",
        "any",
        "for",
        "in",
        "it",
        "no",
        "of",
        "on",
        "one",
        "or",
        "the",
        "three",
        "to",
        "two",
        "with",
    }
)


def fitting(book: Book, jobs: Iterable[str]) -> tuple[Kind, ...]:
    """The kinds that the book suggests for these jobs, in book order."""
    wanted = set(jobs)
    return tuple(kind for kind in book.kinds.values() if wanted & set(kind.jobs))


def named(book: Book, text: str) -> tuple[Kind, ...]:
    """The kinds that carry this name in full: id, name, or another everyday name."""
    wanted = plain(text)
    return tuple(kind for kind in book.kinds.values() if wanted and wanted in map(plain, _names(kind)))


def search(book: Book, text: str) -> tuple[Kind, ...]:
    """The kinds that the words may mean: those whose names hold every word first, else by the plain description."""
    words = plain(text).split()
    if NAMES_NOTHING.issuperset(words):
        return ()
    by_name = [k for k in book.kinds.values() if _holds(words, _names(k))]
    by_name.sort(key=lambda k: _place(words, k))
    return tuple(by_name) or tuple(k for k in book.kinds.values() if _holds(words, (*_names(k), k.plain)))


def _place(words: Sequence[str], kind: Kind) -> tuple[bool, int]:
    """Its own name before what else people call it, and there the one that begins with the word sooner."""
    own = plain(kind.name).split()
    first = next((n for n, word in enumerate(own) if any(word.startswith(_stem(part)) for part in words)), len(own))
    return not _holds(words, (kind.name,)), first


def by_name(kind: Kind, text: str) -> bool:
    """True when every word is in the names of the kind, not only in its description."""
    return _holds(plain(text).split(), _names(kind))


def _names(kind: Kind) -> tuple[str, ...]:
    return (kind.kind, kind.name, *kind.also)


def _holds(wanted: Sequence[str], texts: Iterable[str]) -> bool:
    words = [word for text in texts for word in plain(text).split()]
    return all(any(word.startswith(_stem(part)) for word in words) for part in wanted)


def _stem(word: str) -> str:
    """The word without a plural s, so that "ploughs" finds a plough."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
