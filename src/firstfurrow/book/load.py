"""Loading the book: quickly and bit by bit for the shipped one, with every check for one that somebody edits."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from firstfurrow.book import implements, sections, tables
from firstfurrow.book.lazy import LazyFiles, LazyMapping, LazySequence
from firstfurrow.book.model import Book, Family, Kind, Section, Table
from firstfurrow.book.places import book_folder
from firstfurrow.book.yaml_strict import read

SENTENCES: Mapping[str, str] = {"messages.yaml": "", "reasons.yaml": "reason.", "report.yaml": "report."}
LINKS = "links"  # the family of kinds that are never items: hydraulic top and side link


def load(folder: Path | None = None, checked: bool = False) -> Book:
    """The book in a folder; without a folder, the shipped one.

    Without `checked` the parts are read when they are first looked at, and a broken file shows only then. With it
    everything is read and checked first; `book check` and an edited book (`--book DIR`) want that.

    Raises
    ------
    BookError
        When a file cannot be read, or with `checked` when anything in the book is wrong.
    """
    place = book_folder() if folder is None else folder
    if checked:
        from firstfurrow.book.check import require

        require(place)
    return _lazy(place)


def sentences(place: Path) -> dict[str, str]:
    """Every sentence of a book by id. What an edited book does not say, the shipped one says for it."""
    found = {} if place == book_folder() else sentences(book_folder())
    for name, before in SENTENCES.items():
        if (place / name).is_file():
            texts: Mapping[str, str] = read(place / name, name)["messages"]
            found |= {f"{before}{id_}": text for id_, text in texts.items()}
    return found


def _lazy(place: Path) -> Book:
    @cache
    def data(name: str) -> Any:
        return read(place / name, name)

    index: Mapping[str, Any] = data("book.yaml")
    shelves = tuple(name for name in index["families"] if name != LINKS)

    def read_section(name: str) -> Section:
        return sections.section(data(f"sections/{name}.yaml"))

    def read_family(name: str) -> Family:
        return implements.family(data(f"implements/{name}.yaml"))

    def read_table(name: str) -> Table:
        return tables.table(data(f"tables/{name}.yaml"))

    families = LazySequence(shelves, read_family)

    def links() -> Mapping[str, Kind]:
        return {k.kind: k for k in read_family(LINKS).kinds} if LINKS in index["families"] else {}

    return Book(
        id=index["id"],
        version=index["version"],
        sections=LazySequence(index["sections"], read_section),
        families=families,
        kinds=LazyMapping(lambda: {k.kind: k for family in families for k in family.kinds}),
        links=LazyMapping(links),
        tables=LazyFiles(index["tables"], read_table),
        requirements=LazyMapping(
            lambda: {r["id"]: tables.requirement(r) for r in data("requirements.yaml")["requirements"]}
        ),
        groups=LazyMapping(lambda: dict(data("requirements.yaml")["groups"])),
        sources=LazyMapping(lambda: {s["id"]: tables.source(s) for s in data("sources.yaml")["sources"]}),
        guides=LazyMapping(lambda: {g["id"]: tables.guide(g) for g in data("guides.yaml")["guides"]}),
        glossary=LazyMapping(lambda: dict(data("glossary.yaml")["words"])),
        messages=LazyMapping(lambda: sentences(place)),
        settings=LazyMapping(lambda: dict(data("settings.yaml"))),
    )
