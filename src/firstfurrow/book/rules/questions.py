"""Questions: each has what its type needs, its numbers can be read, its choices can be answered."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed, PlacedQuestion
from firstfurrow.book.problems import Problem
from firstfurrow.quantities import DIMENSIONS, QuantityError

BANNED = ("yes", "no", "on", "off", "y", "n", "true", "false", "null")
ENDS = (".", "?")
_FROM_ITEM = ("kind", "variant", "size")  # their choices come from the implements


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with single questions."""
    for question in files.questions:
        yield from _texts(question.at)
        yield from _for_its_type(question)
        yield from _choices(question)
        yield from _numbers(question.at)
        yield from _not_sure(question)
    yield from _groups(files)


def _texts(at: Placed) -> Iterator[Problem]:
    for key in ("ask", "why"):
        if not at.data[key].rstrip().endswith(ENDS):
            yield at.problem(f"{key} must end with a period or a question mark.", key)
    for other in at.each("asks"):
        if not other.data["ask"].rstrip().endswith(ENDS):
            yield other.problem("ask must end with a period or a question mark.", "ask")
        if "choose" in other.data and at.data["type"] != "size":
            yield other.problem("choose is for a question of the type size.", "choose")


def _for_its_type(question: PlacedQuestion) -> Iterator[Problem]:
    at, sort = question.at, question.at.data["type"]
    numeric = sort in ("quantity", "count")
    if (sort == "quantity") != (at.data.get("dimension") is not None):
        yield at.problem("a quantity needs a dimension, and nothing else has one.", "type")
    if sort == "choice" and len(at.data.get("choices") or ()) < 2:
        yield at.problem("a choice question needs at least two choices.", "type")
    if sort == "several" and not at.data.get("choices") and not question.inside:
        yield at.problem("this question needs choices.", "type")
    if sort not in ("choice", "several") and at.data.get("choices"):
        yield at.problem(f"a question of the type {sort} has no choices of its own.", "choices")
    for key in ("bands", "plausible", "possible"):
        if at.data.get(key) is not None and not numeric:
            yield at.problem(f"{key} is for quantities and counts.", key)
    if at.data.get("bare") is not None and sort != "quantity":
        yield at.problem("bare is for quantities.", "bare")
    if sort in _FROM_ITEM and not question.inside:
        yield at.problem(f"a question of the type {sort} is asked inside a group.", "type")
    if question.closes and sort != "choice":
        yield at.problem("the closing question of a group is a choice.", "type")


def _choices(question: PlacedQuestion) -> Iterator[Problem]:
    taken: dict[str, str] = {}
    for choice in question.at.each("choices"):
        name = choice.data["id"]
        if name in BANNED:
            yield choice.problem(f'"{name}" cannot be a choice id: elsewhere it is read as true or false.', "id")
        words = {str(w).casefold() for w in choice.data.get("also") or ()}
        for word in (name.casefold(), *sorted(words - {name.casefold()})):
            other = taken.setdefault(word, name)
            if other != name:
                yield choice.problem(f'"{word}" stands for {other} and for {name}.', "id")


def _read(at: Placed, *inside: str | int) -> float | Problem:
    data: Any = at.data
    for step in inside:
        data = data[step]
    try:
        return number(data, at.data.get("dimension"))[0]
    except QuantityError as error:
        return at.problem(str(error), *inside)


