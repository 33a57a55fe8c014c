"""The profile of an answers file, in every form."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from firstfurrow.commands.common import (
    DONE,
    UsageError,
    a_path,
    answers_of,
    bold,
    book_of,
    columns,
    data_text,
    make_folder,
    may_write,
    put,
    write,
)

if TYPE_CHECKING:
    import argparse

    from firstfurrow.asking.answers import Answers
    from firstfurrow.asking.tried import Tried
    from firstfurrow.book.model import Book
    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    advise = commands.add_parser("advise", help="the profile of an answers file or of a recording's folder")
    advise.add_argument("answers", metavar="ANSWERS", type=a_path)
    advise.add_argument("--format", choices=("text", "html", "markdown", "json"), default="text")
    advise.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show it in these measures")
    advise.add_argument("--set", metavar="QUESTION=ANSWER", action="append", default=[], help="as if this were said")
    advise.add_argument("--sheet", action="store_true", help="only the sheet to take to the tractor")
    advise.add_argument("--short", action="store_true", help="without the working")
    advise.add_argument("--only", metavar="GROUP", action="append", help="only this group, such as towing")
    advise.add_argument(
        "--what-if", metavar="QUESTION=ANSWER", action="append", default=[], help="before and after, or without=i2"
    )
    advise.add_argument("--pictures", metavar="FOLDER", type=a_path, help="also write each picture as an SVG file")
    advise.add_argument("--out", metavar="FILE", type=a_path, help="write it to this file")
    advise.add_argument("--force", action="store_true", help="write over files that exist")
    advise.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.asking.tried import tried
    from firstfurrow.pages import parts_of, picture_files, written

    if parsed.format == "json" and (parsed.sheet or parsed.short or parsed.only):
        raise UsageError("--format json holds everything; --sheet, --short and --only go with the other formats.")
    may_write(parsed.out, force=parsed.force)
    book = book_of(parsed)
    answers = answers_of(parsed, book)
    what_if = tuple(tried(book, answers, text) for text in parsed.what_if)
    parts = parts_of(
        book, answers, full=not parsed.short, only=_groups(parsed, book), what_if=what_if, sheet=parsed.sheet
    )
    pictures = picture_files(parts) if parsed.pictures is not None else {}
    for name in pictures:
        may_write(parsed.pictures / name, force=parsed.force)
    if parsed.format == "json":
        text = _json(book, answers, what_if)
    elif parsed.out is not None:
        text = written(book, parts, parsed.format, 80)
    else:
        encoding = sys.stdout.encoding or "ascii"
        text = written(book, parts, parsed.format, columns(), colour=bold(), encoding=encoding)
    if pictures:
        make_folder(parsed.pictures)
    for name, drawn in pictures.items():
        write(parsed.pictures / name, drawn)
    if parsed.out is None:
        put(text, styled=parsed.format == "text" and bold())
    else:
        write(parsed.out, text)
    return DONE


def _json(book: Book, answers: Answers, what_if: tuple[Tried, ...]) -> str:
    from firstfurrow.pages import page_data

    return data_text(page_data(book, answers, what_if))


def _groups(parsed: argparse.Namespace, book: Book) -> frozenset[str] | None:
    """The groups of requirements that the page keeps to; None: all of them."""
    if not parsed.only:
        return None
    for group in parsed.only:
        if group not in book.groups:
            known = ", ".join(book.groups)
            raise UsageError(f"--only {group}: there is no such group of requirements. There are: {known}.")
    return frozenset(parsed.only)

