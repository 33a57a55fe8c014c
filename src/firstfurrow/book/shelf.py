"""Where the files of a book come from: a folder that holds all of it, or a local edition laid over the shipped book."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import Any

from firstfurrow.book.misplaced import EDITION, FAMILIES, INDEX, SECTIONS, Homes, stray_files, stray_records
from firstfurrow.book.model import Edition
from firstfurrow.book.overlay import Laid, Override, overlay
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import BookError, Problem, Said
from firstfurrow.book.yaml_strict import Marks, read, read_marked

SHIPPED = "the shipped book, "  # before the names of its files, where an edition has files by the same names


class Shelf:
    """The files of one book by name; each is read once."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = book_folder() if folder is None else folder
        self.local = (self.folder / EDITION).is_file() and not (self.folder / INDEX).is_file()
        self._read: dict[str, Any] = {}
        self._laid: dict[str, Laid] = {}

    @cached_property
    def edition(self) -> Edition | None:
        """The local edition; None for a book that stands by itself."""
        if not self.local:
            return None
        data = read(self.folder / EDITION, EDITION)
        return Edition(data["id"], data["name"], data["version"], data.get("units"))

    def has(self, name: str) -> bool:
        """True when the book has this file."""
        return (self.folder / name).is_file() or (self.local and (book_folder() / name).is_file())

    def own(self, name: str) -> bool:
        """True when the folder itself has it, an edition or the whole book."""
        return (self.folder / name).is_file()

    def data(self, name: str) -> Any:
        """The data of a file.

        Raises
        ------
        BookError
            When it cannot be read.
        """
        if name not in self._read:
            self._read[name] = self.marked(name)[0] if self.local else read(self.folder / name, name)
        return self._read[name]

    def marked(self, name: str) -> tuple[Any, Marks]:
        """The data of a file, and where everything in it stands.

        Raises
        ------
        BookError
            When it cannot be read.
        """
        if not self.local:
            return read_marked(self.folder / name, name)
        laid = self.laid(name)
        return laid.data, laid.marks

    def laid(self, name: str) -> Laid:
        """A file of an edition over the one of the shipped book."""
        if name not in self._laid:
            self._laid[name] = self._lay(name)
        return self._laid[name]

    def _lay(self, name: str) -> Laid:
        mine, shipped = self.folder / name, book_folder() / name
        if name == INDEX:
            data, marks = read_marked(shipped, SHIPPED + name)
            *families, links = data["families"]
            return Laid(data | {"families": [*families, *self._new_families(data), links]}, marks)
        if not shipped.is_file():
            return Laid(*read_marked(mine, name), [Override(name, 1, name, None, "")])
        if not os.path.lexists(mine):  # a folder or a link to nothing by that name is a mistake, and is told
            return Laid(*read_marked(shipped, SHIPPED + name))
        # A question that is retired is still planned, as not sure: what reads it goes on.
        keep = name.startswith(SECTIONS)
        return overlay(read_marked(shipped, SHIPPED + name), read_marked(mine, name), keep=keep)

    def _new_families(self, index: Any) -> list[str]:
        """Families of implements that the shipped book does not have; links stay the last."""
        found = (path for path in sorted((self.folder / FAMILIES).glob("*.yaml")) if not path.name.startswith("."))
        added = [path.stem for path in found if path.stem not in index["families"]]
        return [name for name in added if f"{FAMILIES}/{name}.yaml" not in self.strays] if added else []

    # ------------------------------------------------------------------ about an edition

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The files of an edition beside its own title page, in order."""
        if not self.local:
            return ()
        found = (path.relative_to(self.folder) for path in self.folder.rglob("*.yaml"))
        own = (path.as_posix() for path in found if not any(part.startswith(".") for part in path.parts))
        return tuple(sorted(name for name in own if name != EDITION))

    @cached_property
    def strays(self) -> Mapping[str, Said]:
        """The files of an edition that nobody reads, and what to do with each."""
        known = (path.relative_to(book_folder()).as_posix() for path in sorted(book_folder().rglob("*.yaml")))
        return stray_files(self.folder, tuple(known))

    def overrides(self) -> Iterator[Override]:
        """Everything that the edition changes, file by file."""
        for name in self.names:
            yield from self.laid(name).overrides

    @cached_property
    def retired(self) -> frozenset[str]:
        """The ids of the questions that the edition takes out: they are not put, and count as not sure."""
        return frozenset(id_ for name in self.names if name.startswith(SECTIONS) for _, id_ in self.laid(name).retired)

    def misplaced(self) -> Iterator[Problem]:
        """What of an edition stands where it cannot: whole files, and records of its files."""
        if not self.local:
            return
        for name, said in self.strays.items():
            yield Problem(name, 0, 0, said.what, said.why, said.write)
        homes = self._homes()
        for name in self.names:
            if name in self.strays:
                continue
            try:
                data, marks = read_marked(self.folder / name, name)
            except BookError:
                continue  # said when it is laid over the shipped one
            yield from stray_records(name, data, marks, homes)

    def _homes(self) -> Homes:
        """Where each question of the shipped book stands."""
        homes: dict[str, tuple[str, str]] = {}
        for section in read(book_folder() / INDEX, INDEX)["sections"]:
            name = f"{SECTIONS}{section}.yaml"
            data = read(book_folder() / name, name)
            group = data.get("group") or {}
            homes |= {question["id"]: (name, "questions") for question in data.get("questions") or ()}
            homes |= {question["id"]: (name, "group") for question in group.get("questions") or ()}
            homes |= {group["closes"]["id"]: (name, "closes")} if group else {}
        return homes

    def problems(self) -> Iterator[Problem]:
        """What is wrong with an edition as such: a shipped book of another version."""
        if not self.local:
            return
        index = read(book_folder() / INDEX, INDEX)
        data, marks = read_marked(self.folder / EDITION, EDITION)
        made_for = data.get("for") if isinstance(data, dict) else None
        shipped = (index["id"], index["version"])
        if isinstance(made_for, dict) and (made_for.get("id"), made_for.get("version")) != shipped:
            yield marks.problem(
                ("for",),
                Said(
                    f"it was made for {made_for.get('id')}, version {made_for.get('version')}; the shipped book is "
                    f"{index['id']}, version {index['version']}.",
                    "What it changes may have changed there too.",
                    "Look the edition over, then write here what the shipped book is.",
                ),
            )
