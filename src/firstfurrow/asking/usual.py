"""What is usual: the plausible range of a question, the sizes sold of an implement, what it weighs; and what is not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfurrow.asking.answers import Answers, Given, Units
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.resolve import SIZE_DIMENSION, roughly, sizes_of
from firstfurrow.asking.walk import Step
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Kind, Question, Size
from firstfurrow.quantities import QuantityError, format_number, parse

MASS = "mass"  # the question for the mass of an implement
# Of the smallest and of the largest figure that the book has (ours); outside: asked once more, and marked.
REACH = (0.6, 1.6)


@dataclass(frozen=True, slots=True)
class Range:
    """From where to where something is usual, in the working unit of the dimension (None: a count)."""

    low: float
    high: float
    dimension: str | None
    let_pass: tuple[float, float]  # what lies a little outside is still let pass

    def holds(self, value: float) -> bool:
        """True when the value is usual, or nearly."""
        return self.let_pass[0] <= value <= self.let_pass[1]

    def ends(self, units: Units) -> tuple[str, str]:
        """Both ends as the reader reads them."""
        return roughly(self.low, self.dimension, units), roughly(self.high, self.dimension, units)


def plausible(question: Question) -> Range | None:
    """The range that the book calls plausible at this question."""
    limits = question.plausible
    return None if limits is None else Range(*limits, question.dimension, limits)


def sold(kind: Kind, sizes: Sequence[Size]) -> Range | None:
    """From the smallest to the largest of these sizes of the implement."""
    return _range([s.value for s in sizes if s.value is not None], SIZE_DIMENSION.get(kind.size_is))


def weighs(kind: Kind) -> Range | None:
    """From the lightest to the heaviest that the book has of the implement, whatever its build and size."""
    return _range([mass for size in kind.sizes for mass in _masses(kind, size)], "mass")


def _masses(kind: Kind, size: Size) -> Iterator[float]:
    """The ends of what this size weighs, for each build in which it is sold; in the order in which the plan looks."""
    for build in kind.variants:
        if size.variants and build.id not in size.variants:
            continue
        own = size.mass or build.mass
        per_width = None if own is not None else (build.mass_per_width or kind.mass_per_width)
        if per_width is not None and size.width is not None:
            yield from (per_width.low * size.width, per_width.high * size.width)
        elif (figure := own or kind.mass) is not None:
            yield from (figure.low, figure.high)


def _range(values: Sequence[float], dimension: str | None) -> Range | None:
    if not values or dimension is None:
        return None
    low, high = min(values), max(values)
    return Range(low, high, dimension, (REACH[0] * low, REACH[1] * high))


def outside(question: Question, given: Given, kind: Kind | None, sizes: Sequence[Size] = ()) -> Range | None:
    """The usual range that a sure answer lies outside of; None when it is usual, or nobody can say.

    `sizes` are the sizes sold in the build of the implement, for a question about its size.
    """
    ranges: list[Range | None] = []
    if question.type in ("quantity", "count"):
        ranges.append(plausible(question))
        if question.id == MASS and kind is not None:
            ranges.append(weighs(kind))
    elif question.type == "size" and kind is not None and isinstance(given.value, float):
        ranges.append(sold(kind, sizes))
    return next((r for r in ranges if r is not None and not r.holds(given.value)), None)


# ------------------------------------------------------------- in the answers


@dataclass(frozen=True, slots=True)
class Unusual:
    """An answer outside of what is usual, which counts as it was given."""

    question: str
    item: str | None
    text: str  # as it was given; for a slope in degrees with what it is in percent
    usual: str  # the usual range in the reader's units
    sentence: str  # both in one sentence, for a page


def unusual(book: Book, answers: Answers) -> tuple[Unusual, ...]:
    """The unusual answers, in asking order: numbers outside of the plausible, sizes nobody sells, odd masses.

    Worked out from answers and book alone: whether somebody was asked about it or wrote it into a file makes no
    difference. Answers that do not apply and answers that are not sure are never unusual.
    """
    interview = Interview(book, answers)
    found: list[Unusual] = []
    for step in interview.said():
        given, kind = step.given, interview.kind(step.ref.item)
        if given is None or given.unsure:
            continue
        sizes = () if kind is None else sizes_of(kind, interview.variant(step.ref.item))
        range_ = outside(step.question, given, kind, sizes)
        if range_ is not None:
            found.append(_unusual(book, step, given, kind, range_, answers.units))
    return tuple(found)


def _unusual(book: Book, step: Step, given: Given, kind: Kind | None, range_: Range, units: Units) -> Unusual:
    low, high = range_.ends(units)
    usual = wording(book.messages, "unusual_range", low=low, high=high)
    text = _with_percent(book, step.question, given)
    named = step.ref.item is not None and kind is not None
    sentence = wording(
        book.messages,
        "unusual_item" if named else "unusual_said",
        kind=kind.name if kind is not None else "",
        asked=step.question.ask,
        what=text,
        usual=usual,
    )
    return Unusual(step.ref.question, step.ref.item, text, usual, sentence)


def _with_percent(book: Book, question: Question, given: Given) -> str:
    """The answer as given; a slope in degrees with its percent beside it, because the two are often mixed up."""
    if question.dimension != "slope":
        return given.text
    try:
        typed = parse(given.text, "slope", "%")
    except QuantityError:
        return given.text
    if typed.unit != "deg":
        return given.text
    return wording(book.messages, "slope_in_percent", what=given.text, percent=f"{format_number(typed.working, 0)} %")
