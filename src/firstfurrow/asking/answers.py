"""What the buyer said, as frozen data: one `Given` for each question, items for the implements, and what lies aside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal

Units = Literal["us", "metric"]
NOTHING: Mapping[str, Given] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Given:
    """One answer.

    value
        choice: the choice id; several: a tuple of choice ids; quantity: a number in the working unit of the question's
        dimension; count: a whole number; kind: a kind id; variant: a variant id; size: the id of a sold size, a number
        in the working unit of the kind's sizes, or "choose"; text: the text. None when unsure.
    text
        As typed ("14 acre"), kept for the file and for the reasoning; the choice id where a choice was taken.
    """

    value: Any
    text: str
    unsure: bool = False


NOT_SURE = Given(value=None, text="not sure", unsure=True)


@dataclass(frozen=True, slots=True)
class Item:
    """One implement of the buyer, with an id that is never reused."""

    id: str
    given: Mapping[str, Given] = field(default_factory=lambda: NOTHING)


@dataclass(frozen=True, slots=True)
class Kept:
    """A contradiction that the buyer was asked about and kept, with the answers as they were then."""

    contradiction: str
    at: str  # flat key of the place where it was asked about
    answers: tuple[str, ...]  # the texts of the answers that it is between


@dataclass(frozen=True, slots=True)
class Answers:
    """Everything said so far. `aside` holds answers that do not apply now: kept, never read by the plan.

    Keys of `aside` are a question id, or an item id and a question id joined by a stop ("i2.size"). `kept` is only
    remembered so that nothing is asked about twice; it moves nothing. `carried` says what of an older edition of the
    book could not be carried over; it is shown once and never written.
    """

    units: Units = "us"
    given: Mapping[str, Given] = field(default_factory=lambda: NOTHING)
    items: tuple[Item, ...] = ()
    aside: Mapping[str, Given] = field(default_factory=lambda: NOTHING)
    items_made: int = 0  # how many item ids were ever given out
    name: str | None = None  # of a recorded scenario
    notes: tuple[str, ...] = field(default=())
    kept: tuple[Kept, ...] = ()
    carried: tuple[str, ...] = ()
