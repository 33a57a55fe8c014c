"""Plays a recording and writes its screen and answers: `python tests/record.py transcripts_demo/NAME`. Read both."""

import sys
from pathlib import Path

from firstfurrow.book.load import load
from firstfurrow.shown import Shown
from firstfurrow.talk.recordings import ANSWERS, SCREEN, WIDTH, Recording, play


def main(folder: Path) -> None:
    """Write screen.txt and answers.yaml of one folder."""
    book = load()
    screen, answers = play(book, Recording(folder), Shown(book, lambda: WIDTH))
    (folder / SCREEN).write_text(screen, encoding="utf-8")
    (folder / ANSWERS).write_text(answers, encoding="utf-8")


if __name__ == "__main__":
    for name in sys.argv[1:]:
        main(Path(name))
