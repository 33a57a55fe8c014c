"""The schemas: every file names its own, editors can use them, and they describe every key."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules.shape import misshapen
from firstfurrow.book.yaml_strict import parse_marked

SCHEMAS = sorted((book_folder() / "schema").glob("*.schema.json"))
# Keywords that mean the same in draft-07 and 2020-12; editors know them all.
COMMON = {"$schema", "$ref", "title", "description", "type", "properties", "required", "additionalProperties", "items",
          "enum", "pattern", "minLength", "minItems", "maxItems", "uniqueItems", "minimum", "maximum", "definitions",
          "allOf"}  # fmt: skip


def _parts(schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield schema
    for key in ("items", "additionalProperties"):
        if isinstance(schema.get(key), dict):
            yield from _parts(schema[key])
    for key in ("properties", "definitions"):
        for part in schema.get(key, {}).values():
            yield from _parts(part)


@pytest.mark.parametrize("path", SCHEMAS, ids=lambda path: path.name)
def test_a_schema_is_valid_and_describes_every_key(path: Path) -> None:
    schema = json.loads(path.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    for part in _parts(schema):
        assert set(part) <= COMMON
        for name, inner in part.get("properties", {}).items():
            assert "description" in inner or "$ref" in inner, name


def test_there_is_a_schema_for_every_sort_of_file() -> None:
    names = {path.name.removesuffix(".schema.json") for path in SCHEMAS}
    assert names == {"answers", "book", "check", "contradictions", "edition", "family", "glossary", "guides",
                     "measuring", "messages", "offer", "offer_keys", "profile",
                     "requirements", "section", "settings", "sources", "table", "teaching", "walk_around"}  # fmt: skip


def test_every_file_begins_with_its_schema() -> None:
    files = Files(book_folder())
    assert not files.problems
    for name, schema in files.schema_of.items():
        path = book_folder() / name
        first = path.read_text(encoding="utf-8").split("\n", 1)[0]
        named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
        assert named, name
        assert (path.parent / named[1]).resolve() == (book_folder() / "schema" / f"{schema}.schema.json").resolve()


ANSWERS = """
format: firstfurrow-answers/1
book: {id: firstfurrow, version: 1}
units: us
answers:
  land_area: 14 acre
  jobs: [hay, snow]
  side_slope: not sure
  implements:
    - {item: i1, kind: rotary_cutter_medium, size: 6 ft, when: owned, rank: must, with: [hydraulic_top_link]}
aside: {}
"""


def _wrong(text: str) -> list[str]:
    data, marks = parse_marked(text, "a.yaml")
    return [f"{p.place}: {p.what}" for p in misshapen(Placed(data, marks, ()), "answers")]


def test_an_answers_file_fits_its_schema() -> None:
    assert _wrong(ANSWERS) == []
    assert _wrong(ANSWERS.replace("item: i1", "itm: i1")) == ['a.yaml:10:7: "item" is missing in rotary_cutter_medium.']
    other = _wrong(ANSWERS.replace("units: us", "units: uk"))
    assert other == ["a.yaml:4:8: uk is not allowed for units; allowed: us, metric."]
    assert _wrong(ANSWERS.replace("answers/1", "answers/2"))[0].startswith("a.yaml:2:9: firstfurrow-answers/2 is not")
