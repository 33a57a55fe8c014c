"""One run of the program in this process, watched: what it opens, writes, removes, asks of the network, and shows."""

from __future__ import annotations

import io
import os
import re
import signal
import sys
import time
import traceback
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fnmatch import fnmatch
from functools import cache
from pathlib import Path
from types import FrameType
from typing import Any

import firstfurrow
from firstfurrow.book import load as loading
from firstfurrow.book import shelf
from firstfurrow.book.files import Placed
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder, recordings_folder
from firstfurrow.book.problems import Problem
from firstfurrow.book.rules import shape
from firstfurrow.book.yaml_strict import LARGEST, Marks
from firstfurrow.cli import main

CODES = frozenset({0, 1, 2, 3, 130})
SECONDS = 2.0  # of work for one input, above what a good one takes
USUAL = 0.025  # seconds that the sum of `slowness` takes there
HANGS = 60  # seconds by the clock after which a run is given up
LONGEST_LINE = 1_500  # of what is said about bad input
MOST_LINES = 2_000
# Signs that move a cursor, turn the direction of reading, or are half of a sign.
UNSEEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]"
)

_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_CHANGES = frozenset(
    {
        "os.remove",
        "os.rename",
        "os.mkdir",
        "os.rmdir",
        "os.link",
        "os.symlink",
        "os.chmod",
        "os.chown",
        "os.truncate",
        "os.utime",
    }
)
_LOOKS = frozenset({"os.listdir", "os.scandir"})
_NEVER = (
    "socket.", "subprocess.", "os.system", "os.exec", "os.fork", "os.posix_spawn", "os.spawn", "pty.", "webbrowser.",
    "urllib.",
    "ftplib.", "http.", "smtplib.", "os.startfile", "os.kill", "os.killpg", "ctypes.dlopen",
)  # fmt: skip
_OURS = (
    Path(firstfurrow.__file__).parent, book_folder(), recordings_folder(), Path(sys.prefix), Path(sys.base_prefix),
    Path("/usr/lib"), Path("/usr/share"), Path("/usr/local/lib"), Path("/etc/localtime"), Path("/etc/terminfo"),
)  # fmt: skip
_READ = tuple(
    {os.path.abspath(p) for p in _OURS}
    | {os.path.realpath(p) for p in _OURS}
    | {os.path.dirname(os.__file__)}
    | ({os.path.abspath(sys.pycache_prefix)} if sys.pycache_prefix else set())  # compiled modules
)


@dataclass
class _Watch:
    """What is looked at while a run lasts; a hook cannot be taken away, so it is switched."""

    on: bool = False
    folder: tuple[str, ...] = ()
    seen: list[str] = field(default_factory=list)


_watch = _Watch()
_hooked = False


def _inside(path: str, roots: Sequence[str]) -> bool:
    return any(path == root or path.startswith(root + os.sep) for root in roots)


def _hook(event: str, args: tuple[Any, ...]) -> None:
    if not _watch.on or (event[:2] not in ("op", "os") and not event.startswith(_NEVER)):
        return
    if event == "open":
        path, _, flags = args
        _look(event, path, writes=bool(flags & _WRITES))
    elif event in _CHANGES:
        for path in args[: 2 if event in ("os.rename", "os.link", "os.symlink") else 1]:
            _look(event, path, writes=True)
    elif event in _LOOKS:
        _look(event, args[0], writes=False)
    elif event.startswith(_NEVER) and not (event == "os.kill" and args[1] == 0):
        _watch.seen.append(f"{event} {args!r:.80}")


def _look(event: str, path: Any, *, writes: bool) -> None:
    if isinstance(path, int) or path is None:
        return
    where = os.path.abspath(os.fsdecode(path))
    if _inside(where, _watch.folder) or where == os.devnull or (not writes and _inside(where, _READ)):
        return
    _watch.seen.append(f"{event} {'writes' if writes else 'reads'} {where}")


class Output(io.TextIOWrapper):
    """What would be the standard output of the program: its number leads nowhere, so nobody's output is lost."""

    def __init__(self, errors: str) -> None:
        self._file = os.open(os.devnull, os.O_WRONLY)
        super().__init__(io.BytesIO(), encoding="utf-8", errors=errors, newline="\n")

    def fileno(self) -> int:
        return self._file

    def text(self) -> str:
        self.flush()
        held = self.buffer
        assert isinstance(held, io.BytesIO)
        found = held.getvalue().decode("utf-8", "surrogatepass")
        os.close(self._file)
        return found


class _HangError(BaseException):
    """The run was given up."""


@dataclass
class Ran:
    """What came of a run."""

    code: object
    out: str
    err: str
    seconds: float  # of work of the processor
    crash: str = ""
    outside: tuple[str, ...] = ()


@cache
def the_book() -> Book:
    """The shipped book."""
    return loading.load()


class _Quicker:
    """What is the same in every run is done once: the shipped book, and every file of a book that is as shipped."""

    def __init__(self) -> None:
        self.load, self.read_marked, self.misshapen = loading.load, shelf.read_marked, shape.misshapen
        self._read: dict[tuple[str, bytes], tuple[Any, Marks]] = {}
        self._clean: dict[int, list[Problem]] = {}
        self._shipped = {path.read_bytes() for path in book_folder().rglob("*.yaml")}

    def __enter__(self) -> None:
        loading.load, shelf.read_marked, shape.misshapen = self._load, self._marked, self._misshapen  # type: ignore[assignment]

    def __exit__(self, *_: object) -> None:
        loading.load, shelf.read_marked, shape.misshapen = self.load, self.read_marked, self.misshapen

    def _load(self, folder: Path | None = None) -> Book:
        return the_book() if folder is None else self.load(folder)

    def _marked(self, path: Path, name: str | None = None) -> tuple[Any, Marks]:
        raw = path.read_bytes() if path.is_file() and path.stat().st_size < LARGEST else b""
        if raw not in self._shipped:
            return self.read_marked(path, name)
        key = (name or path.name, raw)
        if key not in self._read:
            self._read[key] = self.read_marked(path, name)
        return self._read[key]

    def _misshapen(self, placed: Placed, schema: str) -> list[Problem]:
        same = any(placed.data is data for data, _ in self._read.values())
        if not same:
            return self.misshapen(placed, schema)
        if id(placed.data) not in self._clean:
            self._clean[id(placed.data)] = self.misshapen(placed, schema)
        return self._clean[id(placed.data)]


