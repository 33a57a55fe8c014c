"""Guided measuring as data: the shipped file keeps its rules, and every mistake is found at its place."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from edited import said_of

from firstfurrow.book.files import Files
from firstfurrow.book.load import load
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules import figures, measuring

NAME = "measuring.yaml"


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def found(shipped: Files, old: str = "", new: str = "") -> list[str]:
    """What is said of the shipped file with one change; of other files nothing."""
    lines = said_of(shipped, NAME, old, new, measuring.problems, figures.problems)
    return [line for line in lines if line.startswith(NAME)]


def test_the_shipped_file_is_right(shipped: Files) -> None:
    assert found(shipped) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("only: {side: [implement]}", "only: {sde: [implement]}",
         'no earlier step is called "sde". Did you mean "side"?'),
        ("only: {side: [implement]}", "only: {side: [implment]}",
         'side has no answer "implment". Did you mean "implement"?'),
        ("ask: Which side do you stand at?", "ask: Which of 2 sides do you stand at?", "a figure stands in a sentence"),
        ("id: lower_hole", "id: lower_pin", 'the step "lower_pin" is there twice'),
        ("- id: shaft", "- id: hitch", 'the station "hitch" is there twice'),
        ("  shaft:\n    - row", "  shft:\n    - row", 'there is no station "shft". Did you mean "shaft"?'),
        ("  tape: {value: 1 mm, grade: practice", "  tape: {value: 1 mm, grade: read", 'needs "source"'),
        ("  tape: {value: 1 mm", "  tape: {value: 1 furlong", "furlong"),
        ("grade: read, source: s217", "grade: read, source: s271", 'there is no source "s271".'),
        ('sure: "It is: {name}."', 'sure: "It is: {nme}."', "the slot {nme} is not filled in here"),
        ('sure: "It is: {name}."', 'sur: "It is: {name}."', 'said by the id "sur". Did you mean "sure"?'),
        ('sure: "It is: {name}."', 'sure: "It is: {name."', "a brace is open"),
        ("        dimension: bore\n", "", "dimension goes with the type quantity"),
        ("where the arm sits'", "where the arm sits, and too wide'", "more than 38 characters"),
        ("where the arm sits'", "where the arm sits \u2026'", "plain ASCII"),
        ("where the arm sits'", "where 2 arms sit'", "a figure stands in a drawing"),
        ("anytime: reading", "anytime: readin", 'there is no step "readin". Did you mean "reading"?'),
        ("plausible: [0 %, 60 %]", "plausible: [0 %]", "plausible has too little in it"),
        ("type: count", "type: number", "number is not allowed for type"),
    ],
)  # fmt: skip
def test_a_mistake_is_found_and_said(shipped: Files, old: str, new: str, said: str) -> None:
    assert any(said in problem for problem in found(shipped, old, new))


def test_a_book_without_the_file_measures_as_the_shipped_one_does(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    shutil.copytree(book_folder(), folder)
    (folder / NAME).unlink()
    edited, own = load(folder).measuring, load().measuring
    assert edited is not None
    assert own is not None
    assert list(edited.stations) == list(own.stations)


def test_every_station_has_its_own_finding() -> None:
    """Stations and the steps that findings read are known to the program by name; a renamed one would be dead."""
    import re

    import firstfurrow

    own = load().measuring
    assert own is not None
    rooms = sorted((Path(firstfurrow.__file__).parent / "advice" / "measuring").glob("*.py"))
    source = "\n".join(path.read_text(encoding="utf-8") for path in rooms)
    literal = set(re.findall(r"\"([a-z][a-z0-9_]*)\"", source))
    built = {f"{part}_{way}" for part in ("lower", "upper") for way in ("pin", "hole", "any")}  # as in hitch.py
    for station in own.stations.values():
        assert station.id in literal
        for step in station.steps:
            if step.question.id != "what":  # it only decides which step comes next
                assert step.question.id in literal | built, step.question.id
