"""Where the answers lie on disk: chosen before the first question, written beside and renamed after each answer."""

from __future__ import annotations

import os
import shlex
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError, read, write
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book
from firstfurrow.book.yaml_strict import LARGEST, bytes_of
from firstfurrow.talk.files import alive, claim, claim_file, replace_file, sweep_beside

NAME = "firstfurrow-answers"
TRACTOR = "firstfurrow-tractor"
PAGE = ".html"
FLOOR = "floor-"  # and the number of the process: files of a sales floor


class Store:
    """The answers file of one conversation. Without a path nothing is written; the talk shows the answers instead."""

    private = False  # True: nothing stays after the conversation

    def __init__(self, path: Path | None, claimed: bool = False) -> None:
        self.path = path
        self._claimed = claimed  # an empty file of ours holds the name until the first answer
        self._page: Path | None = None
        self.book_folder: Path | None = None  # of a book that the reader named

    def save(self, answers: Answers, book: Book) -> bool:
        """Write the answers; False when that is not possible."""
        if self.path is None:
            return False
        try:
            replace_file(self.path, write(answers, book))
        except OSError:
            return False
        self._claimed = False
        return True

    def save_beside(self, name: str, answers: Answers, book: Book) -> Path | None:
        """Write another plan of the same talk into a file of its own; None where that is not possible."""
        if self.path is None:
            return None
        letters = "".join(c if c.isalnum() else "-" for c in name.casefold()).strip("-") or "plan"
        path = claim(self.path.parent, f"{self.path.stem}-{letters}", 0o644)
        if path is None:
            return None
        try:
            replace_file(path, write(answers, book))
        except OSError:
            with suppress(OSError):
                path.unlink()
            return None
        return path

    def save_page(self, text: str) -> Path | None:
        """Write the report as a page beside the answers, over the one of this talk; None where that is not possible."""
        if self.path is None:
            return None
        rights = 0o600 if self.private else 0o644
        page = self._page or claim(self.path.parent, self.path.stem, rights, PAGE)
        if page is None:
            return None
        try:
            replace_file(page, text)
        except OSError:
            with suppress(OSError):
                if self._page is None:
                    page.unlink()
            return None
        self._page = page
        return page

    def leave(self) -> None:
        """Take the empty file away when no answer was ever written."""
        if self._claimed and self.path is not None:
            with suppress(OSError):
                if self.path.stat().st_size == 0:
                    self.path.unlink()

    def resume_command(self, tractor: Path | None = None) -> str:
        """The command that goes on with this file, and with this tractor."""
        return self._command("--resume", self.path, *(() if tractor is None else ("--tractor", tractor)))

    def working_command(self, tractor: Path | None = None) -> str:
        """The command that prints all the working of this file, or all the verdicts on this tractor."""
        if tractor is None:
            return self._command("advise", self.path)
        return self._command("check", self.path, tractor)

    def _command(self, *words: object) -> str:
        """What can be pasted into a shell; without the book of the talk its answers would be read with another one."""
        book = () if self.book_folder is None else ("--book", self.book_folder)
        return shlex.join(["firstfurrow", *map(str, (*book, *words))])


class PrivateStore(Store):
    """The file of a sales floor: only for this user, gone as soon as the conversation ends."""

    private = True

    def save_beside(self, name: str, answers: Answers, book: Book) -> Path | None:
        """Nothing of a sales floor stays, so another plan lives only as long as the talk."""
        return None

    def leave(self) -> None:
        """Take the file away, whatever it holds."""
        for path in (self.path, self._page):
            if path is not None:
                with suppress(OSError):
                    path.unlink()


class RehearsalStore(Store):
    """The store of a recording: it goes by the usual name and writes nothing; `text` is what a file would hold."""

    def __init__(self) -> None:
        super().__init__(Path(f"{NAME}.yaml"))
        self.text = ""

    def save(self, answers: Answers, book: Book) -> bool:
        """Keep the text."""
        self.text = write(answers, book)
        return True

    def save_beside(self, name: str, answers: Answers, book: Book) -> Path | None:
        """A rehearsal writes nothing."""
        return None

    def save_page(self, text: str) -> Path | None:
        """Nor a page; it says the name that one would have."""
        return Path(f"{NAME}{PAGE}")


def open_store(resume: Path | None, folder: Path) -> Store:
    """The store for a conversation: the resumed file, a new one in the folder, or one in the user's state folder."""
    if resume is not None:
        real = resume.resolve()
        sweep_beside(real.parent, real.stem)  # its page and its other plans too
        return Store(resume)
    for place in _places(folder):
        path = claim(place, NAME, 0o644)
        if path is not None:
            sweep_beside(place, NAME)
            return Store(path, claimed=True)
    return Store(None)


def open_named_store(path: Path, book: Book) -> Store:
    """The store for a new conversation in the file that the reader named.

    Raises
    ------
    AnswersError
        When there is such a file already, or none can be written: one sentence with the file.
    """
    sweep_beside(path.parent, path.stem)
    try:
        claim_file(path, 0o644)
    except FileExistsError:
        problem = wording(book.messages, "keep_exists")
    except (OSError, ValueError):
        problem = wording(book.messages, "keep_not_written")
    else:
        return Store(path, claimed=True)
    raise AnswersError(f"{path}: {problem}")


def claim_tractor(folder: Path) -> Path | None:
    """A free name for what becomes known of a tractor; None where nothing can be written."""
    for place in _places(folder):
        path = claim(place, TRACTOR, 0o644)
        if path is not None:
            path.unlink()  # the name is what was wanted; an empty file would be no offer
            return path
    return None


def open_private_store() -> PrivateStore:
    """The store for a sales floor; what a crash left behind there is taken away first."""
    folder = _state_folder()
    _sweep(folder)
    sweep_beside(folder, FLOOR)
    return PrivateStore(claim(folder, f"{FLOOR}{os.getpid()}", 0o600), claimed=True)


def _places(folder: Path) -> Iterator[Path]:
    """Where a file may go, the second place worked out only when the first is closed."""
    yield folder
    yield _state_folder()


def _state_folder() -> Path:
    """Where the system keeps what belongs to a user and a program."""
    from platformdirs import user_state_path

    return user_state_path("firstfurrow", appauthor=False)


def _sweep(folder: Path) -> None:
    """Take away the files of sales floors that nobody is talking on any more."""
    for path in (*folder.glob(f"{FLOOR}*.yaml"), *folder.glob(f"{FLOOR}*{PAGE}")):
        number = path.stem.removeprefix(FLOOR).partition("-")[0]
        with suppress(OSError):
            if not (number.isdigit() and alive(int(number), path)):
                path.unlink()


def read_answers(path: Path, book: Book, *, to_go_on: bool = False) -> Answers:
    """The answers in a file; `to_go_on` where it will be written again.

    Raises
    ------
    AnswersError
        When the file is missing, not readable or not an answers file: one sentence with the file.
    """

    def error(message: str) -> AnswersError:
        return AnswersError(f"{path}: {wording(book.messages, message)}")

    try:
        raw = bytes_of(path)
        if len(raw) > LARGEST:
            raise error("file_too_large")
        return read(raw.decode("utf-8-sig"), str(path), book, to_go_on=to_go_on)
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
