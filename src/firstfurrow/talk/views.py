"""What a conversation shows of the advice. It knows no physics: somebody gives it these."""

from __future__ import annotations

from typing import Protocol

from firstfurrow.asking.answers import Answers
from firstfurrow.talk.walk_around import Reader


class Views(Protocol):
    """Pages and lines that follow from answers; all of them get the answers that apply."""

    def profile(self, answers: Answers) -> str:
        """What came of the answers so far, as laid-out text."""
        ...

    def moved(self, before: Answers, after: Answers) -> tuple[str, ...]:
        """One line for each thing that an answer moved."""
        ...

    def compared(self, before: Answers, after: Answers, names: tuple[str, str]) -> str:
        """What differs between two plans, as laid-out text."""
        ...

    def sheet(self, answers: Answers) -> str:
        """The sheet to take to the yard, as laid-out text."""
        ...

    def report(self, answers: Answers) -> str:
        """The whole report as an HTML page, the sheet first."""
        ...

    def steps(self, answers: Answers, word: str) -> tuple[str, tuple[str, ...]]:
        """The title of the requirement that a word names and its reasoning, a block of lines for each step."""
        ...

    def examples(self) -> tuple[tuple[str, str], ...]:
        """The recorded conversations: name and title."""
        ...

    def example(self, name: str) -> Answers:
        """The answers of a recorded conversation."""
        ...

    def tractor(self, text: str) -> TractorViews:
        """The views of the road on which a tractor is there already; `text` is what is known of it."""
        ...


class TractorViews(Views, Protocol):
    """The same where a tractor is there already: whether it runs the implements."""

    text: str  # of an offer file; empty while nothing is known of it

    def wanted(self, answers: Answers) -> tuple[str, ...]:
        """The keys of an offer that would settle what is not known of it."""
        ...

    def boxes(self, answers: Answers) -> Reader:
        """Reads and writes offers in the units of the reader."""
        ...
