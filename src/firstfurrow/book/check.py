"""Checking a book that somebody edits: shape first, then meaning, then the proof about the graph."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from firstfurrow.book.files import Files
from firstfurrow.book.findings import Finding
from firstfurrow.book.load import load
from firstfurrow.book.problems import BookError, Problem, Said
from firstfurrow.book.proof import Proof, prove
from firstfurrow.book.rules import (
    conditions,
    contradictions,
    editions,
    figures,
    kinds,
    measuring,
    names,
    offer_keys,
    plausible,
    power_and_pull,
    prose,
    questions,
    reading,
    references,
    sentences,
    settings,
    shape,
    tables,
    teaching,
    trade_words,
    unused,
    walk_around,
)
from firstfurrow.book.shelf import SHIPPED

MEANING = (
    names, references, questions, conditions, contradictions, figures, plausible, tables, kinds, power_and_pull,
    measuring, offer_keys, walk_around, prose, sentences, settings, teaching, trade_words, editions,
)  # fmt: skip
NOTES: tuple[tuple[str, Callable[[Files], Iterable[Problem]]], ...] = (
    ("Sources that stand behind no figure", figures.unused_sources),
    ("Implements, jobs, guides and words that nothing leads to", unused.hints),
    ("Questions that name no guide", questions.hints),
    ("Implements without cautions, a time for their job, or a load on the drawbar", kinds.hints),
    ("Trade words and hard words in questions", trade_words.hints),
    ("Questions without a note for those who teach", teaching.hints),
    ("Long sentences", reading.too_long),
    ("The sentences that are hardest to read", reading.hardest),
)


@dataclass(frozen=True, slots=True)
class Notes:
    """Notes of one sort: no mistakes, but worth knowing."""

    title: str
    found: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found.

    notes
        No mistakes: what nobody uses; words and sentences that are hard for a reader; gaps for those who teach.
    level
        How hard the book is to read, in one line.
    proof
        The proof about the graph, when it could be made.
    """

    problems: tuple[Problem, ...]
    notes: tuple[Notes, ...] = ()
    proof: Proof | None = None
    level: str = ""


def check(folder: Path) -> tuple[Problem, ...]:
    """What is wrong with shape and meaning of the book in a folder, in the order of files and lines."""
    return _problems(Files(folder))


def examine(folder: Path) -> Checked:
    """Everything: shape, meaning, and once these are right the proof about the graph, and notes."""
    files = Files(folder)
    problems, proof = _proven(files)
    if proof is None:
        return Checked(problems)
    # Of a local edition only its own files are noted: the rest is not its maker's to mend.
    found = (
        Notes(title, tuple(note for note in look(files) if not (files.shelf.local and note.file.startswith(SHIPPED))))
        for title, look in NOTES
    )
    return Checked(problems, tuple(notes for notes in found if notes.found), proof, reading.level(files))


def require(folder: Path) -> None:
    """Nothing when the book is right.

    Raises
    ------
    BookError
        With every problem of shape and meaning, and of the proof about the questions.
    """
    problems, _ = _proven(Files(folder))
    if problems:
        raise BookError(problems)


def _proven(files: Files) -> tuple[tuple[Problem, ...], Proof | None]:
    """The problems; with those of the proof once the rest is right."""
    problems = _problems(files)
    if problems:
        return problems, None
    proof = prove(load(files.folder))
    return tuple(sorted(_placed(files, finding) for finding in proof.findings)), proof


def _problems(files: Files) -> tuple[Problem, ...]:
    # Meaning is looked at only when all files have their shape: a rule may then trust what it reads.
    problems = [*files.problems, *shape.problems(files)] or list(editions.still_named(files))
    if not problems:
        for rule in MEANING:
            problems += rule.problems(files)
    return tuple(sorted(set(problems)))


def _placed(files: Files, finding: Finding) -> Problem:
    said = Said(finding.said.what, finding.said.why, finding.said.write)
    known = files.question.get(finding.question)
    at = known.at if known is not None else None
    if finding.requirement:
        at = next(r for r in files.requirements if r.data["id"] == finding.requirement)
    elif finding.contradiction:
        at = next(c for c in files.contradictions if c.data["id"] == finding.contradiction)
    if at is None:
        return Problem("book.yaml", 0, 0, said.what, said.why, said.write, finding.witness)
    placed = at.problem(said, "id")
    return Problem(
        placed.file, placed.line, placed.column, placed.what, placed.why, placed.write, finding.witness
    )  # fmt: skip
