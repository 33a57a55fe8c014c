"""Sentences of the reasoning and of the page: each one is said somewhere, and nothing is said that is not there."""

import re
from pathlib import Path

import pytest

import firstfurrow
from firstfurrow.book.model import Book

SRC = Path(firstfurrow.__file__).parent
LITERAL = re.compile(r"(?:say|title)\(\s*f?\"([^\"]+)\"")
ANY_TEXT = re.compile(r"\"([a-z][a-z0-9_.]*)\"")


ROOMS = {  # where the sentences of each file are said
    "reason.": "advice", "report.": "report", "picture.": "report/pictures", "sheet.": "report/sheets",
    "classroom.": "report/classroom",
}  # fmt: skip


def texts(*rooms: str) -> str:
    """All modules of these rooms, but not of a room inside them that says sentences of its own."""
    apart = [SRC / room for room in ROOMS.values()]
    return "\n".join(
        p.read_text(encoding="utf-8")
        for room in rooms
        for p in sorted((SRC / room).rglob("*.py"))
        if not any(p.is_relative_to(other) and other.is_relative_to(SRC / room) and other != SRC / room
                   for other in apart)
    )  # fmt: skip


def patterns(source: str) -> list[re.Pattern[str]]:
    """What the code says, as patterns: a slot in an f-string stands for any words."""
    return [re.compile(re.sub(r"\\{[^}]*\\}", r".+", re.escape(found))) for found in LITERAL.findall(source)]


@pytest.mark.parametrize(("before", "room"), ROOMS.items())
def test_what_is_said_is_there(book: Book, before: str, room: str) -> None:
    known = [id_.removeprefix(before) for id_ in book.messages if id_.startswith(before)]
    for pattern in patterns(texts(room)):
        assert any(pattern.fullmatch(id_) for id_ in known), pattern.pattern


@pytest.mark.parametrize(("before", "room"), ROOMS.items())
def test_what_is_there_is_said(book: Book, before: str, room: str) -> None:
    source = texts(*(("advice", "report") if before in ("reason.", "report.") else (room,)))
    said = patterns(source)
    named = set(ANY_TEXT.findall(source))
    for id_ in (id_.removeprefix(before) for id_ in book.messages if id_.startswith(before)):
        if id_.startswith(("shown.", "word.")):
            assert id_.split(".")[1] in book.requirements  # looked up by requirement
            continue
        assert id_ in named or any(p.fullmatch(id_) for p in said), f"nobody says {before}{id_}"
