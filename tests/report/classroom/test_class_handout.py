"""A participant's handout: the sheet first, then what decides and why; the same blocks in every form."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of, said_of
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph, Part, Steps, Terms, texts_of
from firstfurrow.report.classroom.handout import LONGEST_NAME, handout
from firstfurrow.report.classroom.names import LONGEST_FILE, plain, safe_file_name
from firstfurrow.report.html import html_page
from firstfurrow.report.markdown import markdown
from firstfurrow.report.text import render
from firstfurrow.report.yard import yard_document
from firstfurrow.talk.recordings import Recording, shipped

NASTY = "<script>alert('x')</script> \"Ann\" | `tick` [a](http://a.example) \x1b[31m\u202e\r\n"
every_recording = pytest.mark.parametrize("recording", shipped(), ids=lambda r: r.name)


def made(book: Book, answers: Answers, name: str = "Ann", file: str = "ann.yaml") -> tuple[Part, Part]:
    unnamed = replace(answers, name=None)
    return handout(profile_of(book, unnamed), said_of(book, unnamed), name, file)


_MADE: dict[str, tuple[Answers, Profile, tuple[Part, Part]]] = {}


def of(book: Book, recording: Recording) -> tuple[Answers, Profile, tuple[Part, Part]]:
    """Answers, profile and handout of a recording, made once for all tests."""
    if recording.name not in _MADE:
        answers = recording.answers(book)
        _MADE[recording.name] = answers, profile_of(book, replace(answers, name=None)), made(book, answers)
    return _MADE[recording.name]


def texts(block: Block) -> str:
    return " ".join(texts_of(block))


@every_recording
def test_the_sheet_for_the_yard_comes_first_with_whose_it_is(book: Book, recording: Recording) -> None:
    _, profile, (yard, _) = of(book, recording)
    plain_sheet = yard_document(profile)
    assert yard.name == "yard"
    assert yard.document[0] == plain_sheet[0]
    assert yard.document[1] == Paragraph("For: Ann", "strong")
    assert len(yard.document) == len(plain_sheet) + 1


@every_recording
def test_each_requirement_has_its_value_what_sets_it_and_a_caution(book: Book, recording: Recording) -> None:
    _, profile, (_, behind) = of(book, recording)
    (lines,) = (dict(block.items) for block in behind.document if isinstance(block, Terms))
    asked = [(o, o.widest) for o in profile.outcomes.values() if o.widest is not None]
    assert len(lines) == len(asked)
    for (outcome, widest), (need, why) in zip(asked, lines.items(), strict=True):
        assert need.startswith(outcome.requirement.title)
        assert widest.shown in need
        assert widest.governed_by is None or widest.governed_by.name in why
        assert all(caution in why for caution in outcome.requirement.cautions[:1])


@every_recording
def test_the_caution_of_a_refusal_stands_behind_its_reason(book: Book, recording: Recording) -> None:
    _, profile, (_, behind) = of(book, recording)
    for refusal in profile.refusals:
        at = behind.document.index(Paragraph(refusal.title, "strong"))
        caution = behind.document[at + 2]
        assert isinstance(caution, Paragraph)
        assert caution.tone == "caution"
        assert refusal.caution in caution.text
        assert all(way in texts(behind.document[at + 3]) for way in refusal.ways_out)
    for conflict in profile.conflicts:
        assert Paragraph(conflict.title, "strong") in behind.document


@every_recording
def test_what_was_taken_says_how_to_find_it_out(book: Book, recording: Recording) -> None:
    _, profile, (_, behind) = of(book, recording)
    bullets = [item for block in behind.document if isinstance(block, Bullets) for item in block.items]
    steps = [block.items for block in behind.document if isinstance(block, Steps)]
    for assumption in profile.assumptions:
        lines = [line for line in bullets if assumption.text in line]
        assert lines, assumption
        if assumption.how is not None:
            assert any(book.guides[assumption.how].title in line for line in lines)
            assert not assumption.moves or book.guides[assumption.how].steps in steps


@every_recording
def test_every_form_has_the_same_blocks(book: Book, recording: Recording) -> None:
    _, _, parts = of(book, recording)
    ids = [id_ for part in parts for id_ in part.ids]
    in_html = re.findall(r'\bid="((?:yard|handout)-\d+)"', html_page("x", parts))
    assert in_html == ids
    assert re.findall(r'<a id="([a-z]+-\d+)"></a>', markdown(parts)) == ids
    text = " ".join(render(tuple(block for part in parts for block in part.document), 80).split()).casefold()
    for part in parts:
        for block in part.document:
            if isinstance(block, Heading):
                assert block.text.casefold() in text


@every_recording
def test_no_line_of_working_is_named_that_is_not_there(book: Book, recording: Recording) -> None:
    for part in of(book, recording)[2]:
        for block in part.document:
            assert not re.search(r"\(s\d+\)", texts(block))


@every_recording
def test_the_answers_and_the_warnings_are_there(book: Book, recording: Recording) -> None:
    answers, _, (_, behind) = of(book, recording)
    text = " ".join(map(texts, behind.document))
    for line in said_of(book, answers).answers:
        assert line.ask in text
        assert line.answer in text
    for note in answers.notes:
        assert " ".join(note.split()) in text  # it says that it is invented
    for id_ in ("report.not_covered", "report.manuals"):
        assert Paragraph(book.messages[id_], "caution") in behind.document


def test_who_said_nothing_gets_a_page_that_says_so(book: Book) -> None:
    yard, behind = made(book, Answers())
    for part in (yard, behind):
        assert Paragraph(book.messages["report.nothing_yet"]) in part.document


def test_a_name_is_text_whatever_it_holds(book: Book) -> None:
    for name in (NASTY, NASTY * 200, "x" * 10_000):
        parts = made(book, shipped()[0].answers(book), name, NASTY)
        page = html_page("x", parts)
        assert "<script" not in page
        assert not re.search("[\x1b\r\u202e]", page)
        assert not re.search(r"(?<!\\)<script", markdown(parts))
        text = render(parts[0].document, 80)
        assert not re.search("[\x1b\r\u202e]", text)
        whose = parts[0].document[1]
        assert isinstance(whose, Paragraph)
        assert len(whose.text) <= LONGEST_NAME + len("For: ")


# ------------------------------------------------------------------------ names


@pytest.mark.parametrize("name", [
    "Ann", "../../etc/passwd", "C:\\Windows", "CON", "nul.txt", "a/b", "..", ".", "", " ", "-rf", "\u202egnp",
    "\U0001f69c", "x" * 10_000, "Zo\u00eb", "\u5f20\u4f1f", "a\x00b", "a\nb", "\ud800",
])  # fmt: skip
def test_the_name_of_a_file_is_safe_on_every_system(name: str) -> None:
    found = safe_file_name("handout-", (name, "file.yaml"), frozenset())
    assert re.fullmatch(r"handout-[a-z0-9_][a-z0-9_-]*", found)
    assert len(found) <= LONGEST_FILE
    assert not found.endswith("-")


def test_names_that_fall_together_get_numbers() -> None:
    taken: set[str] = set()
    for _ in range(120):
        for name in ("Ann Lee", "ANN  LEE", "ann/lee", "y" * 90):
            found = safe_file_name("handout-", (name,), taken)
            assert found not in taken
            assert len(found) <= LONGEST_FILE
            taken.add(found)
    assert {"handout-ann-lee", "handout-ann-lee-2", "handout-ann-lee-3"} <= taken


def test_a_name_that_has_no_letters_of_english_takes_that_of_its_file() -> None:
    assert safe_file_name("handout-", ("\u5f20\u4f1f", "b-7.yaml"), frozenset()) == "handout-b-7-yaml"
    assert safe_file_name("handout-", ("\u5f20", "\u4f1f"), {"handout"}) == "handout-2"


def test_a_long_name_is_cut_and_stays_one_line() -> None:
    assert plain("a\n b\t\x07c", 40) == "a b c"
    assert plain("x" * 50, 10) == "x" * 7 + "..."
    assert "\ud800" not in plain("a\ud800b", 10)
