"""Starting a conversation: the front that fits the place, the answers to go on with, the store; then it runs."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Literal, cast

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError
from firstfurrow.book.model import Book
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.front import Front
from firstfurrow.talk.plain import PlainFront
from firstfurrow.talk.store import open_private_store, open_store, read_answers

FLOOR = "floor"  # the setting in which nothing is kept


def start(
    book: Book,
    *,
    plain: bool,
    units: str | None,
    resume: Path | None,
    setting: str,
    profile_text: Callable[[Answers], str],
    moved: Callable[[Answers, Answers], tuple[str, ...]],
) -> int:
    """Hold a conversation and give the exit code: 0 done or kept, 130 interrupted, 2 for a file that cannot be used."""
    answers = Answers()
    if resume is not None:
        try:
            answers = read_answers(resume, book)
        except AnswersError as error:
            print(error, file=sys.stderr)
            return 2
    if units is not None:
        answers = replace(answers, units=cast(Literal["us", "metric"], units))
    front = choose_front(plain)
    while True:
        private = setting == FLOOR and resume is None
        talk = Conversation(
            book,
            front,
            open_private_store() if private else open_store(resume, Path()),
            answers,
            profile_text,
            moved,
            setting,
            ask_units=units is None and resume is None,
            resumed=resume is not None,
        )
        try:
            code = talk.run()
        except BrokenPipeError:
            # Nobody reads what we say any more; the answers so far are on disk.
            if private:
                talk.store.leave()
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return 0
        if not talk.next_customer:
            return code
        front.say("")


def choose_front(plain: bool) -> Front:
    """Line editing on a real terminal, plain lines everywhere else."""
    real = sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM") != "dumb"
    if plain or not real:
        return PlainFront()
    from firstfurrow.talk.terminal import TerminalFront

    return TerminalFront()
