"""Broken input of every kind: one of five exit codes, one clear sentence, nothing lost, nothing touched, no hang.

A failure prints its kind and its number; `of(kind, number, folder)` makes that input again. Nothing else is kept.
"""

from __future__ import annotations

import os
import random
import shutil
import socket
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from inputs import KINDS, LIST, OFFER, PLAN, TITLE, TYPED, Case, put, small_files
from watched import SECONDS, Ran, complaints, files, run

AT_ONCE = 65  # inputs of one test: what one of two processors has done in a few seconds
LONG = 20  # times as many
HERE, BESIDE = "here", "beside"


def of(kind: str, number: int, folder: Path) -> Case:
    """The input of that kind and number, its files in `folder`."""
    return KINDS[kind][0](random.Random(f"{kind} {number}"), folder)


def said_of(kind: str, number: int, root: Path) -> list[str]:
    """What is wrong with what came of an input."""
    here = root / HERE
    here.mkdir()
    put(root / BESIDE / "secret.yaml", PLAN)
    try:
        case = of(kind, number, here)
        before = files(root)
        ran = run(case.argv, case.typed, here)
        may = [f"{HERE}/{name}" for name in case.may_change]
        found = complaints(ran, before, files(root), may, SECONDS + case.also)
        shown = [word[:80] for word in case.argv]
        return [f"{kind}, number {number}, {shown}: {line}" for line in found]
    finally:
        shutil.rmtree(root / HERE, onerror=_let_go)


def _let_go(function: Callable[[str], object], path: str, _: object) -> None:
    os.chmod(path, 0o700)
    function(path)


def _parts(times: int) -> Iterator[object]:
    for kind, (_, count) in KINDS.items():
        for first in range(0, count * times, AT_ONCE * (1 if times == 1 else 4)):
            last = min(first + AT_ONCE * (1 if times == 1 else 4), count * times)
            yield pytest.param(kind, range(first, last), id=f"{kind} {first}-{last - 1}")


def hold(kind: str, numbers: Sequence[int], root: Path) -> None:
    """Every input of these numbers is taken as it should be."""
    found: list[str] = []
    for number in numbers:
        found += said_of(kind, number, root)
        if len(found) > 20:
            break
    assert not found, "\n".join(found)


@pytest.mark.parametrize(("kind", "numbers"), [*_parts(1)])
def test_broken_input_is_one_sentence_and_nothing_is_lost(kind: str, numbers: Sequence[int], tmp_path: Path) -> None:
    hold(kind, numbers, tmp_path)


@pytest.mark.long
@pytest.mark.parametrize(("kind", "numbers"), [*_parts(LONG)])
def test_twenty_thousand_broken_inputs(kind: str, numbers: Sequence[int], tmp_path: Path) -> None:
    hold(kind, [number + 1_000_000 for number in numbers], tmp_path)  # others than those of the short test


def test_there_are_a_thousand_of_them() -> None:
    assert sum(count for _, count in KINDS.values()) == 1_000


# ------------------------------------------------------------------- what once did harm

OWNED = {
    "r/typed.txt": "1\nsave\n", "r/screen.txt": "", "r/answers.yaml": PLAN, "r/talk.yaml": "setting: owned\n",
    "r/tractor.yaml": OFFER.replace("38 hp", "38 furlongs"),
}  # fmt: skip
TWICE = PLAN.replace("kind: box_blade", "kind: [box_blade, box_blade]")
BOUNDS = "table: plausible_bounds\nrows:\n  - row: size_spread\n    figures: {value: {low: 1 kg, high: 2 ft}}\n"


@pytest.mark.parametrize(
    ("argv", "put_there", "said"),
    [
        (["advise", "a.yaml"], {"a.yaml": TWICE}, "a.yaml:17:"),
        (["replay", "r"], OWNED, "r/tractor.yaml:5:"),
        (["replay", "r"], OWNED | {"r/tractor.yaml": OFFER, "r/answers.yaml": b"\xff"}, "r/answers.yaml: "),
        (["--plain", "--book", "mine"], {"mine/tables/plausible_bounds.yaml": BOUNDS}, "plausible_bounds.yaml:4:"),
        (["--plain", "--book", "mine"], {"mine/report.yaml/x.yaml": ""}, "report.yaml: this is a folder"),
        (["replay", "r"], OWNED | {"r/tractor.yaml/x": ""}, "r/tractor.yaml: "),
        (["advise", "a.yaml", "--pictures", "o.yaml"], {"a.yaml": PLAN, "o.yaml": OFFER}, "o.yaml: this folder cannot"),
        (["advise", "a.yaml", "--sheet", "--out", "x" * 300], {"a.yaml": PLAN}, "File name too long"),
    ],
)  # fmt: skip
def test_what_once_did_harm(argv: list[str], put_there: dict[str, str | bytes], said: str, tmp_path: Path) -> None:
    put(tmp_path / "mine/edition.yaml", TITLE)
    for name, content in put_there.items():
        path = tmp_path / name
        if path.parent.is_file():
            path.parent.unlink()
        put(path, content)
    before = files(tmp_path)
    ran = run(argv, b"1\nsave\n", tmp_path)
    assert complaints(ran, before, files(tmp_path), [], SECONDS + 6) == []
    assert ran.code == 2
    assert said in ran.err


