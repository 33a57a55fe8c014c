"""Which files of a folder are the answers of a class: a stable order, and nothing from outside the folder."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from firstfurrow.book.model import Book
from firstfurrow.commands.common import UsageError
from firstfurrow.report.classroom import words

ENDINGS = (".yaml", ".yml")
ANSWERS = "answers.yaml"


@dataclass(frozen=True, slots=True)
class AnswersFile:
    """One file: where it is, its name inside the folder, and why it is not read; None where it is."""

    path: Path
    name: str
    problem: str | None = None


def answers_files(book: Book, folder: Path) -> tuple[AnswersFile, ...]:
    """The files, by name; those of recordings, which are folders with answers.yaml in them, among them.

    Raises
    ------
    UsageError
        When the folder cannot be read.
    """
    try:
        inside = sorted(os.listdir(folder))
    except NotADirectoryError:
        raise UsageError(f"{folder}: this is a file. Name the folder that holds the answers files.") from None
    except OSError as error:
        raise UsageError(f"{folder}: this folder cannot be read ({error.strerror}).") from None
    root = folder.resolve()
    read: dict[Path, str] = {}
    found = {name: _looked_at(book, folder, root, name) for name in _candidates(folder, inside)}
    for linked in (False, True):  # of a file and a link to it, the file counts
        for name, one in found.items():
            if one.problem is None and (os.path.realpath(one.path) != str(root / name)) == linked:
                other = read.setdefault(one.path.resolve(), name)
                if other != name:
                    found[name] = AnswersFile(one.path, name, words.same_file(book, other))
    return tuple(found.values())


def _candidates(folder: Path, inside: list[str]) -> Iterator[str]:
    """Names inside the folder; what a system hides (a name that begins with a stop) is nobody's answers."""
    for name in inside:
        if name.startswith("."):
            continue
        within = os.path.join(name, ANSWERS)
        if os.path.isdir(folder / name):
            if os.path.lexists(folder / within) or not os.access(folder / name, os.R_OK | os.X_OK):
                yield within
        elif name.lower().endswith(ENDINGS):
            yield name


def _looked_at(book: Book, folder: Path, root: Path, name: str) -> AnswersFile:
    path = folder / name
    try:
        if not path.resolve().is_relative_to(root):
            return AnswersFile(path, name, words.outside(book))
        if path.exists() and not path.is_dir() and not path.is_file():
            return AnswersFile(path, name, words.no_file(book))
    except (OSError, RuntimeError) as error:  # a folder without permission, links that go round
        return AnswersFile(path, name, words.not_readable(book, getattr(error, "strerror", None) or str(error)))
    return AnswersFile(path, name)
