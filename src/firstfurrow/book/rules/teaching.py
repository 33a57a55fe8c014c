"""Notes and pairs for those who teach: every id is there, no figure in prose, one note for a question."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import recordings_folder
from firstfurrow.book.problems import Problem, did_you_mean
from firstfurrow.book.yaml_strict import read

FILE = "teaching.yaml"
ANSWERS = "answers.yaml"
_DIGIT = re.compile(r"[0-9]")


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the meaning of the file; nothing when the book does without it."""
    file = files.read.get(FILE)
    if file is None:
        return
    requirements = [r.data["id"] for r in files.requirements]
    seen: set[str] = set()
    for note in file.each("notes"):
        id_ = note.data["question"]
        yield from _known(note, "question", files.question, "question")
        if id_ in seen:
            yield note.problem(f"there are two notes for {id_}.", "question")
        seen.add(id_)
        yield from _prose(note, "wrong", "because", "room")
    pairs: set[str] = set()
    for pair in file.each("pairs"):
        if pair.data["id"] in pairs:
            yield pair.problem(f"there are two pairs {pair.data['id']}.", "id")
        pairs.add(pair.data["id"])
        yield from _prose(pair, "title", "say")
        yield from _pair(files, pair, requirements)


def hints(files: Files) -> Iterator[Problem]:
    """The questions that move something and have no note: no mistake, but a gap for those who teach."""
    file = files.read.get(FILE)
    if file is None:
        return
    noted = {note.data["question"] for note in file.each("notes")}
    for question in files.questions:
        if question.at.data.get("moves") and question.id not in noted:
            yield question.at.problem(f"{question.id} moves something, and {FILE} has no note for it.", "id")


def _pair(files: Files, pair: Placed, requirements: Collection[str]) -> Iterator[Problem]:
    look_at = pair.data["look_at"]
    for key, known, what in (
        ("look_at", requirements, "requirement"),
        ("rises", look_at, "requirement in look_at"),
        ("falls", look_at, "requirement in look_at"),
    ):
        for index, id_ in enumerate(pair.data.get(key) or ()):
            if id_ not in known:
                yield pair.problem(f'there is no {what} "{id_}".{did_you_mean(id_, known)}', key, index)
    for id_ in sorted({*(pair.data.get("rises") or ())} & {*(pair.data.get("falls") or ())}):
        yield pair.problem(f"{id_} cannot rise and fall.", "falls")
    item, dot, id_ = pair.data["question"].rpartition(".")
    here = [question.id for question in files.questions if question.inside is bool(dot) and not question.closes]
    if id_ not in here:
        where = "of an implement" if dot else "outside the implements"
        yield pair.problem(f'there is no question "{id_}" {where}.{did_you_mean(id_, here)}', "question")
    recordings = recordings_folder()
    if not (recordings / pair.data["recording"] / ANSWERS).is_file():
        known = sorted(path.parent.name for path in recordings.glob(f"*/{ANSWERS}"))
        name = pair.data["recording"]
        yield pair.problem(f'there is no recording "{name}".{did_you_mean(name, known)}', "recording")
    elif dot and item not in (items := _items(pair.data["recording"])):
        said = f'the recording {pair.data["recording"]} has no implement "{item}"; it has {", ".join(items)}.'
        yield pair.problem(said, "question")


def _items(recording: str) -> tuple[str, ...]:
    data = read(recordings_folder() / recording / ANSWERS, ANSWERS)
    return tuple(item["item"] for item in data["answers"].get("implements") or ())


def _known(part: Placed, key: str, known: Collection[str], what: str) -> Iterator[Problem]:
    value = part.data[key]
    if value not in known:
        yield part.problem(f'there is no {what} "{value}".{did_you_mean(value, known)}', key)


def _prose(part: Placed, *keys: str) -> Iterator[Problem]:
    for key in keys:
        if _DIGIT.search(part.data[key]):
            yield part.problem("a figure stands in a sentence; put it into words.", key)
