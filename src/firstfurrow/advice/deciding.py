"""What decides: how many size classes each requirement rules out, and the order in which the profile names them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.advice.outcome import Outcome
from firstfurrow.book.model import Book, Requirement, Row


def ruled_out(book: Book, outcomes: Mapping[str, Outcome]) -> dict[str, int]:
    """For each determined requirement, how many rows of the size-class table do not meet it."""
    rows = list(book.tables["size_classes"].rows.values())
    found: dict[str, int] = {}
    for id_, outcome in outcomes.items():
        widest = outcome.widest
        if widest is not None:
            found[id_] = 0
    for requirement, stated in _compared(outcomes):
        found[requirement.id] = sum([not meets(requirement, stated, row) for row in rows])
    return found


def _compared(outcomes: Mapping[str, Outcome], *, floors_only: bool = False) -> list[tuple[Requirement, Any]]:
    """What is stated where the size-class table says something about it: all else is met by every class."""
    found: list[tuple[Requirement, Any]] = []
    for outcome in outcomes.values():
        requirement = outcome.requirement
        if requirement.class_column is None and requirement.id != "hitch_category":
            continue
        widest = outcome.widest
        if widest is not None and not (floors_only and requirement.sense == "at_most"):
            found.append((requirement, widest.stated))
    return found


def meets(requirement: Requirement, stated: Any, row: Row) -> bool:
    """True when the typical figure of the class meets what is stated, or the table does not say."""
    if requirement.id == "hitch_category":
        return row.words["hitch_category"] in stated
    column = requirement.class_column
    figure = None if column is None else row.figures.get(column)
    if figure is None:
        return True
    has = figure.planning
    return bool(has <= stated + 1e-9 if requirement.sense == "at_most" else has >= stated - 1e-9)


def smallest_class(book: Book, outcomes: Mapping[str, Outcome], *, floors_only: bool = False) -> Row | None:
    """The smallest class whose typical figures meet every requirement, or every one that is no ceiling."""
    rows = list(book.tables["size_classes"].rows.values())
    for requirement, stated in _compared(outcomes, floors_only=floors_only):
        rows = [row for row in rows if meets(requirement, stated, row)]
    return rows[0] if rows else None


def unmet(book: Book, outcomes: Mapping[str, Outcome], row: Row) -> tuple[str, ...]:
    """The requirements, ceilings apart, that the typical figures of a class do not meet."""
    compared = _compared(outcomes, floors_only=True)
    return tuple([requirement.id for requirement, stated in compared if not meets(requirement, stated, row)])


def pushing(book: Book, outcomes: Mapping[str, Outcome], row: Row) -> tuple[str, ...]:
    """The requirements that the class below `row` does not meet: they push the profile up to it."""
    rows = list(book.tables["size_classes"].rows.values())
    at = rows.index(row)
    if at == 0:
        return ()
    return unmet(book, outcomes, rows[at - 1])


def deciding(
    outcomes: Mapping[str, Outcome],
    out: Mapping[str, int],
    conflicts: int,
    refusals: int,
) -> tuple[str, ...]:
    """Refusals, then conflicts, then the requirements that rule out most; of equals those that cannot be met later."""
    first = [f"refusal:{index}" for index in range(refusals)]
    second = [f"conflict:{index}" for index in range(conflicts)]
    order = list(outcomes)
    rest = [id_ for id_, count in out.items() if count > 0]
    rest.sort(key=lambda id_: (-out[id_], outcomes[id_].requirement.later != "no", order.index(id_)))
    return (*first, *second, *rest)
