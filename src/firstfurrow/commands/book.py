"""For those who edit the book: checking it, drawing its questions, walking through it at random."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from firstfurrow.commands.common import UsageError, a_path

if TYPE_CHECKING:
    from pathlib import Path

    from firstfurrow.commands.common import Commands

PAIRS, WALKS, SEED = 10_000, 1_000, 1


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    book = commands.add_parser("book", help="for those who edit the book")
    work = book.add_subparsers(title="what to do", metavar="WHAT", required=True)
    check = work.add_parser("check", help="check every file and prove the questions")
    _folder(check)
    check.add_argument("--notes", action="store_true", help="show every note, and what to do about it")
    check.add_argument("--deep", action="store_true", help="try on random plans what answers move (minutes)")
    check.add_argument("--count", metavar="N", type=_number, default=PAIRS, help=f"pairs of plans for --deep ({PAIRS})")
    check.add_argument("--pairs", metavar="FILE", type=a_path, help="with --deep: write the pairs of plans there")
    check.add_argument("--force", action="store_true", help="write over that file")
    _seed(check)
    check.set_defaults(run=_check)
    draw = work.add_parser("draw", help="draw the questions as flowcharts (Mermaid text)")
    _folder(draw)
    draw.add_argument("--section", metavar="NAME", help="one section, or sections for the chart of all of them")
    draw.add_argument("--out", metavar="FOLDER", type=a_path, help="a file for each chart, in this folder")
    draw.add_argument("--force", action="store_true", help="write over files that are there")
    draw.set_defaults(run=_draw)
    walk = work.add_parser("walk", help="random conversations, each to its result; nonsense is kept for replay")
    _folder(walk)
    walk.add_argument("--count", metavar="N", type=_number, default=WALKS, help=f"how many ({WALKS})")
    walk.add_argument("--out", metavar="FOLDER", type=a_path, help="where answers go that led to nonsense")
    _seed(walk)
    walk.set_defaults(run=_walk)


def _folder(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="DIR", type=a_path, nargs="?", help="left out: the shipped book")


def _seed(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--seed", metavar="N", type=int, default=SEED, help="the same number, the same plans")


def _number(text: str) -> int:
    number = int(text) if text.isascii() and text.isdigit() else 0
    if number < 1:
        raise argparse.ArgumentTypeError(f'"{text}" is not a number from 1 on')
    return number


def folder_of(parsed: argparse.Namespace) -> Path:
    """The folder of the book that is meant.

    Raises
    ------
    UsageError
        When there is no such folder.
    """
    from firstfurrow.book.places import book_folder

    folder: Path = parsed.folder or book_folder()
    if not folder.is_dir():
        raise UsageError(f"{folder}: there is no folder of that name.")
    return folder


def _check(parsed: argparse.Namespace) -> int:
    from firstfurrow.commands.book_check import run

    return run(folder_of(parsed), parsed)


def _draw(parsed: argparse.Namespace) -> int:
    from firstfurrow.commands.book_draw import run

    return run(folder_of(parsed), parsed)


def _walk(parsed: argparse.Namespace) -> int:
    from firstfurrow.commands.book_walk import run

    return run(folder_of(parsed), parsed)
