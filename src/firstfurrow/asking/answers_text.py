"""Answers as the text of an answers file, written so that it reads well and can be edited by hand."""

from __future__ import annotations

import re
from collections.abc import Mapping

from firstfurrow.asking.answers import Answers, Given, Kept
from firstfurrow.asking.refs import Ref, item_number, ref_of
from firstfurrow.book.model import Book

FORMAT = "firstfurrow-answers"
VERSION = 1
UNSURE = "not sure"
WIDEST = 100  # an item on one line reads well up to here

_SAFE = re.compile(r"[A-Za-z][A-Za-z0-9_ ./%()-]*[A-Za-z0-9_%.)]|[A-Za-z]")
# A quantity is plain, but not what YAML takes for a number: 0E0 is no unit E0.
_NO_NUMBER = r"(?!\d[\d.]*[eE]\d)(?!0[xXoObB])"
_SAFE_QUANTITY = re.compile(_NO_NUMBER + r"\d+(?:\.\d+)?(?: \d+/\d+)? ?[A-Za-z%][A-Za-z0-9 /%.]*(?<! )")
_MEANT_OTHERWISE = frozenset({"yes", "no", "on", "off", "y", "n", "true", "false", "null", "none", "inf", "nan"})


def write(answers: Answers, book: Book) -> str:
    """The text of the file."""
    edition = edition_of(book)
    also = f", edition: {edition}" if edition is not None else ""
    lines = [f"format: {FORMAT}/{VERSION}", f"book: {{id: {book.id}, version: {book.version}{also}}}"]
    if answers.name is not None:
        lines.append(f"name: {_scalar(answers.name)}")
    lines.append(f"units: {answers.units}")
    if answers.notes:
        lines += ["notes:", *(f"  - {_scalar(note)}" for note in answers.notes)]
    if answers.items_made != _visible(answers):
        lines.append(f"items_made: {answers.items_made}")
    return "\n".join([*lines, *_answers(answers, book), *_kept(answers.kept), *_aside(answers.aside), ""])


def edition_of(book: Book) -> str | None:
    """The local edition as an answers file names it, such as "hill_county/2"; None without one."""
    return None if book.edition is None else f"{book.edition.id}/{book.edition.version}"


def _visible(answers: Answers) -> int:
    """The highest item number that a reader of the file can see."""
    named = [item.id for item in answers.items] + [ref_of(key).item or "" for key in answers.aside]
    return max((item_number(item) for item in named), default=0)


def _answers(answers: Answers, book: Book) -> list[str]:
    lines: list[str] = []
    written: set[str] = set()
    for section in book.sections:
        if section.group is not None and answers.items:
            lines.append(f"  {section.group.id}:")
            order = [q.id for q in section.group.questions]
            for item in answers.items:
                lines += _item(item.id, sorted_by(item.given, order))
        questions = section.questions if section.group is None else (section.group.closes,)
        for question in questions:
            if question.id in answers.given:
                lines.append(f"  {question.id}: {_value(answers.given[question.id])}")
                written.add(question.id)
    lines += [f"  {key}: {_value(given)}" for key, given in answers.given.items() if key not in written]
    return ["answers:", *lines] if lines else ["answers: {}"]


def sorted_by(given: Mapping[str, Given], order: list[str]) -> dict[str, Given]:
    """The answers in the order of the questions; what the book does not ask comes last."""
    known = {key: given[key] for key in order if key in given}
    return known | {key: value for key, value in given.items() if key not in known}


def _item(item: str, given: Mapping[str, Given]) -> list[str]:
    pairs = [f"item: {item}", *(f"{key}: {_value(value)}" for key, value in given.items())]
    line = f"    - {{{', '.join(pairs)}}}"
    if len(line) <= WIDEST:
        return [line]
    return [f"    - {pairs[0]}", *(f"      {pair}" for pair in pairs[1:])]


def _kept(kept: tuple[Kept, ...]) -> list[str]:
    """The contradictions that were kept; nothing where there is none, as in files from before they were asked about."""
    rows = [
        f"  - {{contradiction: {_scalar(row.contradiction)}, at: {_scalar(row.at)}, "
        f"answers: [{', '.join(map(_scalar, row.answers))}]}}"
        for row in kept
    ]
    return ["kept:", *rows] if rows else []


def _aside(aside: Mapping[str, Given]) -> list[str]:
    if not aside:
        return ["aside: {}"]
    return ["aside:", *(f"  {ref_of(key).key}: {_value(given)}" for key, given in aside.items())]


def _value(given: Given) -> str:
    if given.unsure:
        return UNSURE
    if isinstance(given.value, tuple):
        return f"[{', '.join(_scalar(str(each)) for each in given.value)}]"
    if isinstance(given.value, int):
        return str(given.value)
    return _scalar(given.text)


def _scalar(text: str) -> str:
    """The text as YAML, in quotes only where plain text would be read as something else."""
    tidy = " ".join(text.split())
    if tidy.casefold() not in _MEANT_OTHERWISE and (_SAFE.fullmatch(tidy) or _SAFE_QUANTITY.fullmatch(tidy)):
        return tidy
    if tidy.isprintable():
        return "'" + tidy.replace("'", "''") + "'"
    return "'" + "".join(c for c in tidy if c.isprintable()).replace("'", "''") + "'"


def place(ref: Ref) -> str:
    """How a place is named to a reader of the file.

    >>> place(Ref("size", "i2"))
    'size of i2'
    """
    return ref.question if ref.item is None else f"{ref.question} of {ref.item}"
