"""Holds tractors on offer against a profile."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from firstfurrow.commands.common import (
    BAD_INPUT,
    DONE,
    SHORT,
    UNKNOWN,
    a_path,
    answers_of,
    bold,
    book_of,
    columns,
    complain,
    data_text,
    may_write,
    put,
    text_of,
    write,
)

if TYPE_CHECKING:
    import argparse

    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    offers = commands.add_parser("check", help="tractors on offer held against the profile of an answers file")
    offers.add_argument("answers", metavar="ANSWERS", type=a_path)
    offers.add_argument("offers", metavar="OFFER", type=a_path, nargs="+", help="an offer in YAML, or a list in CSV")
    offers.add_argument("--format", choices=("text", "html", "markdown", "json"), default="text")
    offers.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show it in these measures")
    offers.add_argument("--set", metavar="QUESTION=ANSWER", action="append", default=[], help="as if this were said")
    offers.add_argument(
        "--strict", action="store_true", help="exit 1 where one is short or work is refused, 3 where one is unknown"
    )
    offers.add_argument("--out", metavar="FILE", type=a_path, help="write it to this file")
    offers.add_argument("--force", action="store_true", help="write over a file that exists")
    offers.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.pages import checked_offers, offers_json, offers_parts, written

    may_write(parsed.out, force=parsed.force)
    book = book_of(parsed)
    answers = answers_of(parsed, book)
    checked, problems = checked_offers(book, answers, {str(path): text_of(path) for path in parsed.offers})
    if parsed.format == "json":
        text = data_text(offers_json(checked, problems))
    elif not checked.offers:
        text = ""
    elif parsed.out is not None:
        text = written(book, offers_parts(checked), parsed.format)
    else:
        encoding = sys.stdout.encoding or "ascii"
        text = written(book, offers_parts(checked), parsed.format, columns(), colour=bold(), encoding=encoding)
    if parsed.out is None:
        put(text, styled=parsed.format == "text" and bold())
    elif text:
        write(parsed.out, text)
    for problem in problems:
        complain(problem)
    if problems:
        return BAD_INPUT  # what could be read was checked all the same
    if not parsed.strict:
        return DONE
    if checked.refused or any(one.ids("short") for one in checked.offers):
        return SHORT
    return UNKNOWN if any(one.ids("unknown") for one in checked.offers) else DONE
