"""A model: every answer of a recorded conversation on the worksheet, what comes out, the adviser beside the program."""

from __future__ import annotations

from typing import Any

import pytest

from firstfurrow.asking.interview import Interview
from firstfurrow.book.model import Book
from firstfurrow.book.yaml_strict import read
from firstfurrow.pages import parts_of, profile_of
from firstfurrow.report.blocks import Bullets, FillIn, Heading, Paragraph, Part, Table
from firstfurrow.report.sheets.deciding import entries
from firstfurrow.report.sheets.model import model_parts
from firstfurrow.report.sheets.questions import Worksheet
from firstfurrow.talk.recordings import Recording, shipped

each = pytest.mark.parametrize("recording", shipped(), ids=lambda r: r.name)


def adviser_of(recording: Recording) -> Any:
    path = recording.folder / "adviser.yaml"
    return read(path) if path.is_file() else None


def model(book: Book, recording: Recording) -> tuple[Part, ...]:
    answers = recording.answers(book)
    return model_parts(book, answers, profile_of(book, answers), (Heading("What comes out", 1),), adviser_of(recording))


@each
def test_every_answered_question_stands_there_with_its_answer_and_no_other(book: Book, recording: Recording) -> None:
    interview = Interview(book, recording.answers(book))
    sheet = Worksheet(book, interview.answers.units)
    filled = [block for block in model(book, recording)[0].document if isinstance(block, FillIn)]
    assert [box.id for box in filled] == [step.ref.question for step in interview.said()]
    assert [box.number for box in filled] == [str(sheet.numbers[box.id]) for box in filled]
    for box, step in zip(filled, interview.said(), strict=True):
        assert step.given is not None
        on = [tick.label for tick in box.ticks if tick.on]
        if step.given.unsure:
            assert [label.startswith("not sure") for label in on] == [True]
            assert not box.blanks
        elif on:
            labels = {choice.id: choice.label for choice in interview.question(step.ref).choices}
            said = step.given.value if isinstance(step.given.value, tuple) else (step.given.value,)
            assert on == [label for id_, label in labels.items() if id_ in said]
            assert not box.blanks
        else:
            kind = interview.kind(step.ref.item)
            named = kind is not None and box.id == "kind"
            assert [blank.written for blank in box.blanks] == [kind.name if kind and named else step.given.text]


@each
def test_it_says_that_it_is_invented_and_keeps_the_notes(book: Book, recording: Recording) -> None:
    texts = [block.text for block in model(book, recording)[0].document if isinstance(block, Paragraph)]
    assert any("invented" in text for text in texts[:1])
    assert set(recording.answers(book).notes) <= set(texts)


def test_what_comes_out_begins_a_page_of_its_own(book: Book) -> None:
    recording = shipped()[0]
    answers = recording.answers(book)
    comes_out = tuple(block for part in parts_of(book, answers, full=False) for block in part.document)
    parts = model_parts(book, answers, profile_of(book, answers), comes_out)
    assert [part.name for part in parts] == ["model", "key-comes-out"]
    assert parts[1].document == comes_out


@pytest.mark.parametrize("recording", [r for r in shipped() if adviser_of(r)], ids=lambda r: r.name)
def test_what_an_adviser_says_stands_beside_what_the_program_says_now(book: Book, recording: Recording) -> None:
    adviser = adviser_of(recording)
    program = {entry.name: entry for entry in entries(profile_of(book, recording.answers(book)))}
    page = next(part for part in model(book, recording) if part.name == "key-adviser").document
    table = next(block for block in page if isinstance(block, Table))
    assert [row[0] for row in table.rows] == [line["adviser"] for line in adviser["table"]]
    for row, line in zip(table.rows, adviser["table"], strict=True):
        assert (line["agreement"] == "missing") is ("nothing of this" in row[1])
        if "entry" in line:
            name = next(name for name in program if line["entry"] == name or line["entry"].startswith(f"{name}:"))
            assert program[name].title in row[1]
            assert str(line.get("says", "")) in row[1]
    listed = [item for block in page if isinstance(block, Bullets) for item in block.items]
    whys = [line["why"].strip() for line in (*adviser["table"], *adviser.get("also", ())) if "why" in line]
    assert len(listed) == len(whys)
    assert all(why in item for why, item in zip(whys, listed, strict=True))
