"""The settings: what is skipped is a part of the questions in their order, and may be left unsaid."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem, did_you_mean

FILE = "settings.yaml"


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the settings."""
    settings = files.read[FILE]
    for name in settings.data:
        yield from _skips(files, settings[name])
        yield from _ground(files, settings[name])


def _skips(files: Files, setting: Placed) -> Iterator[Problem]:
    order = list(files.question)
    last = -1
    for index, id_ in enumerate(setting.data.get("skips") or ()):
        if id_ not in files.question:
            yield setting.problem(f'there is no question "{id_}".{did_you_mean(id_, order)}', "skips", index)
            continue
        question = files.question[id_]
        if question.closes or question.at.data["not_sure"]["how"] == "refused":
            yield setting.problem(f"{id_} needs an answer, so it cannot be skipped.", "skips", index)
        if order.index(id_) < last:
            message = f"{id_} is asked before the one above it; keep the order of the book."
            yield setting.problem(message, "skips", index)
        last = max(last, order.index(id_))


def _ground(files: Files, setting: Placed) -> Iterator[Problem]:
    outer = [id_ for id_, question in files.question.items() if not (question.inside or question.closes)]
    for id_ in setting.data.get("ground") or ():
        if id_ not in outer:
            message = f'there is no question "{id_}" to answer.{did_you_mean(id_, outer)}'
            yield setting.problem(message, "ground", id_, key=True)
