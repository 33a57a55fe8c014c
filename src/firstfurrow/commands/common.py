"""What the commands have in common: exit codes, reading named files, printing."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import argparse
    from pathlib import Path
    from typing import Any

    from firstfurrow.asking.answers import Answers
    from firstfurrow.book.model import Book

    Commands = argparse._SubParsersAction[Any]  # what `add_subparsers` gives; it has no public name

DONE, DIFFERS, BAD_INPUT, UNKNOWN, INTERRUPTED = 0, 1, 2, 3, 130
SHORT = DIFFERS


class UsageError(ValueError):
    """Bad input or usage; the message is one plain sentence."""


def book_of(parsed: argparse.Namespace) -> Book:
    """The book of the command line; one that somebody edits is checked first."""
    from firstfurrow.book.load import load

    if parsed.book is not None:
        from firstfurrow.book.check import require

        require(parsed.book)
    return load(parsed.book)


def a_path(text: str) -> Path:
    """A path from the command line."""
    from pathlib import Path

    return Path(text)


def answers_of(parsed: argparse.Namespace, book: Book) -> Answers:
    """The answers of a file or of a recording's folder, in the units that are wanted."""
    from dataclasses import replace

    from firstfurrow.asking.setting import with_answers
    from firstfurrow.talk.recordings import ANSWERS
    from firstfurrow.talk.store import read_answers

    path = parsed.answers / ANSWERS if (parsed.answers / ANSWERS).is_file() else parsed.answers
    answers = read_answers(path, book)
    for line in answers.carried:
        complain(f"{path}: {line}")
    answers = replace(answers, carried=())
    if parsed.shown_units is not None:
        answers = replace(answers, units=parsed.shown_units)
    return with_answers(book, answers, parsed.set)


def text_of(path: Path) -> str:
    """The text of an offer file."""
    from firstfurrow.book.yaml_strict import LARGEST, bytes_of

    try:
        raw = bytes_of(path)
    except IsADirectoryError:
        raise UsageError(f"{path}: this is a folder, not a file.") from None
    except OSError as error:
        raise UsageError(f"{path}: it cannot be read ({error.strerror}).") from None
    if len(raw) > LARGEST:
        raise UsageError(f"{path}: the file is far too large.")
    try:
        return raw.decode("utf-16" if raw.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise UsageError(f"{path}:{line}: the file is not saved as UTF-8 text.") from None


def columns() -> int:
    """How wide the terminal is."""
    import shutil

    return shutil.get_terminal_size().columns


def put(text: str, *, styled: bool = False) -> None:
    """Print whatever the terminal's encoding can show; nothing is worth a traceback.

    `styled`: a page that was made harmless before it was given its bold signs.
    """
    from firstfurrow.quantities.harmless import harmless

    encoding = sys.stdout.encoding or "ascii"
    text = text if styled else harmless(text)
    sys.stdout.write(text.encode(encoding, "replace").decode(encoding))


def data_text(data: Any) -> str:
    """Data as the text of JSON."""
    import json

    from firstfurrow.quantities.harmless import escaped

    return escaped(json.dumps(data, indent=2, ensure_ascii=False)) + "\n"


def complain(*texts: str) -> None:
    """Say on standard error what is wrong with the input, each thing in a line that no input makes odd or endless."""
    from firstfurrow.quantities.harmless import sentence

    print("firstfurrow: " + "\n".join(map(sentence, texts)), file=sys.stderr)


def bold() -> bool:
    """Bold only for a reader at a terminal who did not switch it off."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def may_write(path: Path | None, *, force: bool) -> None:
    """Nothing when the file may be written; where somebody sits at a terminal, he is asked.

    Raises
    ------
    UsageError
        When it exists and nobody said that it may be written over.
    """
    if path is None:
        return
    if path.is_dir():
        raise UsageError(f"{path}: this is a folder. Name a file in it.")
    if force or not path.is_file():  # a device or a pipe has nothing that could be lost
        return
    if sys.stdin is not None and sys.stdin.isatty() and sys.stderr.isatty():
        from firstfurrow.quantities.harmless import sentence

        question = f"{sentence(str(path))} exists. Write over it? Type yes, or press Enter to leave it: "
        print(question, end="", file=sys.stderr, flush=True)
        if sys.stdin.readline().strip().casefold() in ("y", "yes"):
            return
    raise UsageError(f"{path}: this file exists. Write over it with --force, or choose another name.")


def make_folder(folder: Path) -> None:
    """Nothing when the folder is there in the end.

    Raises
    ------
    UsageError
        When it cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsageError(f"{folder}: this folder cannot be made ({error.strerror}).") from None


def write(path: Path, text: str) -> None:
    """Write a file whole or not at all: beside it first, then renamed.

    Raises
    ------
    UsageError
        When it cannot be written: a full disk, a folder that is not there. Nothing is left behind then.
    """
    from firstfurrow.talk.files import replace_file, sweep_beside

    try:
        sweep_beside(path.parent, path.name)
        replace_file(path, text, 0o666)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise UsageError(f"{path}: it cannot be written ({why}). Nothing was left there.") from None
