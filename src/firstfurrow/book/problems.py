"""What can be wrong with a file of the book: what, where, why it matters, what to write instead; and the error."""

from __future__ import annotations

import difflib
from collections import Counter
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


MANY, SHOWN = 20, 3  # of more problems than that with the same words, so many are shown


def abridged(problems: Iterable[Problem]) -> list[tuple[Problem, int]]:
    """The problems to show, each with how many more of the same words are left out behind it.

    >>> same = [Problem("a", line, 1, "it is odd.") for line in range(1, 30)]
    >>> [(problem.line, more) for problem, more in abridged(same)]
    [(1, 0), (2, 0), (3, 26)]
    """
    every = tuple(problems)
    words = Counter((p.what, p.why, p.write) for p in every)
    seen: Counter[tuple[str, str, str]] = Counter()
    shown: list[tuple[Problem, int]] = []
    for problem in every:
        same = (problem.what, problem.why, problem.write)
        seen[same] += 1
        if words[same] <= MANY or seen[same] <= SHOWN:
            last = words[same] > MANY and seen[same] == SHOWN
            shown.append((problem, words[same] - SHOWN if last else 0))
    return shown


def left_out(more: int) -> str:
    """What is said of problems that are not shown since they have the same words."""
    return f"and at {more} more places the same."


class BookError(Exception):
    """A file cannot be used; `problems` says why, in the order of files and lines."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        shown = (f"{problem}\n{left_out(more)}" if more else str(problem) for problem, more in abridged(self.problems))
        super().__init__("\n".join(shown))


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A trailing question when something known is spelled nearly like `word`, else nothing.

    >>> did_you_mean("lable", ["label", "value"])
    ' Did you mean "label"?'
    >>> did_you_mean("xyz", ["label", "value"])
    ''
    """
    near = nearest(word, known)
    return f' Did you mean "{near}"?' if near else ""


def nearest(word: str, known: Iterable[str]) -> str:
    """What is known and spelled nearly like `word`; nothing when there is none."""
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
    near = nearest(word, known)
    if near:
        return f'Write "{near}" if you mean that; all that can stand here are in {home}.'
    if not known:
        return f"Nothing can stand here yet: add it in {home} first, or take this out."
    if len(known) <= FEW:
        return f"Write one of these: {', '.join(known)}."
    return f'Write one that stands in {home}, such as "{known[0]}", or add it there.'
