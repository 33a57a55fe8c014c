"""Sections of the book: questions and groups, from their YAML."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.book.conditions import build
from firstfurrow.book.figures import number
from firstfurrow.book.model import Choice, Group, NotSure, OtherAsk, Question, Section, SizeBand


def section(data: Mapping[str, Any]) -> Section:
    """One section."""
    group = data.get("group")
    return Section(
        id=data["id"],
        title=data["title"],
        intro=data["intro"],
        questions=tuple(question(q) for q in data.get("questions") or ()),
        group=None if group is None else _group(group),
    )


def _group(data: Mapping[str, Any]) -> Group:
    return Group(
        id=data["id"],
        title=data["title"],
        questions=tuple(question(q) for q in data["questions"]),
        closes=question(data["closes"]),
        most=data["most"],
    )


def question(data: Mapping[str, Any]) -> Question:
    """One question."""
    when = data.get("when")
    dimension = data.get("dimension")
    return Question(
        id=data["id"],
        type=data["type"],
        ask=data["ask"],
        why=data["why"],
        not_sure=_not_sure(data["not_sure"], data["type"], dimension),
        how=data.get("how"),
        when=None if when is None else build(when),
        moves=tuple(data.get("moves") or ()),
        shows=tuple(data.get("shows") or ()),
        choices=tuple(
            Choice(c["id"], c["label"], c.get("note"), tuple(map(str, c.get("also") or ())))
            for c in data.get("choices") or ()
        ),
        dimension=dimension,
        bare_unit=data.get("bare") or {},
        bands=tuple(_band(b, dimension) for b in data.get("bands") or ()),
        plausible=_range(data.get("plausible"), dimension),
        possible=_range(data.get("possible"), dimension),
        asks=tuple(OtherAsk(build(a["when"]), a["ask"], a.get("choose", True)) for a in data.get("asks") or ()),
    )


def _band(data: Mapping[str, Any], dimension: str | None) -> SizeBand:
    return SizeBand(data["label"], number(data["value"], dimension)[0], str(data["value"]))


def _range(data: Any, dimension: str | None) -> tuple[float, float] | None:
    if data is None:
        return None
    low, high = data
    return number(low, dimension)[0], number(high, dimension)[0]


def _not_sure(data: Mapping[str, Any], kind: str, dimension: str | None) -> NotSure:
    def value(key: str) -> Any:
        given = data.get(key)
        if isinstance(given, list):
            return tuple(given)
        if given is None or kind not in ("quantity", "count"):
            return given
        planned = number(given, dimension)[0]
        return int(planned) if kind == "count" else planned

    return NotSure(data["how"], value("planning"), value("low"), value("high"), data.get("say"))
