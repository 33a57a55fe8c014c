"""The walk around a tractor as data: every key of an offer at exactly one stop, and a mistake is found at its place."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from edited import said_of

from firstfurrow.book.check import check
from firstfurrow.book.files import Files
from firstfurrow.book.load import load
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules import walk_around
from firstfurrow.book.walk_around import boxes

NAME = "walk_around.yaml"


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def found(shipped: Files, old: str = "", new: str = "") -> list[str]:
    return said_of(shipped, NAME, old, new, walk_around.problems)


def test_the_shipped_file_is_right(shipped: Files) -> None:
    assert found(shipped) == []


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("keys: [mid_pto]", "keys: [mid_pt]", 'an offer has no key "mid_pt". Did you mean "mid_pto"?'),
        ("keys: [mid_pto]", "keys: [mid_pt]", 'the key "mid_pto" of offer.yaml stands at no stop; put it where it is'),
        ("keys: [mid_pto]", "keys: [mid_pto, width]", 'the key "width" stands at under already.'),
        ("id: left", "id: front", 'the stop "front" is there twice.'),
        ("id: papers", "id: paper", "there is no stop papers"),
        ("mass: {us: lb", "mass: {us: hp", '"hp" is not a unit of that dimension.'),
        ("  mass: {us: lb, metric: kg}\n", "", 'no unit is given for "mass"'),
        ("turning_circle: {us", "turning_circl: {us", 'no measured key. Did you mean "turning_circle"?'),
        ("title: On the seat", "title: On seat 1", "a figure stands in a sentence"),
        ("look: Kneel beside", "look: Kneel 2 m beside", "a figure stands in a sentence"),
        ("cautions:\n  - \"Engine off", "cautions:\n  - \"2 Engine off", "a figure stands in a sentence"),
        ("keys: [mid_pto]", "keys: []", "keys is empty."),
    ],
)
def test_a_mistake_is_found_and_said(shipped: Files, old: str, new: str, says: str) -> None:
    assert any(says in problem for problem in found(shipped, old, new)), found(shipped, old, new)


def test_a_new_key_of_an_offer_is_missed_by_name(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    shutil.copytree(book_folder(), folder)
    path = folder / "offer.yaml"
    more = "  - {key: ground_clearance, name: clearance, dimension: length, what: Below., where: a tape}\n"
    path.write_text(path.read_text(encoding="utf-8").replace("keys:\n", "keys:\n" + more, 1), encoding="utf-8")
    missed = [str(problem) for problem in check(folder) if problem.file == NAME]
    assert len(missed) == 1
    assert 'the key "ground_clearance" of offer.yaml stands at no stop' in missed[0]
    last = boxes(load(folder))[-1]  # and until that is mended it can be filled in all the same
    assert (last.key.id, last.stop.id) == ("ground_clearance", "papers")


def test_a_book_without_the_file_walks_as_the_shipped_one_does(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    shutil.copytree(book_folder(), folder)
    (folder / NAME).unlink()
    assert check(folder) == ()
    assert [b.key.id for b in boxes(load(folder))] == [b.key.id for b in boxes(load())]
