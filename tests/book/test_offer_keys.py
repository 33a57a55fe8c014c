"""Keys of an offer: the shipped ones have their schema, and a book that somebody edits is checked."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from firstfurrow.book.check import check
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder


def test_the_schema_of_offer_files_knows_every_key(book: Book) -> None:
    path = book_folder() / "schema" / "offer.schema.json"
    schema = json.loads(path.read_text(encoding="utf-8"))
    assert list(schema["properties"]["offer"]["properties"]) == list(book.offer_keys)
    for demo in (Path(__file__).parents[2] / "transcripts_demo" / "offers").glob("*.yaml"):
        Draft202012Validator(schema).validate(yaml.safe_load(demo.read_text(encoding="utf-8")))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("{key: wheelbase,", "{key: wheelbas,", 'an offer has no key "wheelbase". Did you mean "wheelbas"?'),
        ("{id: live, label: live", "{id: alive, label: live", "the levels must be words"),
        ("{key: height_folded, name", "{key: height, name", 'the key "height" is there twice.'),
        ("name: wheelbase, dimension: length, ", "name: wheelbase, ", "either a dimension or words"),
        ("bare: rev/min, tolerance: {value: 25", "bare: hp, tolerance: {value: 25", '"hp" is not a unit'),
        ("{value: 3 %, grade: practice", "{value: 3 %, grade: read", "source"),
    ],
)
def test_an_edit_that_breaks_the_keys_is_found(tmp_path: Path, old: str, new: str, says: str) -> None:
    copy = tmp_path / "book"
    shutil.copytree(book_folder(), copy)
    path = copy / "offer.yaml"
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")
    assert any(says in problem.message for problem in check(copy))


def test_a_book_without_keys_uses_the_shipped_ones(tmp_path: Path, book: Book) -> None:
    copy = tmp_path / "book"
    shutil.copytree(book_folder(), copy)
    (copy / "offer.yaml").unlink()
    assert not check(copy)
    assert list(load(copy).offer_keys) == list(book.offer_keys)
