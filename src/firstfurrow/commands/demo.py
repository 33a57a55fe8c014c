"""Plays a recorded conversation to its profile."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.commands.common import DONE, UsageError, book_of, put
from firstfurrow.shown import Shown

if TYPE_CHECKING:
    import argparse

    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    demo = commands.add_parser("demo", help="play an invented conversation to its profile")
    demo.add_argument("name", nargs="?", help="which one; left out, the first")
    demo.add_argument("--list", action="store_true", help="name them all")
    demo.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.talk.recordings import play, shipped

    recordings = {recording.name: recording for recording in shipped()}
    if parsed.list:
        print("\n".join(recordings))
        return DONE
    name = parsed.name or next(iter(recordings), None)
    if name not in recordings:
        raise UsageError(f'no recording is called "{name}"; there are {", ".join(recordings) or "none"}.')
    if parsed.book is not None:
        raise UsageError("These talks were recorded with the shipped book: leave --book out.")
    book = book_of(parsed)
    screen, _ = play(book, recordings[name], Shown(book, lambda: 80))
    put(screen)
    return DONE
