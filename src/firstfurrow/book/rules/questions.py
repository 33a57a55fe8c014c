"""Questions: each has what its type needs, its numbers can be read, its choices can be answered."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed, PlacedQuestion
from firstfurrow.book.problems import Problem, Said, one_of, unknown
from firstfurrow.book.rules.figures import unreadable
from firstfurrow.quantities import DIMENSIONS, QuantityError

BANNED = ("yes", "no", "on", "off", "y", "n", "true", "false", "null")
ENDS = (".", "?")
_FROM_ITEM = ("kind", "variant", "size")  # their choices come from the implements

ENDED = "It is shown as a sentence, and read aloud."
BY_TYPE = "The type says what the reader may type, and how it is read."
IN_ORDER = "The reader goes down the list from small to large."
ASSUMED = "Who is not sure is planned with what stands here, and told so."
CHOOSE = Said(
    "choose is for a question of the type size.", "Only a size can be left to the program.", "Take choose out."
)  # fmt: skip
DIMENSION = Said(
    "a quantity needs a dimension, and nothing else has one.", BY_TYPE,
    "Add dimension: mass (or length, area, slope, time and so on), or take it out.",
)  # fmt: skip
TWO_CHOICES = Said(
    "a choice question needs at least two choices.", "With one there is nothing to choose.",
    "Add a choice: {id: clay, label: heavy clay}.",
)  # fmt: skip
NEEDS_CHOICES = Said(
    "this question needs choices.", "Nobody could answer it.", "Add choices: [{id: flat, label: flat land}, ...]."
)  # fmt: skip
CLOSES = Said(
    "the closing question of a group is a choice.", "It asks whether there is another one.", "Write type: choice."
)  # fmt: skip
OUT_OF_ORDER = Said("bands stand in order, the smallest first.", IN_ORDER, "Move this one to its place.")
OUT_OF_REACH = Said(
    "this band is outside possible and could never be taken.", "Who takes it would be told that it cannot be.",
    "Mend the value, or widen possible.",
)  # fmt: skip
PLAUSIBLE_WIDER = Said(
    "plausible reaches outside possible.", "What is refused cannot be usual.", "Widen possible, or narrow plausible."
)  # fmt: skip
SAY_INSTEAD = Said(
    "refused needs say: what to do instead.", "Who is not sure would be left standing there.",
    "Add say: and a sentence that helps, such as say: Type a word for what the tool does.",
)  # fmt: skip
PLANNING = Said(
    "planned needs planning: what is planned with.", ASSUMED, "Add planning: and a value, with low and high."
)  # fmt: skip
FROM_BOOK = Said(
    "from_book is for questions about one implement.", "Only an implement has a usual figure in the book.",
    "Write how: planned with planning, low and high, or how: left_out.",
)  # fmt: skip
NOT_IN_ORDER = Said(
    "low, planning and high are not in order.", "The cautious end would be taken for the other.",
    "Write the smallest as low, and the largest as high.",
)  # fmt: skip
BEYOND_POSSIBLE = Said(
    "the range for not sure reaches outside possible.", "It would plan with what nobody may type.",
    "Narrow the range, or widen possible.",
)  # fmt: skip
QUESTIONS_OR_GROUP = Said(
    "a section has either questions or a group.", "The talk goes through the one or the other.",
    "Keep one of the two; put the other into a section of its own.",
)  # fmt: skip
TO_CLOSE = Said(
    "the closing question needs the choices another and that_is_all.",
    "Without them no walk goes on, or leaves the group.",
    "Write choices: [{id: another, label: another one}, {id: that_is_all, label: that is all}].",
)  # fmt: skip
KIND_FIRST = Said(
    "a group begins with its one question of the type kind.", "What else is asked depends on the sort of implement.",
    "Put that question first, and keep only one.",
)  # fmt: skip


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with single questions."""
    for question in files.questions:
        yield from _texts(question.at)
        yield from _for_its_type(question)
        yield from _choices(question)
        yield from _numbers(question.at)
        yield from _not_sure(question)
    yield from _groups(files)


