"""The question before the book's own: which units the reader thinks in."""

from __future__ import annotations

from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Choice, NotSure, Question

UNITS = "units"


def units_question(book: Book) -> Question:
    """The question for the units, worded by the catalogue."""

    def text(message: str) -> str:
        return wording(book.messages, message)

    return Question(
        id=UNITS,
        type="choice",
        ask=text("units_ask"),
        why=text("units_why"),
        not_sure=NotSure("planned", planning="us"),
        choices=(
            Choice("us", text("units_us"), also=("feet", "pounds", "acres", "imperial")),
            Choice("metric", text("units_metric"), also=("metres", "meters", "kilograms", "hectares")),
        ),
    )
