"""The shape of a file against its schema, with the validator's complaints put into plain sentences."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said, did_you_mean
from firstfurrow.book.yaml_slips import COLON_ALONE, CURLY_QUOTES, QUOTED, curly
from firstfurrow.book.yaml_strict import Path_

_CALLED = {
    "object": "keys with values",
    "array": "a list",
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "null": "nothing",
}


_MOST_NAMED = 12  # keys that are listed; of more only the first ones
_ONLY_KNOWN = "Only what the program knows is read; what stands under another name is lost."
_ID_BEGINS = "^[a-z][a-z0-9_]"  # the pattern of every id
_EMPTY = Said(
    "the file is empty.", "What should stand in it is missing.",
    "Write it, or take the file out where it is listed.",
)  # fmt: skip


@cache
def validator(name: str) -> Any:
    """The validator for a schema of the shipped book; schemas belong to the program, not to an edited copy."""
    from jsonschema import Draft202012Validator

    path: Path = book_folder() / "schema" / f"{name}.schema.json"
    return Draft202012Validator(json.loads(path.read_text(encoding="utf-8")))


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the shape of the files; of a local edition, of those that it has a part in."""
    for name, placed in files.read.items():
        if name in files.misplaced or (files.shelf.local and not files.shelf.own(name)):
            continue
        yield from misshapen(placed, files.schema_of[name])


def misshapen(placed: Placed, schema: str) -> list[Problem]:
    """What is wrong with the shape of one file, in the order of its lines."""
    if placed.data is None:
        return [Problem(placed.marks.file, 0, 0, _EMPTY.what, _EMPTY.why, _EMPTY.write)]
    curly = [placed.problem(CURLY_QUOTES, *path) for path in _curly(placed.data, ())]
    if curly:
        return curly
    found: list[Problem] = []
    for error in validator(schema).iter_errors(placed.data):
        found += _plain(placed, error)
    return sorted(set(found))


def _curly(data: Any, path: Path_) -> Iterator[Path_]:
    """Where curly quotes stand round a text."""
    for key, value in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        if isinstance(value, str) and curly(value):
            yield (*path, key)
        yield from _curly(value, (*path, key))


def _plain(placed: Placed, error: Any) -> Iterator[Problem]:
    path = tuple(error.absolute_path)
    what = error.validator
    value, wanted = error.instance, error.validator_value
    if what == "additionalProperties":
        known = error.schema.get("properties", {})
        for extra in (key for key in value if key not in known):
            cut = value[extra] is None and _no_colon(placed, (*path, extra))
            yield placed.problem(_extra(extra, value, error.schema, cut=cut), *path, extra, key=True)
    elif what == "required":
        missing = next(key for key in wanted if key not in value and f"'{key}'" in error.message)
        if error.schema.get("additionalProperties") is not False or not _misspelt(value, error.schema, missing):
            yield placed.problem(_missing(missing, value, error.schema), *path)
    else:
        why = error.schema.get("description") or "The program could not use it."
        what_said, write = _sentence(what, value, wanted, path)
        yield placed.problem(Said(what_said, f"It means: {why}", write), *path)


def _no_colon(placed: Placed, path: Path_) -> bool:
    """True of a key in braces behind which no colon stands: nearly always the rest of a text with a comma in it."""
    (line, column), here = placed.marks.at(path), placed.marks.at(path, key=True)
    return (line, column) == (here[0], here[1] + len(str(path[-1]))) or not str(path[-1]).isidentifier()


def _extra(extra: str, value: Mapping[str, Any], schema: Mapping[str, Any], *, cut: bool) -> Said:
    known = schema.get("properties", {})
    if cut and re.match(r"\w+:\w", extra):
        return COLON_ALONE
    if cut:
        what = f'a comma ends the text before "{extra}".'
        return Said(what, "In braces a comma begins the next entry.", f"{QUOTED[:-1]}, the comma within.")
    meant = _meant(extra, value, schema)
    if meant:
        write = f"Write {meant.split(chr(34))[1]}: in its place, or take it out."
    else:
        write = f"Take it out, or write one of these: {_listed(known)}."
    return Said(f'"{extra}" is not known here.{meant}', _ONLY_KNOWN, write)


