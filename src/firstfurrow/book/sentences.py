"""Every sentence of a book by id, from its files of sentences."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from firstfurrow.book.places import book_folder
from firstfurrow.book.yaml_strict import read

SENTENCES: Mapping[str, str] = {
    "messages.yaml": "", "reasons.yaml": "reason.", "report.yaml": "report.",
    "pictures.yaml": "picture.", "sheets.yaml": "sheet.", "classroom.yaml": "classroom.",
}  # fmt: skip


def sentences(place: Path) -> dict[str, str]:
    """Every sentence of a book by id. What an edited book does not say, the shipped one says for it."""
    found = {} if place == book_folder() else sentences(book_folder())
    for name, before in SENTENCES.items():
        if (place / name).is_file():
            texts: Mapping[str, str] = read(place / name, name)["messages"]
            found |= {f"{before}{id_}": text for id_, text in texts.items()}
    return found
