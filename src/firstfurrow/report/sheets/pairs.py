"""Pairs of plans that differ in one answer, for a class: the two answers in words, and the plan afterwards."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.choosing import plain
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import ref_of
from firstfurrow.asking.said import answer_words
from firstfurrow.asking.setting import UNSURE
from firstfurrow.asking.typed import Understood, understand
from firstfurrow.book.model import Book, Kind, Question
from firstfurrow.book.teaching import TeachingPair

Run = Callable[[Answers], Profile]


@dataclass(frozen=True, slots=True)
class Apart:
    """One pair: the question with its two answers in words, and the answers after."""

    pair: TeachingPair
    item: str  # the implement that it is about; empty for none
    ask: str
    one: str
    other: str
    after: Answers


def apart(book: Book, answers: Answers, pair: TeachingPair) -> Apart | None:
    """The pair on the answers of its recording; None where an edited book no longer has its question or answer."""
    first = Interview.of(book, answers)
    ref = ref_of(pair.question)
    given = first.given(ref)
    if given is None:
        return None
    question, kind = first.question(ref), first.kind(ref.item)
    other = _read(book, question, pair.other, answers, kind)
    if other is None:
        return None
    one_words, other_words = (answer_words(book.messages, question, each, answers.units) for each in (given, other))
    return Apart(
        pair, kind.name if kind is not None else "", question.ask, one_words, other_words,
        first.change(ref, other).applies(),
    )  # fmt: skip


def _read(book: Book, question: Question, text: str, answers: Answers, kind: Kind | None) -> Given | None:
    if plain(text) in UNSURE:
        return NOT_SURE
    found = understand(question, text, answers.units, kind, book)
    return found.given if isinstance(found, Understood) else None