def hints(files: Files) -> Iterator[Problem]:
    """Questions for a number, a build or a size that name no guide: who does not know is left alone."""
    for question in files.questions:
        if question.at.data["type"] in ("quantity", "count", "variant", "size") and not question.at.data.get("how"):
            said = Said(
                f"{question.id} names no guide.",
                "Who asks how to find out gets no help.",
                "Add how: and the id of a guide in guides.yaml.",
            )
            yield question.at.problem(said, "id")


def _texts(at: Placed) -> Iterator[Problem]:
    for key in ("ask", "why"):
        if not at.data[key].rstrip().endswith(ENDS):
            yield at.problem(_end(key), key)
    for other in at.each("asks"):
        if not other.data["ask"].rstrip().endswith(ENDS):
            yield other.problem(_end("ask"), "ask")
        if "choose" in other.data and at.data["type"] != "size":
            yield other.problem(CHOOSE, "choose")


def _end(key: str) -> Said:
    return Said(f"{key} must end with a period or a question mark.", ENDED, "Put the sign at its end.")


def _for_its_type(question: PlacedQuestion) -> Iterator[Problem]:
    at, sort = question.at, question.at.data["type"]
    numeric = sort in ("quantity", "count")
    if (sort == "quantity") != (at.data.get("dimension") is not None):
        yield at.problem(DIMENSION, "type")
    if sort == "choice" and len(at.data.get("choices") or ()) < 2:
        yield at.problem(TWO_CHOICES, "type")
    if sort == "several" and not at.data.get("choices") and not question.inside:
        yield at.problem(NEEDS_CHOICES, "type")
    if sort not in ("choice", "several") and at.data.get("choices"):
        said = Said(
            f"a question of the type {sort} has no choices of its own.", BY_TYPE,
            "Take choices out, or write type: choice.",
        )  # fmt: skip
        yield at.problem(said, "choices")
    for key in ("bands", "plausible", "possible"):
        if at.data.get(key) is not None and not numeric:
            yield at.problem(Said(f"{key} is for quantities and counts.", BY_TYPE, f"Take {key} out."), key)
    if at.data.get("bare") is not None and sort != "quantity":
        yield at.problem(Said("bare is for quantities.", BY_TYPE, "Take bare out."), "bare")
    if sort in _FROM_ITEM and not question.inside:
        said = Said(
            f"a question of the type {sort} is asked inside a group.", "Its choices are those of one implement.",
            "Move it into the group, or give it the type choice.",
        )  # fmt: skip
        yield at.problem(said, "type")
    if question.closes and sort != "choice":
        yield at.problem(CLOSES, "type")


def _choices(question: PlacedQuestion) -> Iterator[Problem]:
    taken: dict[str, str] = {}
    labels: dict[str, str] = {}
    for choice in question.at.each("choices"):
        name, label = choice.data["id"], str(choice.data["label"])
        other = labels.setdefault(label.strip().casefold(), name)
        if other != name:
            what = f'"{label}" is the label of {other} and of {name}.'
            why = "The reader sees two choices that say the same, and takes one blindly."
            yield choice.problem(Said(what, why, "Give one of them a label that says what is different."), "label")
        if name in BANNED:
            what = f'"{name}" cannot be a choice id: elsewhere it is read as true or false.'
            why = "Answers files are read by other programs too."
            yield choice.problem(Said(what, why, "Write a word that says more, such as has_brakes."), "id")
        words = {str(w).casefold() for w in choice.data.get("also") or ()}
        for word in (name.casefold(), *sorted(words - {name.casefold()})):
            other = taken.setdefault(word, name)
            if other != name:
                what = f'"{word}" stands for {other} and for {name}.'
                why = "Who types it could mean either."
                yield choice.problem(Said(what, why, "Take the word out of one of the two."), "id")


