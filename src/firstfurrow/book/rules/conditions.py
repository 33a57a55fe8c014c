"""Conditions: well formed, at most three levels deep, reading earlier questions with tests that suit them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from firstfurrow.book.conditions import OPS, SCOPES, TESTS
from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed, PlacedQuestion
from firstfurrow.book.problems import Problem, Said, unknown
from firstfurrow.quantities import DIMENSIONS, QuantityError, parse_figure_text

DEEPEST = 3
SUITS: Mapping[str, tuple[str, ...]] = {
    "choice": ("is", "in", "not_sure"),
    "several": ("includes", "not_sure"),
    "quantity": ("at_least", "below", "not_sure"),
    "count": ("at_least", "below", "not_sure"),
    "kind": ("is", "in", "has", "not_sure"),
    "variant": ("is", "in", "not_sure"),
    "size": ("at_least", "below", "not_sure"),
    "text": ("not_sure",),
}
NOT_YET = "A condition is looked at when its question comes up; what is asked later has no answer then."
NEVER_HOLDS = "Such a test is never true, so the question would be left out, or asked of everybody."
FORM = Said(
    "a part of a condition is either all, any or not, or one answer with one test.",
    "With more than that in one part, nobody can tell what belongs together.",
    "Write {all: [{answer: soil, is: clay}, {answer: slope_up, at_least: 5 %}]}, one pair of braces for each test.",
)
CLOSING = Said(
    "the closing question of a group is always asked; it has no condition.",
    "Whoever is not asked it never leaves the group.",
    "Take when out of it.",
)
TOO_DEEP = Said(
    "a condition is at most three levels deep.",
    "Deeper ones are hard to read aloud, and mistakes hide in them.",
    "Split it: let an earlier question ask a part of it, or write the inner part out.",
)


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the conditions of the questions."""
    ids = Counter(question.id for question in files.questions)
    for question in files.questions:
        if ids[question.id] > 1:
            continue  # said by the references: whatever reads such an id is mended with it
        when = question.at.get("when")
        if when is not None and question.closes:
            yield when.problem(CLOSING)
        if when is not None:
            yield from condition_problems(files, when, question)
        for other in question.at.each("asks"):
            yield from condition_problems(files, other["when"], question)


def condition_problems(
    files: Files, condition: Placed, reader: PlacedQuestion, *, itself: bool = False
) -> Iterator[Problem]:
    """What is wrong with a condition that is read at a question; with `itself` it may read that answer, too."""
    ids = [question.id for question in files.questions]
    before = frozenset(ids[: ids.index(reader.id) + itself])
    yield from _part(files, reader, before, condition, 1)


def _part(files: Files, reader: PlacedQuestion, before: frozenset[str], part: Placed, level: int) -> Iterator[Problem]:
    ops = [key for key in OPS if key in part.data]
    scopes = [key for key in SCOPES if key in part.data]
    tests = [key for key in TESTS if key in part.data]
    if len(ops) == 1 and not scopes and not tests:
        if level > DEEPEST:
            yield part.problem(TOO_DEEP)
            return
        for inner in part.each(ops[0]):
            yield from _part(files, reader, before, inner, level + 1)
    elif not ops and len(scopes) == 1 and len(tests) == 1:
        yield from _leaf(files, reader, before, part, scopes[0], tests[0])
    else:
        yield part.problem(FORM)


def _leaf(
    files: Files, reader: PlacedQuestion, before: frozenset[str], part: Placed, scope: str, test: str
) -> Iterator[Problem]:
    subject = part.data[scope]
    read = files.question.get(subject)
    if read is not None and sum(question.id == subject for question in files.questions) > 1:
        return
    if read is None:
        yield part.problem(unknown("question", subject, files.question, "sections/", NEVER_HOLDS), scope)
        return
    wrong = _wrong_scope(reader, read, scope)
    if wrong is not None:
        yield part.problem(wrong, scope)
    elif subject not in before:
        what = f"{subject} is asked after {reader.id}; a condition reads earlier answers only."
        write = f"Move {subject} before {reader.id}, or read an answer that stands above."
        yield part.problem(Said(what, NOT_YET, write), scope)
    sort = read.at.data["type"]
    if test not in SUITS[sort]:
        what = f"{test} does not suit {subject}, which is of the type {sort}."
        write = f"Write one of these tests: {', '.join(SUITS[sort])}."
        yield part.problem(Said(what, NEVER_HOLDS, write), test, key=True)
    else:
        yield from _value(files, read, part, test)


def _wrong_scope(reader: PlacedQuestion, read: PlacedQuestion, scope: str) -> Said | None:
    each = "Each implement has its own answer to it, and the condition must say whose."
    if read.inside and scope == "answer":
        right = "item" if reader.inside else "any_item"
        what = f"{read.id} is asked for each implement; write {right} before it."
        return Said(what, each, f"Write {{{right}: {read.id}, ...}}.")
    if not read.inside and scope != "answer":
        what = f"{read.id} is not asked for each implement; write answer before it."
        return Said(what, "It has one answer for the whole plan.", f"Write {{answer: {read.id}, ...}}.")
    if scope == "item" and not reader.inside:
        what = "item is for questions inside the group; outside it write any_item."
        return Said(what, each, f"Write {{any_item: {read.id}, ...}}: true where at least one implement has it.")
    if scope == "any_item" and (reader.inside or reader.closes):
        what = "any_item is for questions after the group."
        return Said(what, "Inside the group the list of implements is not complete yet.",
                    f"Write {{item: {read.id}, ...}}, or move the question behind the group.")  # fmt: skip
    return None


def _value(files: Files, read: PlacedQuestion, part: Placed, test: str) -> Iterator[Problem]:
    data, sort = read.at.data, read.at.data["type"]
    if test in ("at_least", "below"):
        try:
            _, unit = number(part.data[test], data.get("dimension"))
            # A condition is read without its question, so the unit alone must lead to the same working unit.
            written = part.data[test]
            if isinstance(written, str) and sort == "quantity" and parse_figure_text(written)[1] != unit:
                working = DIMENSIONS[data["dimension"]].working
                what = f"write this number in {working}."
                why = "In the unit that stands here it would be compared with something else."
                yield part.problem(Said(what, why, f"Work it out in {working}, and write that."), test)
        except QuantityError as error:
            yield part.problem(Said(str(error), NEVER_HOLDS, "Write a number with a unit that fits."), test)
    elif test in ("is", "in", "includes"):
        known = _choices(files, data)
        given = part.data[test]
        for name in given if isinstance(given, list) else [given]:
            if known is not None and name not in known:
                there = unknown("choice", name, known, f"the choices of {data['id']}", NEVER_HOLDS)
                what = there.what.replace("there is no choice", f"{data['id']} has no choice", 1)
                yield part.problem(Said(what, there.why, there.write), test)


def _choices(files: Files, question: Mapping[str, object]) -> list[str] | None:
    """The answers that the question can have; None when they come from more than the book's own list."""
    sort = question["type"]
    if sort == "kind":
        return [kind.data["kind"] for family, kind in files.kinds if family != "links"]
    if sort == "variant":
        return sorted({v.data["variant"] for _, kind in files.kinds for v in kind.each("variants")})
    choices = question.get("choices")
    if isinstance(choices, list) and choices:
        return [c["id"] for c in choices]
    return sorted({o.data["id"] for _, k in files.kinds for v in k.each("variants") for o in v.each("oil")})
