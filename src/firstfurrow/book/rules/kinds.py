"""Kinds of implement: everything is there that the advice needs to work them out."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.implements import LIMIT_DIMENSION
from firstfurrow.book.problems import Problem
from firstfurrow.quantities import QuantityError

Where = tuple[Placed, Placed, Placed]  # kind, variant, size: a field may stand on any of them


def problems(files: Files) -> Iterator[Problem]:
    """What is missing or too much in the kinds."""
    for family, kind in files.kinds:
        yield from _sizing(kind)
        yield from _drive(kind)
        yield from _pull(kind)
        yield from _done_without(kind)
        if family != "links":
            yield from _builds(kind)


def _sizing(kind: Placed) -> Iterator[Problem]:
    data = kind.data
    if data["sized_by"] == "area" and data.get("area_job") is None:
        yield kind.problem("a kind that is sized by area needs area_job.", "sized_by")
    if data["sized_by"] == "load":
        for size in kind.each("sizes"):
            if data["size_is"] not in ("load", "volume") and size.data.get("load") is None and data.get("load") is None:
                yield size.problem("a kind that is sized by its load needs the load of every size.", "size")
    if data["size_is"] == "tools":
        for size in kind.each("sizes"):
            if size.data.get("tools") is None or size.data.get("width") is None:
                yield size.problem("a size counted in tools needs tools and width.", "size")
    if data.get("field_rate") is not None and data.get("speed") is None:
        yield kind.problem("a kind with a field rate needs its working speed.", "field_rate")


def _drive(kind: Placed) -> Iterator[Problem]:
    for part in (kind, *kind.each("variants")):
        shaft = part.get("shaft")
        if shaft is None:
            continue
        given = [k for k in ("power_per_width", "power") if shaft.data.get(k) is not None]
        if len(given) == 2:
            yield shaft.problem("give power_per_width or power, not both.")
        if not given and shaft.data.get("rotary_row") is None:
            for size in kind.each("sizes"):
                if size.data.get("power") is None:
                    yield size.problem("the shaft names no power, so every size needs its own.", "size")
        if "power_per_width" in given and kind.data["size_is"] not in ("width", "tools"):
            for size in kind.each("sizes"):
                if size.data.get("width") is None:
                    yield size.problem("power for each width needs the width of every size.", "size")


def _pull(kind: Placed) -> Iterator[Problem]:
    pull = kind.get("pull")
    if pull is None:
        return
    if (pull.data.get("row") is None) == (pull.data.get("per") is None):
        yield pull.problem("a pull has a row of the draft table, or per with force.")
    if (pull.data.get("per") is None) != (pull.data.get("force") is None):
        yield pull.problem("per and force belong together.")
    if kind.data.get("asks_depth") and pull.data.get("depth") is None:
        yield pull.problem("a kind that asks for its depth needs the usual depth here.")


def _done_without(kind: Placed) -> Iterator[Problem]:
    other = kind.get("done_without")
    if other is None:
        return
    if other.data.get("area") is None and other.data.get("load") is None:
        yield other.problem("done_without needs area or load: up to where it holds.")
    if other.data.get("area") is not None and kind.data.get("area_job") is None:
        yield other.problem("an area is for a kind with area_job.", "area")
    if other.data.get("load") is not None and kind.data["sized_by"] != "load":
        yield other.problem("a load is for a kind that is sized by its load.", "load")
    for key, dimension in LIMIT_DIMENSION.items():
        if other.data.get(key) is not None:
            try:
                number(other.data[key], dimension)
            except QuantityError as error:
                yield other.problem(str(error), key)


def _builds(kind: Placed) -> Iterator[Problem]:
    for variant in kind.each("variants"):
        sizes = [s for s in kind.each("sizes") if variant.data["variant"] in _sold_as(kind, s)]
        if not sizes:
            yield variant.problem(f'no size is sold as "{variant.data["variant"]}".', "variant")
        for size in sizes:
            where = (kind, variant, size)
            if not _has(where, "mass") and not (_has(where, "mass_per_width") and _wide(where)):
                yield size.problem(f"the mass of this size as {variant.data['variant']} is not known.", "size")
            if variant.data["way"] == "three_point":
                if not size.data.get("categories"):
                    yield size.problem("a size that hangs on the three arms needs categories.", "size")
                if not _has(where, "centre_behind_pins"):
                    yield size.problem("a size that hangs on the three arms needs centre_behind_pins.", "size")
        if variant.data["way"] == "loader" and kind.data.get("load_centre_ahead") is None:
            yield variant.problem("a loader tool needs load_centre_ahead.", "way")


def _sold_as(kind: Placed, size: Placed) -> list[str]:
    return size.data.get("variants") or [v["variant"] for v in kind.data["variants"]]


def _has(where: Where, key: str) -> bool:
    return any(part.data.get(key) is not None for part in where)


def _wide(where: Where) -> bool:
    return where[0].data["size_is"] == "width" or where[2].data.get("width") is not None
