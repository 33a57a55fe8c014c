"""A trade word in a question is offered for looking up where it is met first, and explained when it is typed."""

from __future__ import annotations

import re

import pytest
from talking import Plain

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.trade_words import glossary_words_in
from firstfurrow.book.model import Book
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.recordings import Recording, shipped
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore


@pytest.mark.parametrize("recording", shipped(), ids=lambda r: r.name)
def test_every_trade_word_is_offered_once_and_before_the_answer(book: Book, recording: Recording) -> None:
    front = ScriptFront(recording.typed(), 200)
    talk = Conversation(book, front, RehearsalStore(), Answers(), Plain(), "home")
    talk.run()
    offered = re.findall(r"Words explained here: (.*?)\. Type words", " ".join(front.screen.split()))
    words = [word for line in offered for word in line.split(", ")]
    assert len(words) == len(set(words))
    asked = {w for step in talk.interview.said() for w in glossary_words_in(book, talk.interview.question(step.ref))}
    assert asked <= set(words)
    assert asked <= set(book.glossary)


def test_what_is_offered_is_explained(book: Book) -> None:
    front = ScriptFront(["3 acre", "slopes", "words grading", "save"], 200)
    Conversation(book, front, RehearsalStore(), Answers(), Plain(), "home", False).run()
    assert f"grading: {book.glossary['grading']}" in front.screen
