"""Something to fill in or to hand out, made from the book."""

from __future__ import annotations

import sys
from argparse import SUPPRESS
from difflib import get_close_matches
from typing import TYPE_CHECKING

from firstfurrow.commands.common import DONE, UsageError, a_path, answers_of, book_of, may_write, put, write

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence
    from typing import Any

    from firstfurrow.book.model import Book
    from firstfurrow.commands.common import Commands
    from firstfurrow.report.blocks import Part
    from firstfurrow.talk.recordings import Recording

OFFER, MODEL, SELLER = "offer", "model", "seller"
SHEETS = {
    OFFER: "the template of an offer file",
    "walk-around": "to take along to a tractor",
    "questions": "every question on paper",
    SELLER: "what to ask and get in writing",
    MODEL: "a recorded conversation, filled in",
    "class": "exercise cards with a key",
}
ADVISER = "adviser.yaml"


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    named = "; ".join(f"{name}, {what}" for name, what in SHEETS.items())
    sheet = commands.add_parser("sheet", help=f"something to fill in: {named}")
    sheet.add_argument("name", metavar="NAME", help=", ".join(SHEETS))
    sheet.add_argument("recording", metavar="RECORDING", nargs="?", help="model: which recorded conversation")
    sheet.add_argument("--format", choices=("text", "html", "markdown"), default="text")
    sheet.add_argument("--units", choices=("us", "metric"), default=SUPPRESS, help="only these measures")
    sheet.add_argument("--answers", metavar="ANSWERS", type=a_path, help="seller: only what this plan asks for")
    sheet.add_argument("--out", metavar="FILE", type=a_path, help="write it to this file")
    sheet.add_argument("--force", action="store_true", help="with --out: write over a file that exists")
    sheet.set_defaults(run=_run, set=[])


def _run(parsed: argparse.Namespace) -> int:
    _usable(parsed)
    may_write(parsed.out, force=parsed.force)
    book = book_of(parsed)
    if parsed.units is None and book.edition is not None:
        parsed.units = book.edition.units
    if parsed.name == OFFER:
        from firstfurrow.report.sheets.offer_template import offer_template

        text = offer_template(book)
    else:
        from firstfurrow.report.sheets.forms import in_form

        encoding = "utf-8" if parsed.out is not None else sys.stdout.encoding or "ascii"
        text = in_form(_parts(parsed, book), parsed.format, encoding=encoding)
    if parsed.out is None:
        put(text)
    else:
        write(parsed.out, text)
    return DONE


def _usable(parsed: argparse.Namespace) -> None:
    """Nothing where the words of the command line go together."""
    if parsed.name not in SHEETS:
        raise UsageError(f"{parsed.name}: there is no such sheet.{_near(parsed.name, tuple(SHEETS))} {_all(SHEETS)}")
    if parsed.recording is not None and parsed.name != MODEL:
        raise UsageError(f"{parsed.recording}: only the sheet {MODEL} takes the name of a recorded conversation.")
    if parsed.answers is not None and parsed.name != SELLER:
        raise UsageError(f"--answers: only the sheet {SELLER} takes the answers of a plan.")
    if parsed.format != "text" and parsed.name == OFFER:
        raise UsageError(f"--format {parsed.format}: an offer is a file to fill in and comes as text only.")


def _near(name: str, known: Sequence[str]) -> str:
    found = get_close_matches(name.casefold(), known, n=1)
    return f" Did you mean {found[0]}?" if found else ""


def _all(names: object) -> str:
    assert isinstance(names, dict | tuple)
    return f"There are: {', '.join(names)}."


def _parts(parsed: argparse.Namespace, book: Book) -> tuple[Part, ...]:
    """What every form of the sheet holds."""
    if parsed.name == "walk-around":
        from firstfurrow.report.sheets.walk_around import walk_around_parts

        return walk_around_parts(book, parsed.units)
    if parsed.name == "questions":
        from firstfurrow.report.sheets.questions import question_parts

        return question_parts(book, parsed.units)
    if parsed.name == SELLER:
        return _seller(parsed, book)
    return _model(parsed, book) if parsed.name == MODEL else _class(parsed, book)


def _seller(parsed: argparse.Namespace, book: Book) -> tuple[Part, ...]:
    from firstfurrow.report.sheets.seller import seller_parts

    if parsed.answers is None:
        return seller_parts(book, parsed.units)
    from firstfurrow.pages import profile_of

    parsed.shown_units = parsed.units
    answers = answers_of(parsed, book)
    return seller_parts(book, answers.units, profile_of(book, answers))


def _model(parsed: argparse.Namespace, book: Book) -> tuple[Part, ...]:
    from dataclasses import replace

    from firstfurrow.pages import parts_of, profile_of
    from firstfurrow.report.sheets.model import model_parts
    from firstfurrow.talk.recordings import shipped

    known = {recording.name: recording for recording in shipped()}
    if parsed.recording is None:
        raise UsageError(f"Name the recorded conversation behind {MODEL}. {_all(tuple(known))}")
    if parsed.recording not in known:
        near = _near(parsed.recording, tuple(known))
        raise UsageError(f"{parsed.recording}: there is no such recorded conversation.{near} {_all(tuple(known))}")
    recording = known[parsed.recording]
    answers = recording.answers(book)
    answers = replace(answers, units=parsed.units or answers.units)
    comes_out = tuple(block for part in parts_of(book, answers, full=False) for block in part.document)
    return model_parts(book, answers, profile_of(book, answers), comes_out, _adviser(recording))


def _class(parsed: argparse.Namespace, book: Book) -> tuple[Part, ...]:
    from dataclasses import replace
    from functools import partial

    from firstfurrow.pages import profile_of
    from firstfurrow.report.sheets.class_pack import Card, class_parts
    from firstfurrow.talk.recordings import shipped

    cards = []
    for recording in shipped():
        answers = recording.answers(book)
        buyer = str((_adviser(recording) or {}).get("buyer", "")).strip()
        cards.append(Card(recording.name, replace(answers, units=parsed.units or answers.units), buyer))
    return class_parts(book, cards, partial(profile_of, book))


def _adviser(recording: Recording) -> dict[str, Any] | None:
    """What an adviser says of this buyer; None where nobody was asked."""
    from firstfurrow.book.yaml_strict import read

    path = recording.folder / ADVISER
    found = read(path) if path.is_file() else None
    return found if isinstance(found, dict) else None
