"""A typed line as an answer to a question: understood, doubtful (asked once more), or a sentence about the problem."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import isclose

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.choosing import (
    ChoosingError,
    candidates,
    choose_one,
    choose_several,
    names_of,
    plain,
    whole_words,
)
from firstfurrow.asking.kinds import by_name, named, search
from firstfurrow.asking.resolve import feet_and_inches, roughly
from firstfurrow.asking.sizes import size_from
from firstfurrow.asking.slopes import mixed_up
from firstfurrow.asking.tons import as_tonnes
from firstfurrow.asking.usual import MASS, outside, plausible
from firstfurrow.asking.wording import listed, wording
from firstfurrow.asking.words import in_words
from firstfurrow.book.model import Book, Choice, Kind, Question
from firstfurrow.quantities import DIMENSIONS, QuantityError, Typed, convert, format_number, parse, reader_unit
from firstfurrow.quantities.units import asked_for, dimension_named

LONGEST = 200  # characters of a typed line that anybody needs
NUMBER_WORDS = {
    "once": 1, "twice": 2, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "twelve": 12,
}  # fmt: skip
LEAST_NAME = 3  # characters; fewer begin the names of half of all implements
MOST_NAMED = 4  # what a line may mean, in one sentence
_ABOUT = re.compile(
    r"\s*(?:about|around|roughly|approximately|approx\.?|ca\.?|some|maybe|~)\s+(?=[\d.])", re.IGNORECASE
)
ROUGH = "r"  # and a number: one of the rough answers; a bare number is a measure, a letter may be a command
_ROUGH = re.compile(r"\s*\(?r\s?(\d{1,2})[.)\s]*", re.IGNORECASE)
_SIGNED = re.compile(r"[A-Za-z%:'\"°′″’”]")
_COUNT_TAIL = re.compile(
    r"(?<=\d)\s*(?:times?|days?|x)?\s*(?:(?:a|per|each|every)\s+(?:year|season))?\s*\.?$", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Understood:
    """The answer, and a note that repeats how it was taken where that is not plain from the line."""

    given: Given
    note: str = ""


@dataclass(frozen=True, slots=True)
class Doubt:
    """An answer that is hardly meant: asked once more with this sentence, and kept when it is given again.

    `settles` are the values that the sentence names: to give one of them is to answer it.
    """

    given: Given
    sentence: str
    note: str = ""
    settles: tuple[float, ...] = ()

    def settled_by(self, given: Given) -> bool:
        """True when an answer needs no further question, because this one named it."""
        if given == self.given:
            return True
        value = given.value
        return isinstance(value, float) and any(isclose(value, each, rel_tol=1e-6) for each in self.settles)


@dataclass(frozen=True, slots=True)
class Problem:
    """Why the line is no answer, in one sentence; `kinds` are the implements that it may mean.

    `unclear` when it is an answer or an implement, and only the reader can say which.
    """

    sentence: str
    kinds: tuple[str, ...] = ()
    unclear: bool = False


Reading = Understood | Doubt | Problem


def understand(question: Question, text: str, units: Units, kind: Kind | None, book: Book) -> Reading:
    """What a typed line means as an answer to this question (its choices filled in)."""
    line = text.strip()
    if not line:
        return Problem(wording(book.messages, "nothing_typed"))
    if len(line) > LONGEST:
        return Problem(wording(book.messages, "too_long"))
    try:
        return _read(question, line, units, kind, book)
    except (QuantityError, ChoosingError) as error:
        return Problem(str(error))


def _read(question: Question, line: str, units: Units, kind: Kind | None, book: Book) -> Reading:
    if question.type == "quantity":
        return _quantity(question, line, units, kind, book)
    if question.type == "count":
        return _count(question, line, units, book)
    if question.type == "several":
        found = choose_several(question.choices, line, book.messages)
        labels = "; ".join(c.label for c in question.choices if c.id in found)
        return Understood(Given(found, ", ".join(found)), _taken(line, labels, book))
    if question.type == "kind":
        return _kind(question, line, book)
    if question.type == "size" and kind is not None:
        return _size(question, line, units, kind, book)
    if question.type == "text":
        return Understood(Given(line, line))
    if any(section.group is not None and section.group.closes.id == question.id for section in book.sections):
        unclear = _answer_or_implement(question, line, book)
        if unclear is not None:
            return unclear
    choice = choose_one(question.choices, line, book.messages)
    return Understood(Given(choice.id, choice.id), _taken(line, choice.label, book))


def _taken(line: str, label: str, book: Book) -> str:
    """The note for an answer given in words; a number from the list needs none, its label stands on the screen."""
    return "" if line[0].isdigit() else wording(book.messages, "taken", what=label)


# ------------------------------------------------------------------- numbers


def bare_unit(question: Question, units: Units) -> str:
    """The unit that a number without unit has at this question."""
    return question.bare_unit.get(units) or reader_unit(question.dimension or "ratio", units)


def _quantity(question: Question, line: str, units: Units, kind: Kind | None, book: Book) -> Reading:
    dimension = question.dimension or "ratio"
    band = _band(question, line)
    if band is not None:
        value = parse(band, dimension).working
        shown = roughly(value, dimension, units)
        label = next(b.label for b in question.bands if b.text == band)  # words may mean another one than he thinks
        note = _taken_as(shown if _ROUGH.fullmatch(line) else f"{label}: {shown}", book)
        return _ranged(question, Given(value, band), units, kind, book, note)
    if not any(c.isnumeric() for c in line):
        return _no_number(question, line, dimension, book)
    as_typed = _ABOUT.sub("", line)
    line = as_tonnes(as_typed, dimension, units)
    unit = bare_unit(question, units)
    parsed = parse(line, dimension, unit)
    bare = bool(unit) and not _SIGNED.search(line)
    given = Given(parsed.working, f"{format_number(parsed.number, 6)} {unit}" if bare else line)
    other = _said_otherwise(parsed, dimension, units)
    note = _taken_as(f"{given.text}{other}", book) if bare or other or line != as_typed else ""
    if dimension == "slope":
        mixed = mixed_up(question, parsed, given, bare, units, book)
        if mixed is not None:
            return Doubt(given, mixed[0], note, mixed[1]) if mixed[1] else Problem(mixed[0])
        if parsed.unit == "deg":
            percent = f"{format_number(parsed.working, 0)} %"
            note = _taken_as(wording(book.messages, "slope_in_percent", what=given.text, percent=percent), book)
    return _ranged(question, given, units, kind, book, note)


def _said_otherwise(parsed: Typed, dimension: str, units: Units) -> str:
    """The same in the unit in which the reader usually sees it, where he typed another: " = 5 ft 6 in"."""
    usual = reader_unit(dimension, units)
    if parsed.unit == usual or dimension == "slope" or not usual:
        return ""
    if usual == "ft" and dimension == "length":
        return f" = {feet_and_inches(parsed.working)}"
    there = convert(parsed.working, DIMENSIONS[dimension].working, usual)
    digits = 2 if abs(there) < 10 else 1 if abs(there) < 100 else 0
    return f" = {format_number(there, digits)} {usual}" if there else ""


def _no_number(question: Question, line: str, dimension: str, book: Book) -> Problem:
    """Words where a number goes: what may be typed instead, the letters too where there are some."""
    example = asked_for(dimension_named(dimension))
    message = "no_number_letters" if question.bands else "no_number"
    last = f"{ROUGH}{len(question.bands)}"
    return Problem(wording(book.messages, message, text=line[:40], example=example, first=f"{ROUGH}1", last=last))


def _taken_as(written: str, book: Book) -> str:
    return wording(book.messages, "taken_as", what=written)


def _band(question: Question, line: str) -> str | None:
    """The written value of the rough answer that the line names, as r2 or in its words."""
    number = _ROUGH.fullmatch(line)
    if number is not None:
        at = int(number[1]) - 1
        return question.bands[at].text if 0 <= at < len(question.bands) else None
    if line[0].isdigit() or line[0] in ".+-":
        return None
    found = whole_words([Choice(b.text, b.label) for b in question.bands], line)
    return found[0].id if len(found) == 1 else None


def _count(question: Question, line: str, units: Units, book: Book) -> Reading:
    text = _COUNT_TAIL.sub("", _ABOUT.sub("", line))
    first, _, rest = text.casefold().partition(" ")
    text = f"{NUMBER_WORDS[first]} {rest}" if first in NUMBER_WORDS else text
    text = _COUNT_TAIL.sub("", text.strip())
    if not any(c.isnumeric() for c in text):
        return _no_number(question, line, "count", book)
    value = int(parse(text, "count").working)
    return _ranged(question, Given(value, str(value)), units, None, book, "")


def _ranged(question: Question, given: Given, units: Units, kind: Kind | None, book: Book, note: str) -> Reading:
    """The answer against what is possible at this question, and against what is usual."""
    limits = question.possible
    if limits is not None and not limits[0] <= given.value <= limits[1]:
        low, high = (roughly(limit, question.dimension, units) for limit in limits)
        side = "less" if given.value < limits[0] else "more"
        return Problem(wording(book.messages, f"impossible_{side}", what=given.text, low=low, high=high))
    usual = outside(question, given, kind)
    if usual is None:
        return Understood(given, note)
    low, high = usual.ends(units)
    side = "less" if given.value < usual.low else "more"
    slots = {"what": given.text, "low": low, "high": high}
    if question.id == MASS and kind is not None and usual != plausible(question):
        return Doubt(given, wording(book.messages, f"mass_{side}", kind=kind.name, **slots), note)
    return Doubt(given, wording(book.messages, f"implausible_{side}", **slots), note)


# ---------------------------------------------------------------- implements


def _kind(question: Question, line: str, book: Book) -> Reading:
    number = line.rstrip(".)")
    if number.isascii() and number.isdigit():
        return _found_kind(choose_one(question.choices, line, book.messages).id, book)
    found = named(book, line) or search(book, line)
    if len(found) == 1 and by_name(found[0], line):
        return _found_kind(found[0].kind, book)
    if found:
        return Problem(wording(book.messages, "kind_found", text=line), tuple(k.kind for k in found))
    return Problem(wording(book.messages, "kind_unknown", text=line[:40]))


def _answer_or_implement(question: Question, line: str, book: Book) -> Problem | None:
    """A line that begins an answer ("finish", finished) and the name of an implement (finish mower) is neither yet."""
    answers = candidates(question.choices, line)
    if len(line) < LEAST_NAME or not answers or any(plain(line) in names_of(choice) for choice in answers):
        return None
    tools = [kind.name for kind in named(book, line) or search(book, line) if by_name(kind, line)]
    if not tools:
        return None
    labels = [*(choice.label for choice in answers), *tools][:MOST_NAMED]
    which = listed((f'"{label}"' for label in labels), "or")
    return Problem(wording(book.messages, "answer_or_implement", text=line, which=which), unclear=True)


def _found_kind(kind: str, book: Book) -> Understood:
    return Understood(Given(kind, kind), wording(book.messages, "taken", what=book.kinds[kind].name))


def _size(question: Question, line: str, units: Units, kind: Kind, book: Book) -> Reading:
    given = size_from(question, line, units, kind, book.messages)
    note = wording(book.messages, "taken", what=in_words(question, given))
    listed = {choice.id for choice in question.choices}
    usual = outside(question, given, kind, [size for size in kind.sizes if size.id in listed])
    if usual is None:
        return Understood(given, note)
    low, high = usual.ends(units)
    return Doubt(
        given, wording(book.messages, "size_unusual", what=given.text, kind=kind.name, low=low, high=high), note
    )
