"""The same broken input through a started program: what a reader meets, with the system's own streams and signals."""

from __future__ import annotations

import os
import random
import resource
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from inputs import KINDS, Case
from watched import HANGS, SECONDS, files, slowness, what_changed, what_is_said

DEFAULT, LONG, AT_ONCE = 20, 200, 4
STARTING = 3.0  # seconds of work that a start may take beside that of the input
BIG = ("whole book", "edition")  # in the long test only: each reads the shipped book


def started(case: Case, here: Path) -> tuple[int, str, str, float]:
    """Exit code, the two outputs, and the seconds of work of the program."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    place = {"XDG_STATE_HOME": str(here / "state"), "HOME": str(here), "COLUMNS": "80", "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        [sys.executable, "-m", "firstfurrow", *(word.encode("utf-8", "surrogateescape") for word in case.argv)],
        input=case.typed, capture_output=True, cwd=here, env=os.environ | place, timeout=HANGS, check=False,
    )  # fmt: skip
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    out, err = (raw.decode("utf-8", "surrogateescape") for raw in (done.stdout, done.stderr))
    return done.returncode, out, err, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def _cases(count: int, kinds: Sequence[str]) -> Iterator[object]:
    numbers = [(kinds[n % len(kinds)], 2_000_000 + n) for n in range(count)]
    for first in range(0, count, AT_ONCE):
        yield pytest.param(numbers[first : first + AT_ONCE], id=f"{first}-{first + AT_ONCE - 1}")


def hold(numbers: Sequence[tuple[str, int]], root: Path) -> None:
    found = []
    for kind, number in numbers:
        here = root / str(number)
        here.mkdir()
        case = KINDS[kind][0](random.Random(f"{kind} {number}"), here)
        before = files(here)
        code, out, err, seconds = started(case, here)
        said = [*what_is_said(code, out, err), *what_changed(before, files(here), case.may_change)]
        if seconds > (SECONDS + STARTING + case.also) * slowness():
            said.append(f"took {seconds:.1f} s of work")
        found += [f"{kind}, number {number}, {[w[:80] for w in case.argv]}: {line}" for line in said]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("numbers", [*_cases(DEFAULT, [kind for kind in KINDS if kind not in BIG])])
def test_a_started_program_takes_it_too(numbers: Sequence[tuple[str, int]], tmp_path: Path) -> None:
    hold(numbers, tmp_path)


@pytest.mark.long
@pytest.mark.parametrize("numbers", [*_cases(LONG, list(KINDS))])
def test_two_hundred_started_programs(numbers: Sequence[tuple[str, int]], tmp_path: Path) -> None:
    hold(numbers, tmp_path)
