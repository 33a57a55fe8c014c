"""Recorded conversations: a folder with the answers, the lines typed and the screen shown; played again on demand."""

from __future__ import annotations

import difflib
import io
from dataclasses import dataclass, replace
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.book.places import recordings_folder
from firstfurrow.book.problems import BookError
from firstfurrow.book.yaml_strict import LARGEST, bytes_of, parse_marked
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.opening import OWNED
from firstfurrow.talk.owned import OwnedTractor
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore, read_answers
from firstfurrow.talk.views import Views

ANSWERS, TYPED, SCREEN = "answers.yaml", "typed.txt", "screen.txt"
TALK = "talk.yaml"  # in which setting; left out: at home
TRACTOR = "tractor.yaml"  # on the road of a tractor that is there: what was known of it
HOME = "home"
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

    @property
    def tractor(self) -> str:
        """What was known of a tractor at the beginning, as an offer file; empty where there was none."""
        return self._text(TRACTOR) if (self.folder / TRACTOR).exists() else ""

    @property
    def setting(self) -> str:
        """The setting in which it was held."""
        if not (self.folder / TALK).exists():
            return HOME
        try:
            found, _ = parse_marked(self._text(TALK), str(self.folder / TALK))
        except BookError as error:
            raise RecordingError(str(error)) from None
        return str(found.get("setting", HOME)) if isinstance(found, dict) else HOME

    def answers(self, book: Book) -> Answers:
        """The answers that the conversation ended with."""
        return read_answers(self.folder / ANSWERS, book)

    def answers_text(self) -> str:
        """The same as text."""
        return self._text(ANSWERS)

    def _text(self, name: str) -> str:
        path = self.folder / name
        try:
            raw = bytes_of(path)
            if len(raw) <= LARGEST:
                return io.TextIOWrapper(io.BytesIO(raw), encoding="utf-8").read()
        except (OSError, UnicodeDecodeError):
            pass
        raise RecordingError(
            f"{path}: a recording needs the files {ANSWERS}, {TYPED} and {SCREEN}; this one cannot be read."
        )


def shipped() -> tuple[Recording, ...]:
    """The recordings that come with the program, by name."""
    place = recordings_folder()
    return tuple(Recording(f) for f in sorted(place.iterdir()) if (f / TYPED).is_file()) if place.is_dir() else ()


def play(book: Book, recording: Recording, views: Views) -> tuple[str, str]:
    """Type the lines again: the screen, and the text that the answers file would hold."""
    front, store = ScriptFront(recording.typed(), WIDTH), RehearsalStore()
    begun = recording.answers(book) if (recording.folder / ANSWERS).is_file() else Answers()
    fresh = replace(Answers(), name=begun.name, notes=begun.notes)
    tractor = OwnedTractor(book, views.tractor(recording.tractor)) if recording.setting == OWNED else None
    Conversation(book, front, store, fresh, views, recording.setting, tractor=tractor).run()
    return front.screen, store.text


def differences(recorded: str, played: str, what: str) -> list[str]:
    """The lines that differ, as a reader of the recording would look for them."""
    return list(
        difflib.unified_diff(
            recorded.splitlines(), played.splitlines(), f"{what} recorded", f"{what} played", lineterm="", n=2
        )
    )
