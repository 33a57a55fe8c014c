"""Where the answers lie on disk: chosen before the first question, written beside and renamed after each answer."""

from __future__ import annotations

import os
import shlex
import shutil
import time
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError, read, write
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book

NAME = "firstfurrow-answers"
FLOOR = "floor-"  # and the number of the process: files of a sales floor
LONGEST_TALK = 12 * 3600  # seconds
MOST = 1000  # answers files in one folder; more is a mistake


class Store:
    """The answers file of one conversation. Without a path nothing is written; the talk shows the answers instead."""

    private = False  # True: nothing stays after the conversation

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

    @property
    def working_command(self) -> str:
        """The command that prints all the working of this file."""
        return f"firstfurrow advise {shlex.quote(str(self.path))}"


class PrivateStore(Store):
    """The file of a sales floor: only for this user, gone as soon as the conversation ends."""

    private = True

    def leave(self) -> None:
        """Take the file away, whatever it holds."""
        if self.path is not None:
            with suppress(OSError):
                self.path.unlink()


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
    for place in (folder, _state_folder(environ)):
        path = _claim(place, NAME, 0o644)
        if path is not None:
            return Store(path, claimed=True)
    return Store(None)


def open_private_store(environ: Mapping[str, str] = os.environ) -> PrivateStore:
    """The store for a sales floor; what a crash left behind there is taken away first."""
    folder = _state_folder(environ)
    _sweep(folder)
    return PrivateStore(_claim(folder, f"{FLOOR}{os.getpid()}", 0o600), claimed=True)


def _state_folder(environ: Mapping[str, str]) -> Path:
    home = Path(environ.get("HOME") or "~").expanduser()
    return Path(environ.get("XDG_STATE_HOME") or home / ".local" / "state") / "firstfurrow"


def _sweep(folder: Path) -> None:
    """Take away the files of sales floors that nobody is talking on any more."""
    for path in folder.glob(f"{FLOOR}*.yaml"):
        number = path.stem.removeprefix(FLOOR).partition("-")[0]
        with suppress(OSError):
            if not (number.isdigit() and _alive(int(number), path)):
                path.unlink()


def _alive(process: int, path: Path) -> bool:
    """True while the process that made the file may still be running."""
    if os.name != "posix":  # there, asking for a process can end it: go by the age of the file instead
        return time.time() - path.stat().st_mtime < LONGEST_TALK
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        return True
    return True


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


def _claim(folder: Path, name: str, rights: int) -> Path | None:
    """A free name in the folder, held by an empty file; None when the folder cannot be written to."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return None
    for number in range(1, MOST):
        path = folder / (f"{name}.yaml" if number == 1 else f"{name}-{number}.yaml")
        try:
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, rights))
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
        descriptor = os.open(beside, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600)
        with os.fdopen(descriptor, "w", encoding="utf-8", newline="\n") as file:
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
