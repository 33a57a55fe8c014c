"""A conversation over the tiny book with typed lines: its screen, its exit code, its answers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from small_book import BOOK

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.interview import Interview
from firstfurrow.book.model import Book
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore, Store

# Answers every question of the tiny book once: land, one implement, the gate; then looks it over.
QUESTIONS = ["14 acre", "trees", "snow", "blade", "now", "8 ft", "angle", "all", "10 ft", "nothing more"]
WHOLE = [*QUESTIONS, ""]


@dataclass(frozen=True)
class Talk:
    """What came of it."""

    screen: str
    code: int
    interview: Interview
    store: Store

    @property
    def answers(self) -> Answers:
        return self.interview.answers

    @property
    def flat(self) -> str:
        """The screen as one line, so that a test does not depend on where lines break."""
        return " ".join(self.screen.split())

    def after(self, typed: str) -> str:
        """The screen from the last time that line was typed on."""
        return self.screen.rsplit(f"> {typed}\n", 1)[1]


class Plain:
    """Views that count."""

    def profile(self, answers: Answers) -> str:
        return f"PROFILE: {len(answers.given)} answers, {len(answers.items)} items"

    def moved(self, before: Answers, after: Answers) -> tuple[str, ...]:
        if len(before.items) == len(after.items):
            return ()
        return (f"remote sets: now {len(after.items)}",)

    def sheet(self, answers: Answers) -> str:
        return f"SHEET: {len(answers.items)} items"

    def compared(self, before: Answers, after: Answers, names: tuple[str, str]) -> str:
        differ = [key for key in {**before.given, **after.given} if before.given.get(key) != after.given.get(key)]
        return f"{names[0]} / {names[1]}: {len(before.items)} and {len(after.items)} items, differ in {differ}"


def talk(
    lines: Sequence[str],
    *,
    book: Book = BOOK,
    width: int = 80,
    answers: Answers | None = None,
    store: Store | None = None,
    ask_units: bool = False,
    path: Path | None = None,
) -> Talk:
    """Hold the conversation."""
    front = ScriptFront(lines, width)
    kept = store or (Store(path) if path is not None else RehearsalStore())
    held = Conversation(
        book, front, kept, answers or Answers(), Plain(), "home", ask_units, resumed=answers is not None
    )
    code = held.run()
    return Talk(front.screen, code, held.interview, kept)
