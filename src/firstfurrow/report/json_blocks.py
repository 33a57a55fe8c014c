"""The content blocks of a report as JSON data: the same blocks with the same ids as in every other form."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from firstfurrow.report.blocks import Block, Part, Picture


def blocks_data(parts: Sequence[Part]) -> list[dict[str, Any]]:
    """One entry for each block: its id, its part, its type, and its fields. Of a drawing only what it says."""
    return [
        {"id": id_, "part": part.name, "type": type(block).__name__.lower(), **_fields(block)}
        for part in parts
        for id_, block in zip(part.ids, part.document, strict=True)
    ]


def _fields(block: Block) -> dict[str, Any]:
    fields = asdict(block)
    if isinstance(block, Picture):
        del fields["drawing"]
    return fields
