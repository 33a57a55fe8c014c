"""The catalogue of sentences: every one that the code asks for is there, every one there is asked for."""

from __future__ import annotations

import re
from pathlib import Path

import firstfurrow
from firstfurrow.asking.wording import wording
from firstfurrow.book.places import book_folder
from firstfurrow.book.yaml_strict import read

MESSAGES: dict[str, str] = read(book_folder() / "messages.yaml")["messages"]
CODE = Path(firstfurrow.__file__).parent
# The talk about measuring has its own words, in measuring.yaml; its rules hold them.
FILES = [p for part in ("asking", "talk") for p in sorted((CODE / part).glob("*.py")) if p.name != "measure.py"]
SOURCE = "\n".join(p.read_text(encoding="utf-8") for p in FILES)
# Ids put together at run time: unsure_ and how the book takes it, what is wrong with a number and on which side.
BUILT = (
    r"what_if_(keep|undo|both)", r"unsure_(planned|left_out|not_determined|from_book)",
    r"(impossible|implausible|mass)_(less|more)",
)  # fmt: skip


def asked_for() -> set[str]:
    return set(re.findall(r"\"([a-z]+(?:_[a-z]+)*)\"", SOURCE))


def test_every_sentence_of_the_catalogue_is_used() -> None:
    words = asked_for()
    unused = {m for m in MESSAGES if m not in words and not any(re.fullmatch(pattern, m) for pattern in BUILT)}
    assert unused == set()


def test_every_sentence_that_the_code_asks_for_is_there() -> None:
    calls = re.findall(
        r"(?:\.message|\.text|wording|_error|raise error)\(\s*(?:[\w.]*messages,\s*|\([^()]*\),\s*)?\"([a-z_]+)\"",
        SOURCE,
    )
    assert len(calls) > 60
    assert {c for c in calls if c not in MESSAGES} == set()


def test_no_sentence_says_what_nobody_fills() -> None:
    filled = set(re.findall(r"(\w+)=", SOURCE))
    for message, text in MESSAGES.items():
        for slot in re.findall(r"\{(\w*)\}", text):
            assert slot in filled, f"{message}: {slot}"


def test_the_formatter_cannot_fail() -> None:
    assert wording({"a": "{x} and {y}"}, "a", x=1) == "1 and (y)"
    assert wording({"a": "{x.real.foo} {"}, "a", x=1) == "{x.real.foo} {"
    assert wording({"a": "{0} {1}"}, "a") == "(0) (1)"
    assert wording({"a": "{0} {}"}, "a") == "{0} {}"
    assert wording({}, "missing") == "missing"
