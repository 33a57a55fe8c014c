"""The command line: what it takes, which command it means, and the exit code."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

from firstfurrow import __version__
from firstfurrow.commands.common import BAD_INPUT, DONE, INTERRUPTED, UsageError, a_path, complain

BOOK_HELP = "use the book in this folder, checked first"


class _Parser(argparse.ArgumentParser):
    """Says in one sentence what is wrong with the command line."""

    def error(self, message: str) -> NoReturn:
        from firstfurrow.quantities.harmless import sentence

        said = sentence(f"{self.prog}: {message}")
        self.exit(BAD_INPUT, f"{said}. Type {self.prog} --help to see what it takes.\n")


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
        complain(f"{error.filename}: {error.strerror}" if error.filename else str(error.strerror))
        return BAD_INPUT
    except Exception as error:
        if not _ours(error):
            raise
        complain(*(map(str, getattr(error, "problems", None) or (error,))))
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
    from firstfurrow.commands.talk import talk

    parser = _Parser(
        prog="firstfurrow",
        description="Works out the minimum a tractor must offer for your land, jobs and implements, and shows why. "
        "Without a command it asks you.",
    )
    parser.add_argument("--version", action="version", version=f"firstfurrow {__version__}")
    parser.add_argument("--plain", action="store_true", help="plain lines, without line editing")
    parser.add_argument("--units", choices=("us", "metric"), help="measures you think in")
    parser.add_argument("--resume", metavar="FILE", type=a_path, help="go on with the answers in this file")
    parser.add_argument("--keep", metavar="FILE", type=a_path, help="keep the answers of a new talk in this file")
    parser.add_argument("--tractor", metavar="OFFER", type=a_path, help="does this tractor run an implement")
    parser.add_argument("--record", metavar="FOLDER", type=a_path, help="record the talk in a new folder, for replay")
    parser.add_argument("--setting", choices=("home", "floor", "class"), default="home", help="where it is used")
    parser.add_argument("--book", metavar="DIR", type=a_path, help=BOOK_HELP)
    parser.set_defaults(run=talk)
    if not whole:
        return parser
    from firstfurrow.commands import advise, book, check, classroom, demo, measure, replay, sheet, sizes

    commands = parser.add_subparsers(title="commands", metavar="COMMAND")

    for command in (demo, advise, measure, check, sizes, classroom, sheet, replay, book):
        command.add(commands)
    for name, one in commands.choices.items():
        if name != "book":  # which takes the folder itself
            # Where it stands before the command, what is left out here must not undo it.
            one.add_argument("--book", metavar="DIR", type=a_path, default=argparse.SUPPRESS, help=BOOK_HELP)
    return parser
