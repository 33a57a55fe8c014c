"""Guided measuring on a front: what the reader stands before, one step after the other, then what it is."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Protocol

from firstfurrow.asking.answers import Units
from firstfurrow.asking.choosing import ChoosingError, choose_one
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.book.model import Book, Choice, MeasuringStep, Station
from firstfurrow.quantities import DIMENSIONS
from firstfurrow.talk.commands import command
from firstfurrow.talk.front import EndOfInputError, Front, InterruptedTalkError
from firstfurrow.talk.screen import Screen

PROMPT = "> "
NOT_SURE = "not_sure"
STUCK = 100  # the same line so often is a pipe that never ends, not a reader
_UNIT_AFTER_NUMBER = re.compile("[\\d¼-¾⅛-⅞]\\s*[A-Za-z'\"′″’”]")
_ZERO = re.compile(r"0+(?:\.0*)?")
_US = re.compile("(?<![A-Za-z])(?:in|inch|inches|ft|foot|feet|lbs?|hp|pounds?)(?![A-Za-z])|['\"′″’”]", re.IGNORECASE)

Readings = Mapping[str, str | float]


class Told(Protocol):
    """A heading and its sentences."""

    @property
    def heading(self) -> str:
        """The heading."""
        ...

    @property
    def lines(self) -> Sequence[str]:
        """The sentences."""
        ...


class UnknownStationError(ValueError):
    """Nothing to measure goes by that name; the message is one sentence."""


class _LeaveError(Exception):
    """The reader wants to stop."""


class _BackError(Exception):
    """The reader wants to go back from the first step."""


class Measure:
    """Measuring on one front. `find` tells what the readings at a station say; `units` what a bare number means."""

    def __init__(
        self, book: Book, front: Front, find: Callable[[str, Readings], Sequence[Told]], units: Units | None = None
    ) -> None:
        assert book.measuring is not None
        self.book = book
        self.measuring = book.measuring
        self.front = front
        self.screen = Screen(front, book.measuring.words)
        self._find = find
        self._units = units
        self._last, self._repeated = "", 0

    def run(self, what: str | None = None) -> int:
        """Measure to the end. 0: done or no further input; 130: interrupted.

        Raises
        ------
        UnknownStationError
            When `what` names nothing that can be measured.
        """
        only = None if what is None else self._named(what)
        try:
            self.screen.message("open")
            if only is not None:
                self._measure(only)
            else:
                self._stations()
        except (_LeaveError, _BackError, EndOfInputError):
            return self._close(0)
        except (InterruptedTalkError, KeyboardInterrupt):
            return self._close(130)
        return self._close(0)

    def _close(self, code: int) -> int:
        self.screen.blank()
        self.screen.message("close")
        return code

    # ------------------------------------------------------------- stations

    def _choices(self) -> tuple[Choice, ...]:
        return tuple(Choice(s.id, s.label, None, s.also) for s in self.measuring.stations.values())

    def _named(self, what: str) -> Station:
        try:
            return self.measuring.stations[choose_one(self._choices(), what, self.book.messages).id]
        except ChoosingError:
            names = ", ".join(self.measuring.stations)
            raise UnknownStationError(self.screen.text("unknown", text=what[:40], names=names)) from None

    def _stations(self) -> None:
        """One station after the other, as long as the reader wants."""
        while True:
            self.screen.blank()
            self.screen.para(self.screen.text("ask_station"), strong=True)
            for number, choice in enumerate(self._choices(), 1):
                self.screen.entry(str(number), choice.label)
            station = self._station()
            try:
                self._measure(station)
            except _BackError:
                continue
            self.screen.blank()
            self.screen.message("again")

    def _station(self) -> Station:
        while True:
            line = self._line()
            said = command(line)
            if said is not None and said.name == "save":
                raise _LeaveError
            if said is not None or not line:
                name = said.name if said is not None else ""
                self.screen.message({"help": "help", "unsure": "ask_unsure"}.get(name, "again_hint"))
                continue
            try:
                return self.measuring.stations[choose_one(self._choices(), line, self.book.messages).id]
            except ChoosingError as error:
                self.screen.para(str(error))

    # ---------------------------------------------------------------- steps

    def _measure(self, station: Station) -> None:
        """The steps of a station, then what they say."""
        self.screen.blank()
        self.screen.message("careful")
        for caution in station.cautions:
            self.screen.entry("!", caution)
        done: dict[str, str | float | None] = {}
        while (step := _next(station, done)) is not None:
            if self._step(station, step, done):
                continue
            if not done:
                raise _BackError
            done.popitem()
        self._tell(station, done)

    def _step(self, station: Station, step: MeasuringStep, done: dict[str, str | float | None]) -> bool:
        """Ask until the step is answered; False when the reader wants the one before."""
        question = step.question
        self.screen.blank()
        self.screen.para(question.ask, strong=True)
        self.screen.message("tape", text=step.tape)
        for number, choice in enumerate(question.choices, 1):
            self.screen.entry(str(number), choice.label)
        while True:
            line = self._line()
            said = command(line)
            if said is not None and said.name == "unsure":
                done[question.id] = None
                return True
            if said is not None and said.name == "back":
                return False
            if said is not None:
                self._command(said.name, station, step, done)
            elif not line:
                self.screen.message("hint")
            elif self._typed(step, line, done):
                return True

    def _command(self, name: str, station: Station, step: MeasuringStep, done: dict[str, str | float | None]) -> None:
        if name == "save":
            raise _LeaveError
        if name == "how":
            self.screen.message("tape", text=step.tape)
        elif name == "why":
            self.screen.para(step.question.why)
        elif name in ("so_far", "answers"):
            self._tell(station, done)
        else:
            self.screen.message("help" if name == "help" else "not_here")

    def _typed(self, step: MeasuringStep, line: str, done: dict[str, str | float | None]) -> bool:
        question = step.question
        units = self._units or ("us" if _US.search(line) else "metric")
        bare = not _UNIT_AFTER_NUMBER.search(line) and not _ZERO.fullmatch(line) and any(c.isnumeric() for c in line)
        if question.type == "quantity" and self._units is None and bare:
            such_as = DIMENSIONS[question.dimension or "length"].such_as
            self.screen.message("no_unit", text=line[:40], such_as=such_as)
            return False
        found = understand(question, line, units, None, self.book)
        if isinstance(found, Problem):
            self.screen.para(found.sentence)
            return False
        self.screen.para(found.note)
        done[question.id] = found.given.value
        return True

    def _tell(self, station: Station, done: Mapping[str, str | float | None]) -> None:
        readings = {step: value for step, value in done.items() if value is not None}
        for part in self._find(station.id, readings):
            self.screen.blank()
            self.screen.para(part.heading, strong=True)
            for line in part.lines:
                self.screen.entry("-", line)

    def _line(self) -> str:
        line = self.front.ask(PROMPT)
        self._last, self._repeated = line, self._repeated + 1 if line == self._last else 0
        if self._repeated == STUCK:
            raise EndOfInputError
        return line


def _next(station: Station, done: Mapping[str, object]) -> MeasuringStep | None:
    """The first step that is not done and whose earlier answers ask for it."""
    for step in station.steps:
        if step.question.id not in done and all(_holds(done, name, answers) for name, answers in step.only.items()):
            return step
    return None


def _holds(done: Mapping[str, object], name: str, answers: Sequence[str]) -> bool:
    if name not in done:
        return False
    given = done[name]
    return (NOT_SURE if given is None else given) in answers
