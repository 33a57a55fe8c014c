"""Tables, requirements, sources and guides of the book, from their YAML."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.book.figures import figure, number
from firstfurrow.book.model import Guide, Requirement, Row, Source, Table


def table(data: Mapping[str, Any]) -> Table:
    """One table with its rows in the order of the file."""
    rows = {r["row"]: _row(r) for r in data["rows"]}
    return Table(data["table"], data["title"], rows, data.get("note"))


def _row(data: Mapping[str, Any]) -> Row:
    words = {k: tuple(v) if isinstance(v, list) else v for k, v in (data.get("words") or {}).items()}
    figures = {column: figure(f) for column, f in (data.get("figures") or {}).items()}
    return Row(data["row"], data.get("name", data["row"]), figures, words)


def requirement(data: Mapping[str, Any]) -> Requirement:
    """One requirement."""
    step = data.get("round_to")
    later = data["later"]
    return Requirement(
        id=data["id"],
        group=data["group"],
        title=data["title"],
        what=data["what"],
        sense=data["sense"],
        unit=data.get("unit") or "",
        decides=data["decides"],
        round_to=None if step is None else number(step, None)[0],
        offer_keys=tuple(data.get("offer_keys") or ()),
        check=data["check"],
        later=later["can"],
        later_what=later.get("what", ""),
        levels=tuple(data.get("levels") or ()),
        caveats=tuple(data.get("caveats") or ()),
        cautions=tuple(data.get("cautions") or ()),
        class_column=data.get("class_column"),
        in_band=data.get("in_band", False),
        shown=data.get("shown") or {},
        stand_in=data.get("stand_in", False),
    )


def source(data: Mapping[str, Any]) -> Source:
    """One source."""
    edition = data.get("edition")
    return Source(
        id=data["id"],
        title=data["title"],
        publisher=data["publisher"],
        year=data.get("year"),
        edition=None if edition is None else str(edition),
        link=data.get("link"),
        note=data.get("note"),
    )


def guide(data: Mapping[str, Any]) -> Guide:
    """One measuring guide."""
    return Guide(data["id"], data["title"], tuple(data["steps"]), tuple(data.get("drawing") or ()))
