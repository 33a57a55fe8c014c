"""What a class asks for, in the words of a profile and in the units of whoever teaches."""

from __future__ import annotations

from typing import Any

from firstfurrow.advice.demands import Demand
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.strictest import strictest
from firstfurrow.asking.answers import Answers, Units
from firstfurrow.book.model import Book


class Reader:
    """Says what is stated as a profile for this reader would say it: it goes through the same rounding and words."""

    def __init__(self, book: Book, units: Units) -> None:
        self._desk = Desk(book, make_plan(book, Answers(units=units)), lean=True)

    def told(self, requirement: str, value: Any) -> str:
        """A number of a requirement, or one of its words or sets of words."""
        desk, found = self._desk, self._desk.book.requirements[requirement]
        number = float(value) if isinstance(value, int | float) else 0.0
        top = desk.ledger.leaf("constant", "", number, found.unit, 4)
        return strictest(desk, found, [Demand(requirement, "", "", value, top)]).planning_shown