@cache
def _quicker() -> _Quicker:
    return _Quicker()


Program = Callable[[Sequence[str]], object]


def run(argv: Sequence[str], typed: bytes, here: Path, program: Program = main) -> Ran:
    """The program with this command line and these typed bytes, in the folder `here`."""
    global _hooked
    if not _hooked:
        sys.addaudithook(_hook)
        _hooked = True
    _quicker()
    the_book()
    before = (os.getcwd(), sys.stdin, sys.stdout, sys.stderr, dict(os.environ), sys.dont_write_bytecode)
    out, err = Output("strict"), Output("backslashreplace")
    code: object = None
    crash = ""
    os.chdir(here)
    os.environ.update(XDG_STATE_HOME=str(here / "state"), HOME=str(here), COLUMNS="80", LINES="24")
    sys.dont_write_bytecode = True
    alarm = signal.signal(signal.SIGALRM, _give_up)
    signal.setitimer(signal.ITIMER_REAL, HANGS)
    began = time.process_time()
    _watch.folder, _watch.seen = (str(here), os.path.realpath(here)), []
    try:
        sys.stdin = io.TextIOWrapper(io.BytesIO(typed), encoding="utf-8")
        sys.stdout, sys.stderr = out, err
        _watch.on = True
        with _quicker():
            code = program(list(argv))
    except SystemExit as leaving:
        code = leaving.code
    except (Exception, _HangError):
        _watch.on = False
        crash = traceback.format_exc()
    finally:
        _watch.on = False
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, alarm)
        seconds = time.process_time() - began
        sys.stdin, sys.stdout, sys.stderr = before[1:4]
        os.chdir(before[0])
        os.environ.clear()
        os.environ.update(before[4])
        sys.dont_write_bytecode = before[5]
    return Ran(code, out.text(), err.text(), seconds, crash, tuple(_watch.seen))


def _give_up(number: int, frame: FrameType | None) -> None:
    raise _HangError


@cache
def slowness() -> float:
    """How many times slower this machine works than the one that the limit was set on; never below 1."""
    took = []
    for _ in range(3):
        began = time.process_time()
        sum(len(str(n)) for n in range(200_000))
        took.append(time.process_time() - began)
    return max(1.0, min(took) / USUAL)


def files(folder: Path) -> dict[str, bytes | str]:
    """Everything below the folder: the bytes of files, what links lead to; folders by name alone."""
    found: dict[str, bytes | str] = {}
    for at, inside, names in os.walk(folder):
        for name in (*inside, *names):
            path = os.path.join(at, name)
            short = os.path.relpath(path, folder)
            if os.path.islink(path):
                found[short] = "link to " + os.readlink(path)
            elif os.path.isdir(path):
                found[short] = "folder"
            else:
                with open(path, "rb") as file:
                    found[short] = file.read()
    return found


def complaints(
    ran: Ran, before: Mapping[str, object], after: Mapping[str, object], may_change: Sequence[str], seconds: float
) -> list[str]:
    """What a run did that no input may make it do; `may_change` are patterns of names that it may write."""
    said = list(what_is_said(ran.code, ran.out, ran.err))
    if ran.crash:
        said.append(ran.crash)
    said += [f"outside: {line}" for line in ran.outside]
    seconds *= slowness()
    if ran.seconds > seconds:
        said.append(f"took {ran.seconds:.1f} s of work, more than {seconds:.1f} s")
    return said + what_changed(before, after, may_change)


def what_is_said(code: object, out: str, err: str) -> list[str]:
    """What is wrong with an exit code and the two outputs."""
    said = []
    if code not in CODES:
        said.append(f"the exit code is {code!r}")
    if "Traceback (most recent call last)" in err + out:
        said.append(f"a traceback is shown: {err[-3000:]}")
    if code == 2 and (not err.strip() or not err.endswith("\n")):
        said.append("exit code 2 without a sentence on standard error")
    for line in err.splitlines():
        if len(line) > LONGEST_LINE:
            said.append(f"a line of {len(line)} signs on standard error: {line[:200]!r}")
    if err.count("\n") > MOST_LINES:
        said.append(f"{err.count(chr(10))} lines on standard error")
    for name, text in (("standard output", out), ("standard error", err)):
        found = UNSEEN.search(text)
        if found is not None:
            around = text[max(0, found.start() - 60) : found.end() + 60]
            said.append(f"the sign {found[0]!r} on {name}: {around!r}")
    return said


def what_changed(before: Mapping[str, object], after: Mapping[str, object], may_change: Sequence[str]) -> list[str]:
    """Files that are other than they may be."""
    said = []
    for name in {**before, **after}:
        if before.get(name) == after.get(name):
            continue
        if name not in after:
            said.append(f"{name!r} is gone")
        elif name.endswith(".new") or not any(fnmatch(name, one) for one in may_change):
            said.append(f"{name!r} was {'made' if name not in before else 'changed'}")
    return said
