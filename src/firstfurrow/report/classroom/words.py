"""The words of handouts and class page: sentences of their own, and lists that end before they tire."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from firstfurrow.book.model import Book


class ClassWords:
    """Says the sentences for a class."""

    def __init__(self, book: Book) -> None:
        self.book = book

    def say(self, id_: str, **slots: Any) -> str:
        """A sentence."""
        return self.book.messages[f"classroom.{id_}"].format(**slots)

    def brief(self, requirement: str) -> str:
        """A short name of a requirement."""
        return self.book.messages.get(f"reason.brief.{requirement}") or self.book.requirements[requirement].title

    def entry(self, entry: str) -> str:
        """A short name of what decides: of a requirement, a refusal or a conflict."""
        sort, _, kind = entry.partition(":")
        return self.say(f"sort.{sort}", what=self.say(f"kind.{kind}")) if kind else self.brief(entry)

    def question(self, id_: str) -> str:
        """A question as it is asked; of an implement it says so."""
        for section in self.book.sections:
            group = section.group
            if group is not None and any(question.id == id_ for question in group.questions):
                return self.say("of_implement", ask=self._ask(id_))
        return self._ask(id_)

    def _ask(self, id_: str) -> str:
        found = self.book.question(id_)
        assert found is not None
        return found.ask

    def some(self, parts: Sequence[str], most: int) -> str:
        """The first so many, and how many more there are."""
        listed = "; ".join(parts[:most])
        return listed if len(parts) <= most else self.say("and_more", listed=listed, count=len(parts) - most)

    def more(self, every: Sequence[object], most: int) -> tuple[str, ...]:
        """One sentence on how many more there are; nothing where there are none."""
        return (self.say("more", count=len(every) - most),) if len(every) > most else ()


def upper(text: str) -> str:
    """The text with a capital letter at its beginning.

    >>> upper("shaft power")
    'Shaft power'
    """
    return text[:1].upper() + text[1:]


def written(book: Book, count: int, folder: str, page: str) -> str:
    """What was written, and where."""
    return ClassWords(book).say("written", count=count, folder=folder, page=page)


# ------------------------------------------------------------- why a file is not read


def outside(book: Book) -> str:
    """A link that leads out of the folder."""
    return ClassWords(book).say("file_outside")


def same_file(book: Book, other: str) -> str:
    """A link to a file that counts already."""
    return ClassWords(book).say("file_same", other=other)


def no_file(book: Book) -> str:
    """Something that is there and is neither a file nor a folder."""
    return ClassWords(book).say("file_none")


def not_readable(book: Book, why: str) -> str:
    """What the system does not let anybody read."""
    return ClassWords(book).say("file_not_readable", why=why)
