"""Plays recordings again; a difference is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.commands.common import DIFFERS, DONE, UsageError, a_path, book_of, put
from firstfurrow.shown import Shown

if TYPE_CHECKING:
    import argparse

    from firstfurrow.book.model import Book
    from firstfurrow.commands.common import Commands
    from firstfurrow.talk.recordings import Recording


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    replay = commands.add_parser("replay", help="play recordings again; a difference is shown")
    replay.add_argument("folders", metavar="FOLDER", type=a_path, nargs="+")
    replay.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.talk.recordings import ANSWERS, SCREEN, Recording, differences, play

    book = book_of(parsed)
    code = DONE
    for folder in parsed.folders:
        recording = Recording(folder)
        _usable(book, recording)
        screen, answers = play(book, recording, Shown(book, lambda: 80))
        found = differences(recording.screen(), screen, SCREEN)
        found += differences(recording.answers_text(), answers, ANSWERS)
        if found:
            code = DIFFERS
            put(f"{folder}: differs\n" + "\n".join(found) + "\n")
        else:
            put(f"{folder}: the same\n")
    return code


def _usable(book: Book, recording: Recording) -> None:
    """Nothing where what was known of a tractor at the beginning can be read, or nothing was.

    Raises
    ------
    UsageError
        With what is wrong with it.
    """
    if not recording.tractor:
        return
    from firstfurrow.pages import offer_problems
    from firstfurrow.talk.recordings import TRACTOR

    problems = offer_problems(book, recording.tractor, str(recording.folder / TRACTOR), "us")
    if problems:
        raise UsageError(" ".join(problems))
