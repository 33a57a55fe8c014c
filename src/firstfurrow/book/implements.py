"""Implement families of the book: kinds with their sizes, variants, shaft, pull and oil, from their YAML."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.book.figures import figure, number
from firstfurrow.book.model import DoneWithout, Family, Figure, Kind, OilFunction, Pull, ShaftDrive, Size, Variant
from firstfurrow.quantities import parse_figure_text

# The dimension of every figure field, wherever it stands in a kind.
DIMENSION_OF: Mapping[str, str] = {
    "mass": "mass",
    "mass_per_width": "mass_per_width",
    "load": "mass",
    "tongue": "mass",
    "tongue_share": "share",
    "centre_behind_pins": "length",
    "load_centre_ahead": "length",
    "speed": "speed",
    "power": "power",
    "power_per_width": "power_per_width",
    "feed": "feed",
    "depth": "depth",
    "tools_per_width": "per_length",
    "flow": "flow",
    "pressure": "pressure",
    "volume": "volume",
    "force": "force",  # per width: force_per_width
}

# The dimension in which the id of a size is read.
SIZE_DIMENSION: Mapping[str, str] = {"width": "length", "load": "mass", "volume": "volume", "diameter": "bore"}

# The dimension of the limits up to which something smaller does the work.
LIMIT_DIMENSION: Mapping[str, str] = {"area": "area", "load": "mass"}


def _figure(data: Mapping[str, Any], name: str, dimension: str | None = None) -> Figure | None:
    found = data.get(name)
    return None if found is None else figure(found, dimension or DIMENSION_OF[name])


def family(data: Mapping[str, Any]) -> Family:
    """One family with its kinds."""
    return Family(data["family"], data["title"], tuple(kind(k, data["family"]) for k in data["kinds"]))


def kind(data: Mapping[str, Any], family_id: str) -> Kind:
    """One kind of implement."""
    size_is = data["size_is"]
    return Kind(
        kind=data["kind"],
        family=family_id,
        name=data["name"],
        plain=data["plain"],
        sized_by=data["sized_by"],
        size_is=size_is,
        sizes=tuple(_size(s, size_is) for s in data["sizes"]),
        variants=tuple(_variant(v) for v in data["variants"]),
        us_size_unit=data.get("us_size_unit"),
        also=tuple(map(str, data.get("also") or ())),
        jobs=tuple(data.get("jobs") or ()),
        area_job=data.get("area_job"),
        shaft=_shaft(data.get("shaft")),
        pull=_pull(data.get("pull")),
        rolls=data.get("rolls", False),
        mass=_figure(data, "mass"),
        mass_per_width=_figure(data, "mass_per_width"),
        load=_figure(data, "load"),
        centre_behind_pins=_figure(data, "centre_behind_pins"),
        load_centre_ahead=_figure(data, "load_centre_ahead"),
        tongue=_figure(data, "tongue"),
        tongue_share=_figure(data, "tongue_share"),
        speed=_figure(data, "speed"),
        field_rate=data.get("field_rate"),
        loader_functions=data.get("loader_functions", 0),
        asks_load=data.get("asks_load", False),
        asks_depth=data.get("asks_depth", False),
        never_tilted=data.get("never_tilted", False),
        meets_stones=data.get("meets_stones", False),
        draft_control=data.get("draft_control", False),
        folds=data.get("folds", False),
        leads=tuple(data.get("leads") or ()),
        no_quick_coupler=data.get("no_quick_coupler", False),
        guard=data.get("guard", False),
        tread=data.get("tread"),
        done_without=_done_without(data.get("done_without")),
        needs=tuple(data.get("needs") or ()),
        mistakes=tuple(data.get("mistakes") or ()),
        cautions=tuple(data.get("cautions") or ()),
    )


def _size(data: Mapping[str, Any], size_is: str) -> Size:
    name = str(data["size"])
    dimension = SIZE_DIMENSION.get(size_is)
    value = None if dimension is None else parse_figure_text(name, dimension)[0]
    width = data.get("width")
    if width is not None:
        width = parse_figure_text(width, "length")[0]
    elif size_is == "width":
        width = value
    return Size(
        id=name,
        value=value,
        width=width,
        tools=data.get("tools"),
        variants=tuple(data.get("variants") or ()),
        categories=tuple(map(str, data.get("categories") or ())),
        load=_figure(data, "load"),
        mass=_figure(data, "mass"),
        tongue=_figure(data, "tongue"),
        power=_figure(data, "power"),
        centre_behind_pins=_figure(data, "centre_behind_pins"),
    )


def _variant(data: Mapping[str, Any]) -> Variant:
    return Variant(
        id=data["variant"],
        name=data["name"],
        way=data["way"],
        oil=tuple(_oil(o) for o in data.get("oil") or ()),
        shaft=_shaft(data.get("shaft")),
        no_shaft=data.get("no_shaft", False),
        mass=_figure(data, "mass"),
        mass_per_width=_figure(data, "mass_per_width"),
        tongue=_figure(data, "tongue"),
        tongue_share=_figure(data, "tongue_share"),
        centre_behind_pins=_figure(data, "centre_behind_pins"),
    )


def _done_without(data: Mapping[str, Any] | None) -> DoneWithout | None:
    if data is None:
        return None
    area, load = (None if (text := data.get(key)) is None else number(text, d)[0] for key, d in LIMIT_DIMENSION.items())
    return DoneWithout(data["what"], area, load)


def _oil(data: Mapping[str, Any]) -> OilFunction:
    return OilFunction(
        id=data["id"],
        job=data["job"],
        acting=data["acting"],
        duty=data["duty"],
        moves=data["moves"],
        must=data["must"],
        supply=data.get("supply", "rear_set"),
        shares=data.get("shares", False),
        floats=data.get("floats", False),
        is_link=data.get("is_link"),
        flow=_figure(data, "flow"),
        pressure=_figure(data, "pressure"),
        volume=_figure(data, "volume"),
    )


def _shaft(data: Mapping[str, Any] | None) -> ShaftDrive | None:
    if data is None:
        return None
    return ShaftDrive(
        speeds=tuple(data["speeds"]),
        engagement=data["engagement"],
        place=data.get("place", "rear"),
        power_per_width=_figure(data, "power_per_width"),
        power=_figure(data, "power"),
        rotary_row=data.get("rotary_row"),
        feed=_figure(data, "feed"),
        hard_by=data.get("hard_by"),
    )


def _pull(data: Mapping[str, Any] | None) -> Pull | None:
    if data is None:
        return None
    per = data.get("per")
    return Pull(
        row=data.get("row"),
        depth=_figure(data, "depth"),
        tools_per_width=_figure(data, "tools_per_width"),
        per=per,
        force=_figure(data, "force", "force_per_width" if per == "width" else "force"),
        self_limiting=data.get("self_limiting", False),
    )
