"""What helps those who teach, from its YAML: a note for each question, and pairs of plans that differ in one answer."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from firstfurrow.book.lazy import LazyMapping, LazyWhole


@dataclass(frozen=True, slots=True)
class TeachingNote:
    """For one question: a common wrong answer, why people give it, and what to ask the room."""

    question: str
    wrong: str
    because: str
    room: str


@dataclass(frozen=True, slots=True)
class TeachingPair:
    """A recorded conversation and one other answer. `rises`, `falls`: the part of `look_at` that `say` claims it of."""

    id: str
    title: str
    recording: str  # a folder of the recorded conversations
    question: str  # flat key, such as "slope_up" or "i2.size"
    other: str  # the answer in the words of a typed line
    look_at: tuple[str, ...]  # requirement ids
    say: str
    rises: tuple[str, ...] = ()
    falls: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Teaching:
    """Notes by question id, and pairs; both empty where a book does without them."""

    notes: Mapping[str, TeachingNote] = field(default_factory=dict)
    pairs: Sequence[TeachingPair] = ()


def teaching(data: Callable[[], Mapping[str, Any]]) -> Teaching:
    """All of it, read when it is first looked at."""
    return Teaching(
        notes=LazyMapping(lambda: {n["question"]: TeachingNote(**n) for n in data()["notes"]}),
        pairs=LazyWhole(lambda: tuple(map(_pair, data()["pairs"]))),
    )


def _pair(data: Mapping[str, Any]) -> TeachingPair:
    return TeachingPair(
        id=data["id"],
        title=data["title"],
        recording=data["recording"],
        question=data["question"],
        other=data["other"],
        look_at=tuple(data["look_at"]),
        say=data["say"],
        rises=tuple(data.get("rises") or ()),
        falls=tuple(data.get("falls") or ()),
    )
