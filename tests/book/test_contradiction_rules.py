"""Contradictions as data: read into objects, and every mistake in them found at its place and said in a sentence."""

from __future__ import annotations

import copy
import shutil
from pathlib import Path

import pytest

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.load import load
from firstfurrow.book.model import Condition, Leaf
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules import conditions, contradictions, figures, prose, questions, shape
from firstfurrow.book.yaml_strict import parse_marked

NAME = "contradictions.yaml"
GOOD = """\
contradictions:
  - id: area_beyond_land
    asked_at: [hay_area, seeding_area]
    with: [land_area]
    more_than: {answer: land_area, times: {value: 1.1, grade: practice}}
    say: "{said} of {land_area}: {asked}"
  - id: soft_ground
    asked_at: [surface]
    with: [land_shape]
    when: {all: [{answer: surface, is: soft}, {not: [{answer: land_shape, includes: wet_places}]}]}
    say: "{surface}, {land_shape}."
  - id: overloaded
    asked_at: [load]
    with: [size]
    more_than: {size_carries: true, times: {value: 1.3, grade: practice}}
    say: "{kind}, {size}: {load} and not {limit}."
  - id: idle_tool
    asked_at: [kind]
    with: [jobs]
    no_job: {but_for: [ballast_box]}
    say: "{kind}: {missing}."
  - id: idle_job
    asked_at: [implements_complete]
    with: [jobs]
    no_tool: {but_for: [towing]}
    say: "{missing}."
"""


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def problems(files: Files, text: str) -> list[str]:
    """What is wrong with the shipped book when its contradictions are these."""
    edited = copy.copy(files)
    edited.__dict__.pop("contradictions", None)  # worked out anew from the edited file
    data, marks = parse_marked(text, NAME)
    edited.read = {**files.read, NAME: Placed(data, marks, ())}
    found = shape.misshapen(edited.read[NAME], "contradictions")
    rules = () if found else (contradictions, conditions, figures, prose)
    return [str(problem) for problem in (*found, *(p for rule in rules for p in rule.problems(edited)))]


def test_good_ones_are_clean(shipped: Files) -> None:
    assert problems(shipped, GOOD) == []
    assert problems(shipped, "contradictions: []\n") == []


MISTAKES = [
    ("    say: \"{missing}.\"\n", "", '22:5: "say" is missing in idle_job.'),
    ("asked_at: [surface]", "asked_at: []", "8:15: asked_at is empty."),
    ("asked_at: [surface]", "askedat: [surface]", '8:5: "askedat" is not known here. Did you mean "asked_at"?'),
    ("id: soft_ground", "id: area_beyond_land", '7:9: the contradiction "area_beyond_land" is there twice.'),
    ("asked_at: [surface]", "asked_at: [surfaces]", '8:16: there is no question "surfaces". Did you mean "surface"?'),
    ("with: [land_shape]", "with: [land_shap]", 'there is no question "land_shap". Did you mean "land_shape"?'),
    ("    no_job: {but_for: [ballast_box]}\n", "", "17:5: a contradiction is found in one way: when, more_than"),
    ("no_job: {but_for: [ballast_box]}", "no_job: {but_for: [ballast_box]}\n    no_tool: {but_for: []}",
     "a contradiction is found in one way"),
    ("[hay_area, seeding_area]", "[hay_area, load]", "all asked for each implement, or none is."),
    ("asked_at: [surface]\n    with: [land_shape]", "asked_at: [surface]\n    with: [size]",
     "size is asked for each implement, the others are not."),
    ("asked_at: [surface]", "asked_at: [surface, soil]", "write one question under asked_at."),
    ("is: soft", "is: sof", 'surface has no choice "sof". Did you mean "soft"?'),
    ("{answer: surface, is: soft}", "{answer: drive, is: gears}", "drive is asked after surface"),
    ("{answer: surface, is: soft}", "{item: kind, has: shaft}", "item is for questions inside the group"),
    ("more_than: {answer: land_area, ", "more_than: {", "compares with one thing: an answer, or what the size"),
    ("{size_carries: true,", "{size_carries: true, answer: land_area,", "compares with one thing"),
    ("with: [land_area]", "with: [jobs]", "land_area must stand under with, too"),
    ("[hay_area, seeding_area]", "[hay_area, hay_hours]", "3:26: hay_hours cannot be compared"),
    ("[hay_area, seeding_area]", "[hay_area, soil]", "soil cannot be compared"),
    ("asked_at: [load]\n    with: [size]", "asked_at: [front_load]\n    with: [tow_mass]",
     "front_load is not asked for each implement, so it has no size."),
    ("value: 1.3, grade: practice", "value: 1.3, grade: read", 'a figure of the grade read needs "source".'),
    ("value: 1.3, grade: practice", "value: much, grade: practice", '"much" is not a number'),
    ("asked_at: [kind]", "asked_at: [when]", "no_job is asked about at the question of the type kind."),
    ("[ballast_box]", "[balast_box]", 'there is no kind of implement "balast_box". Did you mean "ballast_box"?'),
    ("with: [jobs]\n    no_job", "with: [soil]\n    no_job", "no_job is about the jobs: write jobs under with."),
    ("asked_at: [implements_complete]", "asked_at: [road]", "at the closing question of the group."),
    ("[towing]", "[tow]", 'there is no job "tow".'),
    ("{kind}, {size}: {load}", "{kind}, {depth}: {load}", "the slot {depth} is not filled in here; there is asked"),
    ("{surface}, {land_shape}.", "{limit}.", "the slot {limit} is not filled in here"),
    ("{surface}, {land_shape}.", "{surface.", "a brace is open"),
    ("{surface}, {land_shape}.", "more than 10 %.", 'a figure stands in a sentence ("10")'),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), MISTAKES)
