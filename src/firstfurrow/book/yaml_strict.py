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

from firstfurrow.book.problems import BookError, Problem, Said
from firstfurrow.book.yaml_slips import A_DOCUMENT, DOCUMENTS, LOST, QUOTED, odd_key, open_quote, slip

Path_ = tuple[str | int, ...]  # keys and list indexes from the top of the file
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

DEEPEST = 40  # levels; the book needs fewer than ten, and deeper text would exhaust the stack
LARGEST = 4_000_000  # bytes
WORTH_IT = 200_000  # signs; more takes the slow parser longer than a reader waits

_INT = re.compile(r"[-+]?(?:0|[1-9][0-9]{0,17})")
_FLOAT = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)?\.[0-9]+|(?:0|[1-9][0-9]*)\.?)(?:[eE][-+]?[0-9]{1,3})?")
_NUMBER_STARTS = frozenset("+-.0123456789")
_NOTE = re.compile(r"[ \t]+#")
_WORDS: Mapping[str, bool | None] = {"": None, "null": None, "~": None, "true": True, "false": False}


@dataclass(slots=True)
class Marks:
    """Where each value and key stands: line and column, counted from 1, and the file where it is not `file`."""

    file: str
    values: dict[Path_, tuple[int, int]] = field(default_factory=dict)
    keys: dict[Path_, tuple[int, int]] = field(default_factory=dict)
    elsewhere: dict[Path_, str] = field(default_factory=dict)  # of data that was put together from several files
    noted: set[Path_] = field(default_factory=set)  # texts with a note behind them: a # may have cut them short

    def at(self, path: Sequence[str | int], key: bool = False) -> tuple[int, int]:
        """The position of a value (or of its key), or of the nearest thing around it that has one."""
        return self._place(tuple(path), key)[0]

    def problem(self, path: Sequence[str | int], said: Said, key: bool = False) -> Problem:
        """A problem at that place."""
        if not key and tuple(path) in self.noted:
            said = Said(said.what, said.why, f"{said.write} {NOTED}")
        place, where = self._place(tuple(path), key)
        file = self.elsewhere.get(where, self.file)
        named = key and where in self.keys  # the word itself is meant, not what stands beside it
        beside = self._beside(where) if file != self.file and not named else None
        return _at(self.file, *beside, said) if beside is not None else _at(file, *place, said)

    def _beside(self, path: Path_) -> tuple[int, int] | None:
        """What this file writes beside a value of another file: that is what the reader changed."""
        around = path[:-1]
        mine = (p for p in self.keys if p[:-1] == around and p != path and p not in self.elsewhere)
        return next((self.keys[p] for p in mine if around), None)

    def take(self, path: Path_, other: Marks, theirs: Path_) -> None:
        """This place stands where that place of another file stands."""
        if theirs in other.values:
            self.values[path] = other.values[theirs]
        if theirs in other.keys:
            self.keys[path] = other.keys[theirs]
        if theirs in other.noted:
            self.noted.add(path)
        file = other.elsewhere.get(theirs, other.file)
        if file != self.file:
            self.elsewhere[path] = file

    def _place(self, full: Path_, key: bool) -> tuple[tuple[int, int], Path_]:
        if key and full in self.keys:
            return self.keys[full], full
        for length in range(len(full), -1, -1):
            found = self.values.get(full[:length])
            if found is not None:
                return found, full[:length]
        return (1, 1), ()


def _at(file: str, line: int, column: int, said: Said) -> Problem:
    return Problem(file, line, column, said.what, said.why, said.write)


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


def bytes_of(path: Path) -> bytes:
    """What a file holds; of one that is too large, and of a device that never ends, one byte more than `LARGEST`."""
    with path.open("rb") as file:
        return file.read(LARGEST + 1)


def _text(path: Path, name: str) -> str:
    try:
        raw = bytes_of(path)
    except OSError as error:
        raise BookError([_at(name, 0, 0, _unreadable(error))]) from None
    if len(raw) > LARGEST:
        raise BookError([_at(name, 0, 0, TOO_LARGE)])
    if raw.startswith(DOCUMENTS):
        raise BookError([_at(name, 0, 0, A_DOCUMENT)])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - raw.rfind(b"\n", 0, error.start)
        raise BookError([_at(name, line, column, NOT_TEXT)]) from None


