"""What `firstfurrow book walk` does: random conversations to their results, counted, and what went wrong kept."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from firstfurrow.commands.common import DIFFERS, DONE, UsageError, make_folder, put, write

if TYPE_CHECKING:
    import argparse

    from firstfurrow.advice.walked import Walked
    from firstfurrow.asking.answers import Answers
    from firstfurrow.book.model import Book

FOLDER = Path("firstfurrow-walks")  # in the folder where somebody works
MOST_SHOWN = 10  # what decides, and walks that went wrong, named one by one


@dataclass(slots=True)
class Walks:
    """What came of many conversations."""

    book: Book
    seed: int
    folder: Path | None = None  # of the book, where it is not the shipped one
    each: list[tuple[Walked, float]] = field(default_factory=list)  # with the seconds that it took
    kept: list[tuple[Path, str]] = field(default_factory=list)  # answers that led to nonsense, and to which

    def lines(self) -> Iterator[str]:
        """The summary."""
        walks = [walked for walked, _ in self.each]
        whole = [walked for walked in walks if not walked.broke]
        yield f"{len(walks)} random conversations (seed {self.seed}), each to its result."
        yield f"Questions in one: {_spread([w.questions for w in walks])}."
        yield f"Answered with not sure: {_spread([w.unsure for w in walks])}."
        yield f"Milliseconds of the processor for one: {_spread([1000 * seconds for _, seconds in self.each])}."
        refused = sum(1 for w in whole if w.refusals)
        crossed = sum(1 for w in whole if w.conflicts)
        yield f"With a refusal: {refused}, {sum(w.refusals for w in whole)} in all."
        yield f"With a conflict: {crossed}, {sum(w.conflicts for w in whole)} in all."
        yield "What decides first:"
        counts = Counter(w.decides or "nothing" for w in whole).most_common()
        yield from (f"  {count:>6}  {name}" for name, count in counts[:MOST_SHOWN])
        if len(counts) > MOST_SHOWN:
            rest = sum(count for _, count in counts[MOST_SHOWN:])
            yield f"  {rest:>6}  {len(counts) - MOST_SHOWN} others"
        yield from self._wrong()

    def _wrong(self) -> Iterator[str]:
        if not self.kept:
            yield "No error, and no number that cannot be meant: none is negative, endless or beyond all figures."
            return
        many = len(self.kept)
        yield f"{'One conversation' if many == 1 else f'{many} conversations'} led to nonsense or to an error:"
        for path, what in self.kept[:MOST_SHOWN]:
            yield f"  {path}: {what}"
        if many > MOST_SHOWN:
            yield f"  and {many - MOST_SHOWN} more in {self.kept[0][0].parent}."
        with_book = f" --book {self.folder}" if self.folder is not None else ""
        yield f"To see one again: firstfurrow{with_book} advise {self.kept[0][0]}"


def run(folder: Path, parsed: argparse.Namespace) -> int:
    """Walk through the book in a folder; one that somebody edits is checked first."""
    from firstfurrow.book.check import require
    from firstfurrow.book.load import load
    from firstfurrow.talk.progress import progress

    if parsed.folder is not None:
        require(folder)
    book = load(folder)
    walks = Walks(book, parsed.seed, parsed.folder)
    with progress(parsed.count) as step:
        for number, answers, walked, seconds in walk(book, parsed.seed, parsed.count):
            walks.each.append((walked, seconds))
            if walked.wrong:
                path = keep(book, parsed.out or FOLDER, parsed.seed, number, answers, walked.wrong)
                walks.kept.append((path, walked.wrong[0]))
            step()
    for line in walks.lines():
        put(f"{line}\n")
    return DIFFERS if walks.kept else DONE


def walk(book: Book, seed: int, count: int) -> Iterator[tuple[int, Answers, Walked, float]]:
    """So many conversations, the same for the same seed: number, answers, what came of them, seconds."""
    from firstfurrow.advice.walked import bounds, walked
    from firstfurrow.asking.random_walk import any_answers

    most = bounds(book)
    for number in range(1, count + 1):
        began = time.process_time()
        answers = any_answers(book, seed, number)
        found = walked(book, answers, most)
        yield number, answers, found, time.process_time() - began


def keep(book: Book, folder: Path, seed: int, number: int, answers: Answers, wrong: tuple[str, ...]) -> Path:
    """Write the answers to a file, with what was wrong as its notes.

    Raises
    ------
    UsageError
        When it cannot be written, or another file stands there.
    """
    from firstfurrow.asking.answers_text import write as as_text
    from firstfurrow.book.yaml_strict import bytes_of

    path = folder / f"walk-{seed}-{number}.yaml"
    named = replace(answers, name=f"walk {number} with seed {seed}", notes=tuple(wrong[:MOST_SHOWN]))
    text = as_text(named, book)
    make_folder(folder)
    if path.exists():
        if bytes_of(path) == text.encode("utf-8"):
            return path
        raise UsageError(f"{path}: another file stands here. Name another folder with --out.")
    write(path, text)
    return path


def _spread(numbers: list[float] | list[int]) -> str:
    """Least, middle and most.

    >>> _spread([3, 1, 9])
    'least 1, middle 3, most 9'
    """
    ordered = sorted(numbers)
    least, middle, most = (ordered[at] for at in (0, len(ordered) // 2, -1))
    return f"least {least:.0f}, middle {middle:.0f}, most {most:.0f}"
