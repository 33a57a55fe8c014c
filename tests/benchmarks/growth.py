"""How whole commands take longer as the work grows tenfold: `python tests/benchmarks/growth.py [--quick]`.

More implements in a plan, more questions and kinds in a book, more offers, more walks, a larger class. Each is timed as
a process of its own: processor seconds of it and its children, the least of some tries, and one try of what takes
minutes. Printed with how much longer ten times the work takes: 10 would be in proportion, more is worse. `--quick`
leaves out what takes minutes.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from class_of_200 import class_files
from offers import yard
from ratios import KINDS, twelve

from firstfurrow.asking.answers import Answers, Given, Item
from firstfurrow.asking.answers_file import write
from firstfurrow.asking.complete import complete
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder, recordings_folder

TRIES = 3
MOST_ITEMS = 40  # a plan has no more
BUYER = recordings_folder() / "drive_and_arena" / "answers.yaml"
START = (
    "import sys; from pathlib import Path\n"
    "from firstfurrow.book.load import load; from firstfurrow.asking.interview import Interview\n"
    "print(Interview(load(Path(sys.argv[1]))).next())\n"
)


@dataclass(frozen=True)
class Row:
    """One thing measured at two sizes."""

    what: str
    small: str
    large: str
    command: Callable[[Path, bool], list[str]]  # a folder for what it needs, and whether the large one is meant
    long: bool = False


def seconds(command: list[str], tries: int) -> float:
    """Processor seconds of one command with its children, the least of some tries."""
    taken = []
    for _ in range(tries):
        before = os.times()
        done = subprocess.run([sys.executable, *command], capture_output=True, text=True, check=False)
        after = os.times()
        if done.returncode not in (0, 1, 3):
            raise SystemExit(f"{' '.join(command)} ended with {done.returncode}: {done.stderr[:500]}")
        taken.append(after.children_user + after.children_system - before.children_user - before.children_system)
    return min(taken)


def plan(book: Book, how_many: int) -> Answers:
    """The twelve implements of the other benchmark, over and over, up to so many."""
    whole = twelve(book)
    kinds = [KINDS[number % len(KINDS)] for number in range(how_many)]
    items = tuple(
        Item(f"i{n}", {"kind": Given(kind, kind), "when": Given("now", "now")}) for n, kind in enumerate(kinds, 1)
    )
    return complete(book, Answers(units="us", given=whole.given, items=items, items_made=len(items)))


def advise(how_many: tuple[int, int], *options: str) -> Callable[[Path, bool], list[str]]:
    """The report of a plan."""

    def command(folder: Path, large: bool) -> list[str]:
        path = folder / "answers.yaml"
        book = load()
        path.write_text(write(plan(book, how_many[large]), book), encoding="utf-8")
        return ["-m", "firstfurrow", "advise", str(path), *options]

    return command


def larger_book(folder: Path, large: bool) -> Path:
    """The shipped book; the large one with ten times its questions of the ground and ten times its kinds.

    They are copies under other names that nothing reads: what is measured is the reading, the walk and the proof.
    """
    place = folder / "questions"
    shutil.copytree(book_folder(), place)
    if not large:
        return place
    ground = place / "sections" / "ground.yaml"
    head, _, questions = ground.read_text(encoding="utf-8").partition("questions:\n")
    copies = [re.sub(r"^(  - id: \w+)", rf"\1_{n}", questions, flags=re.MULTILINE) for n in range(1, 10)]
    ground.write_text(f"{head}questions:\n{questions}{''.join(copies)}", encoding="utf-8")
    for path in (place / "implements").glob("*.yaml"):
        if path.stem != "links":
            head, _, kinds = path.read_text(encoding="utf-8").partition("kinds:\n")
            copies = [re.sub(r"^(  - kind: \w+)", rf"\1_{n}", kinds, flags=re.MULTILINE) for n in range(1, 10)]
            path.write_text(f"{head}kinds:\n{kinds}{''.join(copies)}", encoding="utf-8")
    return place


def check_book(folder: Path, large: bool) -> list[str]:
    """The check of a book."""
    return ["-m", "firstfurrow", "book", "check", str(larger_book(folder, large))]


def first_question(folder: Path, large: bool) -> list[str]:
    """A book opened, and the first question of it."""
    return ["-c", START, str(larger_book(folder, large))]


def offers(how_many: tuple[int, int]) -> Callable[[Path, bool], list[str]]:
    """A yard of tractors held against a buyer."""

    def command(folder: Path, large: bool) -> list[str]:
        path = folder / "yard.csv"
        path.write_text(yard(how_many[large], axles=False), encoding="utf-8")
        return ["-m", "firstfurrow", "check", str(BUYER), str(path)]

    return command


def walks(how_many: tuple[int, int]) -> Callable[[Path, bool], list[str]]:
    """Random conversations to their profiles."""

    def command(folder: Path, large: bool) -> list[str]:
        return ["-m", "firstfurrow", "book", "walk", "--count", str(how_many[large]), "--out", str(folder / "walks")]

    return command


def a_class(how_many: tuple[int, int]) -> Callable[[Path, bool], list[str]]:
    """Handouts of a class."""

    def command(folder: Path, large: bool) -> list[str]:
        there = folder / "class"
        there.mkdir()
        class_files(load(), there, how_many[large])
        return ["-m", "firstfurrow", "class", str(there), "--force"]

    return command


ROWS = (
    Row("report as text, implements", "4", f"{MOST_ITEMS}", advise((4, MOST_ITEMS))),
    Row("report as HTML, implements", "4", f"{MOST_ITEMS}", advise((4, MOST_ITEMS), "--format", "html")),
    Row("first question, size of the book", "shipped", "x 10", first_question),
    Row("book check, size of the book", "shipped", "x 10", check_book),
    Row("check, offers", "1,000", "10,000", offers((1_000, 10_000))),
    Row("book walk, walks", "1,000", "10,000", walks((1_000, 10_000)), long=True),
    Row("class, participants", "20", "200", a_class((20, 200)), long=True),
)


def measured(quick: bool) -> Iterator[tuple[str, ...]]:
    """One row of the table after the other."""
    for row in ROWS:
        if quick and row.long:
            continue
        taken = []
        for large in (False, True):
            with tempfile.TemporaryDirectory() as folder:
                taken.append(seconds(row.command(Path(folder), large), 1 if row.long else TRIES))
        small, large_ = (f"{label}: {value:.2f} s" for label, value in zip((row.small, row.large), taken, strict=True))
        yield row.what, small, large_, f"{taken[1] / taken[0]:.1f}"


def main() -> None:
    """Measure and print, row by row."""
    print(f"{'what':36}{'small':>20}{'large':>20}{'times':>8}")
    for what, small, large, times in measured("--quick" in sys.argv[1:]):
        print(f"{what:36}{small:>20}{large:>20}{times:>8}", flush=True)


if __name__ == "__main__":
    main()
