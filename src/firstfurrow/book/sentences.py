"""Every sentence of a book by id, from its files of sentences."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from firstfurrow.book.places import book_folder
from firstfurrow.book.shelf import Shelf

SENTENCES: Mapping[str, str] = {
    "messages.yaml": "", "reasons.yaml": "reason.", "report.yaml": "report.",
    "pictures.yaml": "picture.", "sheets.yaml": "sheet.", "classroom.yaml": "classroom.",
}  # fmt: skip


def sentences(place: Path) -> dict[str, str]:
    """Every sentence of a book by id. What an edited book does not say, the shipped one says for it."""
    shelf = Shelf(place)
    found = {} if place == book_folder() or shelf.local else sentences(book_folder())
    for name, before in SENTENCES.items():
        if shelf.has(name):
            texts: Mapping[str, str] = shelf.data(name)["messages"]
            found |= {f"{before}{id_}": text for id_, text in texts.items()}
    return found
