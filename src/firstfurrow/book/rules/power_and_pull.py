"""Power and pull: shaft speeds that a shaft has, and the widths, tools and feed that the figures are multiplied by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress

from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.problems import Problem, Said
from firstfurrow.quantities import QuantityError, format_number

MID = "mid"  # the row of the shaft under the middle; all others are behind
NO_POWER = "Without it the power at the shaft is left out, and the tractor is planned too weak."
NO_PULL = "Without it the pull is counted as that of one metre or of one tool, and the tractor is planned too light."
ADD_WIDTH = "Add width: 1.5 m to this size."
PULL_WIDTH = Said("a pull that grows with the width needs the width of every size.", NO_PULL, ADD_WIDTH)
PULL_TOOLS = Said(
    "a pull of so much for each tool needs the number of tools of every size.", NO_PULL,
    "Add tools: 3 to this size, or tools_per_width to the pull with width here.",
)  # fmt: skip
EACH_TOOL = Said(PULL_TOOLS.what, NO_PULL, "Add tools: 3 to this size.")
ROW_WIDTH = Said("its row of rotary power grows with the width, so every size needs one.", NO_POWER, ADD_WIDTH)
ROW_FEED = Said(
    "its row of rotary power grows with what is fed in, so the shaft needs feed.", NO_POWER,
    "Add feed: {low: 4 t/h, planning: 8 t/h, high: 12 t/h, grade: practice} to the shaft.",
)  # fmt: skip


def problems(files: Files) -> Iterator[Problem]:
    """What no shaft turns at, and what is missing where power and pull are multiplied."""
    speeds = _speeds(files)
    for _, kind in files.kinds:
        for part in (kind, *kind.each("variants")):
            if (shaft := part.get("shaft")) is not None:
                if speeds:
                    yield from _known_speeds(shaft, speeds)
                yield from _rotary(files, kind, shaft)
        yield from _pull(files, kind)


def _speeds(files: Files) -> Mapping[str, Sequence[int]]:
    """Shaft speeds by place; nothing where the book has no table of shafts."""
    found: dict[str, list[int]] = {}
    for id_, row in files.rows.get("shaft_types", {}).items():
        with suppress(QuantityError):  # what cannot be read is told by `figures`
            turns = _number(row, "speed")
            at = found.setdefault(MID if id_ == MID else "rear", [])
            if turns and int(turns) not in at:
                at.append(int(turns))
    return found


def _number(row: Placed, column: str) -> float:
    """The figure that is planned with; 0 where the row has none."""
    data = (row.data.get("figures") or {}).get(column) or {}
    given = next((data[key] for key in ("value", "planning", "high") if data.get(key) is not None), None)
    return 0.0 if given is None else number(given, None)[0]


def _known_speeds(shaft: Placed, speeds: Mapping[str, Sequence[int]]) -> Iterator[Problem]:
    place = shaft.data.get("place") or "rear"
    known = speeds.get(place, ())
    where = "under the middle" if place == MID else "at the rear"
    for index, turns in enumerate(shaft.data["speeds"]):
        if turns not in known:
            said = Said(
                f"no shaft {where} turns at {format_number(turns, 0)}.",
                "The type of the shaft, and how far from the pin it ends, are looked up by its speed.",
                f"Write one of these: {', '.join(map(str, known))}; they stand in tables/shaft_types.yaml.",
            )
            yield shaft.problem(said, "speeds", index)


def _rotary(files: Files, kind: Placed, shaft: Placed) -> Iterator[Problem]:
    row = files.rows.get("rotary_power", {}).get(shaft.data.get("rotary_row"))
    if row is None:
        return  # none is needed, or `names` says that there is none of that name
    with suppress(QuantityError):
        if _number(row, "c") and shaft.data.get("feed") is None:
            yield shaft.problem(ROW_FEED, "rotary_row")
        if _number(row, "b"):
            yield from (size.problem(ROW_WIDTH, "size") for size in kind.each("sizes") if not _wide(kind, size))


def _pull(files: Files, kind: Placed) -> Iterator[Problem]:
    pull = kind.get("pull")
    if pull is None:
        return
    row = files.rows.get("draft", {}).get(pull.data.get("row"))
    words = {} if row is None else row.data.get("words") or {}
    by_row = row is not None and "width_unit" in words
    for size in kind.each("sizes"):
        wide, tools = _wide(kind, size), size.data.get("tools") is not None
        if pull.data.get("per") == "width" or (by_row and words["width_unit"] == "m"):
            if not wide:
                yield size.problem(PULL_WIDTH, "size")
        elif pull.data.get("per") == "tool":
            if not tools:
                yield size.problem(EACH_TOOL, "size")
        elif by_row and not tools and not (wide and pull.data.get("tools_per_width") is not None):
            yield size.problem(PULL_TOOLS, "size")


def _wide(kind: Placed, size: Placed) -> bool:
    return kind.data["size_is"] == "width" or size.data.get("width") is not None
