"""Guided measuring: steps that hang together, prose without figures, narrow drawings, sentences with their slots."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, did_you_mean
from firstfurrow.book.rules.sentences import slots
from firstfurrow.book.yaml_strict import read

FILE = "measuring.yaml"
NOT_SURE = "not_sure"
WIDEST_DRAWING = 38  # columns: a narrow screen has 40, and none of them may break
_DIGIT = re.compile(r"[0-9]")


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the meaning of the file; nothing when the book does without it."""
    file = files.read.get(FILE)
    if file is None:
        return
    seen: set[str] = set()
    for station in file.each("stations"):
        if station.data["id"] in seen:
            yield station.problem(f"there are two stations {station.data['id']}.", "id")
        seen.add(station.data["id"])
        yield from _station(station)
    for name in file.data["lookalikes"]:
        if name not in seen:
            yield file.problem(f'there is no station "{name}".{did_you_mean(name, seen)}', "lookalikes", name, key=True)
    yield from _words(file["words"])


def _station(station: Placed) -> Iterator[Problem]:
    yield from _prose(station, "label", *(("cautions", n) for n in range(len(station.data["cautions"]))))
    before: dict[str, set[str]] = {}
    for step in station.each("steps"):
        yield from _prose(step, "ask", "tape", "why")
        for choice in step.each("choices"):
            yield from _prose(choice, "label")
        if step.data["id"] in before:
            yield step.problem(f"there are two steps {step.data['id']}.", "id")
        for needed, types in (("choices", ("choice",)), ("dimension", ("quantity",))):
            if (step.data.get(needed) is not None) is not (step.data["type"] in types):
                yield step.problem(f"{needed} goes with the type {types[0]}, and only with it.", "type")
        yield from _only(step, before)
        yield from drawing_problems(step)
        choices = {c.data["id"] for c in step.each("choices")}
        before[step.data["id"]] = {*choices, NOT_SURE}
    anytime = station.data.get("anytime")
    if anytime is not None and anytime not in before:
        yield station.problem(f'there is no step "{anytime}".{did_you_mean(anytime, before)}', "anytime")


def drawing_problems(step: Placed) -> Iterator[Problem]:
    """A drawing that does not fit a narrow window, or holds what a screen may not have or a book not say there."""
    for index, line in enumerate(step.data.get("drawing") or ()):
        if len(line) > WIDEST_DRAWING:
            yield step.problem(f"a line of a drawing has more than {WIDEST_DRAWING} characters.", "drawing", index)
        if not (line.isascii() and line.isprintable()):
            yield step.problem("a drawing may only have plain ASCII characters.", "drawing", index)
        if _DIGIT.search(line):
            yield step.problem("a figure stands in a drawing; put it into figures, or into words.", "drawing", index)


def _only(step: Placed, before: Mapping[str, set[str]]) -> Iterator[Problem]:
    only: Mapping[str, Any] = step.data.get("only") or {}
    for name, answers in only.items():
        if name not in before:
            yield step.problem(f'no earlier step is called "{name}".{did_you_mean(name, before)}', "only", name)
            continue
        for index, answer in enumerate(answers):
            if answer not in before[name]:
                message = f'{name} has no answer "{answer}".{did_you_mean(answer, before[name])}'
                yield step.problem(message, "only", name, index)


def _prose(part: Placed, *keys: str | tuple[str, int]) -> Iterator[Problem]:
    for key in keys:
        path = (key,) if isinstance(key, str) else key
        value = part.data[path[0]] if len(path) == 1 else part.data[path[0]][path[1]]
        if _DIGIT.search(value):
            yield part.problem("a figure stands in a sentence; put it into figures, or into words.", *path)


def _words(words: Placed) -> Iterator[Problem]:
    shipped: Mapping[str, str] = read(book_folder() / FILE, FILE)["words"]
    for id_, text in words.data.items():
        if id_ not in shipped:
            yield words.problem(f'nothing is ever said by the id "{id_}".{did_you_mean(id_, shipped)}', id_, key=True)
            continue
        found = slots(text)
        if found is None:
            yield words.problem("a brace is open; write {{ and }} for braces that are meant.", id_)
            continue
        for slot in sorted(found - (slots(shipped[id_]) or set())):
            yield words.problem(f"the slot {{{slot}}} is not filled in here.", id_)
        if _DIGIT.search(text):
            yield words.problem("a figure stands in a sentence; put it into figures, or into words.", id_)
    for id_ in shipped:
        if id_ not in words.data:
            yield words.problem(f'the sentence "{id_}" is missing.')
