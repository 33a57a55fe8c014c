"""A size from a typed line: from the list of sold sizes, typed with its unit, or left to the program."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from math import isclose

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.choosing import ChoosingError, choose_one, plain
from firstfurrow.asking.resolve import CHOOSE, SAME_SIZE, SIZE_DIMENSION
from firstfurrow.asking.tons import as_tonnes
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Choice, Kind, Question
from firstfurrow.quantities import format_number, parse, reader_unit

_CHOOSE = frozenset(
    {"choose", "auto", "automatic", "you choose", "you decide", "smallest", "the smallest", "any", "work it out"}
)
_TOOLS = re.compile(r"(\d{1,2})\s*x\b")


def size_from(question: Question, line: str, units: Units, kind: Kind, messages: Mapping[str, str]) -> Given:
    """The size that a line means; `question` carries the sold sizes as choices.

    Raises
    ------
    ChoosingError, QuantityError
        When the line is no size of this kind; one sentence.
    """
    if plain(line) in _CHOOSE:
        return Given(CHOOSE, CHOOSE)
    sold = [c for c in question.choices if c.id != CHOOSE]
    number = line.strip().rstrip(".)")
    if number.isascii() and number.isdigit() and 1 <= int(number[:9]) <= len(question.choices):
        chosen = question.choices[int(number) - 1]
        return Given(chosen.id, chosen.id)
    exact = [c for c in sold if plain(line) in (plain(c.id), plain(c.label))]
    if len(exact) == 1:
        return Given(exact[0].id, exact[0].id)
    dimension = SIZE_DIMENSION.get(kind.size_is)
    if dimension is not None and not any(c.isnumeric() for c in line):
        raise ChoosingError(wording(messages, "size_unknown", text=line[:40], most=len(question.choices)))
    if dimension is not None:
        return _typed(line, dimension, units, kind, sold, messages)
    tools = _TOOLS.match(line.casefold())
    of_tools = [s.id for s in kind.sizes if tools and s.tools == int(tools[1]) and s.id in {c.id for c in sold}]
    chosen_id = of_tools[0] if len(of_tools) == 1 else choose_one(question.choices, line, messages).id
    return Given(chosen_id, chosen_id)


def _typed(
    line: str, dimension: str, units: Units, kind: Kind, sold: Sequence[Choice], messages: Mapping[str, str]
) -> Given:
    unit = reader_unit(dimension, units)
    line = as_tonnes(line, dimension, units)
    parsed = parse(line, dimension, unit)
    value = parsed.working
    if value <= 0:
        raise ChoosingError(wording(messages, "size_zero"))
    text = line if any(c.isalpha() or c in "'\"" for c in line) else f"{format_number(parsed.number, 6)} {unit}"
    # What the list shows is rounded, 3.5 ft for a metre: whoever types that means the size that it stands for.
    shown = [c.id for c in sold if isclose(_as_shown(c, dimension), value, rel_tol=1e-6)]
    if len(shown) == 1:
        return Given(shown[0], text)
    ids = {c.id for c in sold}
    sizes = [s for s in kind.sizes if s.id in ids and s.value is not None]
    near = min(sizes, key=lambda s: abs((s.value or 0) - value), default=None)
    if near is not None and near.value is not None and abs(near.value - value) <= SAME_SIZE * near.value:
        return Given(near.id, text)
    return Given(value, text)


def _as_shown(choice: Choice, dimension: str) -> float:
    """The number in front of the brackets, in the working unit."""
    return parse(choice.label.partition(" (")[0], dimension).working
