"""One page being written: the words of the report, what was printed so far, and what figures still point at."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.advice.study import Study
from firstfurrow.asking.said import Line
from firstfurrow.reasoning import Step, ancestors
from firstfurrow.report.blocks import Block, Bullets, Heading

_STEP = re.compile(r"\bs[0-9]+\b")  # a step that a sentence names
_POINTER = re.compile(r" \(s[0-9]+\)")


@dataclass(frozen=True, slots=True)
class Said:
    """The answers, and what stands out in them, as sentences: kept though unusual, at odds with each other."""

    unusual: tuple[str, ...] = ()
    contradictions: tuple[str, ...] = ()
    answers: tuple[Line, ...] = ()


def unpointed(sentence: str) -> str:
    """A sentence without the steps that it names, for a page that has no working.

    >>> unpointed("It weighs 900 kg (s12), and more when wet.")
    'It weighs 900 kg, and more when wet.'
    """
    return _POINTER.sub("", sentence)


class Page:
    """Remembers which steps were printed, so that no figure points at a line that is not there."""

    def __init__(
        self, profile: Profile, study: Study, said: Said, *, full: bool, only: frozenset[str] | None = None
    ) -> None:
        self.profile = profile
        self.study = study
        self.said = said
        self.book = profile.book
        self.full = full
        self.only = only
        self.printed: set[int] = set()
        self.pointed: set[int] = set()
        self.sources: list[str] = []
        self.names = {note.sized.item.id: note.sized.item.name for note in profile.hookups}
        self.names["tow"] = profile.book.messages["reason.tow_name"]

    def say(self, id_: str, **slots: Any) -> str:
        """A sentence of the report."""
        return self.book.messages[f"report.{id_}"].format(**slots)

    @property
    def outcomes(self) -> tuple[Outcome, ...]:
        """The requirements that this page is about."""
        every = self.profile.outcomes.values()
        return tuple(o for o in every if self.only is None or o.requirement.group in self.only)

    def need(self, outcome: Outcome, strictest: Strictest) -> str:
        """What is asked for, with the sense: at least, at most."""
        return self.say(f"sense.{outcome.requirement.sense}", shown=strictest.shown)

    def section(self, title: str, lines: Sequence[str]) -> Iterator[Block]:
        """A heading with a list; nothing where the list is empty."""
        if lines:
            yield Heading(self.say(title))
            yield Bullets(tuple(lines))

    def point(self, step: Step) -> None:
        """A figure points at this step: it and what it rests on must stand somewhere on the page."""
        self.pointed |= {s.index for s in ancestors(step)}

    def pointing(self, sentence: str) -> str:
        """A sentence that may name steps: the full page shows them too, the short one does not name them."""
        if not self.full:
            return unpointed(sentence)
        for step in _STEP.findall(sentence):
            self.point(self.profile.step(step))
        return sentence

    def cite(self, step: Step) -> None:
        """The source of a printed step belongs into the list of sources."""
        if step.source is not None and step.source not in self.sources:
            self.sources.append(step.source)
