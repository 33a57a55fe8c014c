"""Loading the book: quickly and bit by bit for the shipped one, with every check for one that somebody edits."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from firstfurrow.book import contradictions, implements, measuring, sections, tables
from firstfurrow.book.figures import figure
from firstfurrow.book.lazy import LazyFiles, LazyMapping, LazySequence, LazyWhole
from firstfurrow.book.model import Book, ContradictionRule, Family, Kind, Section, Table
from firstfurrow.book.offer_keys import offer_key
from firstfurrow.book.places import book_folder
from firstfurrow.book.sentences import sentences
from firstfurrow.book.shelf import Shelf
from firstfurrow.book.teaching import teaching
from firstfurrow.book.walk_around import walk_round
from firstfurrow.book.yaml_strict import read

CONTRADICTIONS = "contradictions.yaml"
OFFER = "offer.yaml"
MEASURING = "measuring.yaml"
WALK_AROUND = "walk_around.yaml"
TEACHING = "teaching.yaml"
LINKS = "links"  # the family of kinds that are never items: hydraulic top and side link


def load(folder: Path | None = None) -> Book:
    """The book in a folder, whole or a local edition over the shipped one; without a folder, the shipped one.

    The parts are read when they are first looked at, and a broken file shows only then: an edited book goes through
    `firstfurrow.book.check.require` first.

    Raises
    ------
    BookError
        When a file cannot be read.
    """
    return _lazy(Shelf(folder))


def _lazy(shelf: Shelf) -> Book:
    data = shelf.data
    index: Mapping[str, Any] = data("book.yaml")
    shelves = tuple(name for name in index["families"] if name != LINKS)

    def read_section(name: str) -> Section:
        return sections.section(data(f"sections/{name}.yaml"))

    def read_family(name: str) -> Family:
        return implements.family(data(f"implements/{name}.yaml"))

    def read_table(name: str) -> Table:
        return tables.table(data(f"tables/{name}.yaml"))

    def read_contradictions() -> tuple[ContradictionRule, ...]:
        if not shelf.has(CONTRADICTIONS):  # an edited book may do without them
            return ()
        return tuple(contradictions.rule(row) for row in data(CONTRADICTIONS)["contradictions"])

    @cache
    def measuring_data() -> Any:
        # An edited book may do without it; then the shipped one says how to measure.
        return data(MEASURING) if shelf.has(MEASURING) else read(book_folder() / MEASURING, MEASURING)

    @cache
    def round_data() -> Any:
        return data(WALK_AROUND) if shelf.has(WALK_AROUND) else read(book_folder() / WALK_AROUND, WALK_AROUND)

    @cache
    def teaching_data() -> Any:
        # An edited book may do without it; notes on other questions would not fit.
        return data(TEACHING) if shelf.has(TEACHING) else {"notes": [], "pairs": []}

    def offer_data() -> Any:
        # An edited book may do without it: then what the shipped one knows of offers holds.
        return data(OFFER) if shelf.has(OFFER) else read(book_folder() / OFFER, OFFER)

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
        messages=LazyMapping(lambda: sentences(shelf.folder)),
        settings=LazyMapping(lambda: dict(data("settings.yaml"))),
        contradictions=LazyWhole(read_contradictions),
        two_meanings=LazyWhole(lambda: data("glossary.yaml").get("two_meanings") or ()),
        offer_keys=LazyMapping(lambda: {k["key"]: offer_key(k) for k in offer_data()["keys"]}),
        offer_figures=LazyMapping(lambda: {name: figure(f) for name, f in offer_data()["figures"].items()}),
        measuring=measuring.measuring(measuring_data),
        teaching=teaching(teaching_data),
        round=walk_round(round_data),
        edition=shelf.edition,
        retired=shelf.retired,
    )
