"""For those who edit the book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.commands.common import DIFFERS, DONE, a_path

if TYPE_CHECKING:
    import argparse

    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    book = commands.add_parser("book", help="for those who edit the book")
    work = book.add_subparsers(title="what to do", metavar="WHAT", required=True)
    check = work.add_parser("check", help="check every file and prove the questions")
    check.add_argument("folder", metavar="DIR", type=a_path, nargs="?", help="left out: the shipped book")
    check.set_defaults(run=_book_check)


def _book_check(parsed: argparse.Namespace) -> int:
    from firstfurrow.book.check import examine
    from firstfurrow.book.places import book_folder

    found = examine(parsed.folder or book_folder())
    for problem in found.problems:
        print(problem)
    for hint in found.hints:
        print(f"note: {hint}")
    if found.level:
        print(found.level)
    if not found.problems:
        print("The book is clean: every file fits its schema, every figure has its grade, every question is reached.")
    return DIFFERS if found.problems else DONE
