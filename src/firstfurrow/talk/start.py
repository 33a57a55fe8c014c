"""Starting a conversation: the front that fits the place, the answers to go on with, the store; then it runs."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Literal, TextIO, cast

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError
from firstfurrow.asking.trade_words import glossary_words_in
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book
from firstfurrow.quantities.harmless import harmless, sentence
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.front import EndOfInputError, Front, InterruptedTalkError
from firstfurrow.talk.opening import OWNED, ask_road, units_question
from firstfurrow.talk.owned import OwnedTractor
from firstfurrow.talk.plain import PlainFront
from firstfurrow.talk.recorder import RecordingFront, claim_folder, write_recording
from firstfurrow.talk.recordings import RecordingError
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.stopping import tidied_up
from firstfurrow.talk.store import Store, claim_tractor, open_named_store, open_private_store, open_store, read_answers
from firstfurrow.talk.views import Views

HOME = "home"  # the setting in which the reader may take the other road
FLOOR = "floor"  # the setting in which nothing is kept


def start(
    book: Book,
    *,
    plain: bool,
    units: str | None,
    resume: Path | None,
    setting: str,
    views: Views,
    tractor: Path | None = None,
    tractor_text: str = "",
    record: Path | None = None,
    keep: Path | None = None,
    book_folder: Path | None = None,
) -> int:
    """Hold a conversation and give the exit code: 0 done or kept, 130 interrupted, 2 for a file that cannot be used."""
    answers, named = Answers(), None
    try:
        if resume is not None:
            answers = read_answers(resume, book, to_go_on=True)
        if keep is not None:
            named = _named_store(keep, resume, book)
    except AnswersError as error:
        print(sentence(str(error)), file=sys.stderr)
        return 2
    if units is None and resume is None and book.edition is not None:
        units = book.edition.units
    if units is not None:
        answers = replace(answers, units=cast(Literal["us", "metric"], units))
    front = choose_front(plain, partial(_get_ready, book, views))
    if record is not None:
        if resume is not None:
            raise RecordingError(wording(book.messages, "record_resume"))
        claim_folder(book, record)
    try:
        if setting == HOME and resume is None and not tractor_text:
            road = ask_road(book, front)
            if road is None:
                return _nothing(book, front, named, 0)
            setting = OWNED if road == OWNED else setting
    except EndOfInputError:
        return _nothing(book, front, named, 0)
    except (InterruptedTalkError, KeyboardInterrupt):
        return _nothing(book, front, named, 130)
    setting = OWNED if tractor_text else setting
    owned = None
    if setting == OWNED:
        owned = OwnedTractor(book, views.tractor(tractor_text), tractor or claim_tractor(Path()))
    recorded = None if record is None else RecordingFront(front)
    while True:
        private = setting == FLOOR and resume is None and named is None
        store = open_private_store() if private else named or open_store(resume, Path())
        store.book_folder = book_folder
        talk = Conversation(
            book,
            recorded or front,
            store,
            answers,
            views,
            setting,
            ask_units=units is None and resume is None,
            resumed=resume is not None,
            tractor=owned,
        )
        try:
            with tidied_up(talk.store.leave):
                code = talk.run()
        except OSError as error:
            # Nobody can read what we say any more; the answers so far are on disk.
            talk.store.leave()
            if not isinstance(error, BrokenPipeError):
                raise
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return 0
        if recorded is not None and record is not None:
            # What comes after "next customer" is another talk, and nobody asked to record that one.
            said = talk.interview.answers.units if units is not None else None
            write_recording(book, record, recorded.lines, views, setting, said, tractor_text)
            front.say(harmless(wording(book.messages, "record_done", where=record)))
            recorded = None
        if not talk.next_customer:
            return code
        front.say("")


def _named_store(keep: Path, resume: Path | None, book: Book) -> Store:
    """The file that the reader named for a new talk."""
    if resume is not None:
        raise AnswersError(wording(book.messages, "keep_or_resume"))
    return open_named_store(keep, book)


def _nothing(book: Book, front: Front, named: Store | None, code: int) -> int:
    """The end before the first answer."""
    if named is not None:
        named.leave()
    front.say("")
    Screen(front, book.messages).message("close_nothing")
    return code


def _get_ready(book: Book, views: Views) -> None:
    """Load what the first answers would wait for; whatever goes wrong here is said when it is needed."""
    with suppress(Exception):
        glossary_words_in(book, units_question(book))
        views.moved(Answers(), Answers())
        tuple(book.kinds.values())


def choose_front(plain: bool, idle: Callable[[], None] | None = None) -> Front:
    """Line editing on a real terminal, where `idle` is done while the reader reads; plain lines everywhere else."""
    if plain or not (_terminal(sys.stdin) and _terminal(sys.stdout)) or _can_do_nothing():
        return PlainFront()
    from firstfurrow.talk.terminal import TerminalFront

    return TerminalFront(idle)


def _terminal(stream: TextIO | None) -> bool:
    """False for a pipe, and for what was closed before the program began."""
    return stream is not None and not stream.closed and stream.isatty()


def _can_do_nothing() -> bool:
    """True for a terminal that cannot move its cursor, or does not say what it is."""
    return os.name == "posix" and os.environ.get("TERM", "").lower() in ("", "dumb", "unknown")
