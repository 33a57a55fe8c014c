"""What can be wrong with a file of the book: a record with file, line and column, and the error that carries them."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing that is wrong, said in one plain sentence. Line and column count from 1; 0 means the whole file."""

    file: str
    line: int
    column: int
    message: str

    def __str__(self) -> str:
        if not self.line:
            return f"{self.file}: {self.message}"
        return f"{self.file}:{self.line}:{self.column}: {self.message}"


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
    near = difflib.get_close_matches(word, [k for k in known if k != word], n=1)
    return f' Did you mean "{near[0]}"?' if near else ""
