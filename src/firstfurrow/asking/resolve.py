"""Questions whose choices come from the implements of the book: kind, variant, size, wished oil functions."""

from __future__ import annotations

import math
from dataclasses import replace

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Choice, Kind, OilFunction, Question, Size
from firstfurrow.quantities import DIMENSIONS, convert, format_number, reader_unit, show

SIZE_DIMENSION = {"width": "length", "load": "mass", "volume": "volume", "diameter": "bore"}
SIZE_UNIT = {"width": "m", "load": "kg", "volume": "L", "diameter": "mm"}
NONE = "none_of_these"  # the choice that excludes all others
LINKS = frozenset({"hydraulic_top_link", "hydraulic_side_link"})  # they tilt what hangs on the three arms
# A size in feet and the metric size beside it in the list are one and the same (ours): 6 ft is sold as 1.8 m.
SAME_SIZE = 0.025
NEAR = 0.02  # a rough number that is off by no more than this is as good with one figure
CHOOSE = "choose"  # a size left to the program
FILLED = ("kind", "variant", "size")  # these types never carry choices of their own


def from_kind(question: Question) -> bool:
    """True when the choices of this question come from an implement record."""
    return question.type in FILLED or (question.type == "several" and not question.choices)


def resolve(book: Book, question: Question, units: Units, kind: Kind | None, variant: str | None) -> Question:
    """The question with its choices filled in; a question with choices of its own comes back as it is."""
    if not from_kind(question):
        return question
    if question.type == "kind":
        return replace(question, choices=tuple(kind_choice(k) for k in book.kinds.values()))
    if kind is None:
        return question
    if question.type == "variant":
        return replace(question, choices=tuple(Choice(v.id, v.name) for v in kind.variants))
    if question.type == "size":
        sold = tuple(Choice(s.id, size_label(kind, s, units)) for s in sizes_of(kind, variant))
        chosen = (Choice(CHOOSE, wording(book.messages, "size_choose")),) if question.choose else ()
        return replace(question, choices=(*sold, *chosen))
    wished = tuple(Choice(f.id, f.job) for f in wished_functions(kind, variant))
    none = Choice(NONE, wording(book.messages, "options_none"), also=("none",))
    return replace(question, choices=(*wished, none))


def kind_choice(kind: Kind) -> Choice:
    """A kind as a choice."""
    return Choice(kind.kind, kind.name, kind.plain, kind.also)


def sizes_of(kind: Kind, variant: str | None) -> tuple[Size, ...]:
    """The sizes sold in that build; all of them while the build is not known."""
    return tuple(s for s in kind.sizes if variant is None or not s.variants or variant in s.variants)


def wished_functions(kind: Kind, variant: str | None) -> tuple[OilFunction, ...]:
    """What oil could move on this implement without being a must, each function once."""
    found: dict[str, OilFunction] = {}
    for build in kind.variants:
        if variant is None or build.id == variant:
            for function in build.oil:
                if not function.must and function.is_link is None:
                    found.setdefault(function.id, function)
    return tuple(found.values())


def size_label(kind: Kind, size: Size, units: Units) -> str:
    """A sold size in the units of the reader."""
    if kind.size_is == "tools" and size.tools and size.width:
        each = _both(100 * size.width / size.tools, "cm", "depth", units)
        alike = [s for s in kind.sizes if (s.tools, s.width) == (size.tools, size.width)]
        return f"{size.tools} x {each}" if len(alike) == 1 else f"{size.id}, {each}"
    dimension = SIZE_DIMENSION.get(kind.size_is)
    if dimension is None or size.value is None:
        return size.id
    if kind.size_is == "width":
        return width_label(size.value, units)
    if kind.us_size_unit is not None and units == "us":
        there = convert(size.value, SIZE_UNIT[kind.size_is], kind.us_size_unit)
        return f"{as_said(there)} {kind.us_size_unit} ({size.id})"
    return _both(size.value, SIZE_UNIT[kind.size_is], dimension, units)


def _both(value: float, working: str, dimension: str, units: Units) -> str:
    """A sold size, which is round in metric units, with the number beside it that a US reader would say."""
    unit = reader_unit(dimension, units)
    metric = show(value, working, "metric", dimension=dimension)
    return metric if unit == working else f"{as_said(convert(value, working, unit))} {unit} ({metric})"