def _numbers(at: Placed) -> Iterator[Problem]:
    if at.data["type"] not in ("quantity", "count"):
        return
    ranges: dict[str, tuple[float, float]] = {}
    for key in ("plausible", "possible"):
        if at.data.get(key) is None:
            continue
        low, high = _read(at, key, 0), _read(at, key, 1)
        found = [r for r in (low, high) if isinstance(r, Problem)]
        yield from found
        if isinstance(low, float) and isinstance(high, float):
            ranges[key] = (low, high)
            if low > high:
                yield at.problem(f"{key} begins above its end.", key)
    wide, narrow = ranges.get("possible"), ranges.get("plausible")
    if wide and narrow and (narrow[0] < wide[0] or narrow[1] > wide[1]):
        yield at.problem("plausible reaches outside possible.", "plausible")
    before: float | None = None
    for index in range(len(at.data.get("bands") or ())):
        value = _read(at, "bands", index, "value")
        if isinstance(value, Problem):
            yield value
            continue
        if before is not None and value <= before:
            yield at.problem("bands stand in order, the smallest first.", "bands", index)
        if wide and not wide[0] <= value <= wide[1]:
            yield at.problem("this band is outside possible and could never be taken.", "bands", index, "value")
        before = value
    for reader, unit in (at.data.get("bare") or {}).items():
        allowed = DIMENSIONS[at.data.get("dimension") or "ratio"].units
        if unit not in allowed:
            yield at.problem(f'"{unit}" is not a unit here; allowed: {", ".join(allowed)}.', "bare", reader)


def _not_sure(question: PlacedQuestion) -> Iterator[Problem]:
    at = question.at
    unsure = at["not_sure"]
    how, sort = unsure.data["how"], at.data["type"]
    if how == "refused" and not unsure.data.get("say"):
        yield unsure.problem("refused needs say: what to do instead.", "how")
    if how != "planned":
        for key in ("planning", "low", "high"):
            if unsure.data.get(key) is not None:
                yield unsure.problem(f"{key} is for planned.", key)
    elif unsure.data.get("planning") is None:
        yield unsure.problem("planned needs planning: what is planned with.", "how")
    elif sort in ("quantity", "count"):
        yield from _planned_numbers(at)
    elif sort in ("choice", "several"):
        yield from _planned_choices(at)
    else:
        yield unsure.problem(f"nothing can be planned for a question of the type {sort}.", "how")
    if how == "from_book" and not question.inside:
        yield unsure.problem("from_book is for questions about one implement.", "how")


def _planned_numbers(at: Placed) -> Iterator[Problem]:
    read: list[tuple[str, float]] = []
    for key in ("low", "planning", "high"):
        if at.data["not_sure"].get(key) is None:
            yield at.problem(f"planned needs low, planning and high; {key} is missing.", "not_sure")
            return
        value = _read(at, "not_sure", key)
        if isinstance(value, Problem):
            yield value
            return
        read.append((key, value))
    if not read[0][1] <= read[1][1] <= read[2][1]:
        yield at.problem("low, planning and high are not in order.", "not_sure")
    if at.data.get("possible") is not None:
        low, high = _read(at, "possible", 0), _read(at, "possible", 1)
        if isinstance(low, float) and isinstance(high, float) and not (low <= read[0][1] and read[2][1] <= high):
            yield at.problem("the range for not sure reaches outside possible.", "not_sure")


def _planned_choices(at: Placed) -> Iterator[Problem]:
    known = [c["id"] for c in at.data.get("choices") or ()]
    for key in ("planning", "low", "high"):
        given = at.data["not_sure"].get(key)
        for name in given if isinstance(given, list) else [given]:
            if name is not None and name not in known:
                yield at.problem(f'there is no choice "{name}" in {at.data["id"]}.', "not_sure", key)


def _groups(files: Files) -> Iterator[Problem]:
    for _, section in files.of("sections"):
        group = section.get("group")
        if (group is None) == (not section.data.get("questions")):
            yield section.problem("a section has either questions or a group.")
        if group is None:
            continue
        choices = [c["id"] for c in group.data["closes"].get("choices") or ()]
        if "another" not in choices or "that_is_all" not in choices:
            yield group.problem("the closing question needs the choices another and that_is_all.", "closes")
        sorts = [q["type"] for q in group.data["questions"]]
        if sorts.count("kind") != 1 or sorts[0] != "kind":
            yield group.problem("a group begins with its one question of the type kind.", "questions")
