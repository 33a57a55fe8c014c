"""Notes and pairs for those who teach: a mistake is found at its place; no question that moves something lacks one."""

from __future__ import annotations

import copy
from pathlib import Path

import pytest

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules import shape, teaching
from firstfurrow.book.yaml_strict import parse_marked

NAME = "teaching.yaml"
TEXT = (book_folder() / NAME).read_text(encoding="utf-8")
NOTE = "  - question: soil\n"
PAIR = "    question: i2.brakes\n"


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def changed(shipped: Files, old: str = "", new: str = "") -> Files:
    assert old in TEXT
    files = copy.copy(shipped)
    files.read = {**shipped.read, NAME: Placed(*parse_marked(TEXT.replace(old, new, 1), NAME), ())}
    return files


def found(files: Files) -> list[str]:
    wrong = shape.misshapen(files.read[NAME], "teaching") or teaching.problems(files)
    return [str(problem) for problem in wrong]


def test_the_shipped_notes_and_pairs_are_right(shipped: Files) -> None:
    assert found(changed(shipped)) == []
    assert list(teaching.hints(shipped)) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (NOTE, "  - question: soill\n", 'there is no question "soill". Did you mean "soil"?'),
        (NOTE, "  - question: surface\n", 'the note for "surface" is there twice'),
        ("    wrong: Flat, said", "    wrong: 3 times flat, said", "a figure stands in a sentence"),
        (PAIR, "    question: i2.breaks\n", 'there is no question "breaks" of an implement. Did you mean "brakes"?'),
        (PAIR, "    question: brakes\n", 'there is no question "brakes" outside the implements'),
        (PAIR, "    question: i9.brakes\n", 'the recording hay_on_hills has no implement "i9"; it has i1, i2, i3, i4'),
        ("recording: hay_on_hills", "recording: hay_on_hill", 'there is no recording "hay_on_hill". Did you mean'),
        ("look_at: [mass_towing, trailer", "look_at: [mas_towing, trailer", 'there is no requirement "mas_towing"'),
        ("rises: [trailer_brakes]", "rises: [mass]", 'there is no requirement in look_at "mass"'),
        ("rises: [trailer_brakes]", "rises: [pto_power]", "pto_power cannot rise and fall"),
        ("  - id: gentler_hill", "  - id: wagon_with_brakes", 'the pair "wagon_with_brakes" is there twice'),
        ("    title: One size wider", "    title: 1 size wider", "a figure stands in a sentence"),
        ("    title: One size wider\n", "", '"title" is missing'),
        ("    room: Where on your land", "    rom: Where on your land", 'Did you mean "room"?'),
    ],
)  # fmt: skip
def test_a_mistake_is_found_at_its_place(shipped: Files, old: str, new: str, said: str) -> None:
    wrong = found(changed(shipped, old, new))
    assert any(said in problem for problem in wrong), wrong
    assert all(problem.startswith(f"{NAME}:") for problem in wrong)


def test_a_question_that_moves_something_and_has_no_note_is_named(shipped: Files) -> None:
    files = changed(shipped, NOTE, "  - question: stones\n")  # stones move no requirement
    assert found(files) == []
    [hint] = teaching.hints(files)
    assert str(hint).startswith("sections/ground.yaml:")
    assert "soil moves something, and teaching.yaml has no note for it" in hint.message


def test_a_book_may_do_without(shipped: Files, tmp_path: Path) -> None:
    files = copy.copy(shipped)
    files.read = {name: placed for name, placed in shipped.read.items() if name != NAME}
    assert list(teaching.problems(files)) == []
    assert list(teaching.hints(files)) == []
    (tmp_path / "book.yaml").write_text("id: x\nversion: 1\nsections: []\nfamilies: []\ntables: []\n", encoding="utf-8")
    empty = load(tmp_path).teaching
    assert dict(empty.notes) == {}
    assert tuple(empty.pairs) == ()


def test_each_question_that_moves_a_requirement_has_a_note_in_the_book(book: Book) -> None:
    moving = {
        question.id
        for section in book.sections
        for question in (*section.questions, *(section.group.questions if section.group is not None else ()))
        if question.moves
    }
    assert moving <= set(book.teaching.notes)
    note = book.teaching.notes["side_slope"]
    assert note.question == "side_slope"
    assert note.wrong != note.because != note.room


def test_a_note_is_short(book: Book) -> None:
    for note in book.teaching.notes.values():
        for text in (note.wrong, note.because, note.room):
            assert text.count(". ") + text.count("? ") <= 1, text
            assert len(text.split()) <= 32, text