def test_each_mistake_is_found_at_its_place(shipped: Files, old: str, new: str, said: str) -> None:
    assert GOOD.count(old) >= 1
    found = problems(shipped, GOOD.replace(old, new, 1))
    assert [line for line in found if line.startswith(f"{NAME}:") and said in line], found


def test_they_are_read_into_objects() -> None:
    by_id = {rule.id: rule for rule in load().contradictions}
    area = by_id["area_beyond_land"]
    assert area.more_than is not None
    assert (area.more_than.answer, area.more_than.times.planning) == ("land_area", 1.1)
    assert area.others == ("land_area",)
    load_ = by_id["load_beyond_size"].more_than
    assert load_ is not None
    assert load_.answer is None
    assert by_id["tool_without_job"].no_job == ("ballast_box", "carry_all")
    assert by_id["job_without_tool"].no_tool == ("towing",)
    assert by_id["soft_ground_nowhere"].when == Condition(
        "all",
        (
            Leaf("answer", "surface", "is", "soft"),
            Condition("not", (Leaf("answer", "land_shape", "includes", "wet_places"),)),
        ),
    )


def test_a_book_may_do_without_them(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    shutil.copytree(book_folder(), folder)
    (folder / NAME).unlink()
    assert tuple(load(folder).contradictions) == ()
    assert Files(folder).contradictions == ()
    assert not Files(folder).problems


WORDED = """\
id: implements
title: T
intro: I.
group:
  id: implements
  title: Implement
  most: 40
  questions:
    - {id: kind, type: kind, ask: What?, why: So., not_sure: {how: refused, say: Name it.}}
    - {id: when, type: choice, ask: When?, why: So., choices: [{id: owned, label: o}, {id: now, label: n}],
       not_sure: {how: planned, planning: now, low: now, high: owned}}
    - id: size
      type: size
      ask: What size, or shall the program choose?
      asks:
        - {when: {all: [{item: when, is: owned}]}, ask: What size is it?, choose: false}
      why: So.
      not_sure: {how: from_book}
  closes: {id: implements_complete, type: choice, ask: More?, why: So., not_sure: {how: refused, say: Say it.},
           choices: [{id: another, label: a}, {id: that_is_all, label: t}]}
"""


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("choose: false", "choose: false", ""),
        ("{item: when, is: owned}", "{item: when, is: ownd}", 'when has no choice "ownd". Did you mean "owned"?'),
        ("{item: when, is: owned}", "{item: size, at_least: 1 m}", "size is asked after size"),
        ("What size is it?,", "What size is it,", "ask must end with a period or a question mark."),
        ("What size is it?,", "What size from 1 on?,", 'a figure stands in a sentence ("1")'),
        ("      type: size\n", "      type: variant\n", "choose is for a question of the type size."),
        ("choose: false", "chose: false", '"chose" is not known here. Did you mean "choose"?'),
    ],
)
def test_other_words_for_a_question_are_checked_too(shipped: Files, old: str, new: str, said: str) -> None:
    assert WORDED.count(old) == 1
    name = "sections/implements.yaml"
    edited = copy.copy(shipped)
    for cached in ("questions", "question"):
        edited.__dict__.pop(cached, None)
    data, marks = parse_marked(WORDED.replace(old, new), name)
    edited.read = {**shipped.read, name: Placed(data, marks, ())}
    found = shape.misshapen(edited.read[name], "section")
    rules = () if found else (conditions, questions, prose)
    said_of = [str(p) for p in (*found, *(p for rule in rules for p in rule.problems(edited))) if p.file == name]
    assert bool(said_of) == bool(said)
    assert all(said in line for line in said_of), said_of
