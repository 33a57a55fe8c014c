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
    may_write,
    put,
    write,
)

if TYPE_CHECKING:
    import argparse

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
    advise.add_argument("--out", metavar="FILE", type=a_path, help="write it to this file")
    advise.add_argument("--force", action="store_true", help="with --out: write over a file that exists")
    advise.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.pages import page_data, whole_page, yard_page

    may_write(parsed.out, force=parsed.force)
    book = book_of(parsed)
    answers = answers_of(parsed, book)
    only = _groups(parsed, book)
    colour = parsed.out is None and bold()
    if parsed.format == "json":
        import json

        text = json.dumps(page_data(book, answers), indent=2, ensure_ascii=False) + "\n"
    elif parsed.format != "text":
        from firstfurrow.pages import html_report, markdown_report

        text = (html_report if parsed.format == "html" else markdown_report)(book, answers)
    else:
        width = 80 if parsed.out is not None else columns()
        encoding = "utf-8" if parsed.out is not None else sys.stdout.encoding or "ascii"
        text = yard_page(book, answers, width, encoding=encoding) if parsed.sheet else whole_page(
            book, answers, width, full=not parsed.short, only=only, colour=colour, encoding=encoding
        )
    if parsed.out is None:
        put(text)
        return DONE
    write(parsed.out, text)
    return DONE


def _groups(parsed: argparse.Namespace, book: Book) -> frozenset[str] | None:
    """The groups of requirements that the page keeps to; None: all of them."""
    if not parsed.only:
        return None
    for group in parsed.only:
        if group not in book.groups:
            known = ", ".join(book.groups)
            raise UsageError(f"--only {group}: there is no such group of requirements. There are: {known}.")
    return frozenset(parsed.only)

