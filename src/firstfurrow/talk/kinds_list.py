"""The list at the question for a kind of implement: what fits the jobs first, then families, then what a word finds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from firstfurrow.asking.kinds import fitting
from firstfurrow.asking.resolve import kind_choice
from firstfurrow.book.model import Book, Choice, Family, Kind
from firstfurrow.talk.screen import Screen

MOST = 12  # kinds suggested at once; a longer list scrolls the question away


@dataclass(slots=True)
class KindsList:
    """What stands on the screen now, so that a typed number means what the reader sees."""

    book: Book
    screen: Screen
    kinds: tuple[Kind, ...] = ()
    families: tuple[Family, ...] = ()

    def suggest(self, jobs: Iterable[str]) -> None:
        """The kinds for these jobs; the families when no kind fits."""
        fit = fitting(self.book, jobs)
        if not fit:
            self.show_families()
            return
        self.show(fit[:MOST])
        self.screen.message("kinds_more" if len(fit) <= MOST else "kinds_many_more")

    def show(self, kinds: Sequence[Kind]) -> None:
        """These kinds, numbered, each with a plain description."""
        self.kinds, self.families = tuple(kinds), ()
        for number, kind in enumerate(kinds, 1):
            self.screen.entry(str(number), f"{kind.name}: {kind.plain}")

    def show_families(self) -> None:
        """The families, numbered."""
        self.kinds, self.families = (), tuple(self.book.families)
        for number, family in enumerate(self.families, 1):
            self.screen.entry(str(number), family.title)
        self.screen.message("kinds_families")

    def browse(self, line: str) -> bool:
        """Move through the lists: `more`, or a family. False when the line is something else."""
        if line.casefold().strip(" .!") == "more":
            self.show_families()
            return True
        family = self.family(line)
        if family is None:
            return False
        self.screen.para(family.title)
        self.show(family.kinds)
        return True

    def family(self, line: str) -> Family | None:
        """The family that a line names while families are shown: by number or title."""
        number = line.strip().rstrip(".)")
        if number.isascii() and number.isdigit() and len(number) < 4:
            return self.families[int(number) - 1] if 1 <= int(number) <= len(self.families) else None
        return next((f for f in self.families if f.title.casefold() == line.casefold().strip()), None)

    def choices(self) -> tuple[Choice, ...]:
        """The shown kinds as choices."""
        return tuple(kind_choice(kind) for kind in self.kinds)
