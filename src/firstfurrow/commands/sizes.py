"""What a tractor runs, and how large."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from firstfurrow.commands.common import (
    BAD_INPUT,
    DONE,
    a_path,
    answers_of,
    bold,
    book_of,
    columns,
    complain,
    data_text,
    put,
    text_of,
)

if TYPE_CHECKING:
    import argparse

    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    sizes = commands.add_parser("sizes", help="what a tractor runs: each implement, the largest size, what limits it")
    sizes.add_argument("offer", metavar="OFFER", type=a_path, help="an offer in YAML, or a list in CSV")
    sizes.add_argument("words", metavar="IMPLEMENT", nargs="*", help="only these, such as mowing or \"box blade\"")
    sizes.add_argument("--answers", metavar="FILE", type=a_path, help="on the ground of this answers file")
    sizes.add_argument("--set", metavar="QUESTION=ANSWER", action="append", default=[], help="such as slope_up=10%%")
    sizes.add_argument("--area", metavar="AREA", help="say the hours for one pass over it, such as \"5 acres\"")
    sizes.add_argument("--format", choices=("text", "json"), default="text")
    sizes.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show it in these measures")
    sizes.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.asking.setting import kinds_named
    from firstfurrow.pages import ground_of, sizes_json, sizes_of_offer, sizes_page
    from firstfurrow.talk.progress import progress

    book = book_of(parsed)
    answers = None if parsed.answers is None else answers_of(parsed, book)
    ground = ground_of(book, answers, parsed.set, parsed.shown_units or "us")
    kinds = kinds_named(book, parsed.words) if parsed.words else tuple(book.kinds.values())
    with progress(len(kinds)) as step:
        found, problems = sizes_of_offer(
            book, text_of(parsed.offer), str(parsed.offer), ground, area=parsed.area, kinds=kinds, done=step
        )
    if parsed.format == "json":
        data = [sizes_json(one) for one in found]
        put(data_text(data[0] if len(data) == 1 else data))
    else:
        encoding = sys.stdout.encoding or "ascii"
        for one in found:
            put(sizes_page(one, columns(), colour=bold(), encoding=encoding), styled=bold())
    for problem in problems:
        complain(problem)
    return BAD_INPUT if problems else DONE
