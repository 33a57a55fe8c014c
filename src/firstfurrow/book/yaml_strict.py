"""One strict YAML reader: plain data, exact positions, and none of the surprises of the full language.

Refused: a key written twice, anchors, aliases, merge keys, tags, tabs, several documents in a file. Plain words stay
words (`yes`, `no`, `on`, `off`), and so do `1:4`, `5:30`, `010` and dates; `1e3` is a number. Keys are always text.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from firstfurrow.book.problems import BookError, Problem

Path_ = tuple[str | int, ...]  # keys and list indexes from the top of the file
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

DEEPEST = 40  # levels; the book needs fewer than ten, and deeper text would exhaust the stack
LARGEST = 4_000_000  # bytes

_INT = re.compile(r"[-+]?(?:0|[1-9][0-9]{0,17})")
_FLOAT = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)?\.[0-9]+|(?:0|[1-9][0-9]*)\.?)(?:[eE][-+]?[0-9]{1,3})?")
_NUMBER_STARTS = frozenset("+-.0123456789")
_WORDS: Mapping[str, bool | None] = {"": None, "null": None, "~": None, "true": True, "false": False}


@dataclass(slots=True)
class Marks:
    """Where each value and key of a file stands: line and column, counted from 1."""

    file: str
    values: dict[Path_, tuple[int, int]] = field(default_factory=dict)
    keys: dict[Path_, tuple[int, int]] = field(default_factory=dict)

    def at(self, path: Sequence[str | int], key: bool = False) -> tuple[int, int]:
        """The position of a value (or of its key), or of the nearest thing around it that has one."""
        full = tuple(path)
        if key and full in self.keys:
            return self.keys[full]
        for length in range(len(full), -1, -1):
            found = self.values.get(full[:length])
            if found is not None:
                return found
        return (1, 1)

    def problem(self, path: Sequence[str | int], message: str, key: bool = False) -> Problem:
        """A problem at that place."""
        return Problem(self.file, *self.at(path, key), message)


def read(path: Path, name: str | None = None) -> Any:
    """The data of a file, without positions (fast).

    Raises
    ------
    BookError
        When the file cannot be read or is not strict YAML.
    """
    return _Reader(_text(path, name or path.name), name or path.name, None).document()


def read_marked(path: Path, name: str | None = None) -> tuple[Any, Marks]:
    """The data of a file and the position of everything in it.

    Raises
    ------
    BookError
        When the file cannot be read or is not strict YAML.
    """
    shown = name or path.name
    return parse_marked(_text(path, shown), shown)


def parse_marked(text: str, name: str) -> tuple[Any, Marks]:
    """The data of a text and the position of everything in it; `name` stands for the file in messages.

    >>> data, marks = parse_marked("size: 1.5 m\\nratio: 1:4\\nfour: 1e3\\n", "x.yaml")
    >>> data
    {'size': '1.5 m', 'ratio': '1:4', 'four': 1000.0}
    >>> marks.at(["ratio"])
    (2, 8)

    Raises
    ------
    BookError
        When the text is not strict YAML.
    """
    marks = Marks(name)
    return _Reader(text, name, marks).document(), marks


def _text(path: Path, name: str) -> str:
    try:
        raw = path.read_bytes()
    except IsADirectoryError:
        raise BookError([Problem(name, 0, 0, "this is a folder, not a file.")]) from None
    except FileNotFoundError:
        raise BookError([Problem(name, 0, 0, "there is no such file.")]) from None
    except OSError as error:
        raise BookError([Problem(name, 0, 0, f"the file cannot be read ({error.strerror}).")]) from None
    if len(raw) > LARGEST:
        raise BookError([Problem(name, 0, 0, "the file is far too large.")])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - raw.rfind(b"\n", 0, error.start)
        raise BookError([Problem(name, line, column, "the file is not saved as UTF-8 text.")]) from None


class _Reader:
    """Builds plain data from the events of the parser."""

    def __init__(self, text: str, name: str, marks: Marks | None) -> None:
        self.text = text
        self.name = name
        self.marks = marks

    def document(self) -> Any:
        loader = None
        try:
            loader = _Loader(self.text)
            self.next = loader.get_event
            return self._stream()
        except yaml.YAMLError as error:
            raise BookError([self._reworded(error)]) from None
        finally:
            if loader is not None:
                loader.dispose()

    def _stream(self) -> Any:
        self.next()  # the stream starts
        event = self.next()
        if isinstance(event, yaml.StreamEndEvent):
            return None
        data = self._value(self.next(), ())
        self.next()  # the document ends
        event = self.next()
        if not isinstance(event, yaml.StreamEndEvent):
            raise self._error(event, "a file holds one document; take out the second one and the line ---.")
        return data

    def _error(self, event: Any, message: str) -> BookError:
        return BookError([Problem(self.name, event.start_mark.line + 1, event.start_mark.column + 1, message)])

    def _value(self, event: Any, path: Path_) -> Any:
        kind = type(event)
        if kind is yaml.AliasEvent:
            raise self._error(event, f"write the value again instead of pointing to it with *{event.anchor}.")
        if event.anchor is not None:
            raise self._error(event, f"names like &{event.anchor} are not used here; take it out.")
        if event.tag is not None:
            raise self._error(event, "tags with an exclamation mark are not used here; take it out.")
        if self.marks is not None:
            self.marks.values[path] = (event.start_mark.line + 1, event.start_mark.column + 1)
        if kind is yaml.ScalarEvent:
            return self._plain(event) if event.implicit[0] else event.value
        if len(path) > DEEPEST:
            raise self._error(event, "this is nested too deeply.")
        if kind is yaml.SequenceStartEvent:
            return self._list(path)
        return self._mapping(path)

    def _plain(self, event: Any) -> Any:
        text = event.value
        if text in _WORDS:
            return _WORDS[text]
        if text[0] in _NUMBER_STARTS:
            if _INT.fullmatch(text):
                return int(text)
            if len(text) <= 40 and _FLOAT.fullmatch(text):
                number = float(text)
                if number in (float("inf"), float("-inf")):
                    raise self._error(event, f"{text} is too large a number.")
                return number
        return text

    def _list(self, path: Path_) -> list[Any]:
        found: list[Any] = []
        while True:
            event = self.next()
            if type(event) is yaml.SequenceEndEvent:
                return found
            found.append(self._value(event, (*path, len(found))))

    def _mapping(self, path: Path_) -> dict[str, Any]:
        found: dict[str, Any] = {}
        lines: dict[str, int] = {}
        while True:
            event = self.next()
            if type(event) is yaml.MappingEndEvent:
                return found
            key = self._key(event)
            if key in found:
                raise self._error(event, f'"{key}" is written twice; the first one is in line {lines[key]}.')
            lines[key] = event.start_mark.line + 1
            inside = (*path, key)
            if self.marks is not None:
                self.marks.keys[inside] = (event.start_mark.line + 1, event.start_mark.column + 1)
            found[key] = self._value(self.next(), inside)

    def _key(self, event: Any) -> str:
        if type(event) is not yaml.ScalarEvent:
            raise self._error(event, "a key must be a plain word.")
        if event.anchor is not None or event.tag is not None:
            raise self._error(event, "a key must be a plain word, without & or !.")
        if event.value == "<<" and event.implicit[0]:
            raise self._error(event, "merging with << is not used here; write the keys out.")
        return str(event.value)

    def _reworded(self, error: yaml.YAMLError) -> Problem:
        """The parser's complaint in plain words, at its place."""
        if _Loader is not yaml.SafeLoader:
            # The slow parser names the character and the place better; this costs only on failure.
            try:
                for _ in yaml.parse(self.text, Loader=yaml.SafeLoader):
                    pass
            except yaml.YAMLError as better:
                error = better
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        said = str(getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read")
        if mark is None:
            where = getattr(error, "position", None)
            if not isinstance(where, int):
                return Problem(self.name, 0, 0, f"this is not YAML: {said}.")
            line = self.text.count("\n", 0, where) + 1
            return Problem(self.name, line, where - self.text.rfind("\n", 0, where), _plain_words(said))
        return Problem(self.name, mark.line + 1, mark.column + 1, _plain_words(said))


# What the parser says, and what a person who edits the book can do about it.
_COMPLAINTS: tuple[tuple[str, str], ...] = (
    ("found character '\\t'", "there is a tab here; indent with spaces."),
    ("mapping values are not allowed", "a colon is not expected here; put the text in quotes if it holds a colon."),
    ("could not find expected ':'", "a colon is missing after the key, here or in the line above."),
    ("did not find expected key", "this line does not fit with the lines above; look at its indent."),
    ("expected <block end>", "this line does not fit with the lines above; look at its indent."),
    ("expected ',' or ']'", "a list that begins with [ is not closed, or a comma is missing."),
    ("expected ',' or '}'", "a part that begins with { is not closed, or a comma is missing."),
    ("expected the node content", "something is missing here, or a comma or bracket is in the wrong place."),
    ("unexpected end of stream", "the text ends inside quotes; close them."),
    ("found unexpected end", "the text ends inside quotes; close them."),
    ("found unknown escape", "after a backslash in double quotes only a few letters are allowed; use single quotes."),
    ("cannot start any token", "this sign cannot begin a value; put the text in quotes."),
    ("undefined alias", "write the value out; a word that begins with * must be in quotes."),
    ("sequence entries are not allowed", "a list line with - is not expected here; look at its indent."),
    ("special characters are not allowed", "there is a control character here; take it out."),
    ("expected a comment or a line break", "this does not fit after the quotes or the bar; look for a stray sign."),
)


def _plain_words(said: str) -> str:
    for needle, words in _COMPLAINTS:
        if needle in said:
            return words
    return f"this is not YAML: {said}."
