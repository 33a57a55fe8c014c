"""The walk around a tractor on a front: box by box as on the sheet, told back, kept as an offer file after each one."""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable, Collection, Mapping, Sequence
from pathlib import Path
from typing import Any, Literal, Protocol

from firstfurrow.asking.answers import Units
from firstfurrow.book.model import Book
from firstfurrow.book.walk_around import Box, boxes
from firstfurrow.book.yaml_strict import LARGEST, bytes_of
from firstfurrow.quantities import DIMENSIONS
from firstfurrow.talk.commands import command
from firstfurrow.talk.files import replace_file, sweep_beside
from firstfurrow.talk.front import EndOfInputError, Front, InterruptedTalkError
from firstfurrow.talk.screen import Screen

PROMPT = "> "
OURS = frozenset({"unsure", "back", "save", "how", "why", "so_far", "answers", "help"})  # commands of this talk
STUCK = 100  # the same line so often is a pipe that never ends, not a reader
_GO = re.compile(r"(?:go|go to|box|change)\s*(\d*)\.?")
_LIST = frozenset({"list", "list all"})

Move = Literal["next", "back"] | int  # a number: that place in the order


class KeptOffer(Protocol):
    """What an offer file holds."""

    @property
    def name(self) -> str:
        """What the tractor is called."""
        ...

    @property
    def filled(self) -> Mapping[str, str]:
        """What is written, by key."""
        ...

    @property
    def notes(self) -> tuple[str, ...]:
        """Remarks."""
        ...

    @property
    def comments(self) -> bool:
        """True when the file has comments, which a file written again does not keep."""
        ...


class AtOdds(Protocol):
    """What does not go together, and under which keys."""

    @property
    def sentences(self) -> tuple[str, ...]:
        """One sentence for each pair."""
        ...

    @property
    def keys(self) -> frozenset[str]:
        """The keys that are in one of them."""
        ...


class Reader(Protocol):
    """Reads and writes offers; made by `firstfurrow.advice.offers.walk_around.OfferBoxes`."""

    def take(self, key: str, line: str) -> tuple[str, tuple[str, ...]]:
        """A typed line as it is written, and as it was understood; ValueError with a sentence otherwise."""
        ...

    def told(self, key: str, text: str) -> tuple[str, ...]:
        """What stands in a box, as it was understood."""
        ...

    def at_odds(self, name: str, filled: Mapping[str, str], place: Callable[[str], str] = ...) -> AtOdds:
        """What does not go together."""
        ...

    def name_problem(self, name: str) -> str | None:
        """Why a tractor cannot be called so."""
        ...

    def text(self, name: str, filled: Mapping[str, str], notes: Sequence[str] = ...) -> str:
        """The offer file."""
        ...

    def read(self, text: str, file: str) -> KeptOffer:
        """What a file holds; ValueError with a sentence and its place where it is no offer."""
        ...


class WalkAroundError(ValueError):
    """The file cannot be gone on with; the message is one sentence with the file."""


class _StopError(Exception):
    """The reader wants to stop."""


