"""Contradictions of the book: which answers do not go together, from their YAML."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.book.conditions import build
from firstfurrow.book.figures import figure
from firstfurrow.book.model import ContradictionRule, MoreThan


def rule(data: Mapping[str, Any]) -> ContradictionRule:
    """One contradiction."""
    when, more = data.get("when"), data.get("more_than")
    return ContradictionRule(
        id=data["id"],
        asked_at=tuple(data["asked_at"]),
        others=tuple(data.get("with") or ()),
        say=data["say"],
        when=None if when is None else build(when),
        more_than=None if more is None else MoreThan(figure(more["times"]), more.get("answer")),
        no_job=_but_for(data, "no_job"),
        no_tool=_but_for(data, "no_tool"),
    )


def _but_for(data: Mapping[str, Any], test: str) -> tuple[str, ...] | None:
    found = data.get(test)
    return None if found is None else tuple(found["but_for"])
