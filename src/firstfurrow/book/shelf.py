"""Where the files of a book come from: a folder that holds all of it, or a local edition laid over the shipped book."""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from typing import Any

from firstfurrow.book.model import Edition
from firstfurrow.book.overlay import Laid, Override, overlay
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said, unknown
from firstfurrow.book.yaml_strict import Marks, read, read_marked

INDEX = "book.yaml"
EDITION = "edition.yaml"
FAMILIES = "implements"  # the one folder to which an edition may add files of its own
SHIPPED = "the shipped book, "  # before the names of its files, where an edition has files by the same names
SECTIONS = "sections/"


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
        found = sorted(path.stem for path in (self.folder / FAMILIES).glob("*.yaml"))
        return [name for name in found if name not in index["families"]]

    # ------------------------------------------------------------------ about an edition

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The files of an edition beside its own title page, in order."""
        found = (path.relative_to(self.folder).as_posix() for path in self.folder.rglob("*.yaml"))
        return tuple(sorted(name for name in found if name != EDITION)) if self.local else ()

    def overrides(self) -> Iterator[Override]:
        """Everything that the edition changes, file by file."""
        for name in self.names:
            yield from self.laid(name).overrides

    @cached_property
    def retired(self) -> frozenset[str]:
        """The ids of the questions that the edition takes out: they are not put, and count as not sure."""
        return frozenset(id_ for name in self.names if name.startswith(SECTIONS) for _, id_ in self.laid(name).retired)

    def problems(self) -> Iterator[Problem]:
        """What is wrong with an edition as such: files that lie over nothing, a shipped book of another version."""
        if not self.local:
            return
        index = read(book_folder() / INDEX, INDEX)
        known = tuple(path.relative_to(book_folder()).as_posix() for path in sorted(book_folder().rglob("*.yaml")))
        for name in self.names:
            folder, _, rest = name.rpartition("/")
            if name not in known and not (folder == FAMILIES and rest):
                said = unknown("file", name, known, "the shipped book", "Nobody reads a file that lies over nothing.")
                yield Problem(name, 0, 0, said.what, said.why, said.write)
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
