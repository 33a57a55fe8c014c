"""What can be wrong with a file of the book: what, where, why it matters, what to write instead; and the error."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

FEW = 8  # names that are listed whole; of more the nearest is named, and where they stand


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of one mistake.

    what
        What is wrong: begins in lower case, and ends with a period or a question mark.
    why
        Why it matters to somebody who uses the book.
    write
        What to write instead, or what to do.
    """

    what: str
    why: str
    write: str


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing that is wrong. Line and column count from 1; 0 means the whole file.

    leads
        Answers that lead to the place, shortest first, each as it can be typed: `soil=clay`.
    """

    file: str
    line: int
    column: int
    what: str
    why: str = ""
    write: str = ""
    leads: tuple[str, ...] = ()

    @property
    def message(self) -> str:
        """What is wrong, and what to write instead."""
        return f"{self.what} {self.write}".strip()

    @property
    def place(self) -> str:
        """File, line and column; the file alone when the whole of it is meant."""
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file

    def __str__(self) -> str:
        shown = f"Answers that lead there: {'; '.join(self.leads)}." if self.leads else ""
        return " ".join(filter(None, (f"{self.place}:", self.what, shown, self.why, self.write)))


class BookError(Exception):
    """A file cannot be used; `problems` says why, in the order of files and lines."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A trailing question when something known is spelled nearly like `word`, else nothing.

    >>> did_you_mean("lable", ["label", "value"])
    ' Did you mean "label"?'
    >>> did_you_mean("xyz", ["label", "value"])
    ''
    """
    near = _nearest(word, known)
    return f' Did you mean "{near}"?' if near else ""


def _nearest(word: str, known: Iterable[str]) -> str:
    found = difflib.get_close_matches(word, [k for k in known if k != word], n=1)
    return found[0] if found else ""


def unknown(what: str, word: object, known: Iterable[str], home: str, why: str = "") -> Said:
    """A name that leads nowhere: the nearest spelling, and where those that exist stand.

    >>> unknown("guide", "pase", ["pace", "tape"], "guides.yaml").what
    'there is no guide "pase". Did you mean "pace"?'
    """
    names = [str(name) for name in known]
    return Said(
        f'there is no {what} "{word}".{did_you_mean(str(word), names)}',
        why or "What is named must be there; a name that leads nowhere would be left out without a word.",
        one_of(str(word), names, home),
    )


def twice(what: str, name: object, first: str = "") -> Said:
    """Something that may be there once.

    >>> twice("stop", "front").what
    'the stop "front" is there twice.'
    """
    where = f"; the first one is in {first}" if first else ""
    return Said(
        f'the {what} "{name}" is there twice{where}.',
        "It is found by its name, and then only one of the two could ever be reached.",
        "Give one of them another name, or take it out.",
    )


def one_of(word: str, names: Iterable[str], home: str) -> str:
    """What to write in place of a name that is not known.

    >>> one_of("pase", ["pace", "tape"], "guides.yaml")
    'Write "pace" if you mean that; all that can stand here are in guides.yaml.'
    >>> one_of("x", ["pace", "tape"], "guides.yaml")
    'Write one of these: pace, tape.'
    """
    known = list(dict.fromkeys(names))
    near = _nearest(word, known)
    if near:
        return f'Write "{near}" if you mean that; all that can stand here are in {home}.'
    if not known:
        return f"Nothing can stand here yet: add it in {home} first, or take this out."
    if len(known) <= FEW:
        return f"Write one of these: {', '.join(known)}."
    return f'Write one that stands in {home}, such as "{known[0]}", or add it there.'
