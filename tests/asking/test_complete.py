"""Answers carried to the end: one walk gives what answering the questions one after the other gives."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item
from firstfurrow.asking.complete import complete
from firstfurrow.asking.interview import THAT_IS_ALL, Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.book.load import load
from firstfurrow.book.model import Book

BOOK = load(None)


def one_by_one(book: Book, answers: Answers) -> Answers:
    """The slow way: *unsure* typed at every question that is left; an implement without a name is taken off."""
    interview = Interview.of(book, answers)
    while (place := interview.next()) is not None:
        question = interview.raw_question(place)
        if interview.group_closed_by(question) is not None:
            interview = interview.answer(place, Given(THAT_IS_ALL, THAT_IS_ALL))
        elif question.not_sure.how == "refused" and place.item is not None:
            if any(item.id == place.item for item in interview.answers.items):
                interview = interview.remove_item(place.item)
            else:
                interview = interview.answer(Ref("implements_complete"), Given(THAT_IS_ALL, THAT_IS_ALL))
        else:
            interview = interview.answer(place, NOT_SURE)
    return interview.applies()


def _random_answers(seed: int) -> Answers:
    """Some answers of a walk that chooses at random, with items that were named, half answered or only opened."""
    chance = random.Random(seed)
    given = {
        question.id: Given(choice.id, choice.id) if question.type == "choice" else Given((choice.id,), choice.id)
        for section in BOOK.sections
        for question in section.questions
        if question.choices and chance.random() < 0.5 and (choice := chance.choice(question.choices))
    }
    items = []
    for number in range(chance.randrange(4)):
        kind = chance.choice(list(BOOK.kinds.values()))
        mine = {"kind": Given(kind.kind, kind.kind)} if chance.random() < 0.8 else {}
        if mine and chance.random() < 0.5:
            mine["when"] = Given("owned", "owned")
        items.append(Item(f"i{number + 1}", mine))
    return Answers(given=given, items=tuple(items), items_made=len(items))


@pytest.mark.parametrize("seed", range(40))
def test_one_walk_gives_what_one_answer_after_the_other_gives(seed: int) -> None:
    answers = _random_answers(seed)
    if seed % 4 == 0:  # the list was closed, or not
        answers = replace(answers, given={**answers.given, "implements_complete": Given(THAT_IS_ALL, THAT_IS_ALL)})
    assert complete(BOOK, answers) == one_by_one(BOOK, answers)


def test_nothing_said_is_an_empty_list_and_not_sure_everywhere() -> None:
    found = complete(BOOK, Answers())
    assert found.items == ()
    assert found.given["implements_complete"].value == THAT_IS_ALL
    assert found.given["jobs"].unsure