def _unreadable(error: OSError) -> Said:
    if isinstance(error, IsADirectoryError):
        return Said("this is a folder, not a file.", "Only a file can be read here.", "Give the name of a file.")
    missing = "What should stand in it is missing."
    if isinstance(error, FileNotFoundError):
        return Said("there is no such file.", missing, "Put it there, or take its name out where it is listed.")
    look = "Look whether you may open it, and whether its disk is there."
    return Said(f"the file cannot be read ({error.strerror}).", missing, look)


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
            raise self._error(event, TWO_DOCUMENTS)
        return data

    def _error(self, event: Any, said: Said) -> BookError:
        return BookError([_at(self.name, event.start_mark.line + 1, event.start_mark.column + 1, said)])

    def _value(self, event: Any, path: Path_) -> Any:
        kind = type(event)
        if kind is yaml.AliasEvent:
            said = Said(
                f"*{event.anchor} points to a value somewhere else.", POINTED,
                "Put straight double quotes round the text; where a value is meant, write it here once more.",
            )  # fmt: skip
            raise self._error(event, said)
        if event.anchor is not None:
            said = Said(f"names like &{event.anchor} are not used here.", POINTED, "Take the name and its & out.")
            raise self._error(event, said)
        if event.tag is not None:
            raise self._error(event, A_TAG)
        if self.marks is not None:
            self.marks.values[path] = (event.start_mark.line + 1, event.start_mark.column + 1)
            if kind is yaml.ScalarEvent and event.implicit[0] and _NOTE.match(self.text, event.end_mark.index):
                self.marks.noted.add(path)
        if kind is yaml.ScalarEvent:
            return self._plain(event) if event.implicit[0] else event.value
        if len(path) > DEEPEST:
            raise self._error(event, TOO_DEEP)
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
                    said = Said(f"{text} is too large a number.", "Nobody can work with it.", "Write a smaller number.")
                    raise self._error(event, said)
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
                what = f'"{key}" is written twice; the first one is in line {lines[key]}.'
                raise self._error(event, Said(what, TWICE, "Take one of them out, or give it another name."))
            lines[key] = event.start_mark.line + 1
            inside = (*path, key)
            if self.marks is not None:
                self.marks.keys[inside] = (event.start_mark.line + 1, event.start_mark.column + 1)
            found[key] = self._value(self.next(), inside)

    def _key(self, event: Any) -> str:
        if type(event) is not yaml.ScalarEvent:
            raise self._error(event, Said("a key must be a plain word.", FOUND_BY_KEY, A_KEY))
        if event.anchor is not None or event.tag is not None:
            raise self._error(event, Said("a key must be a plain word, without & or !.", FOUND_BY_KEY, A_KEY))
        if event.value == "<<" and event.implicit[0]:
            raise self._error(event, MERGED)
        if event.value[:1] == "-" or not event.value.isascii():
            odd = odd_key(event.value) if event.implicit[0] else None
            if odd is not None:
                raise self._error(event, odd)
        return str(event.value)

    def _reworded(self, error: yaml.YAMLError) -> Problem:
        """The parser's complaint in plain words, at its place."""
        if _Loader is not yaml.SafeLoader and len(self.text) <= WORTH_IT:
            # The slow parser names the character and the place better; this costs only on failure.
            deep = 0
            try:
                for event in yaml.parse(self.text, Loader=yaml.SafeLoader):
                    deep += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
                    if deep > DEEPEST:  # it takes longer and longer for each level
                        return self._error(event, TOO_DEEP).problems[0]
            except yaml.YAMLError as better:
                error = better
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        said = str(getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read")
        if mark is None:
            where = getattr(error, "position", None)
            if not isinstance(where, int):
                return _at(self.name, 0, 0, _plain_words(said))
            line = self.text.count("\n", 0, where) + 1
            return _at(self.name, line, where - self.text.rfind("\n", 0, where), _plain_words(said))
        found = None
        if len(self.text) <= WORTH_IT:
            found = slip(self.text, mark.line, mark.column) or self._open_quote(mark.line)
        line, column, in_words = found or (mark.line, mark.column, _plain_words(said))
        return _at(self.name, line + 1, column + 1, in_words)

    def _open_quote(self, line: int) -> tuple[int, int, Said] | None:
        """A quote that is opened in one line and runs into another: there it was not closed."""
        opened = None
        try:
            for token in yaml.scan(self.text, Loader=yaml.SafeLoader):
                in_quotes = isinstance(token, yaml.ScalarToken) and token.style in ("'", '"')
                if in_quotes and token.start_mark.line < token.end_mark.line == line:
                    opened = (token.start_mark, f"before line {line + 1}")
        except yaml.YAMLError as error:
            mark = getattr(error, "context_mark", None)
            told = f"{getattr(error, 'context', '')} {getattr(error, 'problem', '')}"
            if mark is not None and "quoted scalar" in told and "end of stream" in told:
                opened = opened or (mark, "anywhere below")
        return None if opened is None else (opened[0].line, opened[0].column, open_quote(opened[1]))


POINTED = "Who reads one place would have to look for the other."
TWICE = "Only one of the two can hold, and nobody sees which."
FOUND_BY_KEY = "A value is found by the word before its colon."
A_KEY = "Write one word, a colon and a space, then the value."
NOTED = f"What stands behind # is not read: if it belongs to the text, {QUOTED[0].lower()}{QUOTED[1:]}"
TOO_LARGE = Said(
    "the file is far too large.", "What is written by hand has a few pages.",
    "Look whether another file was saved under this name.",
)  # fmt: skip
NOT_TEXT = Said(
    "the file is not saved as UTF-8 text.", "Letters beyond the plain ones would come out wrong.",
    "Save it once more, with the encoding UTF-8.",
)  # fmt: skip
TWO_DOCUMENTS = Said(
    "a file holds one document, and here a second one begins.", "Only the first would be read.",
    "Take out the line --- and what does not belong here.",
)  # fmt: skip
A_TAG = Said(
    "tags with an exclamation mark are not used here.", "They could make a program do more than read.",
    "Put straight double quotes round the text, or take it out.",
)  # fmt: skip
TOO_DEEP = Said(
    "this is nested too deeply.", "No file of this program needs so many levels.",
    "Look for a bracket that is not closed.",
)  # fmt: skip
MERGED = Said("merging with << is not used here.", POINTED, "Write the keys out.")

_INDENT = "Begin it in the same column as the line that it belongs with, with spaces."
# What the parser says; then what is wrong, and what a person who edits the file can do about it.
_COMPLAINTS: tuple[tuple[str, str, str], ...] = (
    ("found character '\\t'", "there is a tab here.", "Indent with spaces."),
    ("mapping values are not allowed", "a colon is not expected here.",
     "Put straight double quotes round the text if it holds a colon, or begin a new line."),
    ("could not find expected ':'", "a colon is missing after the key, here or in the line above.", A_KEY),
    ("did not find expected key", "this line does not fit with the lines above.", _INDENT),
    ("expected <block end>", "this line does not fit with the lines above.", _INDENT),
    ("expected ',' or ']'", "a list that begins with [ is not closed, or a comma is missing.",
     "Put a comma between its entries and ] at its end."),
    ("expected ',' or '}'", "a part that begins with { is not closed, or a comma is missing.",
     "Put a comma between its entries and } at its end."),
    ("expected the node content", "something is missing here, or a comma or bracket is in the wrong place.",
     "Write the value, or take the sign out."),
    ("unexpected end of stream", "the text ends inside quotes.", "Close the quotes."),
    ("found unexpected end", "the text ends inside quotes.", "Close the quotes."),
    ("found unknown escape", "after a backslash in double quotes only a few letters are allowed.",
     "Use single quotes."),
    ("cannot start any token", "this sign cannot begin a value.", QUOTED),
    ("unexpected ':'", "nothing stands after this colon.",
     "Write a space and the value after it, or take the key out."),
    ("undefined alias", "a word that begins with * points to a value that is not there.",
     "Put straight double quotes round the text, or write the value out."),
    ("sequence entries are not allowed", "a list line with - is not expected here.", _INDENT),
    ("special characters are not allowed", "there is a control character here.", "Take it out."),
    ("expected a comment or a line break", "this does not fit after the quotes or the bar.",
     "Look for a stray sign, and take it out."),
)  # fmt: skip


def _plain_words(said: str) -> Said:
    for needle, what, write in _COMPLAINTS:
        if needle in said:
            return Said(what, LOST, write)
    return Said(f"this is not YAML: {said}.", LOST, "Compare it with the lines above.")
