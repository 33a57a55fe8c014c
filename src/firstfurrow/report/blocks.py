"""Content blocks: what a document is made of, before anybody decides how it looks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any, Literal

from firstfurrow.report.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 is the title."""

    text: str
    level: int = 2


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph. `tone` says what it is, never only how it looks."""

    text: str
    tone: Literal["plain", "strong", "caution", "quiet"] = "plain"


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list of sentences."""

    items: tuple[str, ...]
    tone: Literal["plain", "caution"] = "plain"


@dataclass(frozen=True, slots=True)
class Table:
    """A table with a header row; the first column names the row."""

    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Check:
    """One line of a checklist: what, what is asked for, how to check it. Beside it is room to write."""

    what: str
    need: str
    check: str


@dataclass(frozen=True, slots=True)
class Checklist:
    """Lines to be filled in by hand. `line` is for a list: {what}, {need}, {room}, {check}; `headers` are for
    a table of three columns: what and need, check, room."""

    headers: tuple[str, ...]
    rows: tuple[Check, ...]
    line: str


@dataclass(frozen=True, slots=True)
class Working:
    """Lines of reasoning: for each step its id, its title with value, and the line it was worked out by."""

    lines: tuple[StepLine, ...]


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step as it is printed."""

    id: str
    title: str
    result: str  # value with unit
    formula: str | None  # in names
    numbers: str | None  # the same with numbers, and the result
    origin: str | None  # who says so


@dataclass(frozen=True, slots=True)
class Contents:
    """What stands on this page: the titles of its headings of level 2, in order."""

    titles: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Terms:
    """Words, each with what it means."""

    items: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing. `name` is that of its file; `says` are sentences that say all that the drawing shows."""

    name: str
    title: str
    drawing: Drawing
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """A box to tick; `on` where it is ticked already."""

    label: str
    on: bool = False


@dataclass(frozen=True, slots=True)
class Blank:
    """Room to write one value. `lead` stands before it, `unit` behind it, `written` in it where it is filled in."""

    lead: str = ""
    unit: str = ""
    written: str = ""
    wide: bool = False


@dataclass(frozen=True, slots=True)
class FillIn:
    """One thing to fill in by hand, never split over two pages: number, what, blanks, boxes, and lines to write on.

    A field that is empty is not there; `id` is the name under which the answer goes into a file.
    """

    number: str = ""
    ask: str = ""
    id: str = ""
    lead: str = ""  # when it is to be filled in at all, and how
    blanks: tuple[Blank, ...] = ()
    ticks: tuple[Tick, ...] = ()
    notes: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()  # what stands at the beginning of each line to write on


@dataclass(frozen=True, slots=True)
class Steps:
    """What to do one after the other; `drawing` is in characters and shows nothing that the steps do not say."""

    items: tuple[str, ...]
    drawing: tuple[str, ...] = ()


Block = Bullets | Checklist | Contents | FillIn | Heading | Paragraph | Picture | Steps | Table | Terms | Working
Document = tuple[Block, ...]


def texts_of(block: Block) -> Iterator[str]:
    """Every text in a block, in the order of its fields; of a picture what it says, not what is drawn.

    >>> list(texts_of(Terms((("pin", "a short rod"),))))
    ['pin', 'a short rod']
    """
    fields = asdict(block)
    fields.pop("drawing", None)
    yield from _texts(fields)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for each in value.values():
            yield from _texts(each)
    elif isinstance(value, (list, tuple)):
        for each in value:
            yield from _texts(each)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a report under a name of its own: `yard` is the sheet to take along, `report` everything else."""

    name: str
    document: Document

    @property
    def ids(self) -> tuple[str, ...]:
        """The id of each block: the same in every form."""
        return tuple(f"{self.name}-{number}" for number in range(1, len(self.document) + 1))
