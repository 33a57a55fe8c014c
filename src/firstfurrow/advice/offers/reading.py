"""Offer files: text to offers. Pure; every problem is one sentence with file and line or row; good rows are kept."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from typing import Any

from firstfurrow.advice.offers import consistent
from firstfurrow.advice.offers.offer import Offer, Offers, Said
from firstfurrow.advice.offers.values import ValueProblemError, as_text, is_not_known, value_of
from firstfurrow.advice.say import say
from firstfurrow.book.model import Book
from firstfurrow.book.problems import BookError, did_you_mean
from firstfurrow.book.yaml_strict import Marks, parse_marked
from firstfurrow.quantities import Units
from firstfurrow.quantities.harmless import one_line

FORMAT = "firstfurrow-offer/1"
LISTS = (".csv", ".tsv", ".txt")  # endings of files with one offer in a row
SEPARATORS = (";", "\t", ",")
MOST_ROWS = 20_000
MOST_KEPT = 5_000  # texts of one column that are remembered with what they mean
LONGEST_NAME = 80
_KEYS = ("format", "name", "notes", "offer")


def read_offers(book: Book, text: str, file: str, units: Units = "us") -> Offers:
    """The offers in the text of a file called `file`: one in YAML, or a whole list with separators."""
    text = text.removeprefix("\ufeff")
    listed = file.lower().endswith(LISTS)
    found = _Table(book, file, units).read(text) if listed else _one(book, text, file, units)
    # What somebody typed is quoted in a sentence: signs that move the cursor or break the line are not.
    return Offers(found.offers, tuple(map(one_line, found.problems)))


def together(book: Book, parts: Iterable[Offers]) -> Offers:
    """Several files as one yard; a name that comes again is refused with its place."""
    problems: list[str] = []
    first: dict[str, Offer] = {}
    for part in parts:
        problems += part.problems
        for offer in part.offers:
            before = first.setdefault(" ".join(offer.name.lower().split()), offer)
            if before is not offer:
                problems.append(
                    f"{offer.place}: " + say(book, "offer_name_twice", name=offer.name, place=before.place)
                )
    return Offers(tuple(first.values()), tuple(problems))


# ---------------------------------------------------------------------- one in YAML


def _one(book: Book, text: str, file: str, units: Units) -> Offers:
    try:
        data, marks = parse_marked(text, file)
    except BookError as error:
        return Offers((), tuple(f"{p.file}:{max(p.line, 1)}: {p.message}" for p in error.problems))
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        return Offers((), (f"{file}:1: " + say(book, "offer_format", format=FORMAT),))
    found: list[str] = []

    def problem(path: tuple[str, ...], sentence: str, key: bool = False) -> None:
        found.append(f"{_place(marks, path, key)}: {sentence}")

    for key in data:
        if key not in _KEYS:
            hint = say(book, "offer_belongs_inside") if key in book.offer_keys else did_you_mean(key, _KEYS)
            problem((key,), say(book, "offer_unknown_key", key=key[:40]) + hint, True)
    name = data.get("name")
    if not isinstance(name, str | int) or isinstance(name, bool) or not str(name).strip():
        problem(("name",) if "name" in data else (), say(book, "offer_no_name"))
    elif not _good_name(str(name)):
        problem(("name",), say(book, "offer_bad_name"))
    raw = data.get("offer")
    if not isinstance(raw, dict):
        problem(("offer",) if "offer" in data else (), say(book, "offer_no_map"))
        raw = {}
    said: dict[str, Said] = {}
    for key, value in raw.items():
        path = ("offer", key)
        if key not in book.offer_keys:
            problem(path, _unknown(book, key), True)
            continue
        if is_not_known(value):
            continue
        try:
            said[key] = Said(value_of(book, book.offer_keys[key], value), as_text(value), _place(marks, path, False))
        except ValueProblemError as error:
            problem(path, str(error))
    offer = Offer(str(name).strip(), _place(marks, ("name",), False), said)
    found += consistent.problems(book, offer, units)
    return Offers(() if found else (offer,), tuple(found))


def _place(marks: Marks, path: tuple[str, ...], key: bool) -> str:
    return f"{marks.file}:{marks.at(path, key)[0]}"


def _unknown(book: Book, key: str) -> str:
    return say(book, "offer_unknown_key", key=one_line(key)[:40]) + did_you_mean(key, book.offer_keys)


def _good_name(name: str) -> bool:
    return len(name) <= LONGEST_NAME and one_line(name) == name


# ----------------------------------------------------------------- a list with separators


class _Column:
    """Reads the cells under one key. In a list the same texts come again and again, so what one says is kept."""

    def __init__(self, book: Book, key: str) -> None:
        self.book = book
        self.id = key
        self.key = book.offer_keys[key]
        self._kept: dict[str, Said | str | None] = {}

    def read(self, cell: str) -> Said | str | None:
        """What a cell says; a sentence where it cannot be used; None where nothing is known."""
        try:
            return self._kept[cell]
        except KeyError:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            found = self._kept[cell] = self._said(cell)
            return found

    def _said(self, cell: str) -> Said | str | None:
        if is_not_known(cell):
            return None
        try:
            return Said(value_of(self.book, self.key, cell), as_text(cell))
        except ValueProblemError as error:
            return str(error)


class _Table:
    """A list: the first row has the keys, each further row is one tractor."""

    def __init__(self, book: Book, file: str, units: Units) -> None:
        self.book = book
        self.file = file
        self.units = units
        self.problems: list[str] = []
        self.name_at = 0

    def read(self, text: str) -> Offers:
        offers: list[Offer] = []
        try:
            rows = csv.reader(io.StringIO(text, newline=""), delimiter=_separator(self.book, text), strict=True)
            header = self._header(next(rows, []))
            if header is not None:
                for cells in rows:
                    row = rows.line_num
                    if len(offers) >= MOST_ROWS:
                        self._problem(row, "offer_rows", most=MOST_ROWS)
                        break
                    offer = self._row(header, cells, row) if any(c.strip() for c in cells) else None
                    if offer is not None:
                        offers.append(offer)
        except csv.Error:
            self._problem(rows.line_num, "offer_broken_row")
        if not offers and not self.problems:
            self._problem(1, "offer_no_rows")
        return Offers(tuple(offers), tuple(self.problems))

    def _problem(self, row: int, sentence: str, **slots: Any) -> None:
        self.problems.append(f"{self.file}: row {max(row, 1)}: " + say(self.book, sentence, **slots))

    def _header(self, cells: list[str]) -> list[_Column | None] | None:
        """What reads each column; None for the names and what is not known, and for the whole where it is no use."""
        names = ["_".join(cell.strip().lower().split()) for cell in cells]
        if "name" not in names:
            self._problem(1, "offer_no_name_column")
            return None
        self.name_at = names.index("name")
        header: list[_Column | None] = []
        for name in names:
            if name and names.count(name) > 1:
                self._problem(1, "offer_column_twice", key=name[:40])
                return None
            known = name in self.book.offer_keys
            if name and name != "name" and not known:
                self.problems.append(f"{self.file}: row 1: {_unknown(self.book, name)}")
            header.append(_Column(self.book, name) if known else None)
        return header

    def _row(self, header: list[_Column | None], cells: list[str], row: int) -> Offer | None:
        place = f"{self.file}: row {row}"
        if len(cells) > len(header):
            self._problem(row, "offer_row_long", cells=len(cells), keys=len(header))
            return None
        name = cells[self.name_at].strip() if len(cells) > self.name_at else ""
        before = len(self.problems)
        if not name:
            self._problem(row, "offer_no_name")
        elif not _good_name(name):
            self._problem(row, "offer_bad_name")
        said: dict[str, Said] = {}
        for column, cell in zip(header, cells, strict=False):
            if column is None:
                continue
            found = column.read(cell)
            if isinstance(found, Said):
                said[column.id] = found
            elif found is not None:
                self.problems.append(f"{place}: {found}")
        offer = Offer(name, place, said)
        self.problems += consistent.problems(self.book, offer, self.units)
        return offer if len(self.problems) == before else None


def _separator(book: Book, text: str) -> str:
    """The sign that splits the first row into the most keys that are known."""
    first = text.split("\n", 1)[0]

    def fits(sign: str) -> int:
        names = {"_".join(cell.strip().strip('"').lower().split()) for cell in first.split(sign)}
        return len(names & {"name", *book.offer_keys})

    return max(SEPARATORS, key=fits)
