"""A class in numbers: what counts of each participant's profile, and the counts. Pure, and nobody is ranked."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import Answers, Units
from firstfurrow.book.model import Book

Sort = Literal["refusal", "conflict"]
NUMBERS = ("at_least", "at_most")  # senses of the requirements that are numbers


@dataclass(frozen=True, slots=True)
class Crossing:
    """One refusal or conflict of one profile."""

    sort: Sort
    kind: str
    title: str
    caution: str  # empty for a conflict


@dataclass(frozen=True, slots=True)
class Seen:
    """What counts of one participant: small, so that it may be worked out somewhere else and sent."""

    file: str
    units: Units
    deciding: tuple[str, ...]  # requirement ids, "refusal:KIND", "conflict:KIND"; each once, in order
    stated: Mapping[str, Any]  # requirement id: what is asked for with all that may come, in the working unit
    unknown: tuple[str, ...]  # question ids, each once
    kinds: tuple[str, ...]  # of implements, each once
    crossings: tuple[Crossing, ...]
    size_class: str | None  # the smallest that meets all of it


def seen(profile: Profile, answers: Answers, file: str) -> Seen:
    """What counts of this profile; `answers` are those that it was worked out from, complete."""
    crossings = (
        *(Crossing("refusal", r.kind, r.title, r.caution) for r in profile.refusals),
        *(Crossing("conflict", c.kind, c.title, "") for c in profile.conflicts),
    )
    return Seen(
        file=file,
        units=profile.units,
        deciding=tuple(dict.fromkeys(_decides(profile))),
        stated={id_: w.stated for id_, o in profile.outcomes.items() if (w := o.widest) is not None},
        unknown=tuple(dict.fromkeys(_unknown(answers))),
        kinds=tuple(dict.fromkeys(note.sized.item.kind.kind for note in profile.hookups)),
        crossings=crossings,
        size_class=None if profile.points_to is None else profile.points_to.id,
    )


def _decides(profile: Profile) -> Iterator[str]:
    for entry in profile.deciding:
        sort, _, index = entry.partition(":")
        if sort == "refusal":
            yield f"refusal:{profile.refusals[int(index)].kind}"
        elif sort == "conflict":
            yield f"conflict:{profile.conflicts[int(index)].kind}"
        else:
            yield entry


def _unknown(answers: Answers) -> Iterator[str]:
    for given in (answers.given, *(item.given for item in answers.items)):
        yield from (question for question, one in given.items() if one.unsure)


# ------------------------------------------------------------------------- the counts


@dataclass(frozen=True, slots=True)
class Count:
    """How many participants something holds for."""

    id: str
    count: int
    first: int = 0  # of what decides: for how many it stands first


@dataclass(frozen=True, slots=True)
class Spread:
    """A requirement in numbers, among those who ask for it. Each figure is one that somebody really has."""

    requirement: str
    asked: int
    least: float
    quarter: float  # the least figure that is enough for a quarter of them
    middle: float
    three_quarters: float
    most: float


@dataclass(frozen=True, slots=True)
class Wanted:
    """A requirement in words: how many ask for which."""

    requirement: str
    asked: int
    values: tuple[tuple[Any, int], ...]  # most common first


@dataclass(frozen=True, slots=True)
class Crossed:
    """One kind of refusal or conflict: for how many, and of each title whose files."""

    sort: Sort
    kind: str
    count: int
    caution: str
    titles: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class ClassCounts:
    """The counts. Everything is ordered by count, equal ones as in the book; the order of the files moves nothing."""

    count: int
    nothing_decides: int
    deciding: tuple[Count, ...] = ()
    spreads: tuple[Spread, ...] = ()
    wanted: tuple[Wanted, ...] = ()
    unknown: tuple[Count, ...] = ()
    kinds: tuple[Count, ...] = ()
    size_classes: tuple[Count, ...] = ()  # in the order of the table, those that nobody points to too
    no_size_class: int = 0
    crossed: tuple[Crossed, ...] = ()
    units: Units = field(default="us")  # of most of them


def class_of(book: Book, participants: Iterable[Seen]) -> ClassCounts:
    """The counts of these participants."""
    every = sorted(participants, key=lambda one: one.file)
    rows = book.tables["size_classes"].rows
    classes = Counter(one.size_class for one in every)
    metric = sum(one.units == "metric" for one in every)
    return ClassCounts(
        count=len(every),
        nothing_decides=sum(not one.deciding for one in every),
        deciding=_deciding(book, every),
        spreads=tuple(_spreads(book, every)),
        wanted=tuple(_wanted(book, every)),
        unknown=_counted((one.unknown for one in every), _asked(book)),
        kinds=_counted((one.kinds for one in every), [*book.kinds]),
        size_classes=tuple(Count(row, classes[row]) for row in rows),
        no_size_class=classes[None],
        crossed=tuple(_crossed(book, every)),
        units="metric" if 2 * metric > len(every) else "us",
    )


def _asked(book: Book) -> list[str]:
    """Every question of the book in the order asked."""
    found: list[str] = []
    for section in book.sections:
        found += [question.id for question in section.questions]
        if section.group is not None:
            found += [question.id for question in (*section.group.questions, section.group.closes)]
    return found


def _counted(each: Iterable[Sequence[str]], order: Sequence[str]) -> tuple[Count, ...]:
    """Most common first; equal ones in the order given."""
    found = Counter(id_ for ids in each for id_ in ids)
    place = {id_: number for number, id_ in enumerate(order)}
    ids = sorted(found, key=lambda id_: (-found[id_], place.get(id_, len(place)), id_))
    return tuple(Count(id_, found[id_]) for id_ in ids)


def _deciding(book: Book, every: Sequence[Seen]) -> tuple[Count, ...]:
    """What decides for most; of equals what stands first for more."""
    first = Counter(one.deciding[0] for one in every if one.deciding)
    counted = _counted((one.deciding for one in every), [*book.requirements])
    found = [Count(one.id, one.count, first[one.id]) for one in counted]
    return tuple(sorted(found, key=lambda one: (-one.count, -one.first)))


# ------------------------------------------------------------------ numbers and words


def _spreads(book: Book, every: Sequence[Seen]) -> Iterator[Spread]:
    for id_, requirement in book.requirements.items():
        values = sorted(one.stated[id_] for one in every if id_ in one.stated)
        if values and requirement.sense in NUMBERS:
            quarter, middle, three_quarters = (_part(values, part) for part in (0.25, 0.5, 0.75))
            yield Spread(id_, len(values), values[0], quarter, middle, three_quarters, values[-1])


def _part(values: Sequence[float], part: float) -> float:
    """The least of the sorted values that is enough for this part of them (nearest rank, so it is a real figure).

    >>> _part([1, 2, 3, 4], 0.25), _part([1, 2, 3, 4], 0.5), _part([1, 2, 3, 4, 5], 0.5), _part([7], 0.75)
    (1, 2, 3, 7)
    """
    return values[max(math.ceil(part * len(values)), 1) - 1]


def _wanted(book: Book, every: Sequence[Seen]) -> Iterator[Wanted]:
    for id_, requirement in book.requirements.items():
        values = [one.stated[id_] for one in every if id_ in one.stated]
        if not values or requirement.sense in NUMBERS:
            continue
        # One from each of several sets: whoever needs two shaft speeds counts at both.
        found = Counter(part for value in values for part in (value if requirement.sense == "each_of" else (value,)))
        yield Wanted(id_, len(values), tuple(sorted(found.items(), key=lambda pair: (-pair[1], str(pair[0])))))


def _crossed(book: Book, every: Sequence[Seen]) -> Iterator[Crossed]:
    """Refusals before conflicts; of each sort the most common first, equal ones in the order of the book."""
    order = {kind: number for number, kind in enumerate(book.tables["way_figures"].rows)}
    files: dict[tuple[Sort, str], dict[str, list[str]]] = {}
    cautions: dict[tuple[Sort, str], str] = {}
    count: Counter[tuple[Sort, str]] = Counter()
    for one in every:
        count.update({(crossing.sort, crossing.kind) for crossing in one.crossings})
        for crossing in dict.fromkeys(one.crossings):  # two of the same implement say the same
            key = (crossing.sort, crossing.kind)
            cautions[key] = crossing.caution
            files.setdefault(key, {}).setdefault(crossing.title, []).append(one.file)
    for sort, kind in sorted(files, key=lambda k: (k[0] == "conflict", -count[k], order.get(k[1], len(order)), k[1])):
        titles = sorted(files[sort, kind].items(), key=lambda pair: (-len(pair[1]), pair[0]))
        told = tuple((title, tuple(whose)) for title, whose in titles)
        yield Crossed(sort, kind, count[sort, kind], cautions[sort, kind], told)
