"""What `firstfurrow book check` prints: what is wrong, what is worth knowing, what was proven and what was not."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from firstfurrow.commands.book_edition import changed
from firstfurrow.commands.common import DIFFERS, DONE, UsageError, columns, may_write, put, write

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from firstfurrow.book.check import Checked, Notes
    from firstfurrow.book.problems import Problem
    from firstfurrow.book.proof import Proof

FEW = 5  # notes of one sort that are shown where nobody asked for all
NOT_TRIED = (
    "Not tried: whether an answer moves what its question says, and nothing else. That lies in the computation and "
    "cannot be proven: --deep tries it on random plans, which takes minutes."
)


def run(folder: Path, parsed: argparse.Namespace) -> int:
    """Check the book in a folder, and say what was found."""
    from firstfurrow.book.check import examine

    if parsed.pairs is not None and not parsed.deep:
        raise UsageError("--pairs writes down what --deep finds: name both.")
    may_write(parsed.pairs, force=parsed.force)
    checked = examine(folder)
    for line in lines(checked, every_note=parsed.notes):
        put(f"{line}\n")
    if checked.problems:
        return DIFFERS
    for line in changed(folder):
        put(f"{line}\n")
    if not parsed.deep:
        put(f"{NOT_TRIED}\n")
        return DONE
    return _deep(folder, parsed)


def _deep(folder: Path, parsed: argparse.Namespace) -> int:
    """Try what the answers move, and say what was seen."""
    from firstfurrow.advice.moves_tested import try_moves
    from firstfurrow.book.load import load
    from firstfurrow.commands.book_moves import as_text, own_questions, unclaimed, verdict
    from firstfurrow.talk.progress import progress

    book = load(folder)
    with progress(parsed.count) as step:
        found = try_moves(book, parsed.seed, parsed.count, step)
    for problem in unclaimed(folder, book, found):
        put("".join(f"{line}\n" for line in told(problem)))
    for line in verdict(found, own_questions(folder), every_note=parsed.notes):
        put(f"{line}\n")
    if parsed.pairs is not None:
        write(parsed.pairs, as_text(book, found))
    return DIFFERS if found.unclaimed else DONE


def lines(checked: Checked, *, every_note: bool) -> Iterator[str]:
    """All of it, line by line."""
    from firstfurrow.book.problems import abridged, left_out

    for problem, more in abridged(checked.problems):
        yield from told(problem)
        if more:
            yield f"  {left_out(more)}"
    for notes in checked.notes:
        yield from _notes(notes, every_note=every_note)
    if checked.level:
        yield checked.level
    if checked.problems:
        many = len(checked.problems)
        yield f"{'One thing is' if many == 1 else f'{many} things are'} wrong."
        if checked.proof is None:
            yield "The questions are proven once this is put right."
    elif checked.proof is not None:
        yield from _proven(checked.proof)


def told(problem: Problem) -> Iterator[str]:
    """One problem: where and what, then why it matters, what to do, and answers that lead there."""
    yield f"{problem.place}: {problem.what}"
    if problem.leads:
        yield "    Answers that lead there:"
        yield from (f"      {lead}" for lead in problem.leads)
    yield from _reasons(problem)


def _reasons(problem: Problem) -> Iterator[str]:
    for title, text in (("Why it matters", problem.why), ("What to do", problem.write)):
        if text:
            yield from _wrapped(f"{title}: {text}", "    ")


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, max(columns(), 40), initial_indent=indent, subsequent_indent=f"{indent}  ")


def _notes(notes: Notes, *, every_note: bool) -> Iterator[str]:
    yield f"Note. {notes.title}: {len(notes.found)}."
    if every_note:
        # What matters is said once for those that stand together and say the same of it.
        for _, together in groupby(notes.found, key=lambda note: (note.why, note.write)):
            same = list(together)
            for note in same:
                yield from (f"  {line}" for line in told(replace(note, why="", write="")))
            yield from (f"  {line}" for line in _reasons(same[-1]))
        return
    yield from (f"  {note.place}: {note.what}" for note in notes.found[:FEW])
    if len(notes.found) > FEW:
        yield f"  and {len(notes.found) - FEW} more: --notes shows all of them, and what to do."


def _proven(proof: Proof) -> Iterator[str]:
    yield "The book is clean: every file fits its schema, every figure has its grade, every name leads somewhere."
    yield "Proven, over every walk through its questions:"
    yield f"  each of {proof.questions} questions is asked of somebody, and each of its choices can be taken;"
    yield "  nobody gets stuck, and every walk ends;"
    yield f"  no condition reads what was not asked, and each of {proof.tests} tests can be true;"
    yield f"  each of {proof.requirements} requirements is named by a question that is asked;"
    yield f"  each of {proof.contradictions} contradictions can stand."
