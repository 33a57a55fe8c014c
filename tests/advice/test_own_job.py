"""A job that only a local edition has: area and hours choose a size, and the steps name it. Invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfurrow.advice.profile import advise
from firstfurrow.asking.answers_file import read
from firstfurrow.asking.complete import complete
from firstfurrow.book.check import check
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.pages import whole_page

FILES = {
    "edition.yaml": "id: mine\nname: Mine (invented)\nversion: 1\nfor: {id: firstfurrow, version: 1}\n",
    "sections/jobs.yaml": """\
questions:
  - id: jobs
    choices: [{id: orchard_care, label: care for an orchard (sweep up)}]
  - id: orchard_care_area
    after: jobs
    type: quantity
    dimension: area
    when: {all: [{answer: jobs, includes: orchard_care}]}
    ask: How much orchard is there to sweep?
    why: Area and hours give the width.
    moves: [pto_power]
    not_sure: {how: left_out}
    plausible: [0.1 ha, 50 ha]
    possible: [0.01 ha, 500 ha]
  - id: orchard_care_hours
    after: orchard_care_area
    type: quantity
    dimension: time
    when: {all: [{answer: jobs, includes: orchard_care}, {not: [{answer: orchard_care_area, not_sure: true}]}]}
    ask: How many hours may one sweeping take?
    why: Less time means a wider sweeper.
    moves: [pto_power]
    not_sure: {how: planned, planning: 7 h, low: 4 h, high: 14 h}
    plausible: [0.5 h, 80 h]
    possible: [0.1 h, 1000 h]
""",
    "implements/orchard_tools.yaml": """\
family: orchard_tools
title: Tools of the orchard
kinds:
  - kind: windfall_sweeper
    name: windfall sweeper
    plain: A turning brush that sweeps fallen apples into a row.
    jobs: [orchard_care]
    sized_by: area
    area_job: orchard_care
    field_rate: rake_side_delivery
    size_is: width
    sizes: [{size: 1.2 m, categories: ['1']}, {size: 1.8 m, categories: ['1']}, {size: 2.4 m, categories: ['1']}]
    variants: [{variant: mounted, name: carried, way: three_point}]
    shaft: {speeds: [540], engagement: live, power_per_width: {low: 4 kW/m, high: 9 kW/m, grade: practice}}
    mass_per_width: {low: 120 kg/m, planning: 160 kg/m, high: 200 kg/m, grade: practice}
    centre_behind_pins: {low: 500 mm, planning: 700 mm, high: 900 mm, grade: practice}
    speed: {value: 4 km/h, grade: practice}
    cautions: [The brush throws stones. Keep people away.]
""",
}  # fmt: skip
ANSWERS = """\
format: firstfurrow-answers/1
book: {id: firstfurrow, version: 1, edition: mine/1}
units: metric
answers:
  jobs: [orchard_care]
  orchard_care_area: 3 ha
  orchard_care_hours: HOURS
  implements:
    - {item: i1, kind: windfall_sweeper, when: now, size: choose}
"""


def put(folder: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return put(tmp_path_factory.mktemp("edition"), FILES)


@pytest.fixture(scope="module")
def mine(folder: Path) -> Book:
    return load(folder)


def size_and_page(book: Book, hours: str) -> tuple[str, str]:
    answers = complete(book, read(ANSWERS.replace("HOURS", hours), "answers.yaml", book))
    [note] = advise(book, answers).hookups
    return note.sized.size.id, whole_page(book, answers, 300)


def test_such_an_edition_is_clean(folder: Path) -> None:
    assert [str(problem) for problem in check(folder)] == []


def test_less_time_chooses_a_wider_tool(mine: Book) -> None:
    """By hand, at the table's 80 %: 10 x 3 ha / (8 h x 4 km/h x 0.8) = 1.17 m, and in 5 h 1.88 m."""
    assert size_and_page(mine, "8 h")[0] == "1.2 m"
    assert size_and_page(mine, "5 h")[0] == "2.4 m"


def test_the_steps_call_it_by_its_label(mine: Book) -> None:
    assert "area of the care for an orchard: 3 ha" in size_and_page(mine, "5 h")[1]


def test_a_doubt_about_its_hours_is_called_by_its_label(mine: Book) -> None:
    assert "time for one pass of the care for an orchard" in size_and_page(mine, "not sure")[1].casefold()


def test_the_edition_may_give_it_a_short_name(folder: Path, tmp_path: Path) -> None:
    put(tmp_path, {**FILES, "reasons.yaml": "messages: {job.orchard_care: orchard work}\n"})
    assert check(tmp_path) == ()
    assert "area of the orchard work: 3 ha" in size_and_page(load(tmp_path), "5 h")[1]


def test_a_short_name_of_no_job_is_said_by_nobody(tmp_path: Path) -> None:
    put(tmp_path, {**FILES, "reasons.yaml": "messages: {job.orchards: orchard work}\n"})
    [problem] = check(tmp_path)
    assert problem.what == 'nothing is ever said by the id "job.orchards". Did you mean "job.orchard_care"?'
