"""A handout for each participant of a class, and one page for the educator."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.commands.common import BAD_INPUT, DONE, UsageError, a_path, book_of, complain, put, write

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence
    from pathlib import Path

    from firstfurrow.book.model import Book
    from firstfurrow.commands.class_work import Handout
    from firstfurrow.commands.common import Commands

OUT = "handouts"
PAGE, EACH = "class-page", "handout-"
ENDINGS = {"html": ".html", "markdown": ".md", "text": ".txt"}


def add(commands: Commands) -> None:
    """Adds it to the command line."""
    classroom = commands.add_parser("class", help="a handout for each answers file in a folder, and a page of counts")
    classroom.add_argument("folder", metavar="FOLDER", type=a_path, help="answers files, or recordings")
    classroom.add_argument("--out", metavar="OUTFOLDER", type=a_path, help=f"write them here, not into FOLDER/{OUT}")
    classroom.add_argument("--format", choices=tuple(ENDINGS), default="html")
    classroom.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show all in these measures")
    classroom.add_argument("--force", action="store_true", help="write over handouts that are there already")
    classroom.set_defaults(run=_run)


def _run(parsed: argparse.Namespace) -> int:
    from firstfurrow.commands.class_files import answers_files
    from firstfurrow.commands.class_work import handouts
    from firstfurrow.report.classroom.words import written
    from firstfurrow.talk.progress import progress

    out: Path = parsed.folder / OUT if parsed.out is None else parsed.out
    book = book_of(parsed)
    files = answers_files(book, parsed.folder)
    _may_write_into(out, force=parsed.force)
    if not files:
        raise UsageError(f"{parsed.folder}: there is no answers file here, and no folder with an answers.yaml in it.")
    with progress(len(files)) as step:
        made = handouts(book, parsed.book, parsed.shown_units, parsed.format, files, step)
    for one in made:
        for line in (*(f"{one.file.path}: {left}" for left in one.carried), *filter(None, (one.problem,))):
            complain(line)
    good = [one for one in made if one.seen is not None]
    if not good:
        raise UsageError(f"{parsed.folder}: none of the files here can be used, so nothing was written.")
    _write(out, _pages(book, parsed, good, made))
    put(written(book, len(good), str(out), PAGE + ENDINGS[parsed.format]) + "\n")
    return DONE if len(good) == len(made) else BAD_INPUT


def _pages(
    book: Book, parsed: argparse.Namespace, good: Sequence[Handout], made: Sequence[Handout]
) -> dict[str, str]:
    """The text of every file by its name; the educator's page comes last, when all that it names is there."""
    from firstfurrow.advice.classroom import class_of
    from firstfurrow.commands.class_work import rendered
    from firstfurrow.report.blocks import Part
    from firstfurrow.report.classroom.class_page import Problem, Written, class_document
    from firstfurrow.report.classroom.names import safe_file_name

    ending = ENDINGS[parsed.format]
    pages: dict[str, str] = {}
    listed: list[Written] = []
    taken: set[str] = set()
    for one in good:
        name = safe_file_name(EACH, (one.name, one.file.name), taken)
        taken.add(name)
        pages[name + ending] = one.text
        listed.append(Written(one.name, one.file.name, name + ending))
    counts = class_of(book, [one.seen for one in good if one.seen is not None])
    broken = [Problem(one.file.name, one.problem.removeprefix(str(one.file.path))) for one in made if one.problem]
    carried = [Problem(one.file.name, f": {line}") for one in made for line in one.carried]
    document = class_document(book, counts, parsed.shown_units or counts.units, listed, broken, carried)
    title = book.messages["classroom.title"]
    return pages | {PAGE + ending: rendered((Part("class", document),), title, parsed.format)}


def _may_write_into(out: Path, *, force: bool) -> None:
    """Nothing when the folder is not there yet, is empty, or may be written into.

    Raises
    ------
    UsageError
        When it is no folder, cannot be read, or holds something and nobody said that it may be written into.
    """
    if out.is_symlink() and not out.exists():
        raise UsageError(f"{out}: this is a link to nothing. Name another folder with --out.")
    if not out.exists():
        return
    if not out.is_dir():
        raise UsageError(f"{out}: this is no folder. Name another one with --out.")
    try:
        empty = next(out.iterdir(), None) is None
    except OSError as error:
        raise UsageError(f"{out}: this folder cannot be read ({error.strerror}).") from None
    if not empty and not force:
        raise UsageError(
            f"{out}: this folder is not empty. Write over handouts in it with --force, or name another with --out."
        )


def _write(out: Path, pages: dict[str, str]) -> None:
    """Write the files, each of them whole or not at all.

    Raises
    ------
    UsageError
        When the folder cannot be made, or a file not written; what was written before stays, and is whole.
    """
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsageError(f"{out}: this folder cannot be made ({error.strerror}).") from None
    for name, text in pages.items():
        if (out / name).is_symlink():  # it may lead out of the folder, where nothing is ours
            (out / name).unlink()
        write(out / name, text)
