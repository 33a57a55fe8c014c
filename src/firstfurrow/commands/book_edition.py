"""What a local edition changes of the shipped book, line by line, with what stood there before."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from firstfurrow.book.shelf import Shelf

LONGEST = 60  # signs of a text that is shown


def changed(folder: Path) -> Iterator[str]:
    """One line for each thing that is changed, new or taken out; nothing for a book that stands by itself."""
    shelf = Shelf(folder)
    edition = shelf.edition
    if edition is None:
        return
    found = tuple(shelf.overrides())
    many = "one thing" if len(found) == 1 else f"{len(found)} things"
    yield f"The local edition {edition.name}, version {edition.version}, changes {many} of the shipped book:"
    for one in found:
        place = f"  {one.file}:{one.line}: {one.what}"
        if one.after is None:
            yield f"{place}: taken out"
        elif one.before is None:
            yield f"{place}: new"
        else:
            yield f"{place}: {_short(one.before)} becomes {_short(one.after)}"


def _short(value: Any) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= LONGEST else f"{text[:LONGEST].rstrip()}..."
