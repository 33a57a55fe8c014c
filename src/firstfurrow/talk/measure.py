"""Guided measuring on a front: what the reader stands before, one step after the other, then what it is."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Literal, Protocol

from firstfurrow.asking.answers import Units
from firstfurrow.asking.choosing import ChoosingError, candidates, choose_one
from firstfurrow.asking.typed import Doubt, Problem, Reading, understand
from firstfurrow.book.model import Book, Choice, MeasuringStep, Station
from firstfurrow.quantities import DIMENSIONS
from firstfurrow.talk.commands import command
from firstfurrow.talk.front import EndOfInputError, Front, InterruptedTalkError
from firstfurrow.talk.screen import Screen

PROMPT = "> "
NOT_SURE = "not_sure"
OURS = frozenset({"unsure", "back", "save", "how", "why", "so_far", "answers", "help"})  # commands of this talk
KEEP = "keep"  # said to what was asked once more
STUCK = 100  # the same line so often is a pipe that never ends, not a reader
_UNIT_AFTER_NUMBER = re.compile("[\\d¼-¾⅛-⅞]\\s*[A-Za-z'\"′″’”%°:]")
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


Done = dict[str, str | float | None]  # by step, in the order answered; None: not sure
Move = Literal["next", "back", "tell"]


class Measure:
    """Measuring on one front. `find` tells what the readings at a station say; `units` what a bare number means.

    `drawings` are left out where a screen is read aloud: the words beside each say the same.
    """

    def __init__(
        self,
        book: Book,
        front: Front,
        find: Callable[[str, Readings], Sequence[Told]],
        units: Units | None = None,
        *,
        drawings: bool = True,
    ) -> None:
        assert book.measuring is not None
        self.book = book
        self.measuring = book.measuring
        self.front = front
        self.screen = Screen(front, book.measuring.words)
        self._find = find
        self._units = units
        self._drawings = drawings
        self._last, self._repeated = "", 0
        self._doubt: tuple[str, Doubt] | None = None  # the step, and what was asked once more there
        self._alone = False  # only one station was asked for: no list to go back to
        self._measured: tuple[Station, Done] | None = None  # what was told last; back goes on with it

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
                self._alone = True
                self._measure(only, {})
                self._mend()
            else:
                self._stations()
        except (_LeaveError, EndOfInputError):
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
            self.screen.message("whole")
            station, done = self._station()
            try:
                self._measure(station, done)
            except _BackError:
                continue
            self.screen.blank()
            self.screen.message("again")

    def _mend(self) -> None:
        """After the only station: change a measure, as often as the reader wants."""
        while True:
            self.screen.blank()
            self.screen.message("more")
            while (said := command(line := self._line())) is None or said.name != "back":
                if not line or (said is not None and said.name == "save"):
                    return
                self.screen.message("more")
            self._measure(*self._again())

    def _again(self) -> tuple[Station, Done]:
        """What was told last, without its last answer."""
        assert self._measured is not None
        station, done = self._measured
        done.popitem()
        return station, done

    def _station(self) -> tuple[Station, Done]:
        while True:
            line = self._line()
            said = command(line)
            if said is not None and said.name == "save":
                raise _LeaveError
            if said is not None and said.name == "back" and self._measured is not None:
                return self._again()
            if said is not None or not line:
                name = said.name if said is not None else ""
                self.screen.message({"help": "help", "unsure": "ask_unsure"}.get(name, "again_hint"))
                continue
            try:
                return self.measuring.stations[choose_one(self._choices(), line, self.book.messages).id], {}
            except ChoosingError as error:
                self.screen.para(str(error))

    # ---------------------------------------------------------------- steps

    def _measure(self, station: Station, done: Done) -> None:
        """The steps of a station that are not done yet, then what they say."""
        if not done:
            self.screen.blank()
            self.screen.message("careful")
            for caution in station.cautions:
                self.screen.entry("!", caution)
        while (step := _next(station, done)) is not None:
            move = self._step(station, step, done)
            if move == "tell":
                break
            if move == "back" and done:
                done.popitem()
            elif move == "back" and self._alone:
                self.screen.message("first_step")
            elif move == "back":
                raise _BackError
        self._measured = (station, done)
        self._tell(station, done)

    def _step(self, station: Station, step: MeasuringStep, done: Done) -> Move:
        """Ask until the step is answered, or another one that says all; or the reader wants the one before."""
        question = step.question
        self.screen.blank()
        self.screen.para(question.ask, strong=True)
        self._where(step)
        for number, choice in enumerate(question.choices, 1):
            self.screen.entry(str(number), choice.label)
        while True:
            line = self._line()
            said = command(line)
            if said is not None and said.name not in OURS and candidates(question.choices, line):
                said = None  # a word of another talk, and an answer in this one: the tractor
            if said is not None and said.name == "unsure":
                done[question.id] = None
                return "next"
            if said is not None and said.name == "back":
                return "back"
            if said is not None:
                self._command(said.name, station, step, done)
            elif not line:
                self.screen.message("hint")
            elif (move := self._typed(station, step, line, done)) is not None:
                return move

    def _where(self, step: MeasuringStep) -> None:
        """Where the tape goes: in words, and drawn where there is room for it."""
        self.screen.message("tape", text=step.tape)
        room = all(len(line) <= self.screen.width for line in step.drawing)
        if step.drawing and self._drawings and room:
            self.screen.raw("\n".join(step.drawing))

    def _command(self, name: str, station: Station, step: MeasuringStep, done: Done) -> None:
        if name == "save":
            raise _LeaveError
        if name == "how":
            self._where(step)
        elif name == "why":
            self.screen.para(step.question.why)
        elif name in ("so_far", "answers"):
            self._tell(station, done)
        else:
            self.screen.message("help" if name == "help" else "not_here")

    def _typed(self, station: Station, step: MeasuringStep, line: str, done: Done) -> Move | None:
        """A typed answer: what comes of it; None when the step must be asked again."""
        question = step.question
        if self._doubt is not None and line.casefold() == KEEP:
            kept, self._doubt = self._doubt, None
            done[kept[0]] = kept[1].given.value
            return "next" if kept[0] == question.id else "tell"
        bare = not _UNIT_AFTER_NUMBER.search(line) and not _ZERO.fullmatch(line) and any(c.isnumeric() for c in line)
        if question.type == "quantity" and self._units is None and bare:
            such_as = DIMENSIONS[question.dimension or "length"].such_as
            self.screen.message("no_unit", text=line[:40], such_as=such_as)
            return None
        found = self._understood(step, line)
        if isinstance(found, Problem):
            other = None if bare else self._anytime(station, line)
            if other is None:
                self.screen.para(found.sentence)
                return None
            if self._taken(other[0], other[1], done):
                self.screen.message("taken_anytime")
                return "tell"
            return None
        return "next" if self._taken(step, found, done) else None

    def _understood(self, step: MeasuringStep, line: str) -> Reading:
        units = self._units or ("us" if _US.search(line) else "metric")
        return understand(step.question, line, units, None, self.book)

    def _anytime(self, station: Station, line: str) -> tuple[MeasuringStep, Reading] | None:
        """The line as the answer that this station takes at any of its steps."""
        for step in station.steps:
            if step.question.id == station.anytime:
                found = self._understood(step, line)
                return None if isinstance(found, Problem) else (step, found)
        return None

    def _taken(self, step: MeasuringStep, found: Reading, done: Done) -> bool:
        """True when the answer is kept; what is hardly meant is asked once more."""
        assert not isinstance(found, Problem)
        asked = self._doubt[1] if self._doubt is not None and self._doubt[0] == step.question.id else None
        self._doubt = None
        if isinstance(found, Doubt) and not (asked is not None and asked.settled_by(found.given)):
            self._doubt = (step.question.id, found)
            self.screen.para(found.sentence)
            return False
        self.screen.para(found.note)
        done[step.question.id] = found.given.value
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
