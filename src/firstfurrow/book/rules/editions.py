"""A local edition: which questions it may take out."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem, Said
from firstfurrow.book.shelf import SECTIONS


def problems(files: Files) -> Iterator[Problem]:
    """Every question that is taken out and whose answer nothing can stand for."""
    if not files.shelf.local:
        return
    for name in files.shelf.names:
        for override in files.shelf.laid(name).overrides if name.startswith(SECTIONS) else ():
            id_ = override.what.rpartition(", ")[2]
            question = files.question.get(id_)
            if override.after is not None or id_ not in files.shelf.retired or question is None:
                continue
            if question.closes or question.at.data["not_sure"]["how"] == "refused":
                said = Said(
                    f"{id_} needs an answer, so it cannot be taken out.",
                    "A question that is taken out counts as not sure, and here not sure is no answer.",
                    "Take this line out; the words of the question may be changed.",
                )
                yield Problem(name, override.line, 1, said.what, said.why, said.write)
