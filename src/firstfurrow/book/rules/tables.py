"""Tables beside the shipped ones: figures of the same sort and size, nothing that the program misses, no idle row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from functools import cache
from typing import Any

from firstfurrow.book.figures import figure
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.model import Figure
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, Said, did_you_mean, one_of, unknown
from firstfurrow.book.yaml_strict import read
from firstfurrow.quantities import QuantityError

Rows = Mapping[str, Mapping[str, Any]]  # by id, as they stand in the file

# Tables of which the program reads each row, or the sentence for it, by its name: a new one is read by nobody.
BY_NAME = ("estimates", "our_choices", "plausible_bounds", "rare_mixes", "way_figures")
# Rows of other tables that it reads by their names.
NAMED: Mapping[str, Sequence[str]] = {
    "couplers": ("quick_coupler", "flush_face"),
    "estimates": ("draft", "grip"),
    "felt_steps": ("comes_or_goes", "size_class", "crossing", "runs", "way_runs", "without_runs"),
    "shaft_types": ("1",),
    "surfaces": ("paved",),
}
WIDENED, SLIPPED = "plausible_bounds", "digit_slipped"  # its ends are widened on purpose; its row for all others
ENDS = {"low": ("value", "low"), "planning": ("value", "planning", "high"), "high": ("value", "high")}
IN_EVERY_ROW = "The program looks it up in every row of this table, and stops where it is not there."
READ_BY_NAME = "The program looks it up by its name, and stops where it is not there."


def problems(files: Files) -> Iterator[Problem]:
    """What in a table would be read wrongly, or not at all; tables that the shipped book lacks are left alone."""
    for name, table in files.of("tables"):
        if not files.shelf.own(f"tables/{name}.yaml"):
            continue  # the shipped one as it is
        shipped = _shipped(name)
        yield from _columns(name, table, shipped)
        if not shipped:
            continue
        for row in table.each("rows"):
            if name in BY_NAME and row.data["row"] not in shipped:
                yield row.problem(_idle(name, row.data["row"], shipped), "row")
            else:
                yield from _figures(name, row, shipped.get(row.data["row"], {}))
        if files.shelf.local:  # a whole book may have tables of its own under these names
            yield from _complete(table, shipped)
        yield from _missing(files, name, table, shipped)
        yield from _fitting(files, name, table)


@cache
def _shipped(name: str) -> Rows:
    path = book_folder() / "tables" / f"{name}.yaml"
    return {row["row"]: row for row in read(path)["rows"]} if path.is_file() else {}


@cache
def _slipped() -> float:
    """How many times larger or smaller than the shipped figure is hardly meant: as the shipped book says it."""
    return figure(_shipped(WIDENED)[SLIPPED]["figures"]["value"]).planning


def _columns(name: str, table: Placed, shipped: Rows) -> Iterator[Problem]:
    """In one column every figure has the same working unit; a table of loose figures has the one column value."""
    if all(list(row.data.get("figures") or {}) == ["value"] for row in table.each("rows")):
        return
    unit_of = {column: figure(data).unit for row in shipped.values() for column, data in _of(row).items()}
    for row in table.each("rows"):
        for column, data in _of(row.data).items():
            with suppress(QuantityError):  # `figures` says what cannot be read
                unit = figure(data).unit
                if column in _of(shipped.get(row.data["row"], {})) or unit_of.setdefault(column, unit) == unit:
                    continue
                others, here = (found or "plain numbers" for found in (unit_of[column], unit))
                said = Said(
                    f"the column {column} of {name} has {others} above and {here} here.",
                    "The rows of a table are compared with each other.",
                    f"Write this figure in {others}, like those above.",
                )
                yield row.problem(said, "figures", column)


def _of(row: Mapping[str, Any]) -> Mapping[str, Any]:
    """The figures of a row by column."""
    return row.get("figures") or {}


def _idle(name: str, id_: str, shipped: Rows) -> Said:
    return Said(
        f'nothing reads a row "{id_}" of {name}.{did_you_mean(id_, shipped)}',
        "The program knows the rows of this table, and their sentences, by their names, and none of this name.",
        one_of(id_, shipped, f"the shipped tables/{name}.yaml"),
    )


def _figures(name: str, row: Placed, shipped: Mapping[str, Any]) -> Iterator[Problem]:
    """Each figure that the shipped book has too, beside that one."""
    for column, data in _of(shipped).items():
        own = _of(row.data).get(column)
        if own is None or own == data:
            continue
        try:
            here, there = figure(own), figure(data)
        except QuantityError:
            continue  # `figures` says what cannot be read
        called = row.data["row"] if column == "value" else f"{column} of {row.data['row']}"
        end = _apart(here, there)
        if here.unit != there.unit:
            yield row.problem(_other_unit(called, own, data, there.unit), "figures", column)
        elif end is not None and name != WIDENED:
            key = next(key for key in ENDS[end] if own.get(key) is not None)
            said = Said(
                f"{called} is {own[key]}, where the shipped book has {_written(data, end)}: has a digit slipped?",
                f"It is more than {_slipped():g} times as {'much' if _more(here, there, end) else 'little'}, and goes "
                "into every plan that has to do with it.",
                "Look at the unit and the digits.",
            )
            yield row.problem(said, "figures", column, key)


def _other_unit(called: str, own: Mapping[str, Any], data: Mapping[str, Any], unit: str) -> Said:
    there = _written(data, "planning")
    return Said(
        f"{called} is {_written(own, 'planning')}, where the shipped book has {there}: not the same unit.",
        f"The program counts with it as {unit or 'a plain number'}, whatever stands here.",
        f"Write {f'it in {unit}' if unit else 'a plain number'}, such as {there}.",
    )


def _written(data: Mapping[str, Any], end: str) -> Any:
    """One end of a figure as it stands in the file."""
    return next(data[key] for key in ENDS[end] if data.get(key) is not None)


def _apart(here: Figure, there: Figure) -> str | None:
    """The first end that is more than so many times larger or smaller."""
    for end in ("planning", "low", "high"):
        mine, shipped = abs(getattr(here, end)), abs(getattr(there, end))
        if shipped and not shipped / _slipped() <= mine <= shipped * _slipped():
            return end
    return None


def _more(here: Figure, there: Figure, end: str) -> bool:
    return bool(abs(getattr(here, end)) > abs(getattr(there, end)))


def _complete(table: Placed, shipped: Rows) -> Iterator[Problem]:
    """What every row of the shipped table has, figures and words, every row here has."""
    for part in ("figures", "words"):
        first, *others = (row.get(part) or {} for row in shipped.values())
        needed = [column for column in first if all(column in other for other in others)]
        for row in table.each("rows"):
            there = row.data.get(part) or {}
            for column in (column for column in needed if there.get(column) is None):
                what = f"{row.data['row']} has no {column}, which every row of this table has in the shipped book."
                write = f"Add {column} to its {part}; a neighbour shows how."
                yield row.problem(Said(what, IN_EVERY_ROW, write), "row")


def _missing(files: Files, name: str, table: Placed, shipped: Rows) -> Iterator[Problem]:
    """Rows that were taken out and that the program needs; of `plausible_bounds` it needs none."""
    file = f"tables/{name}.yaml"
    retired = {o.what: o.line for o in files.shelf.laid(file).overrides} if files.shelf.local else {}
    needed = NAMED.get(name, tuple(shipped) if name == "our_choices" else ())
    there = {row["row"] for row in table.data["rows"]}
    for id_ in (id_ for id_ in needed if id_ not in there):
        said = Said(
            f'the row "{id_}" of {name} is missing.', READ_BY_NAME,
            "Leave the row of the shipped book as it is, or change its figures.",
        )  # fmt: skip
        line = retired.get(f"rows, {id_}")
        yield Problem(file, line, 1, said.what, said.why, said.write) if line else table.problem(said, "rows")


def _fitting(files: Files, name: str, table: Placed) -> Iterator[Problem]:
    """Ids and words that the program takes for something else: a class is a number, a soil names a column of drafts."""
    for row in table.each("rows"):
        if name == "drawbar_classes" and not row.data["row"].isdigit():
            said = Said(
                f'a class of drawbars is a number, not "{row.data["row"]}".', "The page says it as a number.",
                "Write the number that the class has in the trade, such as 2.",
            )  # fmt: skip
            yield row.problem(said, "row")
        words = row.get("words")
        if name == "soils" and words is not None and "draft" in files.rows:
            columns = sorted({column for draft in files.rows["draft"].values() for column in _of(draft.data)})
            if columns and words.data.get("draft_factor") not in (None, *columns):
                named, why = words.data["draft_factor"], "The pull in this soil is multiplied by that column."
                said = unknown("column of the draft table", named, columns, "tables/draft.yaml", why)
                yield words.problem(said, "draft_factor")
