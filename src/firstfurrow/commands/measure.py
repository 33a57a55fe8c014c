"""Tells what a machine has, with a tape in hand."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from firstfurrow.commands.common import DONE, INTERRUPTED, UsageError, a_path, book_of, put

if TYPE_CHECKING:
    from firstfurrow.commands.common import Commands


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    measure = commands.add_parser("measure", help="tell what a machine has, with a tape in hand")
    measure.add_argument(
        "what", metavar="WHAT", nargs="?", help="such as hitch, shaft, drawbar, or walk-around; left out, it asks"
    )
    measure.add_argument("--out", metavar="FILE", type=a_path, help="walk-around: keep the boxes here, or go on there")
    measure.add_argument("--plain", action="store_true", default=argparse.SUPPRESS, help="without line editing")
    measure.add_argument("--units", choices=("us", "metric"), default=argparse.SUPPRESS, help="of numbers without unit")
    measure.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.advice.measuring import find
    from firstfurrow.talk.measure import Measure, UnknownStationError
    from firstfurrow.talk.start import choose_front

    if parsed.what is not None and "".join(c for c in parsed.what.lower() if c.isalpha()) == "walkaround":
        return _walk_around(parsed)
    if parsed.out is not None:
        raise UsageError("--out goes with walk-around only: firstfurrow measure walk-around --out FILE.")
    book = book_of(parsed)
    measure = Measure(
        book, choose_front(parsed.plain), lambda station, readings: find(book, station, readings), parsed.units,
        drawings=not parsed.plain,
    )  # fmt: skip
    try:
        return measure.run(parsed.what)
    except UnknownStationError as error:
        raise UsageError(str(error)) from None


def _walk_around(parsed: argparse.Namespace) -> int:
    from pathlib import Path

    from firstfurrow.advice.offers.walk_around import OfferBoxes
    from firstfurrow.talk.start import choose_front
    from firstfurrow.talk.store import claim_tractor
    from firstfurrow.talk.walk_around import WalkAround, WalkAroundError

    book = book_of(parsed)
    path = parsed.out or claim_tractor(Path())
    walk = WalkAround(book, choose_front(parsed.plain), parsed.units, OfferBoxes(book, parsed.units))
    try:
        text = walk.run(path)
    except WalkAroundError as error:
        raise UsageError(str(error)) from None
    if path is None and text is not None:  # nowhere to keep it
        put(text)
    return INTERRUPTED if walk.interrupted else DONE
