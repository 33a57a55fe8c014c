"""Guided measuring: steps that hang together, prose without figures, narrow drawings, sentences with their slots."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of, twice, unknown
from firstfurrow.book.rules.digits import digits, has_digit
from firstfurrow.book.rules.sentences import NOBODY_FILLS, NOBODY_SAYS, OPEN_BRACE, slots
from firstfurrow.book.yaml_strict import read

FILE = "measuring.yaml"
NOT_SURE = "not_sure"
WIDEST_DRAWING = 38  # columns: a narrow screen has 40, and none of them may break
NO_TAPE = "Whoever stands at the machine with a tape would be led past this step."
NARROW = "On a narrow screen its lines would break, and the drawing could not be read."
IN_A_DRAWING = Said(
    "a figure stands in a drawing; put it into figures, or into words.",
    "Nobody can check it there, or turn it into the reader's units.",
    "Take the digits out, and let the step below say it.",
)
NOT_ASCII = Said(
    "a drawing may only have plain ASCII characters.",
    "Other signs have another width on some screens, and some printers leave them out.",
    "Draw with - | / \\ + * . and letters.",
)


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the meaning of the file; nothing when the book does without it."""
    file = files.read.get(FILE)
    if file is None:
        return
    seen: set[str] = set()
    for station in file.each("stations"):
        if station.data["id"] in seen:
            yield station.problem(twice("station", station.data["id"]), "id")
        seen.add(station.data["id"])
        yield from _station(station)
    for name in file.data["lookalikes"]:
        if name not in seen:
            yield file.problem(unknown("station", name, seen, "the stations above"), "lookalikes", name, key=True)
    yield from _words(file["words"])


def _station(station: Placed) -> Iterator[Problem]:
    yield from digits(station, "label", "cautions")
    before: dict[str, set[str]] = {}
    for step in station.each("steps"):
        yield from digits(step, "ask", "tape", "why")
        for choice in step.each("choices"):
            yield from digits(choice, "label")
        if step.data["id"] in before:
            yield step.problem(twice("step", step.data["id"]), "id")
        for needed, types in (("choices", ("choice",)), ("dimension", ("quantity",))):
            if (step.data.get(needed) is not None) is not (step.data["type"] in types):
                said = Said(
                    f"{needed} goes with the type {types[0]}, and only with it.",
                    "The type says how the answer is read.",
                    f"Write type: {types[0]} with {needed}, or take {needed} out.",
                )
                yield step.problem(said, "type")
        yield from _only(step, before)
        yield from drawing_problems(step)
        choices = {c.data["id"] for c in step.each("choices")}
        before[step.data["id"]] = {*choices, NOT_SURE}
    anytime = station.data.get("anytime")
    if anytime is not None and anytime not in before:
        yield station.problem(unknown("step", anytime, before, "the steps of this station"), "anytime")


def drawing_problems(step: Placed) -> Iterator[Problem]:
    """A drawing that does not fit a narrow window, or holds what a screen may not have or a book not say there."""
    for index, line in enumerate(step.data.get("drawing") or ()):
        if len(line) > WIDEST_DRAWING:
            what = f"a line of a drawing has more than {WIDEST_DRAWING} characters."
            yield step.problem(Said(what, NARROW, "Draw it narrower."), "drawing", index)
        if not (line.isascii() and line.isprintable()):
            yield step.problem(NOT_ASCII, "drawing", index)
        if has_digit(line):
            yield step.problem(IN_A_DRAWING, "drawing", index)


def _only(step: Placed, before: Mapping[str, set[str]]) -> Iterator[Problem]:
    only: Mapping[str, Any] = step.data.get("only") or {}
    for name, answers in only.items():
        if name not in before:
            what = f'no earlier step is called "{name}".{did_you_mean(name, before)}'
            yield step.problem(Said(what, NO_TAPE, one_of(name, before, "the steps above")), "only", name)
            continue
        for index, answer in enumerate(answers):
            if answer not in before[name]:
                what = f'{name} has no answer "{answer}".{did_you_mean(answer, before[name])}'
                write = one_of(answer, sorted(before[name]), f"the choices of {name}")
                yield step.problem(Said(what, NO_TAPE, write), "only", name, index)


def _words(words: Placed) -> Iterator[Problem]:
    shipped: Mapping[str, str] = read(book_folder() / FILE, FILE)["words"]
    for id_, text in words.data.items():
        if id_ not in shipped:
            what = f'nothing is ever said by the id "{id_}".{did_you_mean(id_, shipped)}'
            yield words.problem(Said(what, NOBODY_SAYS, one_of(id_, shipped, f"the shipped {FILE}")), id_, key=True)
            continue
        found = slots(text)
        if found is None:
            yield words.problem(OPEN_BRACE, id_)
            continue
        for slot in sorted(found - (slots(shipped[id_]) or set())):
            what = f"the slot {{{slot}}} is not filled in here."
            yield words.problem(Said(what, NOBODY_FILLS, f"Take {{{slot}}} out."), id_)
        yield from digits(words, id_)
    for id_ in shipped:
        if id_ not in words.data:
            what = f'the sentence "{id_}" is missing.'
            why = "Where it should be said, nothing would stand."
            yield words.problem(Said(what, why, f"Copy it from the shipped {FILE}, and change its words."))
