"""An answers file as Answers. Every kind of damage gives one sentence with the file and the line."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item, Kept
from firstfurrow.asking.answers_text import FORMAT, UNSURE, VERSION, edition_of, place, write
from firstfurrow.asking.choosing import ChoosingError
from firstfurrow.asking.refs import Ref, item_number, ref_of
from firstfurrow.asking.resolve import from_kind, resolve, roughly
from firstfurrow.asking.sizes import size_from
from firstfurrow.asking.typed import bare_unit
from firstfurrow.asking.wording import listed, wording
from firstfurrow.book.model import Book, Group, Kind, Question
from firstfurrow.book.problems import BookError, did_you_mean
from firstfurrow.book.yaml_strict import Marks, parse_marked
from firstfurrow.quantities import QuantityError, parse

__all__ = ["AnswersError", "read", "write"]

KEYS = ("format", "book", "name", "units", "notes", "items_made", "answers", "kept", "aside")
_ITEM_ID = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,39}")
_Path = tuple[str | int, ...]


class AnswersError(ValueError):
    """The file cannot be used; the message is one sentence with file and line."""


def read(text: str, name: str, book: Book, *, to_go_on: bool = False) -> Answers:
    """The answers in the text of a file called `name`.

    Of an older edition of the book everything that this one still knows is carried over; `Answers.carried` says what
    was left out. `to_go_on`: the file will be written again, and what was left out would be lost.

    Raises
    ------
    AnswersError
        When the text is not an answers file for this book; and, to go on with, of another local edition.
    """
    try:
        data, marks = parse_marked(text, name)
    except BookError as error:
        first = error.problems[0]
        raise AnswersError(f"{first.file}:{max(first.line, 1)}: {first.message}") from None
    return _File(book, marks, to_go_on).answers(data)


def _edition_id(name: object) -> str:
    return str(name).partition("/")[0]


@dataclass(slots=True)
class _File:
    """One file being read."""

    book: Book
    marks: Marks
    to_go_on: bool
    older: bool = False  # of an earlier edition of the book
    carried: list[str] = field(default_factory=list)

    def answers(self, data: Any) -> Answers:
        if not isinstance(data, Mapping):
            raise self._error((), "file_not_answers")
        self._head(data)
        self._known(data, KEYS, ())
        units = data.get("units", "us")
        if units not in ("us", "metric"):
            raise self._error(("units",), "file_units", word=units)
        given, items = self._given(self._mapping(data, "answers"), units)
        aside = self._aside(self._mapping(data, "aside"), units, items)
        in_use = max((item_number(item.id) for item in items), default=0)
        aside_too = max((item_number(ref_of(key).item or "") for key in aside), default=0)
        return Answers(
            units=units,
            given=given,
            items=items,
            aside=aside,
            items_made=max(in_use, self._whole(data, "items_made", aside_too)),
            name=self._text(data, "name"),
            notes=self._notes(data),
            kept=self._kept(data),
            carried=tuple(self.carried),
        )

    # ---------------------------------------------------------------- head

    def _head(self, data: Mapping[str, Any]) -> None:
        named, _, version = str(data.get("format")).partition("/")
        if named != FORMAT:
            raise self._error(("format",), "file_format", wanted=f"{FORMAT}/{VERSION}")
        if version != str(VERSION):
            raise self._error(("format",), "file_version", version=version or "?", wanted=VERSION)
        book = data.get("book")
        if not isinstance(book, Mapping) or book.get("id") != self.book.id:
            other = book.get("id", "?") if isinstance(book, Mapping) else book
            raise self._error(("book",), "file_book", other=other, wanted=self.book.id)
        edition = book.get("version", self.book.version)
        if not isinstance(edition, int) or edition > self.book.version:
            raise self._error(("book", "version"), "file_edition", version=edition, wanted=self.book.version)
        self.older = edition < self.book.version
        mine = edition_of(self.book)
        its = book.get("edition")
        if self.to_go_on and its is not None and _edition_id(its) != _edition_id(mine):
            raise self._error(("book", "edition"), "file_other_edition", name=its)
        if not self.older and its != mine:
            self.older = True
            self.carried.append(
                wording(
                    self.book.messages, "carried_edition", other=self._edition(its),
                    wanted=self._edition(mine),
                )
            )  # fmt: skip

    def _edition(self, name: object) -> str:
        if name is None:
            return wording(self.book.messages, "carried_edition_none")
        return wording(self.book.messages, "carried_edition_named", name=name)

    def _mapping(self, data: Mapping[str, Any], key: str) -> Mapping[str, Any]:
        found = data.get(key)
        if found is None:
            return {}
        if not isinstance(found, Mapping):
            raise self._error((key,), "file_mapping", key=key)
        return found

    def _text(self, data: Mapping[str, Any], key: str) -> str | None:
        return None if data.get(key) is None else str(data[key])

    def _notes(self, data: Mapping[str, Any]) -> tuple[str, ...]:
        notes = data.get("notes") or ()
        if not isinstance(notes, list | tuple):
            raise self._error(("notes",), "file_list", key="notes")
        return tuple(str(note) for note in notes)

    def _kept(self, data: Mapping[str, Any]) -> tuple[Kept, ...]:
        """What was kept. A contradiction that the book does not know any more does no harm and stays."""
        rows = data.get("kept") or ()
        if not isinstance(rows, list | tuple):
            raise self._error(("kept",), "file_list", key="kept")
        found: list[Kept] = []
        for index, row in enumerate(rows):
            if not isinstance(row, Mapping) or not isinstance(row.get("answers"), list | tuple):
                raise self._error(("kept", index), "file_kept")
            self._known(row, ("contradiction", "at", "answers"), ("kept", index))
            if not all(isinstance(row.get(key), str) for key in ("contradiction", "at")):
                raise self._error(("kept", index), "file_kept")
            found.append(Kept(row["contradiction"], row["at"], tuple(map(str, row["answers"]))))
        return tuple(found)

    def _whole(self, data: Mapping[str, Any], key: str, left_out: int) -> int:
        value = data.get(key, left_out)
        if type(value) is not int or value < 0:
            raise self._error((key,), "file_count", key=key, value=value)
        return value

    # ------------------------------------------------------------- answers

    def _given(self, data: Mapping[str, Any], units: Any) -> tuple[dict[str, Given], tuple[Item, ...]]:
        outer = {q.id: q for s in self.book.sections for q in s.questions}
        groups: dict[str, Group] = {}
        for section in self.book.sections:
            if section.group is not None:
                groups[section.group.id] = section.group
                outer[section.group.closes.id] = section.group.closes
        data = self._known(data, [*outer, *groups], ("answers",))
        items: tuple[Item, ...] = ()
        given: dict[str, Given] = {}
        for key, value in data.items():
            if key in groups:
                items = self._items(groups[key], value, units)
            else:
                found = self._carried(outer[key], Ref(key), value, ("answers", key), units, None, None)
                given |= {} if found is None else {key: found}
        closing = {g.closes.id for g in groups.values()}
        return {k: g for k, g in given.items() if not (k in closing and g.value == "another")}, items

    def _items(self, group: Group, data: Any, units: Any) -> tuple[Item, ...]:
        path: _Path = ("answers", group.id)
        if not isinstance(data, list | tuple):
            raise self._error(path, "file_list", key=group.id)
        items: list[Item] = []
        first: dict[str, _Path] = {}
        for index, row in enumerate(data):
            here = (*path, index)
            if not isinstance(row, Mapping):
                raise self._error(here, "file_item")
            item = row.get("item")
            if not isinstance(item, str) or not _ITEM_ID.fullmatch(item):
                raise self._error(here, "file_item")
            if item in first:
                raise self._error((*here, "item"), "file_item_twice", item=item, line=self.marks.at(first[item])[0])
            first[item] = here
            if (made := self._item(group, item, row, here, units)) is not None:
                items.append(made)
        if len(items) > group.most:
            raise self._error((*path, group.most), "file_items_most", most=group.most)
        return tuple(items)

    def _item(self, group: Group, item: str, row: Mapping[str, Any], here: _Path, units: Any) -> Item | None:
        """One implement; None where an older book had a kind that this one does not have."""
        questions = {q.id: q for q in group.questions}
        row = self._known(row, ["item", *questions], here)
        given: dict[str, Given] = {}
        kind: Kind | None = None
        variant: str | None = None
        # Kind and build first: they say what the other words of the item mean, wherever they stand in the row.
        rank = {"kind": 0, "variant": 1}
        for question in sorted((questions[k] for k in row if k != "item"), key=lambda q: rank.get(q.type, 2)):
            ref = Ref(question.id, item)
            found = self._carried(question, ref, row[question.id], (*here, question.id), units, kind, variant)
            if found is None and question.type == "kind":
                return None
            if found is None:
                continue
            given[question.id] = found
            if question.type == "kind":
                kind = self.book.kinds[found.value]
            elif question.type == "variant" and not found.unsure:
                variant = found.value
        return Item(item, {key: given[key] for key in questions if key in given})

    def _aside(self, data: Mapping[str, Any], units: Any, items: tuple[Item, ...]) -> dict[str, Given]:
        outer = {q.id: q for s in self.book.sections for q in s.questions}
        inner: dict[str, Question] = {}
        for section in self.book.sections:
            if section.group is not None:
                inner |= {q.id: q for q in section.group.questions}
                outer[section.group.closes.id] = section.group.closes
        kinds = {i.id: g.value for i in items for k, g in i.given.items() if inner[k].type == "kind"}
        found: dict[str, Given] = {}
        for key, value in data.items():
            ref, path = ref_of(key), ("aside", key)
            known = outer if ref.item is None else inner
            if ref.question not in known and self.older:
                continue
            if ref.question not in known:
                raise self._error(path, "file_key", True, word=key, meant=did_you_mean(ref.question, known))
            question = known[ref.question]
            kind = self.book.kinds.get(kinds.get(ref.item or "", ""))
            try:
                found[key] = self._aside_value(question, ref, value, path, units, kind)
            except AnswersError:
                if not self.older:  # what lies aside moves nothing, so nobody misses it
                    raise
        return found

    def _aside_value(
        self, question: Question, ref: Ref, value: Any, path: _Path, units: Any, kind: Kind | None
    ) -> Given:
        """An answer aside may belong to what the item no longer is: then its words are kept as they are."""
        try:
            return self._value(question, ref, value, path, units, kind, None)
        except AnswersError:
            if not from_kind(question) or question.type == "kind":
                raise
        if isinstance(value, list | tuple):
            kept = tuple(map(str, value))
            return Given(kept, ", ".join(kept))
        return Given(str(value), str(value))

    # -------------------------------------------------------------- values

    def _carried(
        self, question: Question, ref: Ref, value: Any, path: _Path, units: Any, kind: Kind | None, variant: str | None
    ) -> Given | None:
        """The answer; None where an older edition allowed it and this one does not, which is noted."""
        try:
            return self._value(question, ref, value, path, units, kind, variant)
        except AnswersError:
            if not self.older:
                raise
        self._gone(place(ref), value)
        return None

    def _gone(self, where: str, value: Any) -> None:
        shown = ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)
        self.carried.append(wording(self.book.messages, "carried_gone", place=where, value=shown))

    def _value(
        self, question: Question, ref: Ref, value: Any, path: _Path, units: Any, kind: Kind | None, variant: str | None
    ) -> Given:
        if value is None or isinstance(value, bool | Mapping):
            raise self._error(path, "file_no_value", place=place(ref))
        if value == UNSURE:
            if question.not_sure.how == "refused":
                raise self._error(path, "file_refused", place=place(ref))
            return NOT_SURE
        if question.type == "count":
            return self._count(question, ref, value, path)
        if question.type == "quantity":
            return self._quantity(question, ref, value, path, units)
        if question.type == "text":
            return Given(str(value), str(value))
        if question.type == "kind":
            if not isinstance(value, str) or value not in self.book.kinds:
                meant = did_you_mean(str(value), self.book.kinds)
                raise self._error(path, "file_kind", word=value, meant=meant)
            return Given(value, value)
        if from_kind(question) and kind is None:
            raise self._error(path, "file_no_kind", place=place(ref))
        asked = resolve(self.book, question, units, kind, variant)
        if question.type == "size" and kind is not None:
            return self._size(asked, ref, value, path, units, kind)
        if question.type == "several":
            listed_values = value if isinstance(value, list | tuple) else [value]
            if not listed_values:
                raise self._error(path, "file_no_value", place=place(ref))
            chosen = {self._choice(asked, ref, each, path) for each in listed_values}
            if "none_of_these" in chosen and len(chosen) > 1:
                raise self._error(path, "file_none_with_others", place=place(ref))
            ordered = tuple(c.id for c in asked.choices if c.id in chosen)
            return Given(ordered, ", ".join(ordered))
        choice = self._choice(asked, ref, value, path)
        return Given(choice, choice)

    def _choice(self, question: Question, ref: Ref, value: Any, path: _Path) -> str:
        ids = [choice.id for choice in question.choices]
        if not isinstance(value, str) or value not in ids:
            meant = did_you_mean(str(value), ids) or f" {listed(ids, 'or')}."
            raise self._error(path, "file_choice", word=value, place=place(ref), meant=meant)
        return value

    def _count(self, question: Question, ref: Ref, value: Any, path: _Path) -> Given:
        if type(value) is not int or value < 0:
            raise self._error(path, "file_count", key=place(ref), value=value)
        self._possible(question, ref, float(value), str(value), path)
        return Given(value, str(value))

    def _quantity(self, question: Question, ref: Ref, value: Any, path: _Path, units: Any) -> Given:
        text = str(value)
        if isinstance(value, int | float):
            raise self._error(path, "file_no_unit", place=place(ref), value=text, unit=bare_unit(question, units))
        try:
            working = parse(text, question.dimension or "ratio").working
        except QuantityError as error:
            raise self._error(path, "file_quantity", place=place(ref), problem=error) from None
        self._possible(question, ref, working, text, path)
        return Given(working, text)

    def _possible(self, question: Question, ref: Ref, value: float, text: str, path: _Path) -> None:
        limits = question.possible
        if limits is not None and not limits[0] <= value <= limits[1]:
            low, high = (roughly(limit, question.dimension, "metric") for limit in limits)
            raise self._error(path, "file_impossible", place=place(ref), value=text, low=low, high=high)

    def _size(self, question: Question, ref: Ref, value: Any, path: _Path, units: Any, kind: Kind) -> Given:
        text = str(value)
        if not isinstance(value, str) or text.isdigit():
            raise self._error(path, "file_no_unit", place=place(ref), value=text, unit="ft" if units == "us" else "m")
        try:
            return size_from(question, text, units, kind, self.book.messages)
        except (QuantityError, ChoosingError) as error:
            raise self._error(path, "file_quantity", place=place(ref), problem=error) from None

    # -------------------------------------------------------------- errors

    def _known(self, data: Mapping[str, Any], known: Any, path: _Path) -> Mapping[str, Any]:
        """The data with known keys only; what an older edition of the book had besides is noted."""
        for key in data:
            if key in known:
                continue
            if not self.older:
                raise self._error((*path, key), "file_key", True, word=key, meant=did_you_mean(str(key), known))
            self._gone(str(key), data[key])
        return {key: value for key, value in data.items() if key in known}

    def _error(self, path: _Path, message: str, key: bool = False, /, **slots: object) -> AnswersError:
        line = self.marks.at(path, key)[0]
        return AnswersError(f"{self.marks.file}:{line}: {wording(self.book.messages, message, **slots)}")
