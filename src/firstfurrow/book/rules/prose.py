"""Prose without figures: a number of the trade stands in a figure field with its grade, never inside a sentence."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem
from firstfurrow.book.rules.digits import digits
from firstfurrow.book.rules.measuring import drawing_problems

_QUESTION = ("ask", "why")
_KIND = ("name", "plain", "needs", "mistakes", "cautions")
_REQUIREMENT = ("title", "what", "check", "caveats", "cautions")


def problems(files: Files) -> Iterator[Problem]:
    """Every sentence with a digit in it. Measuring guides, sources and tables may have them."""
    for _, section in files.of("sections"):
        yield from digits(section, "title", "intro")
    for question in files.questions:
        yield from digits(question.at, *_QUESTION)
        yield from digits(question.at["not_sure"], "say")
        for words in question.at.each("asks"):
            yield from digits(words, "ask")
        for choice in question.at.each("choices"):
            yield from digits(choice, "label", "note")
        for band in question.at.each("bands"):
            yield from digits(band, "label")
    for _, kind in files.kinds:
        yield from digits(kind, *_KIND)
        if (other := kind.get("done_without")) is not None:
            yield from digits(other, "what")
        for variant in kind.each("variants"):
            yield from digits(variant, "name")
            for oil in variant.each("oil"):
                yield from digits(oil, "job")
    for requirement in files.requirements:
        yield from digits(requirement, *_REQUIREMENT)
        yield from digits(requirement["later"], "what")
    for contradiction in files.contradictions:
        yield from digits(contradiction, "say")
    for guide in files.guides:
        yield from drawing_problems(guide)
    words = files.read["glossary.yaml"]["words"]
    yield from digits(words, *words.data)
    settings = files.read["settings.yaml"]
    for name in settings.data:
        yield from digits(settings[name], "title", "intro")
