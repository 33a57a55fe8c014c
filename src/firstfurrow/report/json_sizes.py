"""What a tractor runs as JSON data (firstfurrow-sizes/1): working units throughout."""

from __future__ import annotations

from typing import Any

from firstfurrow import __version__
from firstfurrow.advice.offers.sizes import KindSizes, Sizes, Tried

FORMAT = "firstfurrow-sizes/1"


def sizes_data(sizes: Sizes) -> dict[str, Any]:
    """Every size tried, as plain data."""
    return {
        "format": FORMAT,
        "program": {"name": "firstfurrow", "version": __version__},
        "book": {"id": sizes.book.id, "version": sizes.book.version},
        "offer": {"name": sizes.offer.name, "place": sizes.offer.place},
        "ground": {id_: given.text for id_, given in sizes.said.items()},
        "assumed": [{"question": a.question, "text": a.text} for a in sizes.assumptions],
        "implements": [_kind(one) for one in sizes.kinds],
    }


def _kind(one: KindSizes) -> dict[str, Any]:
    return {
        "kind": one.kind.kind, "variant": one.variant.id, "name": one.kind.name, "build": one.variant.name,
        "largest": _id(one.largest), "perhaps": _id(one.perhaps), "beyond": _id(one.beyond),
        "sizes": [_tried(tried) for tried in one.tried],
    }  # fmt: skip


def _id(tried: Tried | None) -> str | None:
    return None if tried is None else tried.size.id


def _tried(tried: Tried) -> dict[str, Any]:
    verdict = tried.verdict
    return {
        "size": tried.size.id, "width": tried.width, "runs": verdict.runs, "refused": verdict.hookup.refused,
        "never": [v.requirement.id for v in verdict.never], "if": [v.requirement.id for v in verdict.if_],
        "ask": [v.requirement.id for v in verdict.ask], "hours": tried.hours,
    }  # fmt: skip
