"""Trade words in the book: explained, with everyday words beside them; a mistake is found at its place."""

from __future__ import annotations

import copy

import pytest

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.places import book_folder
from firstfurrow.book.rules import shape, trade_words
from firstfurrow.book.yaml_strict import parse_marked

GLOSSARY, PEOPLE, GUIDES = "glossary.yaml", "sections/people.yaml", "guides.yaml"


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def changed(shipped: Files, name: str, old: str, new: str) -> Files:
    """The shipped book with one place of one file written otherwise."""
    text = (book_folder() / name).read_text(encoding="utf-8")
    assert text.count(old) == 1, old
    files = copy.copy(shipped)
    for cached in ("questions", "question", "guides"):
        files.__dict__.pop(cached, None)
    placed = Placed(*parse_marked(text.replace(old, new), name), ())
    assert not shape.misshapen(placed, shipped.schema_of[name])
    files.read = {**shipped.read, name: placed}
    return files


def test_every_trade_word_of_the_shipped_book_is_explained(shipped: Files) -> None:
    assert list(trade_words.problems(shipped)) == []


def test_no_question_of_the_shipped_book_leaves_a_trade_word_alone(shipped: Files) -> None:
    assert [str(hint) for hint in trade_words.hints(shipped)] == []


def test_the_list_of_trade_words_is_long_and_each_one_is_an_entry(shipped: Files) -> None:
    data = shipped.read[GLOSSARY].data
    assert len(data["trade_words"]) > 90
    assert set(data["trade_words"]) <= set(data["words"])


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        # where the reader first meets it
        (GLOSSARY, "  quick coupler: A frame on the arms that picks up tools from the seat. "
         "It moves them further back and costs lift.\n", "",
         'people.yaml:33:30: the trade word "quick coupler" is not explained'),
        (GLOSSARY, "  wheelbase: The distance from the front axle to the rear axle.\n", "",
         'the trade word "wheelbase" is not explained'),  # no question says it: named in the list
        (GLOSSARY, "two_meanings: [bar,", "two_meanings: [bra,", 'no entry is called "bra". Did you mean "ram"?'),
        (GLOSSARY, "  [brush,", "  [brosh,", 'no entry is called "brosh". Did you mean "brush"?'),
    ],
)  # fmt: skip
def test_a_gap_in_the_glossary_is_a_problem(shipped: Files, name: str, old: str, new: str, said: str) -> None:
    wrong = [str(problem) for problem in trade_words.problems(changed(shipped, name, old, new))]
    assert any(said in problem for problem in wrong), wrong


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("with gears and a clutch (gear drive)", "with a gear drive",
         'people.yaml:17:28: the trade word "gear drive" stands alone'),
        ("with a pedal and no gears to change (hydrostatic drive)", "(hydrostatic drive)",
         'the trade word "hydrostatic drive" stands alone'),  # brackets with nothing before them
        ("with gears and a clutch (gear drive)", "with gears and a clutch (gear box drive)",
         '"gear box drive" stands in brackets as a trade word'),
        ("ask: How do you want to change speed?", "ask: How do you utilise gears?", "a hard word; write \"use\""),
    ],
)  # fmt: skip
def test_what_is_hard_for_a_reader_is_named(shipped: Files, old: str, new: str, said: str) -> None:
    found = [str(hint) for hint in trade_words.hints(changed(shipped, PEOPLE, old, new))]
    assert len(found) == 1, found
    assert said in found[0]


@pytest.mark.parametrize(
    "new", ["with a gear drive (gears and a clutch)", "gears (gear drive), any gear drive", "with gears"]
)
def test_everyday_words_on_either_side_will_do(shipped: Files, new: str) -> None:
    old = "with gears and a clutch (gear drive)"
    assert list(trade_words.hints(changed(shipped, PEOPLE, old, new))) == []


def test_a_why_may_use_a_trade_word_that_the_glossary_explains(shipped: Files) -> None:
    files = changed(shipped, PEOPLE, "A tractor tips and brakes in ways", "The drawbar brakes in ways")
    assert list(trade_words.hints(files)) == []
    assert list(trade_words.problems(files)) == []
