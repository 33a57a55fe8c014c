"""The other road: a tractor that is there already, and whether it runs an implement."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.talk.front import Front, InterruptedTalkError
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.views import TractorViews
from firstfurrow.talk.walk_around import WalkAround

SETTING = "owned"


@dataclass(slots=True)
class OwnedTractor:
    """One tractor that somebody has or has seen."""

    book: Book
    views: TractorViews
    path: Path | None = None  # where its boxes are kept
    asked: bool = False

    @property
    def file(self) -> Path | None:
        """The file of what is known; None while there is none."""
        return self.path if self.views.text else None

    def fill(self, front: Front, answers: Answers) -> None:
        """Ask for what would settle the verdicts, box by box.

        Raises
        ------
        InterruptedTalkError
            When the reader wants to stop at once; what was typed is kept.
        """
        self.asked = True
        screen = Screen(front, self.book.messages)
        keys = self.views.wanted(answers)
        if not keys:
            screen.message("tractor_nothing")
            return
        screen.message("tractor_boxes", count=len(keys))
        walk = WalkAround(
            self.book, front, answers.units, self.views.boxes(answers), only=keys, text=self.views.text
        )  # fmt: skip
        self.views.text = walk.run(self.path) or self.views.text
        if walk.interrupted:
            raise InterruptedTalkError
