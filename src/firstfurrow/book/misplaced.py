"""What of a local edition nobody would read: files under a wrong name or in a wrong folder, misplaced records."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any

from firstfurrow.book.problems import BookError, Problem, Said, nearest
from firstfurrow.book.yaml_strict import Marks, Path_, read

EDITION, INDEX, FAMILIES, SECTIONS = "edition.yaml", "book.yaml", "implements", "sections/"
# What people and their programs leave beside an edition. Hidden files are left alone, too.
LEFT_ALONE = ("readme*", "licen[cs]e*", "*.md", "thumbs.db", "desktop.ini", "*~")
TEXT = (".yaml", ".yml", ".txt")  # endings of files that hold plain text: a new name is enough
NOBODY = "What stands in it changes nothing."
TITLE_PAGE = (
    "For a local edition write edition.yaml, its title page, with the lines id, name, version and for; "
    "for a whole book copy all files of the shipped one."
)
WHERE_IT_STANDS = "An edition changes a question in the place where the shipped book has it."
Homes = Mapping[str, tuple[str, str]]  # of the shipped book, by id of the question: the file, and the key above it
UNDER = {"questions": "questions: [{}]", "group": "group: {{questions: [{}]}}", "closes": "group: {{closes: {}}}"}


def no_book(folder: Path) -> Problem | None:
    """What is wrong with a folder that holds no book at all, or two."""
    if not folder.exists():
        said = Said("there is no such folder.", "The book is read from it.", "Look how its name is spelled.")
    elif not folder.is_dir():
        what = "this is a file; a book is a folder."
        said = Said(what, "The files of a book stand together in one folder.", "Name the folder in which it stands.")
    elif (folder / EDITION).is_file() and (folder / INDEX).is_file():
        what = f"this folder holds both {EDITION}, the title page of a local edition, and {INDEX} of a whole book."
        write = f"Take {INDEX} out where the folder lies over the shipped book, or {EDITION} where it is all of a book."
        said = Said(what, "A whole book is read by itself: nothing of an edition would count.", write)
    elif (folder / EDITION).is_file() or (folder / INDEX).exists():
        return None
    elif (folder / EDITION).exists():
        what = f"{EDITION} cannot be read: it is no plain file."
        said = Said(what, "It is the title page of a local edition.", "Put the title page there under this name.")
    else:
        names = sorted(path.name for path in folder.iterdir() if path.is_file())
        near = next((name for name in names if name.casefold().split(".")[0] == "edition"), None)
        write = f"Rename {near} to {EDITION}." if near else TITLE_PAGE
        what = f"this folder holds neither {EDITION}, the title page of a local edition, nor a whole book."
        said = Said(what, "Without a title page nobody can tell what the other files belong to.", write)
    return Problem(str(folder), 0, 0, said.what, said.why, said.write)


def stray_files(folder: Path, known: Collection[str]) -> Mapping[str, Said]:
    """Files of an edition that nobody reads where they are; `known` are the files of the shipped book."""
    found: dict[str, Said] = {}
    for path in sorted(folder.rglob("*")):
        parts = path.relative_to(folder).parts
        if path.is_dir() or any(part.startswith(".") for part in parts):
            continue
        name = "/".join(parts)
        if name in (EDITION, *known) or any(fnmatchcase(path.name.casefold(), wild) for wild in LEFT_ALONE):
            continue
        said = _stray(folder, name, known)
        if said is not None:
            found[name] = said
    return found


def _stray(folder: Path, name: str, known: Collection[str]) -> Said | None:
    where, _, last = name.rpartition("/")
    data = _data(folder / name)
    family = isinstance(data, dict) and ("kinds" in data or "family" in data)
    base = f"{last.split('.')[0]}.yaml"
    home = next((k for k in known if k.rpartition("/")[2] == base), None)
    if not last.endswith(".yaml"):
        if where == FAMILIES or family:
            home = home or f"{FAMILIES}/{base}"
        what = "nobody reads this file: its name must end in .yaml."
        return Said(what, NOBODY, _move(folder, name, home))
    if where == FAMILIES and (family or not isinstance(data, dict) or (home is None and "questions" not in data)):
        return None  # a family of its own
    if home is None and family:
        home = f"{FAMILIES}/{base}"
    if home is not None:
        what = f"nobody reads this file here: it belongs in {_folder(home)}."
        return Said(what, NOBODY, _move(folder, name, home))
    beside = [k for k in known if k.rpartition("/")[0] == where] or list(known)
    near = nearest(name, beside)
    if near and (folder / near).exists():
        return Said("nobody reads a file of this name.", NOBODY, _move(folder, name, near))
    lies = "Nobody reads a file that lies over nothing."
    if near:
        write = f"Rename it to {near} if you mean that, or take it out of the folder."
        return Said(f'the shipped book has no file "{name}". Did you mean "{near}"?', lies, write)
    return Said(f'the shipped book has no file "{name}".', lies, _move(folder, name, None))


def _data(path: Path) -> Any:
    try:
        return read(path) if path.is_file() else None
    except BookError:
        return None


def _folder(name: str) -> str:
    where = name.rpartition("/")[0]
    return f"{where}/" if where else "the folder of the edition itself"


def _move(folder: Path, name: str, home: str | None) -> str:
    if home is None:
        return "Name it like a file of the shipped book, with .yaml at the end, or take it out of the folder."
    if (folder / home).exists():
        return f"{home} is there already: write what belongs to it into that file, and take this one out of the folder."
    if not name.endswith(TEXT) and "." in name.rpartition("/")[2]:
        return f"Save its text as plain text under the name {home}, and take this file out of the folder."
    return f"Rename it to {home}." if home.rpartition("/")[0] == name.rpartition("/")[0] else f"Move it to {home}."


def stray_records(name: str, data: Any, marks: Marks, homes: Homes) -> Iterator[Problem]:
    """Records that say `retire` without true; questions in another place than the shipped book has them."""
    yield from _half_retired(data, marks, ())
    if not name.startswith(SECTIONS) or not isinstance(data, dict):
        return
    group = data.get("group")
    inside = group.get("questions") if isinstance(group, dict) else None
    for place, path, records in (("questions", ("questions",), data.get("questions")),
                                 ("group", ("group", "questions"), inside)):  # fmt: skip
        for index, record in enumerate(records if isinstance(records, list) else ()):
            if isinstance(record, dict):
                yield from _stray_record((name, place), record, marks, (*path, index), homes)


def _stray_record(
    here: tuple[str, str], record: Mapping[str, Any], marks: Marks, path: Path_, homes: Homes
) -> Iterator[Problem]:
    for key in ("id", "after"):
        id_ = record.get(key)
        home = homes.get(id_, here) if isinstance(id_, str) else here
        if home == here:
            continue
        file, place = home
        above = "" if file != here[0] else f", under {UNDER[place].format('...')}"
        what = f"the question {id_} stands in {file}{above}, not here."
        if key == "id":
            rest = "retire: true" if record.get("retire") is True else "..."
            record_there = UNDER[place].format(f"{{id: {id_}, {rest}}}")
            moved = "In its place write" if file == here[0] else f"Move this record to {file}, and write there"
            write = f"{moved} {record_there}."
            said = Said(what, WHERE_IT_STANDS, write)
        else:
            near = next((id_ for id_, place in homes.items() if place == here), None)
            write = f"Move this question to {file}{f', or write after: {near}' if near else ''}."
            said = Said(what, "A question can only stand behind one of its own section.", write)
        yield marks.problem((*path, key), said)
    if record.get("id") in homes and "choices" in record and record["choices"] is None:
        what = f"choices is empty, and that takes every choice of {record['id']} out."
        write = "Write under it the choices that differ, each behind a hyphen and a space, or take the line out."
        yield marks.problem((*path, "choices"), Said(what, "Nobody could answer the question.", write), key=True)


def _half_retired(data: Any, marks: Marks, path: Path_) -> Iterator[Problem]:
    """Each `retire` that is followed by something else than true."""
    for key, value in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        if key == "retire" and value is not True and not isinstance(value, dict | list):
            what = f'retire must be followed by true, not by "{"" if value is None else value}".'
            why = "Only true takes a record out; no other word does."
            yield marks.problem((*path, key), Said(what, why, "Write retire: true, or take the line out."), key=True)
        yield from _half_retired(value, marks, (*path, key))