def as_said(number: float) -> str:
    """A number as people say it: the roundest one that is still the same size.

    To type what stands there gives the sold size and not one beside it. The size itself keeps its exact value.

    >>> as_said(992.08), as_said(1543.24), as_said(3306.9), as_said(11.81), as_said(28.4), as_said(772)
    ('1000', '1550', '3300', '12', '28', '770')
    """
    tens = math.floor(math.log10(abs(number)))
    for step in (10.0**tens, 10.0 ** (tens - 1), 5 * 10.0 ** (tens - 2)):
        near = round(number / step) * step
        if abs(near - number) <= abs(number) * SAME_SIZE:
            return format_number(near, max(2 - tens, 0))
    return format_number(number, max(2 - tens, 0))


def feet_and_inches(metres: float) -> str:
    """A length as people say it in feet, to the inch.

    >>> feet_and_inches(1.6764), feet_and_inches(3.0), feet_and_inches(3.048)
    ('5 ft 6 in', '9 ft 10 in', '10 ft')
    """
    feet, inches = divmod(round(convert(metres, "m", "in")), 12)
    return f"{feet} ft {inches} in" if inches and feet else f"{feet} ft" if feet else f"{inches} in"


def width_label(width: float, units: Units) -> str:
    """A sold width as the trade calls it: in feet, to the half foot.

    >>> width_label(1.5, "us"), width_label(1.65, "us"), width_label(1.5, "metric")
    ('5 ft (1.5 m)', '5.5 ft (1.65 m)', '1.5 m')
    """
    metres = f"{format_number(width, 2)} m"
    if units == "metric":
        return metres
    return f"{format_number(round(convert(width, 'm', 'ft') * 2) / 2, 1)} ft ({metres})"


def fits(book: Book, question: Question, given: Given, kind: Kind | None, variant: str | None) -> bool:
    """True when the answer is one that this question allows now: a size of another kind does not fit."""
    if given.unsure:
        return question.not_sure.how != "refused"
    if question.type == "kind":
        return given.value in book.kinds
    if question.type == "variant":
        return kind is not None and any(v.id == given.value for v in kind.variants)
    if question.type == "size":
        if kind is None:
            return False
        typed = isinstance(given.value, float) and kind.size_is in SIZE_DIMENSION
        return typed or given.value == CHOOSE or any(s.id == given.value for s in sizes_of(kind, variant))
    if question.type == "several":
        allowed = {c.id for c in question.choices}
        if not question.choices and kind is not None:
            allowed = {f.id for f in wished_functions(kind, variant)} | {NONE}
        return bool(given.value) and all(v in allowed for v in given.value)
    if question.type == "choice":
        return any(c.id == given.value for c in question.choices)
    return True


def build(kind: Kind | None, given: Given) -> str | None:
    """The build that an answer means: on *not sure* the first one of the book, as the plan takes it."""
    if not given.unsure:
        return str(given.value)
    return kind.variants[0].id if kind is not None else None


def pointless(question: Question, kind: Kind | None, variant: str | None) -> bool:
    """True when this build leaves nothing to ask: it has no function to wish for, or no arms that could tilt it."""
    if kind is None or question.type != "several":
        return False
    if not question.choices:
        return not wished_functions(kind, variant)
    tilting = any(choice.id in LINKS for choice in question.choices)
    return tilting and any(build.id == variant and build.way != "three_point" for build in kind.variants)


def roughly(value: float, dimension: str | None, units: Units) -> str:
    """A number of the book as the reader reads it, with no more digits than a rough number deserves.

    Two figures are enough, and one where it is as near: the exact number is in the book, and the reader compares it
    with what he knows.

    >>> roughly(0.2, "area", "us"), roughly(100, "altitude", "us"), roughly(3, None, "us"), roughly(12, "slope", "us")
    ('0.5 acre', '330 ft', '3', '12 %')
    """
    if dimension is None:
        return format_number(value, 0)
    working = DIMENSIONS[dimension].working
    unit = reader_unit(dimension, units)
    if unit == working:
        places = 0 if value == int(value) else 1 if abs(value) >= 1 else 2
        return show(value, working, units, places, dimension=dimension)
    there = convert(value, working, unit)
    digits = 1 - math.floor(math.log10(abs(there))) if there else 0
    if abs(round(there, digits - 1) - there) <= abs(there) * NEAR:
        digits -= 1
    return f"{format_number(round(there, digits), max(digits, 0))} {unit}"