# ------------------------------------------------------------------- that it could be found


@pytest.mark.parametrize(
    "argv",
    [
        ["advise", "a.yaml", "--short"], ["check", "a.yaml", "o.yaml"], ["check", "a.yaml", "l.csv"],
        ["sizes", "o.yaml", "box blade"], ["book", "check", "small"], ["book", "check", "mine"],
        ["--plain", "--resume", "a.yaml"], ["--plain"], ["class", "class"],
        ["measure", "walk-around", "--plain", "--out", "o.yaml"], ["measure", "hitch", "--plain"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_the_same_files_unbroken_are_taken(argv: list[str], tmp_path: Path) -> None:
    """So what is refused above is refused for what was broken in it."""
    for name, text in (
        ("a.yaml", PLAN),
        ("o.yaml", OFFER),
        ("l.csv", LIST),
        ("mine/edition.yaml", TITLE),
        ("class/b.yaml", PLAN),
    ):
        put(tmp_path / name, text)
    small_files(tmp_path / "small")
    ran = run(argv, "\n".join(TYPED).encode(), tmp_path)
    assert (ran.code, ran.err, ran.crash, ran.outside) == (0, "", "", ())


def _crash(here: Path) -> int:
    raise KeyError(str(here))


def _reads_beside(here: Path) -> int:
    (here.parent / "beside.yaml").read_bytes()
    return 0


def _writes_beside(here: Path) -> int:
    (here.parent / "made.yaml").write_text("", encoding="utf-8")
    return 0


def _removes_beside(here: Path) -> int:
    (here.parent / "beside.yaml").unlink()
    return 0


def _lists_beside(here: Path) -> int:
    os.listdir(here.parent)
    return 0


def _calls_somebody(here: Path) -> int:
    with socket.socket() as made:
        made.settimeout(0.01)
        made.connect_ex(("127.0.0.1", 9))
    return 0


def _shows(text: str) -> Callable[[Path], int]:
    def program(here: Path) -> int:
        print(text)
        return 0

    return program


def _leaves(name: str) -> Callable[[Path], int]:
    def program(here: Path) -> int:
        (here / name).write_text("half", encoding="utf-8")
        return 0

    return program


def _works_on(here: Path) -> int:
    total = 0
    while True:
        total += sum(range(10_000))
        if total > 10**13:
            return 0


@pytest.mark.parametrize(
    ("program", "said"),
    [
        (_crash, "KeyError"), (_reads_beside, "open reads"), (_writes_beside, "open writes"),
        (_removes_beside, "os.remove writes"), (_lists_beside, "os.listdir reads"),
        (_calls_somebody, "socket.connect"), (_shows("\x1b[2J"), "the sign '\\x1b'"),
        (_shows("a\u202eb"), "the sign '\\u202e'"), (_leaves("new.yaml"), "was made"),
        (_leaves("a.yaml"), "was changed"), (_leaves(".a.yaml.1.new"), "was made"),
        (lambda here: 7, "the exit code is 7"), (lambda here: 2, "without a sentence"),
        (_shows("Traceback (most recent call last)"), "a traceback is shown"),
    ],
)  # fmt: skip
def test_what_no_program_may_do_is_seen(program: Callable[[Path], int], said: str, tmp_path: Path) -> None:
    here = tmp_path / HERE
    put(here / "a.yaml", "a: 1\n")
    put(tmp_path / "beside.yaml", "a: 1\n")
    before = files(here)
    ran = run([], b"", here, lambda argv: program(here))
    assert any(said in line for line in complaints(ran, before, files(here), ["*.new"], SECONDS))


def test_work_without_an_end_is_seen() -> None:
    ran = Ran(0, "", "", 9.0 * SECONDS)
    assert any("of work" in line for line in complaints(ran, {}, {}, [], SECONDS / 100))
