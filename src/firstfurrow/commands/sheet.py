"""Something to fill in."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from firstfurrow.commands.common import DONE, book_of, put

if TYPE_CHECKING:
    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    sheet = commands.add_parser(
        "sheet", help="something to fill in: offer, the template of an offer file; walk-around, to print and take along"
    )
    sheet.add_argument("name", choices=("offer", "walk-around"))
    sheet.add_argument("--units", choices=("us", "metric"), default=argparse.SUPPRESS, help="walk-around: only these")
    sheet.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.report.offer_template import offer_template
    from firstfurrow.report.walk_around import walk_around_sheet

    book = book_of(parsed)
    put(offer_template(book) if parsed.name == "offer" else walk_around_sheet(book, parsed.units))
    return DONE
