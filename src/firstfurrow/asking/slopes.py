"""Degrees where percent is meant, and the reverse: both are said as numbers of the same size, and differ by half."""

from __future__ import annotations

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.resolve import roughly
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Question
from firstfurrow.quantities import QuantityError, Typed, format_number, parse


def percent_of(degrees: float) -> float | None:
    """A slope in degrees as percent; None where no such slope can be.

    >>> round(percent_of(35)), round(percent_of(45)), percent_of(90)
    (70, 100, None)
    """
    try:
        return parse(f"{format_number(degrees, 6)} deg", "slope").working
    except QuantityError:
        return None


def mixed_up(
    question: Question, typed: Typed, given: Given, bare: bool, units: Units, book: Book
) -> tuple[str, tuple[float, ...]] | None:
    """The sentence that names both readings of a slope too steep to be plausible, and both slopes in percent.

    The second part is empty where the slope cannot be at all, so that it must not be kept. None where the slope is
    plausible, or was typed in percent.
    """
    if question.plausible is None or typed.working <= question.plausible[1]:
        return None
    number = format_number(typed.number, 2)
    usual = roughly(question.plausible[1], "slope", units)
    if typed.unit == "deg":
        percent, other = format_number(typed.working, 0), f"{number} %"
        if question.possible is not None and typed.working > question.possible[1]:
            most = roughly(question.possible[1], "slope", units)
            never = "slope_degrees_never"
            return wording(book.messages, never, degrees=number, percent=percent, high=most, other=other), ()
        sentence = wording(book.messages, "slope_degrees", degrees=number, percent=percent, high=usual, other=other)
        return sentence, (typed.working, typed.number)
    if not bare or (question.possible is not None and typed.working > question.possible[1]):
        return None
    meant = percent_of(typed.number)
    if meant is None or (question.possible is not None and meant > question.possible[1]):
        return wording(book.messages, "slope_bare_percent", number=number, high=usual), (typed.working,)
    sentence = wording(
        book.messages, "slope_bare", number=number, high=usual, what=given.text, percent=format_number(meant, 0)
    )
    return sentence, (typed.working, meant)
