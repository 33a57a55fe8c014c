"""Checking a book that somebody edits: shape first, then meaning, then the proof about the graph."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from firstfurrow.book.files import Files
from firstfurrow.book.load import load
from firstfurrow.book.problems import BookError, Problem
from firstfurrow.book.proof import Proof, prove
from firstfurrow.book.rules import (
    conditions,
    contradictions,
    figures,
    kinds,
    measuring,
    names,
    offer_keys,
    prose,
    questions,
    reading,
    sentences,
    settings,
    shape,
    teaching,
    trade_words,
    walk_around,
)

MEANING = (
    names, questions, conditions, contradictions, figures, kinds, measuring, offer_keys, walk_around, prose, sentences,
    settings, teaching, trade_words,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found.

    notes, hints
        No mistakes: sources that no figure names; words and sentences that are hard for a reader, and gaps for those
        who teach.
    level
        How hard the book is to read, in one line.
    proof
        The proof about the graph, when it could be made.
    """

    problems: tuple[Problem, ...]
    notes: tuple[Problem, ...] = ()
    proof: Proof | None = None
    hints: tuple[Problem, ...] = ()
    level: str = ""


def check(folder: Path) -> tuple[Problem, ...]:
    """What is wrong with shape and meaning of the book in a folder, in the order of files and lines."""
    return _problems(Files(folder))


def examine(folder: Path) -> Checked:
    """Everything: shape, meaning, notes, and the proof about the graph once the rest is right."""
    files = Files(folder)
    problems = _problems(files)
    if problems:
        return Checked(problems)
    notes = tuple(figures.unused_sources(files))
    proof = prove(load(folder))
    found = tuple(_placed(files, finding.question, str(finding)) for finding in proof.findings)
    hints = (*trade_words.hints(files), *teaching.hints(files), *reading.hardest(files))
    return Checked(found, notes, proof, hints, reading.level(files))


def _problems(files: Files) -> tuple[Problem, ...]:
    # Meaning is looked at only when all files have their shape: a rule may then trust what it reads.
    problems = [*files.problems, *shape.problems(files)]
    if not problems:
        for rule in MEANING:
            problems += rule.problems(files)
    return tuple(sorted(set(problems)))


def _placed(files: Files, question: str, message: str) -> Problem:
    known = files.question.get(question)
    return Problem("book.yaml", 0, 0, message) if known is None else known.at.problem(message, "id")


def require(folder: Path) -> None:
    """Nothing when the book is right.

    Raises
    ------
    BookError
        With every problem of shape and meaning, and of the proof about the questions.
    """
    problems = examine(folder).problems
    if problems:
        raise BookError(problems)
