"""Recorded conversations: a folder with the answers, the lines typed and the screen shown; played again on demand."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.book.places import recordings_folder
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore, read_answers

ANSWERS, TYPED, SCREEN = "answers.yaml", "typed.txt", "screen.txt"
WIDTH = 80


class RecordingError(ValueError):
    """The folder is not a recording; one plain sentence."""


@dataclass(frozen=True, slots=True)
class Recording:
    """One recorded conversation, invented."""

    folder: Path

    @property
    def name(self) -> str:
        """The folder's name."""
        return self.folder.name

    def typed(self) -> list[str]:
        """The lines typed, commands and mistakes included."""
        return self._text(TYPED).splitlines()

    def screen(self) -> str:
        """What was shown at 80 columns."""
        return self._text(SCREEN)

    def answers(self, book: Book) -> Answers:
        """The answers that the conversation ended with."""
        return read_answers(self.folder / ANSWERS, book)

    def _text(self, name: str) -> str:
        path = self.folder / name
        try:
            return path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            raise RecordingError(
                f"{path}: a recording needs the files {ANSWERS}, {TYPED} and {SCREEN}; this one cannot be read."
            ) from None


def shipped() -> tuple[Recording, ...]:
    """The recordings that come with the program, by name."""
    place = recordings_folder()
    return tuple(Recording(f) for f in sorted(place.iterdir()) if (f / TYPED).is_file()) if place.is_dir() else ()


def play(
    book: Book,
    recording: Recording,
    profile_text: Callable[[Answers], str],
    moved: Callable[[Answers, Answers], tuple[str, ...]],
) -> tuple[str, str]:
    """Type the lines again: the screen, and the text that the answers file would hold."""
    front, store = ScriptFront(recording.typed(), WIDTH), RehearsalStore()
    begun = recording.answers(book) if (recording.folder / ANSWERS).is_file() else Answers()
    fresh = replace(Answers(), name=begun.name, notes=begun.notes)
    Conversation(book, front, store, fresh, profile_text, moved, "home").run()
    return front.screen, store.text


def differences(recorded: str, played: str, what: str) -> list[str]:
    """The lines that differ, as a reader of the recording would look for them."""
    return list(
        difflib.unified_diff(
            recorded.splitlines(), played.splitlines(), f"{what} recorded", f"{what} played", lineterm="", n=2
        )
    )
