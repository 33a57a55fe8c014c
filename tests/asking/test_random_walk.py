"""Random conversations: the same for the same seed, complete, and of answers that the book takes."""

from __future__ import annotations

import random

import pytest

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import read, write
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.random_walk import MANY, any_answers, other_answer, random_answers
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.resolve import fits
from firstfurrow.book.model import Book

NUMBERS = range(60)


@pytest.fixture(scope="module")
def walks(book: Book) -> list[Answers]:
    return [any_answers(book, 1, number) for number in NUMBERS]


def test_the_same_seed_and_number_give_the_same_conversation(book: Book, walks: list[Answers]) -> None:
    assert [any_answers(book, 1, number) for number in NUMBERS[:10]] == walks[:10]
    assert all(any_answers(book, 2, number) != walks[number] for number in NUMBERS[:10])


def test_every_conversation_is_complete(book: Book, walks: list[Answers]) -> None:
    for answers in walks:
        interview = Interview(book, answers)
        assert interview.next() is None
        assert interview.applies() == answers  # and nothing in it lies aside


def test_they_are_of_all_sorts(book: Book, walks: list[Answers]) -> None:
    assert {len(answers.items) for answers in walks} >= {0, 1, 2, 3, MANY}
    assert {answers.units for answers in walks} == {"us", "metric"}
    shares = [sum(g.unsure for g in a.given.values()) / len(a.given) for a in walks]
    assert min(shares) == 0
    assert max(shares) > 0.9
    kinds = {item.given["kind"].value for answers in walks for item in answers.items}
    assert len(kinds) > 50


def test_an_answers_file_gives_them_back(book: Book, walks: list[Answers]) -> None:
    """What a walk saves is the very conversation that went wrong."""
    for answers in walks:
        assert read(write(answers, book), "walk.yaml", book) == answers


def test_numbers_lie_within_what_is_plausible_and_some_at_its_ends(book: Book, walks: list[Answers]) -> None:
    at_an_end = 0
    for answers in walks:
        for id_, given in answers.given.items():
            asked = book.question(id_)
            if asked is not None and asked.type == "quantity" and asked.plausible is not None and not given.unsure:
                low, high = asked.plausible
                assert low - 1e-3 <= given.value <= high + 1e-3, id_
                at_an_end += given.value in (low, high)
    assert at_an_end > 5


def test_another_answer_is_another_one_that_the_question_takes(book: Book, walks: list[Answers]) -> None:
    chance = random.Random("another")
    tried = set()
    for answers in walks:
        places = [Ref(id_) for id_ in answers.given] + [Ref(id_, i.id) for i in answers.items for id_ in i.given]
        for ref in chance.sample(places, 6):
            other = other_answer(book, answers, ref, chance)
            if other is None:
                continue
            tried.add(ref.question)
            interview = Interview(book, answers)
            kind = interview.kind(ref.item)
            before = next((i.given for i in answers.items if i.id == ref.item), answers.given)
            assert other.value != before[ref.question].value
            variant = before.get("variant") if ref.item is not None else None
            built = None if variant is None or variant.unsure else variant.value
            asked = book.question(ref.question)
            assert asked is not None
            assert asked.type == "kind" or fits(book, asked, other, kind, built), (ref, other)
    assert len(tried) > 40


def test_implements_can_be_given_or_left_out(book: Book) -> None:
    plough = book.kinds["mouldboard_plough"]
    assert [i.given["kind"].value for i in random_answers(book, 3, kinds=[plough, plough]).items] == [plough.kind] * 2
    assert random_answers(book, 3, kinds=()).items == ()
    assert 1 <= len(random_answers(book, 3, most=2).items) <= 2
