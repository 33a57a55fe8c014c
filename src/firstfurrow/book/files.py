"""All files of a book as plain data with positions, and the ids they define: what the rules look at."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from firstfurrow.book.misplaced import EDITION, no_book
from firstfurrow.book.problems import BookError, Problem, Said
from firstfurrow.book.shelf import Shelf
from firstfurrow.book.yaml_strict import Marks, Path_

SINGLE: Mapping[str, str] = {
    "requirements.yaml": "requirements",
    "sources.yaml": "sources",
    "guides.yaml": "guides",
    "glossary.yaml": "glossary",
    "messages.yaml": "messages",
    "settings.yaml": "settings",
}
MAY_BE_LEFT_OUT: Mapping[str, str] = {
    "reasons.yaml": "messages",
    "report.yaml": "messages",
    "pictures.yaml": "messages",
    "sheets.yaml": "messages",
    "classroom.yaml": "messages",
    "contradictions.yaml": "contradictions",
    "offer.yaml": "offer_keys",
    "measuring.yaml": "measuring",
    "teaching.yaml": "teaching",
    "walk_around.yaml": "walk_around",
}
FOLDERS: Mapping[str, tuple[str, str]] = {  # key of book.yaml: folder, schema
    "sections": ("sections", "section"),
    "families": ("implements", "family"),
    "tables": ("tables", "table"),
}


_ID = re.compile("[a-z][a-z0-9_]*")


@dataclass(frozen=True, slots=True)
class Placed:
    """A part of a file: its data, and where it stands."""

    data: Any
    marks: Marks
    path: Path_

    def problem(self, said: Said, *inside: str | int, key: bool = False) -> Problem:
        """A problem at this part, or at something inside it."""
        return self.marks.problem((*self.path, *inside), said, key)

    def __getitem__(self, inside: str | int) -> Placed:
        return Placed(self.data[inside], self.marks, (*self.path, inside))

    def get(self, key: str) -> Placed | None:
        """The part under a key, or None when it is left out."""
        return self[key] if self.data.get(key) is not None else None

    def each(self, key: str) -> Iterator[Placed]:
        """The parts of a list under a key; nothing when it is left out."""
        for index in range(len(self.data.get(key) or ())):
            yield Placed(self.data[key][index], self.marks, (*self.path, key, index))


@dataclass(frozen=True, slots=True)
class PlacedQuestion:
    """A question with the place in the walk that decides what its condition may read."""

    at: Placed
    section: str
    inside: bool  # inside a group
    closes: bool  # the closing question of a group

    @property
    def id(self) -> str:
        """Its id."""
        return str(self.at.data["id"])


class Files:
    """Every file of the book that could be read; `problems` says what could not."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.shelf = Shelf(folder)
        self.problems: list[Problem] = []
        self.read: dict[str, Placed] = {}
        self.schema_of: dict[str, str] = {}
        self.misplaced: frozenset[str] = frozenset()
        nothing = no_book(folder)
        if nothing is not None:
            self.problems.append(nothing)
            return
        self.problems += self.shelf.misplaced()
        # What else is wrong with such a file follows from that.
        self.misplaced = frozenset(problem.file for problem in self.problems)
        if self._take("book.yaml", "book"):
            index = self.read["book.yaml"].data
            for key, (where, schema) in FOLDERS.items():
                names = index.get(key) if isinstance(index, dict) else None
                for name in names if isinstance(names, list) else ():
                    if not (isinstance(name, str) and _ID.fullmatch(name)):
                        continue  # its shape is told later; it might lead to a file somewhere else
                    self._take(f"{where}/{name}.yaml", schema)
        for name, schema in SINGLE.items():
            self._take(name, schema)
        for name, schema in MAY_BE_LEFT_OUT.items():
            if self.shelf.has(name) or (folder / name).exists():
                self._take(name, schema)
        if self.shelf.local and self._take(EDITION, "edition"):
            self.problems += self.shelf.problems()

    def _take(self, name: str, schema: str) -> bool:
        try:
            data, marks = self.shelf.marked(name)
        except BookError as error:
            self.problems += [problem for problem in error.problems if problem.file not in self.misplaced]
            return False
        self.read[name] = Placed(data, marks, ())
        self.schema_of[name] = schema
        return True

    # The properties below are used only when every file has its right shape.

    @cached_property
    def book(self) -> Placed:
        """The file that lists the others."""
        return self.read["book.yaml"]

    def of(self, key: str) -> Iterator[tuple[str, Placed]]:
        """The files listed under a key of the book, in order: name and content."""
        for name in self.book.data[key]:
            yield name, self.read[f"{FOLDERS[key][0]}/{name}.yaml"]

    @cached_property
    def questions(self) -> tuple[PlacedQuestion, ...]:
        """Every question, in the order asked."""
        found: list[PlacedQuestion] = []
        for name, section in self.of("sections"):
            found += [PlacedQuestion(q, name, False, False) for q in section.each("questions")]
            group = section.get("group")
            if group is not None:
                found += [PlacedQuestion(q, name, True, False) for q in group.each("questions")]
                found.append(PlacedQuestion(group["closes"], name, False, True))
        return tuple(found)

    @cached_property
    def question(self) -> Mapping[str, PlacedQuestion]:
        """Questions by id."""
        return {q.id: q for q in self.questions}

    @cached_property
    def kinds(self) -> tuple[tuple[str, Placed], ...]:
        """Every kind of implement, with its family."""
        return tuple((name, kind) for name, family in self.of("families") for kind in family.each("kinds"))

    @cached_property
    def rows(self) -> Mapping[str, Mapping[str, Placed]]:
        """Rows by table and id."""
        return {name: {r.data["row"]: r for r in table.each("rows")} for name, table in self.of("tables")}

    @cached_property
    def requirements(self) -> tuple[Placed, ...]:
        """The requirements."""
        return tuple(self.read["requirements.yaml"].each("requirements"))

    @cached_property
    def sources(self) -> tuple[Placed, ...]:
        """The sources."""
        return tuple(self.read["sources.yaml"].each("sources"))

    @cached_property
    def contradictions(self) -> tuple[Placed, ...]:
        """The contradictions; nothing when the book does without them."""
        file = self.read.get("contradictions.yaml")
        return () if file is None else tuple(file.each("contradictions"))

    @cached_property
    def guides(self) -> tuple[Placed, ...]:
        """The measuring guides."""
        return tuple(self.read["guides.yaml"].each("guides"))
