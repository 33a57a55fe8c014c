"""Sentences with slots: an edited sentence may only use the slots that the program fills for it."""

from __future__ import annotations

from collections.abc import Iterator
from string import Formatter

from firstfurrow.book.files import Files
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem, did_you_mean
from firstfurrow.book.sentences import SENTENCES, sentences


def problems(files: Files) -> Iterator[Problem]:
    """Every slot that nobody fills, every brace that is no slot, and every id that nobody says."""
    shipped = sentences(book_folder())
    for name, before in SENTENCES.items():
        if name not in files.read:
            continue
        texts = files.read[name]["messages"]
        for id_, text in texts.data.items():
            if f"{before}{id_}" not in shipped:
                known = [key.removeprefix(before) for key in shipped if key.startswith(before)]
                yield texts.problem(f'nothing is ever said by the id "{id_}".{did_you_mean(id_, known)}', id_, key=True)
                continue
            found = slots(text)
            if found is None:
                yield texts.problem("a brace is open; write {{ and }} for braces that are meant.", id_)
                continue
            filled = slots(shipped[f"{before}{id_}"]) or set()
            for slot in sorted(found - filled):
                there = "there is " + ", ".join(sorted(filled)) if filled else "there are none"
                yield texts.problem(f"the slot {{{slot}}} is not filled in here; {there}.", id_)


def slots(text: str) -> set[str] | None:
    """The names in braces; None when the braces do not fit."""
    try:
        return {name for _, name, _, _ in Formatter().parse(text) if name is not None}
    except ValueError:
        return None
