"""Trade words in a question: found whole, in the plural, the longest first; and every one on a screen is explained."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfurrow.asking.resolve import resolve
from firstfurrow.asking.trade_words import glossary_words_in, glossary_words_in_texts
from firstfurrow.book.model import Book, Choice, SizeBand
from firstfurrow.book.trade_words import hits
from making import Maker


def found(book: Book, text: str) -> tuple[str, ...]:
    return glossary_words_in_texts(book, [text])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("the PTO", ("PTO",)),
        ("pto and Drawbar", ("PTO", "drawbar")),  # as the glossary writes them
        ("two remote sets", ("remote set",)),
        ("many axle loads, three sealed gearboxes", ("axle load", "gearbox")),
        ("two categories, two limited categories", ("category", "limited category")),
        ("hydraulic and hydraulics", ("hydraulics",)),
        ("a ball end", ("ball ends",)),
        ("PTO power, then the PTO", ("PTO power", "PTO")),  # the longer one hides the shorter one inside it
        ("a hydraulic top link", ("hydraulic top link",)),
        ("a top link", ("top link",)),
        ("a three point hitch", ("three-point hitch",)),  # space and hyphen are the same
        ("ports support a sporty transport", ("port",)),  # whole words only
        ("a pto-driven tool", ()),  # what a hyphen joins is one word
        ("drawbar, drawbars and drawbar", ("drawbar",)),  # each once
        ("", ()),
    ],
)
def test_words_are_found_whole_in_the_plural_and_the_longest_first(
    book: Book, text: str, words: tuple[str, ...]
) -> None:
    assert found(book, text) == words


def test_a_word_that_may_mean_something_else_is_never_offered(book: Book) -> None:
    assert found(book, "a bar that you lift") == ()
    assert {"bar", "lift"} <= set(book.glossary)


def test_nothing_is_found_where_nothing_is_explained(book: Book) -> None:
    assert glossary_words_in_texts(replace(book, glossary={}), ["the PTO"]) == ()
    assert list(hits((), "the PTO")) == []


def test_ask_answers_and_suggestions_are_looked_at_in_this_order(book: Book, maker: Maker) -> None:
    question = replace(
        maker.questions["soil"],
        ask="Which drawbar?",
        choices=(Choice("a", "a clevis", note="with a pin"), Choice("b", "a PTO")),
        bands=(SizeBand("a thin bushing", 1.0, "1 m"),),
        why="A winch.",
    )
    assert glossary_words_in(book, question) == ("drawbar", "clevis", "pin", "PTO", "bushing")


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("stated_power", ("shaft", "PTO power")),
        ("quick_coupler", ("three arms", "three-point hitch", "pin", "quick coupler")),
        ("haul_rating", ("gross rating",)),
        ("door_height", ("roll bar",)),
        ("heat", ()),
    ],
)
def test_what_questions_of_the_book_offer(book: Book, maker: Maker, name: str, words: tuple[str, ...]) -> None:
    assert set(words) == set(glossary_words_in(book, maker.questions[name]))


def test_the_answers_that_an_implement_brings_are_looked_at(book: Book, maker: Maker) -> None:
    filled = resolve(book, maker.questions["options"], "us", book.kinds["small_square_baler"], None)
    assert "tongue" in glossary_words_in(book, filled)


def test_the_list_of_all_implements_offers_nothing(book: Book, maker: Maker) -> None:
    filled = resolve(book, maker.questions["kind"], "us", None, None)
    assert len(filled.choices) > 50
    assert glossary_words_in(book, filled) == ("implement",)
