"""The settings: what is skipped is a part of the questions in their order, and may be left unsaid."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of, unknown

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
            said = unknown("question", id_, order, "sections/", "A question that is not there cannot be skipped.")
            yield setting.problem(said, "skips", index)
            continue
        question = files.question[id_]
        if question.closes or question.at.data["not_sure"]["how"] == "refused":
            said = Said(
                f"{id_} needs an answer, so it cannot be skipped.",
                "What is skipped counts as not sure, and here that is no answer.",
                f"Take {id_} out of skips.",
            )
            yield setting.problem(said, "skips", index)
        if order.index(id_) < last:
            said = Said(
                f"{id_} is asked before the one above it; keep the order of the book.",
                "In the order asked it is seen at once what is left.",
                f"Move {id_} up.",
            )
            yield setting.problem(said, "skips", index)
        last = max(last, order.index(id_))


def _ground(files: Files, setting: Placed) -> Iterator[Problem]:
    outer = [id_ for id_, question in files.question.items() if not (question.inside or question.closes)]
    for id_ in setting.data.get("ground") or ():
        if id_ not in outer:
            what = f'there is no question "{id_}" to answer.{did_you_mean(id_, outer)}'
            why = "Only what is asked once, and not for each implement, has an answer that can stand here."
            yield setting.problem(Said(what, why, one_of(id_, outer, "sections/")), "ground", id_, key=True)
