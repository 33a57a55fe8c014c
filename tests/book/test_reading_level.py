"""How hard the book is to read: published numbers, words whose syllables are hard to count, what the book holds."""

from __future__ import annotations

import re
from statistics import median

import pytest

from firstfurrow.book.check import examine
from firstfurrow.book.files import Files
from firstfurrow.book.places import book_folder
from firstfurrow.book.reading_level import Counts, counts, median_grade, sentences_of, together, words_of
from firstfurrow.book.rules import reading
from firstfurrow.book.rules.texts import Text, of_questions
from firstfurrow.book.syllables import syllables
from firstfurrow.book.trade_words import hits

MOST_WORDS = 22  # of a question; ours
MEDIAN_GRADE = 6.0  # ours


@pytest.fixture(scope="module")
def files() -> Files:
    return Files(book_folder())


def texts(files: Files, *sorts: str) -> list[Text]:
    return [text for text in of_questions(files) if text.sort in sorts]


# ------------------------------------------------------------------- the measure


@pytest.mark.published("flesch_kincaid_web")
def test_the_example_of_a_public_description() -> None:
    """Source flesch_kincaid_web: this sentence has 13 words, 24 syllables and the grade 11.3."""
    found = counts("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.")
    assert found == Counts(1, 13, 24)
    assert found.grade == pytest.approx(11.3, abs=0.05)


@pytest.mark.published("flesch_kincaid_web")
def test_the_easiest_there_is() -> None:
    """Source flesch_kincaid_web: sentences of one word of one syllable have the highest ease there can be, 121.22."""
    assert counts("Go. Go.").ease == pytest.approx(121.22)


@pytest.mark.parametrize(
    ("word", "number"),
    [
        # source cmudict
        ("acre", 2), ("area", 3), ("evening", 2), ("everything", 3), ("vegetables", 3), ("tongue", 1), ("tine", 1),
        ("tines", 1), ("boxes", 2), ("angled", 2), ("settled", 2), ("turned", 1), ("wanted", 2), ("metres", 2),
        ("axle", 2), ("idle", 2), ("bodies", 2), ("heaviest", 3), ("carrying", 3), ("buyers", 2), ("beyond", 2),
        ("fuel", 2), ("values", 2), ("careful", 2), ("livestock", 2), ("hydraulic", 3), ("hydrostatic", 4),
        ("implement", 3), ("special", 2), ("people", 2), ("quiet", 2), ("going", 2), ("played", 1), ("the", 1),
        # ours
        ("PTO", 3), ("ROPS", 1), ("GVWR", 4), ("540", 1), ("tractor's", 2),
    ],
)  # fmt: skip
def test_words_that_are_hard_to_count(word: str, number: int) -> None:
    assert syllables(word) == number


def test_slots_and_numbers_are_words_of_one_syllable() -> None:
    assert counts("{what} is 1,200 lb.") == Counts(1, 4, 4)


def test_a_hyphen_joins_one_word_and_keeps_all_its_syllables() -> None:
    assert counts("three-point hitch") == Counts(1, 2, 3)


def test_a_stop_inside_a_number_ends_nothing() -> None:
    assert sentences_of("A gap of 1.5 m. Type it!") == ("A gap of 1.5 m.", "Type it!")
    assert sentences_of("") == ()
    assert words_of("- % ()") == ()


def test_texts_add_up() -> None:
    assert together(["One two.", "Three."]) == Counts(2, 3, 3)
    assert median_grade(["Go.", "Go.", "Unimaginable."]) == counts("Go.").grade


# ---------------------------------------------------------------------- the book


def test_no_question_is_longer_than_can_be_read_in_one_breath(files: Files) -> None:
    long = {t.question: len(words_of(t.text)) for t in texts(files, "ask") if len(words_of(t.text)) > MOST_WORDS}
    assert long == {}


def test_half_of_the_questions_read_at_primary_school(files: Files) -> None:
    grades = [counts(text.text).grade for text in texts(files, "ask")]
    assert len(grades) > 60
    assert median(grades) <= MEDIAN_GRADE


def test_no_question_or_answer_uses_a_hard_word(files: Files) -> None:
    hard = files.read["glossary.yaml"].data["hard_words"]
    assert len(hard) > 30
    used = [(text.question, hit.word) for text in texts(files, "ask", "label") for hit in hits(hard, text.text)]
    assert used == []


def test_a_hard_word_is_not_written_instead_of_another_one(files: Files) -> None:
    hard = files.read["glossary.yaml"].data["hard_words"]
    assert [hit.word for instead in hard.values() for hit in hits(hard, instead)] == []


# --------------------------------------------------------------- what is printed


def test_the_level_is_one_line_about_questions_whys_and_page(files: Files) -> None:
    line = reading.level(files)
    assert "\n" not in line
    for name, sorts in (("questions", ("ask", "label")), ("whys", ("why",))):
        found = together(text.text for text in texts(files, *sorts))
        assert f"{name} {found.grade:.1f}, {found.ease:.0f}" in line
    assert "; page " in line


def test_the_hardest_five_sentences_are_named_with_their_place(files: Files) -> None:
    found = list(reading.hardest(files))
    assert len(found) == reading.HARDEST
    grades = [float(problem.message.split("(grade ")[1].split(")")[0]) for problem in found]
    assert grades == sorted(grades, reverse=True)
    assert all(problem.line > 1 and problem.file.endswith(".yaml") for problem in found)
    everything = [s for t in texts(files, "ask", "label", "why") for s in sentences_of(t.text)]
    assert grades[-1] >= max(counts(s).grade for s in everything if len(words_of(s)) >= reading.SHORTEST)


def test_they_are_hints_and_no_problems() -> None:
    checked = examine(book_folder())
    assert checked.problems == ()
    found = {notes.title: notes.found for notes in checked.notes}
    assert [note.what[:12] for note in found["The sentences that are hardest to read"]] == (
        ["hard to read"] * reading.HARDEST
    )
    for note in found.get("Long sentences", ()):
        assert re.match(r"this sentence has \d+ words", note.what)
    assert checked.level.startswith("Reading level")
