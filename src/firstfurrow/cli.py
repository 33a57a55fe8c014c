"""The commands. Thin: read arguments and files, call the rest, print, give the exit code."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, NoReturn

from firstfurrow import __version__
from firstfurrow.shown import Shown

if TYPE_CHECKING:
    from pathlib import Path

    from firstfurrow.asking.answers import Answers
    from firstfurrow.book.model import Book

DONE, DIFFERS, BAD_INPUT, UNKNOWN, INTERRUPTED = 0, 1, 2, 3, 130
SHORT = DIFFERS


class UsageError(ValueError):
    """Bad input or usage; the message is one plain sentence."""


class _Parser(argparse.ArgumentParser):
    """Says in one sentence what is wrong with the command line."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD_INPUT, f"{self.prog}: {message}. Type {self.prog} --help to see what it takes.\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit code."""
    if sys.stdout is None:  # closed before the program began
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    given = sys.argv[1:] if arguments is None else list(arguments)
    if given == ["--version"]:
        print(f"firstfurrow {__version__}")  # at once: to make the parser of all commands takes longer than the answer
        raise SystemExit(DONE)
    parsed = _parser(whole=bool(given)).parse_args(given)
    try:
        code: int = parsed.run(parsed)
        sys.stdout.flush()
        return code
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Somebody closed the pipe (a pager, head): that is their right; keep the interpreter from complaining.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except OSError as error:  # a full disk behind the standard output, or a terminal that is gone
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        print(f"firstfurrow: {error.strerror}", file=sys.stderr)
        return BAD_INPUT
    except Exception as error:
        if not _ours(error):
            raise
        print(f"firstfurrow: {error}", file=sys.stderr)
        return BAD_INPUT


def _ours(error: Exception) -> bool:
    """True for errors whose text is meant for the reader."""
    from firstfurrow.asking.answers_file import AnswersError
    from firstfurrow.asking.setting import SettingError
    from firstfurrow.book.problems import BookError
    from firstfurrow.talk.recordings import RecordingError

    return isinstance(error, (AnswersError, BookError, RecordingError, SettingError, UsageError))


def _parser(*, whole: bool = True) -> argparse.ArgumentParser:
    """Reads a command line; not `whole` where nothing stands in it: a talk is begun most often, and begins sooner."""
    parser = _Parser(
        prog="firstfurrow",
        description="Works out the minimum a tractor must offer for your land, jobs and implements, and shows why. "
        "Without a command it asks you.",
    )
    parser.add_argument("--version", action="version", version=f"firstfurrow {__version__}")
    parser.add_argument("--plain", action="store_true", help="plain lines, without line editing")
    parser.add_argument("--units", choices=("us", "metric"), help="measures you think in")
    parser.add_argument("--resume", metavar="FILE", type=_path, help="go on with the answers in this file")
    parser.add_argument("--keep", metavar="FILE", type=_path, help="keep the answers of a new talk in this file")
    parser.add_argument("--tractor", metavar="OFFER", type=_path, help="does the tractor in this file run an implement")
    parser.add_argument("--record", metavar="FOLDER", type=_path, help="record the talk in a new folder, for replay")
    parser.add_argument("--setting", choices=("home", "floor", "class"), default="home", help="where it is used")
    parser.add_argument("--book", metavar="DIR", type=_path, help="use the book in this folder, checked first")
    parser.set_defaults(run=_talk)
    if not whole:
        return parser
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    demo = commands.add_parser("demo", help="play an invented conversation to its profile")
    demo.add_argument("name", nargs="?", help="which one; left out, the first")
    demo.add_argument("--list", action="store_true", help="name them all")
    demo.set_defaults(run=_demo)

    advise = commands.add_parser("advise", help="the profile of an answers file or of a recording's folder")
    advise.add_argument("answers", metavar="ANSWERS", type=_path)
    advise.add_argument("--format", choices=("text", "html", "markdown", "json"), default="text")
    advise.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show it in these measures")
    advise.add_argument("--set", metavar="QUESTION=ANSWER", action="append", default=[], help="as if this were said")
    advise.add_argument("--sheet", action="store_true", help="only the sheet to take to the tractor")
    advise.add_argument("--short", action="store_true", help="without the working")
    advise.add_argument("--only", metavar="GROUP", action="append", help="only this group, such as towing")
    advise.add_argument("--out", metavar="FILE", type=_path, help="write it to this file")
    advise.add_argument("--force", action="store_true", help="with --out: write over a file that exists")
    advise.set_defaults(run=_advise)

    measure = commands.add_parser("measure", help="tell what a machine has, with a tape in hand")
    measure.add_argument(
        "what", metavar="WHAT", nargs="?", help="such as hitch, shaft, drawbar, or walk-around; left out, it asks"
    )
    measure.add_argument("--out", metavar="FILE", type=_path, help="walk-around: keep the boxes here, or go on with it")
    measure.add_argument("--plain", action="store_true", default=argparse.SUPPRESS, help="without line editing")
    measure.add_argument("--units", choices=("us", "metric"), default=argparse.SUPPRESS, help="of numbers without unit")
    measure.set_defaults(run=_measure)

    offers = commands.add_parser("check", help="tractors on offer held against the profile of an answers file")
    offers.add_argument("answers", metavar="ANSWERS", type=_path)
    offers.add_argument("offers", metavar="OFFER", type=_path, nargs="+", help="an offer in YAML, or a list in CSV")
    offers.add_argument("--format", choices=("text", "json"), default="text")
    offers.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show it in these measures")
    offers.add_argument("--set", metavar="QUESTION=ANSWER", action="append", default=[], help="as if this were said")
    offers.add_argument(
        "--strict", action="store_true", help="exit 1 where one is short or work is refused, 3 where one is unknown"
    )
    offers.set_defaults(run=_check)

    sizes = commands.add_parser("sizes", help="what a tractor runs: each implement, the largest size, what limits it")
    sizes.add_argument("offer", metavar="OFFER", type=_path, help="an offer in YAML, or a list in CSV")
    sizes.add_argument("words", metavar="IMPLEMENT", nargs="*", help="only these, such as mowing or \"box blade\"")
    sizes.add_argument("--answers", metavar="FILE", type=_path, help="on the ground of this answers file")
    sizes.add_argument("--set", metavar="QUESTION=ANSWER", action="append", default=[], help="such as slope_up=10%%")
    sizes.add_argument("--area", metavar="AREA", help="say the hours for one pass over it, such as \"5 acres\"")
    sizes.add_argument("--format", choices=("text", "json"), default="text")
    sizes.add_argument("--units", choices=("us", "metric"), dest="shown_units", help="show it in these measures")
    sizes.set_defaults(run=_sizes)

    sheet = commands.add_parser(
        "sheet", help="something to fill in: offer, the template of an offer file; walk-around, to print and take along"
    )
    sheet.add_argument("name", choices=("offer", "walk-around"))
    sheet.add_argument("--units", choices=("us", "metric"), default=argparse.SUPPRESS, help="walk-around: only these")
    sheet.set_defaults(run=_sheet)

    replay = commands.add_parser("replay", help="play recordings again; a difference is shown")
    replay.add_argument("folders", metavar="FOLDER", type=_path, nargs="+")
    replay.set_defaults(run=_replay)

    book = commands.add_parser("book", help="for those who edit the book")
    work = book.add_subparsers(title="what to do", metavar="WHAT", required=True)
    check = work.add_parser("check", help="check every file and prove the questions")
    check.add_argument("folder", metavar="DIR", type=_path, nargs="?", help="left out: the shipped book")
    check.set_defaults(run=_book_check)
    return parser


def _book(parsed: argparse.Namespace) -> Book:
    from firstfurrow.book.load import load

    if parsed.book is not None:
        from firstfurrow.book.check import require

        require(parsed.book)
    return load(parsed.book)


# ---------------------------------------------------------------------- commands


def _talk(parsed: argparse.Namespace) -> int:
    from firstfurrow.talk.start import start

    book = _book(parsed)
    return start(
        book, plain=parsed.plain, units=parsed.units, resume=parsed.resume, setting=parsed.setting,
        views=Shown(book, _columns), tractor=parsed.tractor, tractor_text=_tractor_text(book, parsed),
        record=parsed.record, keep=parsed.keep,
    )  # fmt: skip


def _tractor_text(book: Book, parsed: argparse.Namespace) -> str:
    """What the file of a tractor says; empty where none was named."""
    if parsed.tractor is None:
        return ""
    from firstfurrow.pages import offer_problems

    text = _text_of(parsed.tractor)
    problems = offer_problems(book, text, str(parsed.tractor), parsed.units or "us")
    if problems:
        raise UsageError(" ".join(problems))
    return text


def _demo(parsed: argparse.Namespace) -> int:
    from firstfurrow.talk.recordings import play, shipped

    recordings = {recording.name: recording for recording in shipped()}
    if parsed.list:
        print("\n".join(recordings))
        return DONE
    name = parsed.name or next(iter(recordings), None)
    if name not in recordings:
        raise UsageError(f'no recording is called "{name}"; there are {", ".join(recordings) or "none"}.')
    book = _book(parsed)
    screen, _ = play(book, recordings[name], Shown(book, lambda: 80))
    _print(screen)
    return DONE


def _advise(parsed: argparse.Namespace) -> int:
    from firstfurrow.pages import page_data, whole_page, yard_page

    if parsed.out is not None and parsed.out.is_file() and not parsed.force:
        raise UsageError(f"{parsed.out}: this file exists. Write over it with --force, or name another with --out.")
    book = _book(parsed)
    answers = _answers(parsed, book)
    only = _groups(parsed, book)
    if parsed.format == "json":
        import json

        text = json.dumps(page_data(book, answers), indent=2, ensure_ascii=False) + "\n"
    elif parsed.format != "text":
        from firstfurrow.pages import html_report, markdown_report

        text = (html_report if parsed.format == "html" else markdown_report)(book, answers)
    else:
        width = 80 if parsed.out is not None else _columns()
        encoding = "utf-8" if parsed.out is not None else sys.stdout.encoding or "ascii"
        text = yard_page(book, answers, width, encoding=encoding) if parsed.sheet else whole_page(
            book, answers, width, full=not parsed.short, only=only, colour=_colour(parsed), encoding=encoding
        )
    if parsed.out is None:
        _print(text)
        return DONE
    try:
        parsed.out.write_text(text, encoding="utf-8")
    except OSError as error:
        problem = f"{parsed.out}: cannot be written ({error.strerror}). Choose another file with --out."
        raise UsageError(problem) from None
    return DONE


def _check(parsed: argparse.Namespace) -> int:
    from firstfurrow.pages import checked_offers, offers_json, offers_page

    book = _book(parsed)
    answers = _answers(parsed, book)
    checked, problems = checked_offers(book, answers, {str(path): _text_of(path) for path in parsed.offers})
    if parsed.format == "json":
        import json

        _print(json.dumps(offers_json(checked, problems), indent=2, ensure_ascii=False) + "\n")
    elif checked.offers:
        encoding = sys.stdout.encoding or "ascii"
        colour = sys.stdout.isatty() and not os.environ.get("NO_COLOR")
        _print(offers_page(checked, _columns(), colour=colour, encoding=encoding))
    for problem in problems:
        print(f"firstfurrow: {problem}", file=sys.stderr)
    if problems:
        return BAD_INPUT  # what could be read was checked all the same
    if not parsed.strict:
        return DONE
    if checked.refused or any(one.ids("short") for one in checked.offers):
        return SHORT
    return UNKNOWN if any(one.ids("unknown") for one in checked.offers) else DONE


def _sheet(parsed: argparse.Namespace) -> int:
    from firstfurrow.report.offer_template import offer_template
    from firstfurrow.report.walk_around import walk_around_sheet

    book = _book(parsed)
    _print(offer_template(book) if parsed.name == "offer" else walk_around_sheet(book, parsed.units))
    return DONE


def _sizes(parsed: argparse.Namespace) -> int:
    from firstfurrow.asking.setting import kinds_named
    from firstfurrow.pages import ground_of, sizes_json, sizes_of_offer, sizes_page
    from firstfurrow.talk.progress import progress

    book = _book(parsed)
    answers = None if parsed.answers is None else _answers(parsed, book)
    ground = ground_of(book, answers, parsed.set, parsed.shown_units or "us")
    kinds = kinds_named(book, parsed.words) if parsed.words else tuple(book.kinds.values())
    with progress(len(kinds)) as step:
        found, problems = sizes_of_offer(
            book, _text_of(parsed.offer), str(parsed.offer), ground, area=parsed.area, kinds=kinds, done=step
        )
    if parsed.format == "json":
        import json

        data = [sizes_json(one) for one in found]
        _print(json.dumps(data[0] if len(data) == 1 else data, indent=2, ensure_ascii=False) + "\n")
    else:
        encoding = sys.stdout.encoding or "ascii"
        colour = sys.stdout.isatty() and not os.environ.get("NO_COLOR")
        for one in found:
            _print(sizes_page(one, _columns(), colour=colour, encoding=encoding))
    for problem in problems:
        print(f"firstfurrow: {problem}", file=sys.stderr)
    return BAD_INPUT if problems else DONE


def _groups(parsed: argparse.Namespace, book: Book) -> frozenset[str] | None:
    """The groups of requirements that the page keeps to; None: all of them."""
    if not parsed.only:
        return None
    for group in parsed.only:
        if group not in book.groups:
            known = ", ".join(book.groups)
            raise UsageError(f"--only {group}: there is no such group of requirements. There are: {known}.")
    return frozenset(parsed.only)


def _measure(parsed: argparse.Namespace) -> int:
    from firstfurrow.advice.measuring import find
    from firstfurrow.talk.measure import Measure, UnknownStationError
    from firstfurrow.talk.start import choose_front

    if parsed.what is not None and "".join(c for c in parsed.what.lower() if c.isalpha()) == "walkaround":
        return _walk_around(parsed)
    if parsed.out is not None:
        raise UsageError("--out goes with walk-around only: firstfurrow measure walk-around --out FILE.")
    book = _book(parsed)
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

    book = _book(parsed)
    path = parsed.out or claim_tractor(Path())
    walk = WalkAround(book, choose_front(parsed.plain), parsed.units, OfferBoxes(book, parsed.units))
    try:
        text = walk.run(path)
    except WalkAroundError as error:
        raise UsageError(str(error)) from None
    if path is None and text is not None:  # nowhere to keep it
        _print(text)
    return INTERRUPTED if walk.interrupted else DONE


def _replay(parsed: argparse.Namespace) -> int:
    from firstfurrow.talk.recordings import ANSWERS, SCREEN, Recording, differences, play

    book = _book(parsed)
    code = DONE
    for folder in parsed.folders:
        recording = Recording(folder)
        screen, answers = play(book, recording, Shown(book, lambda: 80))
        found = differences(recording.screen(), screen, SCREEN)
        found += differences((folder / ANSWERS).read_text(encoding="utf-8"), answers, ANSWERS)
        if found:
            code = DIFFERS
            _print(f"{folder}: differs\n" + "\n".join(found) + "\n")
        else:
            _print(f"{folder}: the same\n")
    return code


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


# ----------------------------------------------------------------------- helpers


def _path(text: str) -> Path:
    from pathlib import Path

    return Path(text)


def _answers(parsed: argparse.Namespace, book: Book) -> Answers:
    """The answers of a file or of a recording's folder, in the units that are wanted."""
    from dataclasses import replace

    from firstfurrow.asking.setting import with_answers
    from firstfurrow.talk.recordings import ANSWERS
    from firstfurrow.talk.store import read_answers

    path = parsed.answers / ANSWERS if (parsed.answers / ANSWERS).is_file() else parsed.answers
    answers = read_answers(path, book)
    for line in answers.carried:
        print(f"firstfurrow: {path}: {line}", file=sys.stderr)
    answers = replace(answers, carried=())
    if parsed.shown_units is not None:
        answers = replace(answers, units=parsed.shown_units)
    return with_answers(book, answers, parsed.set)


def _text_of(path: Path) -> str:
    """The text of an offer file."""
    from firstfurrow.book.yaml_strict import LARGEST

    try:
        raw = path.read_bytes()
    except IsADirectoryError:
        raise UsageError(f"{path}: this is a folder, not a file.") from None
    except OSError as error:
        raise UsageError(f"{path}: it cannot be read ({error.strerror}).") from None
    if len(raw) > LARGEST:
        raise UsageError(f"{path}: the file is far too large.")
    try:
        return raw.decode("utf-16" if raw.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise UsageError(f"{path}:{line}: the file is not saved as UTF-8 text.") from None


def _columns() -> int:
    import shutil

    return shutil.get_terminal_size().columns


def _colour(parsed: argparse.Namespace) -> bool:
    """Bold only for a reader at a terminal who did not switch it off."""
    return parsed.out is None and sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def _print(text: str) -> None:
    """Print whatever the terminal's encoding can show; nothing is worth a traceback."""
    encoding = sys.stdout.encoding or "ascii"
    sys.stdout.write(text.encode(encoding, "replace").decode(encoding))
