"""What the book claims an answer to move, tried on random pairs of plans: what is seen, and what nobody claims."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from firstfurrow.advice.moves_tested import Tried, moved, try_moves
from firstfurrow.asking.answers import Given
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.resolve import fits
from firstfurrow.book.model import Book, Question
from making import Maker


def edited(book: Book, change: Callable[[Question], Question]) -> Book:
    """The book with every question changed."""
    sections = []
    for section in book.sections:
        group = section.group
        if group is not None:
            group = replace(group, questions=tuple(map(change, group.questions)))
        sections.append(replace(section, questions=tuple(map(change, section.questions)), group=group))
    return replace(book, sections=tuple(sections))


@pytest.fixture(scope="module")
def found(book: Book) -> Tried:
    return try_moves(book, 1, 150, lambda: None)


def test_a_pair_shows_what_it_is_said_to_show(book: Book, found: Tried) -> None:
    assert found.pairs == 150
    assert len(found.seen) > 80
    for (question, requirement), pair in list(found.seen.items())[::9]:
        assert pair.ref.question == question
        assert requirement in moved(book, pair.answers, pair.ref, pair.other)
        asked = book.question(question)
        assert asked is not None
        if pair.ref.item is None:
            assert fits(book, asked, pair.other, None, None)


def test_every_claim_is_seen_or_named_as_not_seen(book: Book, found: Tried) -> None:
    inner = [q for s in book.sections if s.group is not None for q in s.group.questions]
    claims = {(q.id, r) for q in [*(q for s in book.sections for q in s.questions), *inner] for r in q.moves}
    assert {*found.seen, *found.unseen} == claims
    assert not set(found.seen) & set(found.unseen)


def test_the_same_seed_gives_the_same_pairs(book: Book) -> None:
    counted: list[int] = []
    one = try_moves(book, 5, 12, lambda: counted.append(1))
    assert len(counted) == 12
    assert one == try_moves(book, 5, 12, lambda: None)


def test_what_a_question_does_not_claim_is_found_and_shown_with_few_answers(book: Book) -> None:
    """The soil moves the power. A book in which it claims to move the middle shaft instead is caught."""

    def wrong(question: Question) -> Question:
        return replace(question, moves=("mid_pto",) if question.id == "soil" else ())

    tried = try_moves(edited(book, wrong), 1, 40, lambda: None)
    assert ("soil", "mid_pto") in tried.unseen
    pair = tried.unclaimed["soil", "pto_power"]
    assert "pto_power" in moved(book, pair.answers, pair.ref, pair.other)
    sure = [id_ for id_, given in pair.answers.given.items() if not given.unsure]
    assert len(sure) < 10, sure
    assert len(pair.answers.items) == 1


def test_an_answer_that_changes_nothing_moves_nothing(maker: Maker) -> None:
    answers = maker.answers([{"kind": "rotary_tiller", "size": "1.5 m"}], soil="clay")
    assert moved(maker.book, answers, Ref("soil"), Given("clay", "clay")) == frozenset()
    assert "pto_power" in moved(maker.book, answers, Ref("soil"), Given("sand", "sand"))


@pytest.mark.long
@pytest.mark.parametrize("seed", [1, 2])
def test_no_answer_moves_what_its_question_does_not_name(book: Book, seed: int) -> None:
    """Over ten thousand pairs of plans; nearly every claim is seen in one of them."""
    tried = try_moves(book, seed, 10_000, lambda: None)
    assert dict(tried.unclaimed) == {}
    assert len(tried.seen) > 0.9 * (len(tried.seen) + len(tried.unseen))
