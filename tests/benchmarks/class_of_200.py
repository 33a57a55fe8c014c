"""How long a class of 200 made-up participants takes. Run it: python tests/benchmarks/class_of_200.py [FOLDER]

Random plans of two to six implements, always the same ones; about a quarter of the answers is "not sure". The whole
command in a process of its own, wall time, the least of some tries; and the work alone in one process and in as many
as the program takes. With FOLDER the answers files and the pages stay there.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from firstfurrow.asking.answers import Units
from firstfurrow.asking.answers_file import write
from firstfurrow.asking.random_walk import random_answers
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.commands.class_files import answers_files
from firstfurrow.commands.class_work import handouts

MANY, UNSURE = 200, 0.25
TRIES = {"html": 3, "markdown": 1, "text": 1}


def class_files(book: Book, folder: Path, how_many: int) -> None:
    """Answers files of an invented class, always the same ones."""
    chance = random.Random(1)
    kinds = tuple(book.kinds.values())
    for number in range(1, how_many + 1):
        chosen = chance.choices(kinds, k=chance.randint(2, 6))
        units: Units = "us" if number % 4 else "metric"
        answers = random_answers(book, number, unsure=UNSURE, kinds=chosen, units=units)
        answers = replace(answers, name=f"Participant {number}", notes=("This participant is invented.",))
        (folder / f"participant-{number:03}.yaml").write_text(write(answers, book), encoding="utf-8")


def main() -> None:
    """Make the class, and time it."""
    book = load()
    with tempfile.TemporaryDirectory() as made:
        folder = Path(sys.argv[1] if len(sys.argv) > 1 else made)
        folder.mkdir(parents=True, exist_ok=True)
        class_files(book, folder, MANY)
        for format_, tries in TRIES.items():
            whole = float("inf")
            for _ in range(tries):
                start = time.perf_counter()
                command = [sys.executable, "-m", "firstfurrow", "class", str(folder), "--force", "--format", format_]
                subprocess.run(command, check=True, capture_output=True)
                whole = min(whole, time.perf_counter() - start)
            print(f"{MANY} participants as {format_}: the whole command {whole:.1f} s")
        files = answers_files(book, folder)
        for processes in (1, None):
            start = time.perf_counter()
            handouts(book, None, None, "html", files, processes=processes)
            taken = time.perf_counter() - start
            print(f"the work alone, processes {processes or 'as many as pay'}: {taken:.1f} s")


if __name__ == "__main__":
    main()