def _missing(missing: str, value: Mapping[str, Any], schema: Mapping[str, Any]) -> Said:
    means = schema.get("properties", {}).get(missing, {}).get("description") or "It is needed here."
    write = f"Add a line that begins with {missing}: and then the value."
    return Said(f'"{missing}" is missing{_of(value)}.', f"It means: {means}", write)


def _listed(known: Iterable[str]) -> str:
    names = list(known)
    return ", ".join(names[:_MOST_NAMED]) + (" and more" if len(names) > _MOST_NAMED else "")


def _misspelt(value: dict[str, Any], schema: dict[str, Any], missing: str) -> bool:
    """True when a key that is not known is nearly the missing one: then one message is enough."""
    known = schema.get("properties", {})
    wanted = f' Did you mean "{missing}"?'
    return any(_meant(key, value, schema) == wanted for key in value if key not in known)


def _meant(extra: str, value: Mapping[str, Any], schema: Mapping[str, Any]) -> str:
    """Which key was meant: rather one that is missing than one that may be left out."""
    missing = [key for key in schema.get("required", ()) if key not in value]
    return did_you_mean(extra, missing) or did_you_mean(extra, schema.get("properties", {}))


def _of(value: Mapping[str, Any]) -> str:
    for key in ("id", "kind", "variant", "row", "size", "label"):
        if isinstance(value.get(key), str):
            return f" in {value[key]}"
    return ""


def _sentence(what: str, value: Any, wanted: Any, path: tuple[str | int, ...]) -> tuple[str, str]:
    """What is wrong, and what to write instead."""
    name = next((str(p) for p in reversed(path) if isinstance(p, str)), "the file")
    if what == "type":
        kinds = [wanted] if isinstance(wanted, str) else wanted
        return f"{name} must be {' or '.join(_CALLED[k] for k in kinds)}, not {_called(value)}.", _as(kinds[0], value)
    if what == "enum":
        listed = ", ".join(_text(v) for v in wanted)
        meant = did_you_mean(value, [v for v in wanted if isinstance(v, str)]) if isinstance(value, str) else ""
        write = f"Write {meant.split(chr(34))[1]}." if meant else "Write one of the words that are allowed."
        return f"{_text(value)} is not allowed for {name}; allowed: {listed}.{meant}", write
    if what == "pattern":
        if not wanted.startswith(_ID_BEGINS):
            return f'"{value}" is not allowed for {name}.', "Write it like the others of this file."
        slug = re.sub(r"[^a-z0-9]+", "_", str(value).casefold()).strip("_")
        slug = slug if slug[:1].isalpha() else f"a_{slug}".rstrip("_")
        return f'"{value}" is not an id; use lower case letters, digits and underscores.', f'Write "{slug}".'
    if what in ("minItems", "minLength"):
        if value:
            return f"{name} has too little in it.", f"Write at least {wanted}."
        return f"{name} is empty.", "Write something in it, or take the line out."
    if what == "maxItems":
        return f"{name} has more than {wanted} entries.", f"Take some out, so that {wanted} are left."
    if what == "uniqueItems":
        return f"{name} has the same entry twice.", "Take one of the two out."
    if what in ("minimum", "maximum"):
        side = "least" if what == "minimum" else "most"
        other = "larger" if side == "least" else "smaller"
        return f"{name} must be at {side} {wanted}.", f"Write {wanted}, or a {other} number."
    return f"{name} does not fit ({what}).", "Compare it with a neighbour in the same file."


def _as(kind: str, value: Any) -> str:
    """How a value of that sort is written."""
    if kind == "array":
        inside = _text(value) if isinstance(value, str | int | float) else "..."
        return f"Write it in square brackets: [{inside}]."
    return {
        "object": "Write it in braces: {key: value}.",
        "string": "Write words; in quotes where they hold a colon or are a number.",
        "integer": f"Write digits only, such as {_digits(value)}.",
        "number": "Write a number, such as 1.5.",
        "boolean": "Write true or false.",
    }.get(kind, "Leave it empty.")


def _digits(value: Any) -> str:
    found = re.search(r"[0-9]+", str(value))
    return found[0] if found else "2"


def _called(value: Any) -> str:
    if value is None:
        return "empty"
    if isinstance(value, bool):
        return _text(value)
    if isinstance(value, dict):
        return _CALLED["object"]
    if isinstance(value, list):
        return _CALLED["array"]
    return f'"{value}"' if isinstance(value, str) else f"the number {value}"


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)
