"""A local edition: which questions and sources it may take out, and what may still read them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from firstfurrow.book.conditions import OPS, SCOPES
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.misplaced import SECTIONS
from firstfurrow.book.overlay import Override
from firstfurrow.book.problems import Problem, Said
from firstfurrow.book.shelf import SHIPPED
from firstfurrow.book.yaml_strict import Path_

SOURCES = "sources.yaml"
FIRST = 3  # places that are named; of the others the number


def still_named(files: Files) -> Iterator[Problem]:
    """Sources that are taken out, and that figures still name: one problem for each source, not for each figure."""
    if not files.shelf.local or not files.shelf.own(SOURCES):
        return
    for override in files.shelf.laid(SOURCES).overrides:
        id_ = override.what.rpartition(", ")[2]
        if override.after is not None or override.what != f"sources, {id_}":
            continue
        at = [placed.problem(Said("", "", ""), *path) for placed in files.read.values()
              for path in _naming(placed.data, id_, ())]  # fmt: skip
        if at:
            first = ", ".join(f"{p.file.removeprefix(SHIPPED)}:{p.line}" for p in at[:FIRST])
            more = f" and at {len(at) - FIRST} more places" if len(at) > FIRST else ""
            said = Said(
                f"the source {id_} is taken out here, but figures still name it: {first}{more}.",
                "The page prints of each figure where it is from.",
                "Take this line out, or give each of those figures another source first.",
            )
            yield _there(override, said)


def _naming(data: Any, source: str, path: Path_) -> Iterator[Path_]:
    """Where a source is named."""
    for key, value in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        if key == "source" and value == source:
            yield (*path, key)
        yield from _naming(value, source, (*path, key))


def problems(files: Files) -> Iterator[Problem]:
    """Every question that is taken out and whose answer nothing can stand for, or that the edition itself reads."""
    if not files.shelf.local:
        return
    retired: dict[str, Override] = {}
    for name in files.shelf.names:
        for override in files.shelf.laid(name).overrides if name.startswith(SECTIONS) else ():
            id_ = override.what.rpartition(", ")[2]
            question = files.question.get(id_)
            if override.after is not None or id_ not in files.shelf.retired or question is None:
                continue
            retired[id_] = override
            if question.closes or question.at.data["not_sure"]["how"] == "refused":
                said = Said(
                    f"{id_} needs an answer, so it cannot be taken out.",
                    "A question that is taken out counts as not sure, and here not sure is no answer.",
                    "Take this line out; the words of the question may be changed.",
                )
                yield _there(override, said)
    for question in files.questions:
        for condition in (question.at.get("when"), *(other["when"] for other in question.at.each("asks"))):
            if condition is not None and question.id not in retired:
                yield from _reads_retired(question.id, condition, retired)


def _there(override: Override, said: Said) -> Problem:
    return Problem(override.file, override.line, 1, said.what, said.why, said.write)


def _reads_retired(reader: str, part: Placed, retired: dict[str, Override]) -> Iterator[Problem]:
    """Each test of a condition, written by the edition, on a question that the edition takes out."""
    for op in OPS:
        for inner in part.each(op) if isinstance(part.data, dict) else ():
            yield from _reads_retired(reader, inner, retired)
    for scope in SCOPES:
        subject = part.data.get(scope)
        if subject in retired:
            out = retired[subject]
            said = Said(
                f"the condition of {reader} reads {subject}, which is taken out in {out.file}:{out.line}.",
                "Nobody is asked a question that is taken out; it always counts as not sure.",
                f"Take this test out, or leave {subject} in: take the line retire: true away.",
            )
            problem = part.problem(said, scope)
            if not problem.file.startswith(SHIPPED):
                yield problem
