"""Figures: numbers in order, units that fit, grades that keep their rules; and sources that nobody uses."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.implements import DIMENSION_OF, SIZE_DIMENSION
from firstfurrow.book.model import SOURCED
from firstfurrow.book.problems import Problem, Said, unknown
from firstfurrow.quantities import QuantityError, parse_figure_text

NUMBERS = ("value", "low", "planning", "high")
HOW_SURE = "The page says of each figure how sure it is, and where it is from."
FORM = Said(
    "a figure is written as value alone, or as low and high with or without planning.",
    "The program plans with one number and tells the reader between which two it lies.",
    "Write {value: 5 km/h, grade: practice}, or {low: 3 km/h, planning: 5 km/h, high: 8 km/h, grade: practice}.",
)
NO_FROM = Said(
    'a figure of the grade derived needs "from": from what it is worked out.', HOW_SURE,
    "Add from: and a few words, such as from: between the classes above and below.",
)  # fmt: skip
WITH_SOURCE = Said(
    "common practice has no source; take it out, or give the figure its true grade.", HOW_SURE,
    "Take source and where out, or write grade: read (or secondary, or memory).",
)  # fmt: skip
ONLY_DERIVED = Said('"from" is for the grade derived.', HOW_SURE, "Take from out, or write grade: derived.")
SIZES_IN_ORDER = Said(
    "sizes stand in order, the smallest first.",
    "The program takes the first one that does the work: out of order it would choose one too large.",
    "Move it to its place.",
)


def unreadable(error: QuantityError) -> Said:
    """A number that cannot be read."""
    write = "Write a number, a space and a unit; a number alone is a share or a count."
    return Said(str(error), "Nothing can be worked out with it.", write)


def problems(files: Files) -> Iterator[Problem]:
    """What is wrong with the figures of tables and implements."""
    sources = [s.data["id"] for s in files.sources]
    for figure, dimension in figures(files):
        yield from _numbers(figure, dimension)
        yield from _grade(figure, sources)
    for _, kind in files.kinds:
        yield from _sizes(kind)


def unused_sources(files: Files) -> Iterator[Problem]:
    """Sources that no figure names: no mistake, but worth knowing."""
    used = {figure.data.get("source") for figure, _ in figures(files)}
    for _, table in files.of("tables"):
        for row in table.each("rows"):
            used |= {value for value in (row.data.get("words") or {}).values() if isinstance(value, str)}
    for source in files.sources:
        if source.data["id"] not in used:
            said = Said(
                f'no figure names the source "{source.data["id"]}".',
                "It stands behind nothing that is computed here.",
                "Name it at a figure, or keep it for those who read on.",
            )
            yield source.problem(said, "id")


def figures(files: Files) -> Iterator[tuple[Placed, str | None]]:
    """Every figure of the book, with its dimension where the field decides it."""
    for _, table in files.of("tables"):
        for row in table.each("rows"):
            for column in row.data.get("figures") or {}:
                yield row["figures"][column], None
    for _, kind in files.kinds:
        yield from _inside(kind)
    for contradiction in files.contradictions:
        yield from _inside(contradiction)
    if (offer := files.read.get("offer.yaml")) is not None:
        yield from _inside(offer["figures"])
        for key in offer.each("keys"):
            yield from _inside(key)
    if (measuring := files.read.get("measuring.yaml")) is not None:
        yield from _inside(measuring)


def _inside(part: Placed) -> Iterator[tuple[Placed, str | None]]:
    for key, value in part.data.items():
        if isinstance(value, dict) and "grade" in value:
            per_width = key == "force" and part.data.get("per") == "width"
            yield part[key], "force_per_width" if per_width else DIMENSION_OF.get(key)
        elif isinstance(value, dict):
            yield from _inside(part[key])
        elif isinstance(value, list):
            for index, inner in enumerate(value):
                if isinstance(inner, dict):
                    yield from _inside(part[key][index])


def _numbers(figure: Placed, dimension: str | None) -> Iterator[Problem]:
    data = figure.data
    given = [name for name in NUMBERS if data.get(name) is not None]
    if given not in (["value"], ["low", "high"], ["low", "planning", "high"]):
        yield figure.problem(FORM)
        return
    read: list[tuple[str, float, str]] = []
    for name in given:
        try:
            read.append((name, *number(data[name], dimension)))
        except QuantityError as error:
            yield figure.problem(unreadable(error), name)
            return
    for (before, less, unit), (after, more, other) in pairwise(read):
        if unit != other:
            said = Said(
                f"{before} and {after} are not in units of the same sort.",
                "They are the ends of one range.",
                f"Write {after} in a unit like that of {before}.",
            )
            yield figure.problem(said, after)
        elif less > more:
            said = Said(
                f"{before} is greater than {after}.",
                "Low, planning and high are the ends of one range, and the cautious end would be taken for the other.",
                "Put the smallest first: low, then planning, then high.",
            )
            yield figure.problem(said, after)


def _grade(figure: Placed, sources: list[Any]) -> Iterator[Problem]:
    data = figure.data
    grade = data["grade"]
    if grade in SOURCED:
        for needed in ("source", "where"):
            if not data.get(needed):
                said = Said(
                    f'a figure of the grade {grade} needs "{needed}".',
                    HOW_SURE,
                    'Add source: and an id of sources.yaml, or write grade: practice.' if needed == "source"
                    else 'Add where: and the page or table, such as where: "table 3".',
                )  # fmt: skip
                yield figure.problem(said)
    elif grade == "derived" and not data.get("from"):
        yield figure.problem(NO_FROM)
    elif grade == "practice" and (data.get("source") or data.get("where")):
        yield figure.problem(WITH_SOURCE, "grade")
    if data.get("from") and grade != "derived":
        yield figure.problem(ONLY_DERIVED, "from")
    source = data.get("source")
    if source is not None and source not in sources:
        yield figure.problem(unknown("source", source, sources, "sources.yaml", HOW_SURE), "source")


def _sizes(kind: Placed) -> Iterator[Problem]:
    """Sizes can be read, and stand in order."""
    size_is = kind.data["size_is"]
    dimension = SIZE_DIMENSION.get(size_is)
    before: float | None = None
    for size in kind.each("sizes"):
        try:
            if size.data.get("width") is not None:
                parse_figure_text(size.data["width"], "length")
            if dimension is None:
                continue
            value = number(size.data["size"], dimension)[0]
        except QuantityError as error:
            yield size.problem(unreadable(error), "size")
            continue
        if before is not None and value <= before:
            yield size.problem(SIZES_IN_ORDER, "size")
        before = value
