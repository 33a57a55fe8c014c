"""The shape of a file against its schema, with the validator's complaints put into plain sentences."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, did_you_mean

_CALLED = {
    "object": "keys with values",
    "array": "a list",
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "null": "nothing",
}


@cache
def validator(name: str) -> Any:
    """The validator for a schema of the shipped book; schemas belong to the program, not to an edited copy."""
    from jsonschema import Draft202012Validator

    path: Path = book_folder() / "schema" / f"{name}.schema.json"
    return Draft202012Validator(json.loads(path.read_text(encoding="utf-8")))


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the shape of the files."""
    for name, placed in files.read.items():
        yield from misshapen(placed, files.schema_of[name])


def misshapen(placed: Placed, schema: str) -> list[Problem]:
    """What is wrong with the shape of one file, in the order of its lines."""
    if placed.data is None:
        return [Problem(placed.marks.file, 0, 0, "the file is empty.")]
    found: list[Problem] = []
    for error in validator(schema).iter_errors(placed.data):
        found += _plain(placed, error)
    return sorted(set(found))


def _plain(placed: Placed, error: Any) -> Iterator[Problem]:
    path = tuple(error.absolute_path)
    what = error.validator
    value, wanted = error.instance, error.validator_value
    if what == "additionalProperties":
        known = error.schema.get("properties", {})
        for extra in (key for key in value if key not in known):
            yield placed.problem(f'"{extra}" is not known here.{did_you_mean(extra, known)}', *path, extra, key=True)
    elif what == "required":
        missing = next(key for key in wanted if key not in value and f"'{key}'" in error.message)
        if error.schema.get("additionalProperties") is not False or not _misspelt(value, error.schema, missing):
            yield placed.problem(f'"{missing}" is missing{_of(value)}.', *path)
    else:
        yield placed.problem(_sentence(what, value, wanted, path), *path)


def _misspelt(value: dict[str, Any], schema: dict[str, Any], missing: str) -> bool:
    """True when a key that is not known is nearly the missing one: then one message is enough."""
    known = schema.get("properties", {})
    return any(did_you_mean(key, known) == f' Did you mean "{missing}"?' for key in value if key not in known)


def _of(value: dict[str, Any]) -> str:
    for key in ("id", "kind", "variant", "row", "size", "label"):
        if isinstance(value.get(key), str):
            return f" in {value[key]}"
    return ""


def _sentence(what: str, value: Any, wanted: Any, path: tuple[str | int, ...]) -> str:
    name = next((str(p) for p in reversed(path) if isinstance(p, str)), "the file")
    if what == "type":
        kinds = [wanted] if isinstance(wanted, str) else wanted
        return f"{name} must be {' or '.join(_CALLED[k] for k in kinds)}, not {_called(value)}."
    if what == "enum":
        listed = ", ".join(_text(v) for v in wanted)
        meant = did_you_mean(value, [v for v in wanted if isinstance(v, str)]) if isinstance(value, str) else ""
        return f"{_text(value)} is not allowed for {name}; allowed: {listed}.{meant}"
    if what == "pattern":
        return f'"{value}" is not an id; use lower case letters, digits and underscores.'
    if what in ("minItems", "minLength"):
        return f"{name} has too little in it." if value else f"{name} is empty."
    if what == "maxItems":
        return f"{name} has more than {wanted} entries."
    if what == "uniqueItems":
        return f"{name} has the same entry twice."
    if what in ("minimum", "maximum"):
        return f"{name} must be at {'least' if what == 'minimum' else 'most'} {wanted}."
    return f"{name} does not fit ({what})."


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
