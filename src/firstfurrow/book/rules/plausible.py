"""Figures that can hardly be meant: outside plausible bounds, a size far too heavy or light, classes out of order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from itertools import pairwise
from typing import Any

from firstfurrow.book.figures import figure, number
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.implements import DIMENSION_OF, SIZE_DIMENSION
from firstfurrow.book.model import Figure
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said
from firstfurrow.book.rules.figures import NUMBERS, figures
from firstfurrow.book.yaml_strict import read
from firstfurrow.quantities import QuantityError, format_number, parse_figure_text

TABLE = "plausible_bounds"
Bounds = Mapping[str, tuple[float, float]]  # row: low and high, in the working unit
SLIPPED = "A slip here goes into every plan that has to do with it."
COMPARE = "Look at the unit and the digits, and compare with a neighbour."


def problems(files: Files) -> Iterator[Problem]:
    """What is out of the bounds of the book, or of the shipped one."""
    bounds = _bounds(files)
    for part, dimension in figures(files):
        yield from _readable(_figure(part, dimension, bounds))
    for _, kind in files.kinds:
        yield from _readable(_densities(kind, bounds))
    columns = [r.data["class_column"] for r in files.requirements if r.data.get("class_column") is not None]
    for column in dict.fromkeys(columns):
        yield from _readable(_classes(files, column))


def _readable(found: Iterator[Problem]) -> Iterator[Problem]:
    """As far as the numbers can be read; `figures` says which cannot."""
    try:
        yield from found
    except QuantityError:
        return


def _bounds(files: Files) -> Bounds:
    rows: list[Mapping[str, Any]]
    if TABLE in files.rows:
        rows = [row.data for row in files.rows[TABLE].values()]
    else:
        rows = read(book_folder() / "tables" / f"{TABLE}.yaml")["rows"]
    found: dict[str, tuple[float, float]] = {}
    for row in rows:
        with suppress(QuantityError, KeyError):  # what cannot be read is told by `figures`
            one = figure(row["figures"]["value"])
            found[row["row"]] = (one.low, one.high)
    return found


def _figure(part: Placed, dimension: str | None, bounds: Bounds) -> Iterator[Problem]:
    """A figure of an implement, by the name that it stands under; said once, at the first end that is out."""
    name = str(part.path[-1])
    row = "force_per_width" if dimension == "force_per_width" else name
    if dimension is None or row not in bounds or name not in DIMENSION_OF:
        return
    low, high = bounds[row]
    out = [
        (end, *read)
        for end in NUMBERS
        if part.data.get(end) is not None and not low <= (read := number(part.data[end], dimension))[0] <= high
    ]
    if out:
        (end, first, unit), (_, last, _) = out[0], out[-1]
        shown = format_number(first, 3) if first == last else _range(first, last)
        said = Said(
            f"{name} is {shown} {unit}: hardly any tool has so {'little' if first < low else 'much'}.",
            SLIPPED,
            f"{COMPARE} Expected is {_range(low, high)} {unit}; {TABLE} says so, and can be widened.",
        )
        yield part.problem(said, end)


def _densities(kind: Placed, bounds: Bounds) -> Iterator[Problem]:
    """What a size weighs for each unit of its size, within the bounds and beside the other sizes of the same build."""
    row = f"size_{kind.data['size_is']}"
    spread, _ = bounds.get("size_spread", (0, 0))
    if row not in bounds or spread <= 0:
        return
    low, high = bounds[row]
    for variant in kind.each("variants"):
        before: float | None = None
        for size in kind.each("sizes"):
            if variant.data["variant"] not in (size.data.get("variants") or [variant.data["variant"]]):
                continue
            much, mass = _size(kind, size), _mass(kind, variant, size, bounds)
            if not much or not mass:
                continue
            density = mass / much
            if beyond := not low <= density <= high:
                wrong = f"{format_number(density, 2)} for each unit of its size; expected is {_range(low, high)}"
            elif before is not None and not before / spread <= density <= before * spread:
                ratio = format_number(max(density / before, before / density), 1)
                more = "more" if density > before else "less"
                wrong = f"for each unit of its size it is {ratio} times {more} than for the size above"
            else:
                before = density
                continue
            said = Said(
                f"the mass of this size ({format_number(mass, 0)} kg) does not go with the size: {wrong}.", SLIPPED,
                f"{COMPARE} If the mass is right, look at the size.",
            )  # fmt: skip
            yield size.problem(said, "mass" if "mass" in size.data else "size")
            if not (beyond and "mass" in size.data):
                return  # of the next sizes the same would be said


def _size(kind: Placed, size: Placed) -> float | None:
    if kind.data["size_is"] == "tools":
        return None if size.data.get("tools") is None else float(size.data["tools"])
    dimension = SIZE_DIMENSION.get(kind.data["size_is"])
    return None if dimension is None else number(size.data["size"], dimension)[0]


def _mass(kind: Placed, variant: Placed, size: Placed, bounds: Bounds) -> float | None:
    """The mass that is planned, in kg; what the size or the build says counts before the kind.

    None too for a figure that is itself out of its bounds: that is said of it already.
    """
    for part in (size, variant, kind):
        if part.data.get("mass") is not None:
            return _within(figure(part.data["mass"], "mass"), "mass", bounds)
    for part in (variant, kind):
        if part.data.get("mass_per_width") is not None:
            each = _within(figure(part.data["mass_per_width"], "mass_per_width"), "mass_per_width", bounds)
            width = size.data.get("width") or (size.data["size"] if kind.data["size_is"] == "width" else None)
            return None if width is None or each is None else each * parse_figure_text(width, "length")[0]
    return None


def _within(found: Figure, row: str, bounds: Bounds) -> float | None:
    low, high = bounds.get(row, (found.low, found.high))
    return found.planning if low <= found.low and found.high <= high else None


def _range(low: float, high: float) -> str:
    return f"{format_number(low, 3)} to {format_number(high, 3)}"


def _classes(files: Files, column: str) -> Iterator[Problem]:
    """Size classes stand in order: in what requirements are compared with, each has at least what the one above has."""
    rows = [row for row in files.rows.get("size_classes", {}).values() if column in (row.data.get("figures") or {})]
    for above, row in pairwise(rows):
        if figure(row.data["figures"][column]).planning < figure(above.data["figures"][column]).planning:
            said = Said(
                f"{column} of {row.data['row']} is less than that of {above.data['row']} above it.",
                "The program takes the first class that does, so classes stand in order, the smallest first.",
                f"{COMPARE} Or move the row to its place.",
            )
            yield row.problem(said, "figures", column)
