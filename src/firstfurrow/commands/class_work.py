"""The work on one answers file of a class, and on all of them, on as many processors as it pays to use."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Literal

from firstfurrow.advice.classroom import Seen, seen
from firstfurrow.advice.profile import advise
from firstfurrow.asking.answers import Units
from firstfurrow.asking.answers_file import AnswersError
from firstfurrow.asking.complete import complete
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.commands.class_files import AnswersFile
from firstfurrow.pages import said_of
from firstfurrow.report.blocks import Part
from firstfurrow.report.classroom.handout import handout
from firstfurrow.report.classroom.names import plain
from firstfurrow.talk.store import read_answers

Format = Literal["html", "markdown", "text"]
WIDTH = 80  # columns of a handout in text
FEW = 40  # files, fewer than which are done before another process has read the book


@dataclass(frozen=True, slots=True)
class Handout:
    """What came of one file: the handout and what counts of it, or why there is none."""

    file: AnswersFile
    name: str = ""
    text: str = ""
    seen: Seen | None = None
    carried: tuple[str, ...] = ()  # what of an older edition was left out
    problem: str | None = None  # one sentence with the file


def rendered(parts: Sequence[Part], title: str, format_: Format) -> str:
    """The text of a page in one of the formats."""
    if format_ == "html":
        from firstfurrow.report.html import html_page

        return html_page(title, parts)
    if format_ == "markdown":
        from firstfurrow.report.markdown import markdown

        return markdown(parts)
    from firstfurrow.report.text import render

    return render(tuple(block for part in parts for block in part.document), WIDTH)


def handout_of(book: Book, units: Units | None, format_: Format, file: AnswersFile) -> Handout:
    """The handout of one file; `units` None: in those of the file."""
    if file.problem is not None:
        return Handout(file, problem=f"{file.path}: {file.problem}")
    try:
        answers = read_answers(file.path, book)
    except AnswersError as error:
        return Handout(file, problem=str(error))
    name = plain(answers.name or "", len(answers.name or "")) or Path(file.name).parent.name or Path(file.name).stem
    carried, answers = answers.carried, replace(answers, name=None, carried=(), units=units or answers.units)
    whole = complete(book, answers)
    profile = advise(book, whole)
    parts = handout(profile, said_of(book, answers), name, file.name)
    text = rendered(parts, book.messages["report.title"], format_)
    return Handout(file, name, text, seen(profile, whole, file.name), carried)


# ------------------------------------------------------------------- all of them


def handouts(
    book: Book, folder: Path | None, units: Units | None, format_: Format, files: Sequence[AnswersFile],
    done: Callable[[], None] = lambda: None, processes: int | None = None,
) -> tuple[Handout, ...]:  # fmt: skip
    """The handouts of all files in their order, the same however many processes work on them.

    `folder` is that of the book, None for the shipped one: every process reads it for itself.
    """
    wanted = _processes(len(files)) if processes is None else processes
    each = _in_processes(folder, units, format_, files, wanted) if wanted > 1 else None
    found: list[Handout] = []
    if each is not None:
        for one in each:
            found.append(one)
            done()
    for file in files[len(found) :]:
        found.append(handout_of(book, units, format_, file))
        done()
    return tuple(found)


def _processes(files: int) -> int:
    """How many processes pay."""
    return 1 if files < FEW else min(_processors(), files // (FEW // 2))


def _processors() -> int:
    """How many this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _in_processes(
    folder: Path | None, units: Units | None, format_: Format, files: Sequence[AnswersFile], processes: int
) -> Iterator[Handout]:
    """From other processes, as far as the system lets them work; what they leave is for the caller.

    They are spawned, never forked: that is the same on every system, and safe beside the thread of a progress bar.
    """
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import active_children, get_context

    others = set(active_children())
    try:
        pool = ProcessPoolExecutor(processes, get_context("spawn"), _begin, (folder,))
    except (OSError, NotImplementedError):  # a system without what it takes
        return
    try:
        with _deaf():
            each = pool.map(partial(_in_process, units, format_), files)
        yield from each
    except (OSError, BrokenProcessPool):
        return
    except BaseException:  # Ctrl-C: nobody waits for what nobody will read
        for process in set(active_children()) - others:
            process.terminate()
        raise
    finally:
        pool.shutdown(cancel_futures=True)


@contextmanager
def _deaf() -> Iterator[None]:
    """Processes that begin now do not hear Ctrl-C: it is for the one that writes, and they end with it."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


_book: Book  # of a process that was begun for this


def _begin(folder: Path | None) -> None:
    global _book
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _book = load(folder)


def _in_process(units: Units | None, format_: Format, file: AnswersFile) -> Handout:
    return handout_of(_book, units, format_, file)
