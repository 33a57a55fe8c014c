"""A random conversation carried to its profile: what it came to, and whether any of it is nonsense."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile, advise
from firstfurrow.advice.strictest import Strictest
from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book, Figure, Kind
from firstfurrow.quantities import DIMENSIONS

BOUNDS, TIMES = "plausible_bounds", "times_any_figure"
CLASSES = "size_classes"
USUAL_TIMES = 10.0  # for a book without that table


@dataclass(frozen=True, slots=True)
class Walked:
    """What came of one conversation.

    decides
        What stands first of all that decides: a kind of refusal or conflict, or a requirement; "" for nothing.
    wrong
        What is nonsense; nothing where all is well. Of an error its name and text, and `broke` is true.
    """

    questions: int
    unsure: int
    decides: str
    refusals: int
    conflicts: int
    wrong: tuple[str, ...]
    broke: bool = False


def walked(book: Book, answers: Answers, most: Mapping[str, float]) -> Walked:
    """The profile of complete answers, looked at; `most` is what `bounds` gives. No error leaves this function."""
    given = [*answers.given.values(), *(g for item in answers.items for g in item.given.values())]
    unsure = sum(1 for one in given if one.unsure)
    try:
        profile = advise(book, answers)
        wrong = tuple(nonsense(profile, most))
        return Walked(len(given), unsure, _decides(profile), len(profile.refusals), len(profile.conflicts), wrong)
    except Exception as error:  # whatever it is: it is what the walk looks for
        return Walked(len(given), unsure, "", 0, 0, (f"{type(error).__name__}: {error}",), broke=True)


def _decides(profile: Profile) -> str:
    if not profile.deciding:
        return ""
    sort, _, index = profile.deciding[0].partition(":")
    if sort == "refusal":
        return f"refusal: {profile.refusals[int(index)].kind}"
    return f"conflict: {profile.conflicts[int(index)].kind}" if sort == "conflict" else sort


# ------------------------------------------------------------------------------- nonsense


def bounds(book: Book) -> Mapping[str, float]:
    """For each requirement in numbers the most that can be meant.

    That is so many times (`times_any_figure`) the largest figure of its own sort that the book has: in its own column
    of the size-class table; else of its unit in that table; else of its unit anywhere. A limit that is told, such as
    the room to turn in, may also be as much as a question that moves it calls plausible.
    """
    rows = list(book.tables[CLASSES].rows.values()) if CLASSES in book.tables else []
    in_table = [figure for row in rows for figure in row.figures.values()]
    anywhere = [*_of_tables(book), *(figure for kind in book.kinds.values() for figure in _of_kind(kind))]
    table = book.tables.get(BOUNDS)
    times = USUAL_TIMES if table is None or TIMES not in table.rows else table.rows[TIMES].figures["value"].planning
    found: dict[str, float] = {}
    for id_, requirement in book.requirements.items():
        column = requirement.class_column
        own = [row.figures[column] for row in rows if column is not None and column in row.figures]
        for figures in (own, _of_unit(in_table, requirement.unit), _of_unit(anywhere, requirement.unit)):
            if figures:
                told = max(_told(book, id_, requirement.unit), default=0.0)
                found[id_] = max(told, times * max(figure.high for figure in figures))
                break
    return found


def _told(book: Book, requirement: str, unit: str) -> Iterator[float]:
    """The most that questions which move a requirement call plausible, where it is told in the same unit."""
    for section in book.sections:
        group = section.group.questions if section.group is not None else ()
        for question in (*section.questions, *group):
            same = question.dimension is not None and DIMENSIONS[question.dimension].working == unit
            if same and question.plausible is not None and requirement in question.moves:
                yield question.plausible[1]


def _of_unit(figures: list[Figure], unit: str) -> list[Figure]:
    return [figure for figure in figures if figure.unit == unit]


def _of_tables(book: Book) -> Iterator[Figure]:
    for name, table in book.tables.items():
        if name != BOUNDS:
            for row in table.rows.values():
                yield from row.figures.values()


def _of_kind(kind: Kind) -> Iterator[Figure]:
    for part in (kind, kind.shaft, kind.pull, *kind.variants, *kind.sizes, *(v.shaft for v in kind.variants)):
        for name in getattr(part, "__dataclass_fields__", ()):
            value = getattr(part, name)
            if isinstance(value, Figure):
                yield value


def nonsense(profile: Profile, most: Mapping[str, float]) -> Iterator[str]:
    """Every number of a profile that cannot be meant: not finite, negative, or beyond the most there is."""
    for id_, outcome in profile.outcomes.items():
        for when, name, value in _numbers(outcome):
            where = f"{id_}, {when}, {name}"
            if not math.isfinite(value):
                yield f"{where} is {value}"
            elif value < 0:
                yield f"{where} is negative: {value:g} {outcome.requirement.unit}".rstrip()
            elif value > most.get(id_, math.inf):
                unit = outcome.requirement.unit
                yield f"{where} is {value:g} {unit}, above {most[id_]:g} {unit}".rstrip()
    for step in profile.steps:
        if _is_number(step.value) and not math.isfinite(step.value):
            yield f'the step "{step.title}" is {step.value}'


def _numbers(outcome: Outcome) -> Iterator[tuple[str, str, float]]:
    for when, found in (("sure", outcome.sure), ("with what may come", outcome.with_later)):
        if found is not None and (when == "sure" or found is not outcome.sure):
            yield from ((when, name, float(value)) for name, value in _ends(found) if _is_number(value))


def _ends(found: Strictest) -> Iterator[tuple[str, Any]]:
    yield "stated", found.stated
    yield "planned", found.planning
    yield "low", found.low
    yield "high", found.high


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
