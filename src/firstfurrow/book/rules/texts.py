"""What a reader of the book meets in words, text by text, with the place where each one stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem, Said

Sort = Literal["ask", "label", "why", "other", "page"]


@dataclass(frozen=True, slots=True)
class Text:
    """One text: what it is to the reader, and the question that it belongs to."""

    sort: Sort
    text: str
    part: Placed
    path: tuple[str | int, ...]
    question: str = ""

    def problem(self, said: Said) -> Problem:
        """A problem at this text."""
        return self.part.problem(said, *self.path)


def conversation(files: Files) -> Iterator[Text]:
    """What is said while somebody is asked: questions first, then all that stands round them.

    A label is a choice or a lettered suggestion. Names and builds of implements stand beside their own plain words, and
    are not looked at here.
    """
    yield from of_questions(files)
    for _, section in files.of("sections"):
        yield from _texts(section, "other", "title", "intro")
    for guide in files.guides:
        yield from _texts(guide, "other", "title", "steps")
    settings = files.read["settings.yaml"]
    for name in settings.data:
        yield from _texts(settings[name], "other", "title", "intro")
    messages = files.read["messages.yaml"]["messages"]
    yield from _texts(messages, "other", *messages.data)


def of_questions(files: Files) -> Iterator[Text]:
    """What stands in a question."""
    for question in files.questions:
        yield from _texts(question.at, "ask", "ask", question=question.id)
        for words in question.at.each("asks"):
            yield from _texts(words, "ask", "ask", question=question.id)
        for choice in question.at.each("choices"):
            yield from _texts(choice, "label", "label", "note", question=question.id)
        for band in question.at.each("bands"):
            yield from _texts(band, "label", "label", question=question.id)
        yield from _texts(question.at, "why", "why", question=question.id)
        yield from _texts(question.at["not_sure"], "other", "say", question=question.id)


def page(files: Files) -> Iterator[Text]:
    """What stands on the page at the end: its own sentences, the reasoning, and what is said of each requirement."""
    for name in ("report.yaml", "reasons.yaml", "pictures.yaml", "sheets.yaml", "classroom.yaml"):
        if name in files.read:
            sentences = files.read[name]["messages"]
            yield from _texts(sentences, "page", *sentences.data)
    for requirement in files.requirements:
        yield from _texts(requirement, "page", "title", "what", "check", "caveats", "cautions")
        yield from _texts(requirement["later"], "page", "what")


def of_kinds(files: Files) -> Iterator[Text]:
    """What is said of the implements."""
    for _, kind in files.kinds:
        yield from _texts(kind, "other", "name", "plain", "needs", "mistakes", "cautions")
        for variant in kind.each("variants"):
            yield from _texts(variant, "other", "name")
            for oil in variant.each("oil"):
                yield from _texts(oil, "other", "job")


def _texts(part: Placed, sort: Sort, *keys: str, question: str = "") -> Iterator[Text]:
    for key in keys:
        value = part.data.get(key)
        if isinstance(value, str):
            yield Text(sort, value, part, (key,), question)
        elif isinstance(value, list):
            for index, line in enumerate(value):
                yield Text(sort, line, part, (key, index), question)
