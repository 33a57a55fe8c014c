"""Notes and pairs for those who teach: every id is there, no figure in prose, one note for a question."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import recordings_folder
from firstfurrow.book.problems import Problem, Said, twice, unknown
from firstfurrow.book.rules.digits import digits
from firstfurrow.book.yaml_strict import read

FILE = "teaching.yaml"
ANSWERS = "answers.yaml"
NOT_FOUND = "Whoever teaches would look for it in vain."


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
            yield note.problem(twice("note for", id_), "question")
        seen.add(id_)
        yield from digits(note, "wrong", "because", "room")
    pairs: set[str] = set()
    for pair in file.each("pairs"):
        if pair.data["id"] in pairs:
            yield pair.problem(twice("pair", pair.data["id"]), "id")
        pairs.add(pair.data["id"])
        yield from digits(pair, "title", "say")
        yield from _pair(files, pair, requirements)


def hints(files: Files) -> Iterator[Problem]:
    """The questions that move something and have no note: no mistake, but a gap for those who teach."""
    file = files.read.get(FILE)
    if file is None:
        return
    noted = {note.data["question"] for note in file.each("notes")}
    for question in files.questions:
        if question.at.data.get("moves") and question.id not in noted:
            said = Said(
                f"{question.id} moves something, and {FILE} has no note for it.",
                "In a class it is the wrong answers that teach.",
                f"Add a note: {{question: {question.id}, wrong: ..., because: ..., room: ...}}.",
            )
            yield question.at.problem(said, "id")


def _pair(files: Files, pair: Placed, requirements: Collection[str]) -> Iterator[Problem]:
    look_at = pair.data["look_at"]
    for key, known, what, home in (
        ("look_at", requirements, "requirement", "requirements.yaml"),
        ("rises", look_at, "requirement in look_at", "look_at above"),
        ("falls", look_at, "requirement in look_at", "look_at above"),
    ):
        for index, id_ in enumerate(pair.data.get(key) or ()):
            if id_ not in known:
                yield pair.problem(unknown(what, id_, known, home, NOT_FOUND), key, index)
    for id_ in sorted({*(pair.data.get("rises") or ())} & {*(pair.data.get("falls") or ())}):
        said = Said(
            f"{id_} cannot rise and fall.", "The class guesses which way it goes.", f"Take {id_} out of one of the two."
        )  # fmt: skip
        yield pair.problem(said, "falls")
    item, dot, id_ = pair.data["question"].rpartition(".")
    here = [question.id for question in files.questions if question.inside is bool(dot) and not question.closes]
    if id_ not in here:
        where = "of an implement" if dot else "outside the implements"
        there = unknown("question", id_, here, "sections/", "The two plans differ in the answer to it.")
        what = there.what.replace(f'"{id_}".', f'"{id_}" {where}.', 1)
        yield pair.problem(Said(what, there.why, there.write), "question")
    recordings = recordings_folder()
    if not (recordings / pair.data["recording"] / ANSWERS).is_file():
        known = sorted(path.parent.name for path in recordings.glob(f"*/{ANSWERS}"))
        name = pair.data["recording"]
        said = unknown(
            "recording", name, known, "the list of firstfurrow demo --list", "Its plan is the one to compare."
        )
        yield pair.problem(said, "recording")
    elif dot and item not in (items := _items(pair.data["recording"])):
        what = f'the recording {pair.data["recording"]} has no implement "{item}"; it has {", ".join(items)}.'
        why = "The other answer is given for that implement."
        yield pair.problem(Said(what, why, f"Write one of these before {id_}."), "question")


def _items(recording: str) -> tuple[str, ...]:
    data = read(recordings_folder() / recording / ANSWERS, ANSWERS)
    return tuple(item["item"] for item in data["answers"].get("implements") or ())


def _known(part: Placed, key: str, known: Collection[str], what: str) -> Iterator[Problem]:
    value = part.data[key]
    if value not in known:
        yield part.problem(unknown(what, value, known, "sections/", NOT_FOUND), key)
