"""Where the answers lie on disk: chosen before the first question, written beside and renamed after each answer."""

from __future__ import annotations

import os
import shlex
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError, read, write
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book

NAME = "firstfurrow-answers"
MOST = 1000  # answers files in one folder; more is a mistake


class Store:
    """The answers file of one conversation. Without a path nothing is written; the talk shows the answers instead."""

    def __init__(self, path: Path | None, claimed: bool = False) -> None:
        self.path = path
        self._claimed = claimed  # an empty file of ours holds the name until the first answer

    def save(self, answers: Answers, book: Book) -> bool:
        """Write the answers; False when that is not possible."""
        if self.path is None:
            return False
        try:
            _replace(self.path, write(answers, book))
        except OSError:
            return False
        self._claimed = False
        return True

    def leave(self) -> None:
        """Take the empty file away when no answer was ever written."""
        if self._claimed and self.path is not None:
            with suppress(OSError):
                if self.path.stat().st_size == 0:
                    self.path.unlink()

    @property
    def resume_command(self) -> str:
        """The command that goes on with this file."""
        return f"firstfurrow --resume {shlex.quote(str(self.path))}"


class RehearsalStore(Store):
    """The store of a recording: it goes by the usual name and writes nothing; `text` is what a file would hold."""

    def __init__(self) -> None:
        super().__init__(Path(f"{NAME}.yaml"))
        self.text = ""

    def save(self, answers: Answers, book: Book) -> bool:
        """Keep the text."""
        self.text = write(answers, book)
        return True


def open_store(resume: Path | None, folder: Path, environ: Mapping[str, str] = os.environ) -> Store:
    """The store for a conversation: the resumed file, a new one in the folder, or one in the user's state folder."""
    if resume is not None:
        return Store(resume)
    state = Path(environ.get("XDG_STATE_HOME") or Path(environ.get("HOME") or "~").expanduser() / ".local" / "state")
    for place in (folder, state / "firstfurrow"):
        path = _claim(place)
        if path is not None:
            return Store(path, claimed=True)
    return Store(None)


def read_answers(path: Path, book: Book) -> Answers:
    """The answers in a file.

    Raises
    ------
    AnswersError
        When the file is missing, not readable or not an answers file: one sentence with the file.
    """

    def error(message: str) -> AnswersError:
        return AnswersError(f"{path}: {wording(book.messages, message)}")

    try:
        return read(path.read_bytes().decode("utf-8-sig"), str(path), book)
    except FileNotFoundError:
        raise error("file_missing") from None
    except IsADirectoryError:
        raise error("file_folder") from None
    except UnicodeDecodeError:
        raise error("file_not_text") from None
    except (OSError, ValueError) as problem:
        if isinstance(problem, AnswersError):
            raise
        raise error("file_unreadable") from None


def _claim(folder: Path) -> Path | None:
    """A free name in the folder, held by an empty file; None when the folder cannot be written to."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return None
    for number in range(1, MOST):
        path = folder / (f"{NAME}.yaml" if number == 1 else f"{NAME}-{number}.yaml")
        try:
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644))
        except FileExistsError:
            continue
        except OSError:
            return None
        return path
    return None


def _replace(path: Path, text: str) -> None:
    """Write beside, then rename: a crash leaves the old file or the new one, never half of one."""
    target = path.resolve()
    beside = target.with_name(f".{target.name}.{os.getpid()}.new")
    try:
        with beside.open("w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, beside)
        os.replace(beside, target)
    except OSError:
        with suppress(OSError):
            beside.unlink()
        raise
