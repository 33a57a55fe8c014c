"""Prose without figures: a number of the trade stands in a figure field with its grade, never inside a sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator

from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem
from firstfurrow.book.rules.measuring import drawing_problems

_DIGIT = re.compile(r"[0-9]")
_QUESTION = ("ask", "why")
_KIND = ("name", "plain", "needs", "mistakes", "cautions")
_REQUIREMENT = ("title", "what", "check", "caveats", "cautions")


def problems(files: Files) -> Iterator[Problem]:
    """Every sentence with a digit in it. Measuring guides, sources and tables may have them."""
    for _, section in files.of("sections"):
        yield from _without(section, "title", "intro")
    for question in files.questions:
        yield from _without(question.at, *_QUESTION)
        yield from _without(question.at["not_sure"], "say")
        for words in question.at.each("asks"):
            yield from _without(words, "ask")
        for choice in question.at.each("choices"):
            yield from _without(choice, "label", "note")
        for band in question.at.each("bands"):
            yield from _without(band, "label")
    for _, kind in files.kinds:
        yield from _without(kind, *_KIND)
        if (other := kind.get("done_without")) is not None:
            yield from _without(other, "what")
        for variant in kind.each("variants"):
            yield from _without(variant, "name")
            for oil in variant.each("oil"):
                yield from _without(oil, "job")
    for requirement in files.requirements:
        yield from _without(requirement, *_REQUIREMENT)
        yield from _without(requirement["later"], "what")
    for contradiction in files.contradictions:
        yield from _without(contradiction, "say")
    for guide in files.guides:
        yield from drawing_problems(guide)
    words = files.read["glossary.yaml"]["words"]
    yield from _without(words, *words.data)
    settings = files.read["settings.yaml"]
    for name in settings.data:
        yield from _without(settings[name], "title", "intro")


def _without(part: Placed, *keys: str) -> Iterator[Problem]:
    for key in keys:
        value = part.data.get(key)
        if isinstance(value, str):
            if _DIGIT.search(value):
                yield part.problem(_said(value), key)
        elif isinstance(value, list):
            for index, line in enumerate(value):
                if _DIGIT.search(line):
                    yield part.problem(_said(line), key, index)


def _said(text: str) -> str:
    found = _DIGIT.search(text)
    start = max(0, text.rfind(" ", 0, found.start()) + 1) if found else 0
    return f'a figure stands in a sentence ("{text[start:].split(" ")[0]}"); put it into a figure field, or into words.'
