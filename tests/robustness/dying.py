"""Runs of the program that are killed, or whose disk is full, while they write; from one process that has loaded it.

Reads jobs as lines of JSON: the folder, the command line, what is typed, and how the run ends. Each is a process of
its own: `run` runs to its end; `count` does too, and notes what lay in the folder at each step of each write; `kill`
is killed at one of these steps, as no program can notice; `cut` is killed in the middle of a write, when a file has so
many bytes; `full` meets a disk with no room for more than so many bytes in a file. Answers with one line of JSON.
"""

from __future__ import annotations

import base64
import json
import os
import resource
import signal
import sys
import traceback
from pathlib import Path
from typing import Any

from watched import Output

from firstfurrow.asking.answers import Answers
from firstfurrow.book import load as loading
from firstfurrow.book.model import Book
from firstfurrow.cli import main
from firstfurrow.pages import html_report

_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC


class _Steps:
    """Every step of a write in the folder: a file is opened for it, forced to the disk, put in its place, removed."""

    def __init__(self, folder: str, last: int | None) -> None:
        self.folder, self.last = folder, last
        self.number = 0
        self.seen: dict[str, list[str]] = {}
        self._fsync = os.fsync
        self._noting = False
        sys.addaudithook(self._hook)
        os.fsync = self._forced

    def _hook(self, event: str, args: tuple[Any, ...]) -> None:
        if self._noting or event not in ("open", "os.rename", "os.remove", "os.mkdir") or isinstance(args[0], int):
            return
        if (event != "open" or args[2] & _WRITES) and os.path.abspath(os.fsdecode(args[0])).startswith(self.folder):
            self.step()

    def _forced(self, descriptor: int) -> None:
        self.step()
        self._fsync(descriptor)
        self.step()

    def step(self) -> None:
        """One more; the last one for a run that is killed."""
        self._noting = True
        if self.last is None:
            for name, text in contents(Path(self.folder)).items():
                if text not in self.seen.setdefault(name, []):
                    self.seen[name].append(text)
        elif self.number == self.last:
            os.kill(os.getpid(), signal.SIGKILL)
        self.number += 1
        self._noting = False


def contents(folder: Path) -> dict[str, str]:
    """What lies below the folder."""
    return {
        path.relative_to(folder).as_posix(): base64.b64encode(path.read_bytes()).decode()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.is_symlink()
    }


def _child(job: dict[str, Any], report: int) -> None:
    """Runs to its end, whatever that is; never returns."""
    os.chdir(job["folder"])
    os.environ.update(XDG_STATE_HOME=os.path.join(job["folder"], "state"), COLUMNS="80")
    typed, ours = os.pipe()
    os.write(ours, job["typed"].encode())
    os.close(ours)
    os.dup2(typed, 0)
    sys.stdin = open(0, encoding="utf-8")  # noqa: SIM115
    out, err = Output("strict"), Output("backslashreplace")  # in memory: a full disk is not to be theirs
    sys.stdout, sys.stderr = out, err
    steps = (
        _Steps(job["folder"], job["at"] if job["how"] == "kill" else None) if job["how"] in ("count", "kill") else None
    )
    if job["how"] in ("cut", "full"):
        signal.signal(signal.SIGXFSZ, signal.SIG_DFL if job["how"] == "cut" else signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_FSIZE, (job["at"], resource.RLIM_INFINITY))
    try:
        code: object = main(job["argv"])
    except SystemExit as leaving:
        code = leaving.code
    except BaseException:
        traceback.print_exc()
        code = "a traceback"
    if steps is not None:
        steps.step()
    resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    found: dict[str, Any] = {"code": code, "steps": steps.number if steps else 0, "seen": steps.seen if steps else {}}
    found |= {"out": out.text(), "err": err.text()}
    with os.fdopen(report, "w") as file:
        json.dump(found, file)
    os._exit(0)


def serve() -> None:
    """Do the jobs."""
    book = loading.load()
    html_report(book, Answers())  # loads what every page needs
    tuple(book.kinds.values())
    usual = loading.load

    def load(folder: Path | None = None) -> Book:
        return book if folder is None else usual(folder)

    loading.load = load
    for line in sys.stdin:
        job = json.loads(line)
        reading, writing = os.pipe()
        child = os.fork()
        if not child:
            os.close(reading)
            _child(job, writing)
        os.close(writing)
        with os.fdopen(reading) as file:
            said = file.read()
        _, status = os.waitpid(child, 0)
        found = json.loads(said) if said else {}
        found |= {
            "signal": os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0,
            "files": contents(Path(job["folder"])),
        }
        print(json.dumps(found), flush=True)


if __name__ == "__main__":
    serve()
