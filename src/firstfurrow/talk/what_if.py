"""What if: one thing is changed, what differs is shown, and the reader keeps it, takes it back, or keeps both plans."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from firstfurrow.asking.choosing import ChoosingError, choose_one
from firstfurrow.asking.interview import Interview
from firstfurrow.book.model import Book, Choice
from firstfurrow.talk.screen import Screen

KEEP, UNDO, BOTH = "keep", "undo", "both"
LONGEST = 30  # characters in the name of a plan


@dataclass(slots=True)
class WhatIf:
    """Plans beside the one that is talked about: what it was before, and those that got a name."""

    before: Interview | None = None  # while a change is tried
    past: list[Interview] = field(default_factory=list)  # what undo goes back to, the latest last
    plans: dict[str, Interview] = field(default_factory=dict)

    def named(self, text: str) -> str | None:
        """The plan that a typed name means."""
        wanted = text.strip().casefold()
        found = [name for name in self.plans if name.casefold() == wanted]
        found = found or [name for name in self.plans if wanted and name.casefold().startswith(wanted)]
        return found[0] if len(found) == 1 else None


def choices(book: Book) -> tuple[Choice, ...]:
    """What to do with a change that was tried."""
    return tuple(
        Choice(id_, book.messages[f"what_if_{id_}"], also=also)
        for id_, also in ((KEEP, ("keep it", "yes")), (UNDO, ("back", "take it back", "no")), (BOTH, ("both plans",)))
    )


def chosen(book: Book, screen: Screen, line: str) -> str | None:
    """What the reader wants; None when the line says none of it, which is said."""
    try:
        return choose_one(choices(book), line, book.messages).id
    except ChoosingError as error:
        screen.para(str(error))
        return None


def name_of(line: str, taken: Mapping[str, Interview]) -> str:
    """A name for a plan from a typed line; a number is added where it is taken.

    >>> name_of("  with the   big cutter ", {})
    'with the big cutter'
    """
    name = " ".join(line.split())[:LONGEST].strip()
    number, found = 2, name
    while found in taken:
        found, number = f"{name} {number}", number + 1
    return found
