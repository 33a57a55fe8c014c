"""Writing a recording of a talk: the lines as they are typed, then the folder that `replay` plays again."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from firstfurrow.asking.answers import Units
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book
from firstfurrow.talk.files import replace_file, sweep_beside
from firstfurrow.talk.front import NO_HINTS, Front, Hints, InterruptedTalkError
from firstfurrow.talk.recordings import ANSWERS, SCREEN, TALK, TRACTOR, TYPED, Recording, RecordingError, play
from firstfurrow.talk.script import INTERRUPT
from firstfurrow.talk.views import Views

UNITS_LINE = {"us": "1", "metric": "2"}  # what is typed at the question for the units


@dataclass(slots=True)
class RecordingFront:
    """A front that keeps every typed line."""

    front: Front
    lines: list[str] = field(default_factory=list)

    @property
    def width(self) -> int:
        """That of the front."""
        return self.front.width

    @property
    def colour(self) -> bool:
        """That of the front."""
        return self.front.colour

    def say(self, text: str, strong: bool = False) -> None:
        """Show text on the front."""
        self.front.say(text, strong)

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
        """One line of the front, kept."""
        try:
            line = self.front.ask(prompt, hints)
        except InterruptedTalkError:
            self.lines.append(INTERRUPT)
            raise
        self.lines.append(line)
        return line


def claim_folder(book: Book, folder: Path) -> None:
    """Make the folder, so that what is typed is not lost at the end for want of a place.

    Raises
    ------
    RecordingError
        When it cannot be made, or has something in it.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        sweep_beside(folder, "")
        empty = not any(folder.iterdir())
    except OSError:
        raise _error(book, folder, "record_no_folder") from None
    if not empty:
        raise _error(book, folder, "record_not_empty")


def write_recording(
    book: Book, folder: Path, lines: list[str], views: Views, setting: str, units: Units | None, tractor: str = ""
) -> None:
    """The recording of these lines: what was typed, what a screen of 80 columns shows, the answers.

    Units that were said on the command line become the answer to the question for them.

    Raises
    ------
    RecordingError
        When a file cannot be written.
    """
    typed = lines if units is None else [UNITS_LINE[units], *lines]
    try:
        replace_file(folder / TALK, f"setting: {setting}\n")
        if tractor:
            replace_file(folder / TRACTOR, tractor)
        replace_file(folder / TYPED, "".join(f"{line}\n" for line in typed))
        screen, answers = play(book, Recording(folder), views)
        replace_file(folder / SCREEN, screen)
        replace_file(folder / ANSWERS, answers)
    except OSError as error:
        raise _error(book, folder, "record_not_written", reason=error.strerror) from None


def _error(book: Book, folder: Path, message: str, **slots: object) -> RecordingError:
    return RecordingError(f"{folder}: {wording(book.messages, message, **slots)}")
