"""Talks that are killed in the middle, one after the other from one process that has loaded the program.

Reads lines with a folder and a number of seconds. In each folder a talk is held with the lines of `typed.txt`; what it
shows goes into `screen.txt`. So long after it has begun it is killed, in a way that no program can notice.
"""

from __future__ import annotations

import os
import signal
import sys
import time
from pathlib import Path

from firstfurrow.asking.answers import Answers
from firstfurrow.book.load import load
from firstfurrow.shown import Shown
from firstfurrow.talk.start import start


def main() -> None:
    """Kill as many as are asked for, and say so after each one."""
    book = load()
    views = Shown(book, lambda: 80)
    views.moved(Answers(), Answers())  # loads what every talk needs
    tuple(book.kinds.values())
    for line in sys.stdin:
        folder, moment = line.split()
        child = os.fork()
        if not child:
            os.chdir(folder)
            sys.stdin = open("typed.txt", encoding="utf-8")  # noqa: SIM115
            sys.stdout = open("screen.txt", "w", encoding="utf-8")  # noqa: SIM115
            start(book, plain=True, units=None, resume=None, setting="home", views=views)
            os._exit(0)
        screen = Path(folder) / "screen.txt"
        while not screen.exists() or not screen.stat().st_size:
            time.sleep(0.001)
        time.sleep(float(moment))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        print(flush=True)


if __name__ == "__main__":
    main()