class WalkAround:
    """Fills in the boxes of one tractor on a front, all of them or `only` those of some keys.

    units
        What the unit behind a box is, and how it is told back. Without them both measures are shown.
    reader
        Reads and writes offers.
    text
        An offer to go on with where there is no file yet.
    """

    def __init__(
        self,
        book: Book,
        front: Front,
        units: Units | None,
        reader: Reader,
        *,
        only: Collection[str] | None = None,
        text: str = "",
    ) -> None:
        self.book = book
        self.front = front
        self.units = units
        self.reader = reader
        self.screen = Screen(front, book.messages)
        self.boxes = boxes(book)
        self.asked = tuple(box for box in self.boxes if only is None or box.key.id in only)
        self.number = {box.key.id: box.number for box in self.boxes}
        self.interrupted = False
        self.name = ""
        self.filled: dict[str, str] = {}
        self._given = text
        self._notes: tuple[str, ...] = ()
        self._path: Path | None = None
        self._comments = False
        self._written = True  # False once a file could not be written
        self._stop = ""  # the stop whose heading was shown last
        self._last, self._repeated = "", 0

    def run(self, path: Path | None = None) -> str | None:
        """Walk to the end or until the reader stops: the text of the offer, None when it has no name or nothing in it.

        Raises
        ------
        WalkAroundError
            When the file is there and cannot be gone on with. It is left as it is.
        """
        self._path = path
        if path is not None:
            sweep_beside(path.parent, path.name)
        resumed = self._resume()
        try:
            self._open(resumed)
            if not self.name:
                self._ask_name()
            self._walk()
        except (_StopError, EndOfInputError):
            pass
        except (InterruptedTalkError, KeyboardInterrupt):
            self.interrupted = True
        return self._close()

    # ------------------------------------------------------------------ the file

    def _resume(self) -> bool:
        """Take over what is written already; True when there was something."""
        text, where = self._given, ""
        if self._path is not None and self._path.exists():
            where = str(self._path)
            text = self._text_of(self._path)
        if not text.strip():
            return False
        try:
            kept = self.reader.read(text, where or self.screen.text("walk_offer"))
        except ValueError as error:
            raise WalkAroundError(" ".join([str(error), self.screen.text("walk_left_alone")])) from None
        self.name, self.filled, self._notes = kept.name, dict(kept.filled), kept.notes
        self._comments = kept.comments and bool(where)
        return True

    def _text_of(self, path: Path) -> str:
        def error(message: str) -> WalkAroundError:
            return WalkAroundError(f"{path}: {self.screen.text(message)}")

        try:
            raw = bytes_of(path)
            if len(raw) > LARGEST:
                raise error("file_too_large")
            return raw.decode("utf-8-sig")
        except IsADirectoryError:
            raise error("file_folder") from None
        except UnicodeDecodeError:
            raise error("file_not_text") from None
        except OSError:
            raise error("file_unreadable") from None

    def _save(self) -> None:
        """Write all boxes, after each one; where that is not possible, say so once and go on."""
        if self._path is None or not self._written:
            return
        try:
            replace_file(self._path, self._text(), 0o666)
        except OSError:
            self._written = False
            self.screen.message("walk_not_written", file=self._path)

    def _text(self) -> str:
        return self.reader.text(self.name, self.filled, self._notes)

    # ------------------------------------------------------------ begin and end

    def _open(self, resumed: bool) -> None:
        assert self.book.round is not None
        self.screen.message("walk_open")
        self.screen.message("walk_bring", what=", ".join(self.book.round.bring))
        for caution in self.book.round.cautions:
            self.screen.entry("!", caution)
        if resumed:
            self.screen.blank()
            self.screen.message("walk_resumed", name=self.name, filled=self._count(), all=len(self.asked))
            if self._comments:
                self.screen.message("walk_comments")
            self._tell_at_odds(self._at_odds())
        elif self._path is not None:
            self.screen.message("walk_file", file=self._path)

    def _close(self) -> str | None:
        self.screen.blank()
        if not self.name or not self.filled:
            self.screen.message("walk_nothing")
            return None
        found = self._at_odds()
        self.screen.message("walk_done", name=self.name, filled=self._count(), all=len(self.asked))
        self._tell_at_odds(found)
        text = self._text()
        if self._path is not None and self._written:
            self.screen.message("walk_kept", file=self._path, command=f"firstfurrow check ANSWERS {self._quoted()}")
            self.screen.message("walk_go_on", command=f"firstfurrow measure walk-around --out {self._quoted()}")
        elif self._path is not None:
            self.screen.message("walk_copy")
            self.screen.raw(text)
        return text

    def _quoted(self) -> str:
        return shlex.quote(str(self._path))

    def _count(self) -> int:
        return sum(box.key.id in self.filled for box in self.asked)

    def _ask_name(self) -> None:
        self.screen.blank()
        self.screen.para(self.screen.text("walk_name"), strong=True)
        while True:
            line = self._line()
            said = command(line)
            if said is not None and said.name == "save":
                raise _StopError
            ours = said is not None and said.name in OURS
            if not line or ours or _GO.fullmatch(line.casefold()) or line.casefold() in _LIST:
                self.screen.message("walk_name_hint")
            elif (problem := self.reader.name_problem(line)) is not None:
                self.screen.para(problem)
            else:
                self.name = line
                return

    # ----------------------------------------------------------------- box by box

    def _walk(self) -> None:
        place = 0
        while place < len(self.asked):
            move = self._box(self.asked[place])
            if move == "next":
                place += 1
            elif move == "back":
                place = self._back(place)
            else:
                place = move

    def _back(self, place: int) -> int:
        if place:
            return place - 1
        self.screen.blank()
        self.screen.message("walk_first", name=self.name)
        self._ask_name()
        self._save()
        return 0

    def _box(self, box: Box) -> Move:
        """One box: asked until it is filled in, left as it is, or left for another one."""
        self._heading(box)
        self._show(box)
        while True:
            line = self._line()
            if not line:
                return "next"
            if (move := self._command(box, line)) is not None:
                if move != "stay":
                    return move
            elif self._typed(box, line):
                return "next"

    def _heading(self, box: Box) -> None:
        if box.stop.id == self._stop:
            return
        self._stop = box.stop.id
        self.screen.blank()
        self.screen.para(box.stop.title.upper(), strong=True)
        self.screen.para(box.stop.look)
        for caution in box.stop.cautions:
            self.screen.entry("!", caution)

    def _show(self, box: Box) -> None:
        self.screen.blank()
        self.screen.para(
            self.screen.text("walk_box", number=box.number, all=len(self.boxes), name=box.key.name), strong=True
        )
        self.screen.para(box.key.what)
        self.screen.message("walk_where", where=box.key.where)
        self._how(box)
        if box.key.id in self.filled:
            self.screen.message("walk_filled", what=self._told(box.key.id))

    def _how(self, box: Box) -> None:
        """What may be written."""
        key = box.key
        for word in key.words:
            self.screen.entry("-", word.label)
        if key.dimension is not None and DIMENSIONS[key.dimension].working:
            self.screen.message("walk_such_as", such_as=DIMENSIONS[key.dimension].such_as)
        if key.many:
            self.screen.message("walk_many")

    def _command(self, box: Box, line: str) -> Move | Literal["stay"] | None:
        """What a command makes of it; None when the line is a value."""
        plain = " ".join(line.casefold().split())
        if (go := _GO.fullmatch(plain)) is not None:
            return self._go(go[1])
        if plain in _LIST:
            return self._list()
        said = command(line)
        if said is None:
            return None
        actions: Mapping[str, Callable[[], Any]] = {
            "answers": self._list,
            "so_far": self._list,
            "how": lambda: self._show(box),
            "why": lambda: self._why(box),
            "help": lambda: self.screen.message("walk_help"),
        }
        if said.name == "save":
            raise _StopError
        if said.name == "back":
            return "back"
        if said.name == "unsure":
            self._empty(box)
            return "next"
        actions.get(said.name, lambda: self.screen.message("walk_not_here"))()
        return "stay"

    def _go(self, number: str) -> Move | Literal["stay"]:
        for place, box in enumerate(self.asked):
            if number and box.number == int(number[:9]):
                return place
        numbers = [box.number for box in self.asked]
        self.screen.message("walk_go", low=numbers[0], high=numbers[-1])
        return "stay"

    def _list(self) -> Literal["stay"]:
        self.screen.message("walk_list", name=self.name, filled=self._count(), all=len(self.asked))
        for box in self.asked:
            if box.key.id in self.filled:
                self.screen.entry(str(box.number), f"{box.key.name}: {self._told(box.key.id)}")
        empty = ", ".join(str(box.number) for box in self.asked if box.key.id not in self.filled)
        if empty:
            self.screen.message("walk_empty", boxes=empty)
        return "stay"

    def _why(self, box: Box) -> None:
        titles = [r.title for r in self.book.requirements.values() if box.key.id in r.offer_keys]
        self.screen.message("walk_why" if titles else "walk_why_more", what="; ".join(titles))

    def _empty(self, box: Box) -> None:
        """Nobody knows: the box stays empty, or becomes so."""
        if self.filled.pop(box.key.id, None) is not None:
            self._save()
            self.screen.message("walk_emptied", number=box.number)
        else:
            self.screen.message("walk_stays_empty", number=box.number)

    # ------------------------------------------------------------------ one value

    def _typed(self, box: Box, line: str) -> bool:
        """True when the line is a value for the box; otherwise it is said why not."""
        before = set(self._at_odds().sentences)
        try:
            text, told = self.reader.take(box.key.id, line)
        except ValueError as error:
            self.screen.para(str(error))
            return False
        self.filled[box.key.id] = text
        self._save()
        self.screen.message("walk_taken", number=box.number, what=self._listed(told))
        found = self._at_odds()
        if set(found.sentences) - before:
            self._tell_at_odds(found, before)
        elif before and not found.sentences:
            self.screen.message("walk_settled")
        return True

    def _at_odds(self) -> AtOdds:
        return self.reader.at_odds(
            self.name, self.filled, lambda key: self.screen.text("walk_place", number=self.number.get(key, "?"))
        )

    def _tell_at_odds(self, found: AtOdds, before: Collection[str] = ()) -> None:
        new = [sentence for sentence in found.sentences if sentence not in before]
        for sentence in new:
            self.screen.entry("!", sentence)
        if new:
            numbers = sorted(self.number[key] for key in found.keys if key in self.number)
            self.screen.message("walk_in_doubt", boxes=", ".join(map(str, numbers)))

    def _told(self, key: str) -> str:
        return self._listed(self.reader.told(key, self.filled[key]))

    def _listed(self, told: Sequence[str]) -> str:
        return ", ".join(told) or self.screen.text("walk_none")

    def _line(self) -> str:
        line = self.front.ask(PROMPT)
        self._last, self._repeated = line, self._repeated + 1 if line == self._last else 0
        if self._repeated == STUCK:
            raise EndOfInputError
        return line
