"""Pairs of plans that the wider search of `test_moves.py` found before: `python tests/advice/moves_seen.py` finds anew.

They are where to look first and no more: each pair is worked out again, and where it moves nothing any more the search
goes on.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml

FILE = Path(__file__).with_suffix(".yaml")


@cache
def _all() -> dict[str, list[dict[str, Any]]]:
    return yaml.load(FILE.read_text(encoding="utf-8"), yaml.CSafeLoader) if FILE.is_file() else {}


def seen_before(question: str) -> list[tuple[Any, Any]]:
    """The pairs of plans of one question: items, and what is said."""
    return [((pair["items"], pair["said"]), _other(question, pair)) for pair in _all().get(question, ())]


def _other(question: str, pair: dict[str, Any]) -> tuple[Any, Any]:
    if question in pair["said"]:
        return pair["items"], {**pair["said"], question: pair["other"]}
    return [{**item, question: pair["other"]} for item in pair["items"]], pair["said"]


def main() -> None:
    """Search, and write down what was found."""
    import test_moves

    FILE.unlink(missing_ok=True)
    found: dict[str, list[dict[str, Any]]] = {}
    for question in test_moves.OUTER + test_moves.INNER:
        wanted = set(question.moves) - test_moves.observed(question.id)
        for moved, (items, said), (other_items, other_said) in test_moves.deeper(question, wanted):
            other = other_said[question.id] if question.id in other_said else other_items[0][question.id]
            pair = {"moves": sorted(moved), "items": items, "said": said, "other": other}
            found.setdefault(question.id, []).append(_plain(pair))
    first = "# Written by moves_seen.py: for each question, pairs of plans in which the answer moves these requirements.\n"
    FILE.write_text(first + yaml.safe_dump(found, sort_keys=True, width=120), encoding="utf-8")


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _plain(one) for name, one in value.items()}
    return [_plain(one) for one in value] if isinstance(value, (list, tuple)) else value


if __name__ == "__main__":
    main()