def _read(at: Placed, *inside: str | int) -> float | Problem:
    data: Any = at.data
    for step in inside:
        data = data[step]
    try:
        return number(data, at.data.get("dimension"))[0]
    except QuantityError as error:
        return at.problem(unreadable(error), *inside)


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
                what = f"{key} begins above its end."
                yield at.problem(Said(what, "No number lies in it.", "Write the smaller one first."), key)
    wide, narrow = ranges.get("possible"), ranges.get("plausible")
    if wide and narrow and (narrow[0] < wide[0] or narrow[1] > wide[1]):
        yield at.problem(PLAUSIBLE_WIDER, "plausible")
    before: float | None = None
    for index in range(len(at.data.get("bands") or ())):
        value = _read(at, "bands", index, "value")
        if isinstance(value, Problem):
            yield value
            continue
        if before is not None and value <= before:
            yield at.problem(OUT_OF_ORDER, "bands", index)
        if wide and not wide[0] <= value <= wide[1]:
            yield at.problem(OUT_OF_REACH, "bands", index, "value")
        before = value
    for reader, unit in (at.data.get("bare") or {}).items():
        allowed = DIMENSIONS[at.data.get("dimension") or "ratio"].units
        if unit not in allowed:
            what = f'"{unit}" is not a unit here; allowed: {", ".join(allowed)}.'
            why = "It says what a number means that is typed without a unit."
            yield at.problem(Said(what, why, one_of(str(unit), allowed, "the list above")), "bare", reader)


def _not_sure(question: PlacedQuestion) -> Iterator[Problem]:
    at = question.at
    unsure = at["not_sure"]
    how, sort = unsure.data["how"], at.data["type"]
    if how == "refused" and not unsure.data.get("say"):
        yield unsure.problem(SAY_INSTEAD, "how")
    if how != "planned":
        for key in ("planning", "low", "high"):
            if unsure.data.get(key) is not None:
                said = Said(f"{key} is for planned.", ASSUMED, f"Write how: planned, or take {key} out.")
                yield unsure.problem(said, key)
    elif unsure.data.get("planning") is None:
        yield unsure.problem(PLANNING, "how")
    elif sort in ("quantity", "count"):
        yield from _planned_numbers(at)
    elif sort in ("choice", "several"):
        yield from _planned_choices(at)
    else:
        what = f"nothing can be planned for a question of the type {sort}."
        yield unsure.problem(Said(what, ASSUMED, "Write how: from_book, or how: refused with say."), "how")
    if how == "from_book" and not question.inside:
        yield unsure.problem(FROM_BOOK, "how")


def _planned_numbers(at: Placed) -> Iterator[Problem]:
    read: list[tuple[str, float]] = []
    for key in ("low", "planning", "high"):
        if at.data["not_sure"].get(key) is None:
            what = f"planned needs low, planning and high; {key} is missing."
            yield at.problem(Said(what, ASSUMED, f"Add {key}: with a number and its unit."), "not_sure")
            return
        value = _read(at, "not_sure", key)
        if isinstance(value, Problem):
            yield value
            return
        read.append((key, value))
    if not read[0][1] <= read[1][1] <= read[2][1]:
        yield at.problem(NOT_IN_ORDER, "not_sure")
    if at.data.get("possible") is not None:
        low, high = _read(at, "possible", 0), _read(at, "possible", 1)
        if isinstance(low, float) and isinstance(high, float) and not (low <= read[0][1] and read[2][1] <= high):
            yield at.problem(BEYOND_POSSIBLE, "not_sure")


def _planned_choices(at: Placed) -> Iterator[Problem]:
    known = [c["id"] for c in at.data.get("choices") or ()]
    for key in ("planning", "low", "high"):
        given = at.data["not_sure"].get(key)
        for name in given if isinstance(given, list) else [given]:
            if name is not None and name not in known:
                there = unknown("choice", name, known, "the choices above", ASSUMED)
                what = f'there is no choice "{name}" in {at.data["id"]}.'
                yield at.problem(Said(what, there.why, there.write), "not_sure", key)


def _groups(files: Files) -> Iterator[Problem]:
    for _, section in files.of("sections"):
        group = section.get("group")
        if (group is None) == (not section.data.get("questions")):
            yield section.problem(QUESTIONS_OR_GROUP)
        if group is None:
            continue
        choices = [c["id"] for c in group.data["closes"].get("choices") or ()]
        if "another" not in choices or "that_is_all" not in choices:
            yield group.problem(TO_CLOSE, "closes")
        sorts = [q["type"] for q in group.data["questions"]]
        if sorts.count("kind") != 1 or sorts[0] != "kind":
            yield group.problem(KIND_FIRST, "questions")
