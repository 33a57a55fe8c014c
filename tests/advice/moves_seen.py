"""Pairs of plans that the wider search of `test_moves.py` found before: `python tests/advice/moves_seen.py` finds anew.

They are where to look first and no more: each pair is worked out again, and where it moves nothing any more the search
goes on.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

FILE = Path(__file__).with_suffix(".yaml")
FIRST = """\
# Written by moves_seen.py: for each question pairs of plans in which its answer moves these requirements.
# One plan is the items and what is said, beside what land_of says for the kind; the second has the other answer.
"""


@cache
def _all() -> dict[str, list[dict[str, Any]]]:
    return yaml.safe_load(FILE.read_text(encoding="utf-8")) if FILE.is_file() else {}


def seen_before(question: str) -> list[tuple[Any, Any]]:
    """The pairs of plans of one question: items, and what is said."""
    from test_moves import MAKER, land_of

    found = []
    for pair in _all().get(question, ()):
        items, other = pair["items"], pair["other"]
        said = {**land_of(MAKER.kind(pair["land"])), **pair["said"]}
        if question in said:
            found.append(((items, said), (items, {**said, question: other})))
        else:
            found.append(((items, said), ([{**item, question: other} for item in items], said)))
    return found


def main() -> None:
    """Search, and write down what was found."""
    from test_moves import INNER, OUTER, deeper, observed

    FILE.unlink(missing_ok=True)
    found: dict[str, list[dict[str, Any]]] = {}
    for question in OUTER + INNER:
        wanted = {*question.moves} - observed(question.id)
        for moved, (items, said), (other_items, other_said) in deeper(question, wanted):
            other = other_said[question.id] if question.id in other_said else other_items[0][question.id]
            land, more = _beside_its_land(said)
            pair = {"moves": sorted(moved), "items": items, "land": land, "said": more, "other": other}
            found.setdefault(question.id, []).append(_plain(pair))
    text = yaml.safe_dump(found, sort_keys=False, default_flow_style=None, width=118, allow_unicode=True)
    FILE.write_text(FIRST + text, encoding="utf-8")


def _beside_its_land(said: Mapping[str, Any]) -> tuple[str, dict[str, Any]]:
    """The kind whose land it is, and what is said beside it."""
    from test_moves import MAKER, land_of

    more = {
        kind.kind: {name: value for name, value in said.items() if land.get(name) != value}
        for kind in MAKER.book.kinds.values()
        if (land := land_of(kind)).keys() <= said.keys()
    }
    return min(more.items(), key=lambda pair: len(pair[1]))


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _plain(one) for name, one in value.items()}
    return [_plain(one) for one in value] if isinstance(value, (list, tuple)) else value


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))
    main()
