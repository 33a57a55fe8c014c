"""Laying one file over another of the same shape: records are matched by their ids, everything else is replaced.

What stands above is written down: each value that takes the place of another one, and each record that is new.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from firstfurrow.book.problems import BookError, twice, unknown
from firstfurrow.book.yaml_strict import Marks, Path_

IDS = ("id", "kind", "variant", "row", "key", "question", "contradiction")  # what a record may go by, first one counts
RETIRE, AFTER = "retire", "after"  # words of an edition: take a record out; where a new one goes


@dataclass(frozen=True, slots=True)
class Override:
    """One thing that an edition changes: what it is, and what it was before; None where it is new or taken out."""

    file: str
    line: int
    what: str  # such as "soils, clay, draft_factor"
    before: Any
    after: Any


@dataclass(slots=True)
class Laid:
    """The outcome: data, where everything in it stands, what was changed, and the records that were taken out."""

    data: Any
    marks: Marks
    overrides: list[Override] = field(default_factory=list)
    retired: list[tuple[str, str]] = field(default_factory=list)  # key and id of the record


def overlay(below: tuple[Any, Marks], above: tuple[Any, Marks], *, keep: bool = False) -> Laid:
    """One file over another. With `keep` a record that is retired stays in the data, and only its id is noted.

    Raises
    ------
    BookError
        Where a record above is taken out or placed by an id that is not there below.
    """
    work = _Overlay(below[1], above[1], keep)
    data = work.merge((), below[0], (), above[0], (), ())
    return Laid(data, work.out, work.overrides, work.retired)


class _Overlay:
    """Builds the outcome; paths of the three files run beside each other, since records may stand at other numbers."""

    def __init__(self, below: Marks, above: Marks, keep: bool) -> None:
        self.below, self.above, self.keep = below, above, keep
        self.out = Marks(above.file)
        self.overrides: list[Override] = []
        self.retired: list[tuple[str, str]] = []

    def merge(self, at: Path_, below: Any, path_below: Path_, above: Any, path_above: Path_, name: Path_) -> Any:
        """The outcome at `at`; `name` is the same place in words: ids in place of numbers."""
        if isinstance(below, dict) and isinstance(above, dict):
            return self._mapping(at, below, path_below, above, path_above, name)
        key = _id_key(below)
        if key is not None and isinstance(above, list) and all(isinstance(r, dict) and key in r for r in above):
            return self._records(at, below, path_below, above, path_above, name, key)
        if above != below:
            self._note(path_above, name, below, above)
        return self._copy(at, above, self.above, path_above)

    def _mapping(
        self, at: Path_, below: dict[str, Any], path_below: Path_, above: dict[str, Any], path_above: Path_, name: Path_
    ) -> dict[str, Any]:
        found: dict[str, Any] = {}
        self.out.take(at, self.above, path_above)
        for key, value in below.items():
            inside = (*at, key)
            if key not in above:
                found[key] = self._copy(inside, value, self.below, (*path_below, key))
            elif above[key] is None and value is not None:
                self._note((*path_above, key), (*name, key), value, None)  # taken out
            else:
                found[key] = self.merge(inside, value, (*path_below, key), above[key], (*path_above, key), (*name, key))
        for key, value in above.items():
            if key not in below:
                self._note((*path_above, key), (*name, key), None, value)
                found[key] = self._copy((*at, key), value, self.above, (*path_above, key))
        return found

    def _records(
        self, at: Path_, below: Sequence[dict[str, Any]], path_below: Path_, above: Sequence[dict[str, Any]],
        path_above: Path_, name: Path_, key: str,
    ) -> list[Any]:  # fmt: skip
        self.out.take(at, self.above, path_above)
        self._once(above, path_above, key)
        places = {record[key]: number for number, record in enumerate(below)}
        order: list[tuple[Any, int | None, int | None]] = [(id_, number, None) for id_, number in places.items()]
        for number, record in enumerate(above):
            here, id_ = (*path_above, number), record[key]
            old = next((i for i, row in enumerate(order) if row[0] == id_), None)
            if record.get(RETIRE) is True:
                if old is None:
                    raise self._unknown(here, id_, places, "there is none to take out")
                if not self.keep:
                    order.pop(old)
                self.retired.append((key, str(id_)))
                self._note(here, (*name, id_), below[places[id_]], None)
            elif old is not None:
                order[old] = (id_, order[old][1], number)
            else:
                order.insert(self._place(record, order, here, places), (id_, None, number))
        return [
            self._record((*at, i), row, below, path_below, above, path_above, (*name, row[0]))
            for i, row in enumerate(order)
        ]

    def _once(self, above: Sequence[dict[str, Any]], path: Path_, key: str) -> None:
        """Nothing when each record stands there once: of two, only one would be read."""
        first: dict[Any, int] = {}
        for number, record in enumerate(above):
            before = first.setdefault(record[key], number)
            if before != number:
                line = self.above.at((*path, before, key))[0]
                sort = str(path[-1]).removesuffix("s") if path else "record"
                said = twice(sort, record[key], f"{self.above.file}:{line}")
                raise BookError([self.above.problem((*path, number, key), said)])

    def _record(
        self, at: Path_, row: tuple[Any, int | None, int | None], below: Sequence[Any], path_below: Path_,
        above: Sequence[Any], path_above: Path_, name: Path_,
    ) -> Any:  # fmt: skip
        _, old, new = row
        if new is None:
            assert old is not None
            return self._copy(at, below[old], self.below, (*path_below, old))
        record = {k: v for k, v in above[new].items() if k != AFTER}
        if old is None:
            self._note((*path_above, new), name, None, record)
            return self._copy(at, record, self.above, (*path_above, new))
        return self.merge(at, below[old], (*path_below, old), record, (*path_above, new), name)

    def _place(
        self, record: dict[str, Any], order: Sequence[tuple[Any, int | None, int | None]], here: Path_,
        known: dict[Any, int],
    ) -> int:  # fmt: skip
        """Where a new record goes: behind the one that it names, else at the end."""
        if AFTER not in record:
            return len(order)
        found = next((i for i, row in enumerate(order) if row[0] == record[AFTER]), None)
        if found is None:
            raise self._unknown((*here, AFTER), record[AFTER], known, "nothing can stand behind it")
        return found + 1

    def _unknown(self, path: Path_, id_: Any, known: Any, why: str) -> BookError:
        said = f"An edition lies over the shipped book: {why}."
        found = unknown("record", id_, map(str, known), self.below.file, said)
        return BookError([self.above.problem(path, found)])

    def _copy(self, at: Path_, value: Any, marks: Marks, path: Path_) -> Any:
        self.out.take(at, marks, path)
        if isinstance(value, dict):
            return {k: self._copy((*at, k), v, marks, (*path, k)) for k, v in value.items()}
        if isinstance(value, list):
            return [self._copy((*at, i), v, marks, (*path, i)) for i, v in enumerate(value)]
        return value

    def _note(self, path: Path_, name: Path_, before: Any, after: Any) -> None:
        line = self.above.at(path, key=True)[0]
        self.overrides.append(Override(self.above.file, line, ", ".join(map(str, name)), before, after))


def _id_key(value: Any) -> str | None:
    """What the records of a list go by; None for what is no list of records."""
    if not isinstance(value, list) or not value or not all(isinstance(record, dict) for record in value):
        return None
    for key in IDS:
        ids = [record.get(key) for record in value]
        if all(isinstance(id_, (str, int)) for id_ in ids) and len(set(ids)) == len(ids):
            return key
    return None
