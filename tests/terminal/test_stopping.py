"""However a talk is stopped, nothing that was answered is lost: keys, a closed window, a program that is killed."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
import window as windows
from window import Window

from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.shown import Shown
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.front import NO_HINTS, Hints
from firstfurrow.talk.recordings import shipped
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore, read_answers

pytestmark = windows.MARKS
open_window = windows.open_window

Open = Callable[..., Window]
FILE = "firstfurrow-answers.yaml"
INTERRUPT, END, SUSPEND = "\x03", "\x04", "\x1a"


def two_answers(window: Window) -> None:
    window.see("What do you want to find out?")
    window.line("1")
    window.see("Which measures do you think in?")
    window.line("2")
    window.see("How much land do you have in all?")
    window.line("3 ha")
    window.see("What is the land like")


def test_the_key_that_stops_a_program_loses_nothing_and_the_printed_command_goes_on(
    open_window: Open, tmp_path: Path
) -> None:
    window = open_window()
    two_answers(window)
    window.send("half a li" + INTERRUPT)
    assert window.end() == 130
    assert "Nothing is lost" in window.text
    assert f"firstfurrow --resume {FILE}" in window.text
    again = open_window(80, 24, "--resume", FILE)
    again.see("What is the land like")
    assert "1 so far" in again.text
    again.line("back")
    again.see("You said before: 3 ha. Enter keeps it.")


def test_stopped_before_the_first_answer_leaves_no_file(open_window: Open, tmp_path: Path) -> None:
    for answers, code, key in ((0, 130, INTERRUPT), (1, 130, INTERRUPT), (1, 0, END)):
        window = open_window()
        window.see("What do you want to find out?")
        if answers:
            window.line("1")
            window.see("Which measures do you think in?")
        window.send(key)
        assert window.end() == code
        assert "nothing was kept" in window.text
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("key", "code"), [(INTERRUPT, 130), (END, 0)], ids=["stopped", "ended"])
def test_plain_lines_are_stopped_by_the_same_keys(open_window: Open, tmp_path: Path, key: str, code: int) -> None:
    window = open_window(80, 24, "--plain")
    two_answers(window)
    window.send(key)
    assert window.end() == code
    assert f"the answers are kept in {FILE}" in window.text.replace("The", "the")
    assert "land_area: 3 ha" in (tmp_path / FILE).read_text(encoding="utf-8")


def test_put_aside_and_taken_up_again(open_window: Open, tmp_path: Path) -> None:
    shell = open_window(80, 24, command=("bash", "--norc", "--noprofile", "-i"), PS1="$ ")
    shell.until(lambda: shell.text.endswith("$"), "the shell")
    shell.line(f"{sys.executable} -m firstfurrow --units us")
    shell.see("What do you want to find out?")
    shell.line("1")
    shell.see("How much land do you have in all?")
    shell.send("14 ac" + SUSPEND)
    shell.until(lambda: "Stopped" in shell.text and shell.text.endswith("$"), "the shell again")
    shell.line("echo $((6*7)) meanwhile")
    shell.until(lambda: "42 meanwhile" in shell.text, "that the shell works")
    shell.line("fg")
    shell.until(lambda: shell.typing == "14 ac" and shell.asks, "what was typed before")
    shell.line("re")
    shell.see("What is the land like")
    shell.line("save")
    shell.until(lambda: "Saved in" in shell.text and shell.text.endswith("$"), "the end")
    assert "land_area: 14 acre" in (tmp_path / FILE).read_text(encoding="utf-8")


def test_a_closed_window_and_a_request_to_end_keep_what_was_answered(open_window: Open, tmp_path: Path) -> None:
    window = open_window()
    two_answers(window)
    window.child.kill(signal.SIGTERM)
    assert window.end() == 130
    assert "Nothing is lost" in window.text
    closed = open_window(80, 24, "--resume", FILE)
    closed.see("What is the land like")
    closed.line("slopes")
    closed.see("Which jobs")
    closed.child.close(force=False)
    wait_until(lambda: not closed.child.isalive())
    assert "land_area: 3 ha\n  land_shape: [slopes]" in (tmp_path / FILE).read_text(encoding="utf-8")


@pytest.mark.parametrize("how", ["closed", "told to end", "stopped"])
def test_nothing_of_a_sales_floor_stays(open_window: Open, tmp_path: Path, how: str) -> None:
    window = open_window(80, 24, "--setting", "floor", "--units", "us")
    window.see("What is the land like")
    window.line("slopes")
    window.see("Which jobs")
    files = list((tmp_path / "state").rglob("*"))
    assert len([path for path in files if path.is_file()]) == 1
    if how == "closed":
        window.child.close(force=False)
    elif how == "told to end":
        window.child.kill(signal.SIGTERM)
        assert window.end() == 130
    else:
        window.send(INTERRUPT)
        assert window.end() == 130
    wait_until(lambda: not window.child.isalive())
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []


def wait_until(so: Callable[[], bool]) -> None:
    end = time.monotonic() + 20
    while not so():
        assert time.monotonic() < end
        time.sleep(0.02)


# ------------------------------------------------------------------------------ killed

LINES = next(one for one in shipped() if one.name == "two_horses").typed()
MOMENTS = 0.8  # seconds, in which most of the lines are answered


class Kept(RehearsalStore):
    """Keeps the text of every save."""

    def __init__(self) -> None:
        super().__init__()
        self.saves = [""]

    def save(self, answers: Answers, book: Book) -> bool:
        """One more."""
        super().save(answers, book)
        self.saves.append(self.text)
        return True


class Watching(ScriptFront):
    """Keeps how often a file was saved whenever a line is asked for."""

    def __init__(self, store: Kept) -> None:
        super().__init__(LINES)
        self._store = store
        self.saved: list[int] = []

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
        """The next line."""
        self.saved.append(len(self._store.saves))
        return super().ask(prompt, hints)


class Nothing(Shown):
    """No pages: they take time and move no answer."""

    def profile(self, answers: Answers) -> str:
        return ""

    def moved(self, before: Answers, after: Answers) -> tuple[str, ...]:
        return ()


@pytest.fixture(scope="module")
def held(book: Book) -> list[list[str]]:
    """What the file may hold from each prompt to the next: one line can give two answers, saved one after the other."""
    store = Kept()
    front = Watching(store)
    Conversation(book, front, store, Answers(), Nothing(book, lambda: 80), "home").run()
    assert len(set(store.saves)) > 40  # most of the lines change the file
    ends = [*front.saved[1:], len(store.saves)]
    return [store.saves[first - 1 : last] for first, last in zip(front.saved, ends, strict=True)]


def checked(folder: Path, shown: bytes, held: list[list[str]], book: Book) -> int:
    """The file holds every answer after which a prompt was shown, and is whole; gives the number of prompts."""
    prompts = sum(line.startswith(b">") for line in shown.split(b"\n"))
    path = folder / FILE
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    asked = max(0, prompts - 1)  # the first one is not in the book
    # The last line may have been taken already, and its next prompt not shown yet.
    allowed = held[max(0, asked - 1)] if asked else [""]
    assert text in allowed, f"{folder}: {prompts} prompts\n{text}"
    if text:
        read_answers(path, book)
    return prompts


def moments(seeds: range) -> dict[int, float]:
    """A moment for each seed."""
    return {seed: random.Random(seed).uniform(0.0, MOMENTS) for seed in seeds}


def test_a_killed_program_has_lost_nothing_and_left_no_half_file(
    tmp_path: Path, held: list[list[str]], book: Book
) -> None:
    """All lines are there at once, so that the program is at work whenever it is killed."""
    seeds = moments(range(20))
    for seed in seeds:
        (tmp_path / str(seed)).mkdir()
        (tmp_path / str(seed) / "typed.txt").write_text("\n".join(["1", *LINES, ""]), encoding="utf-8")
    subprocess.run(
        [sys.executable, str(Path(__file__).with_name("killed.py"))],
        input="".join(f"{tmp_path / str(seed)} {moment}\n" for seed, moment in seeds.items()),
        env=os.environ | {"XDG_STATE_HOME": str(tmp_path)},
        text=True, check=True, stdout=subprocess.DEVNULL, timeout=120,
    )  # fmt: skip
    prompts = [
        checked(tmp_path / str(seed), (tmp_path / str(seed) / "screen.txt").read_bytes(), held, book) for seed in seeds
    ]
    assert len(set(prompts)) > 5  # they were killed at different questions


@pytest.mark.long
@pytest.mark.parametrize("first", range(100, 300, 20))
def test_a_program_that_is_started_and_killed_many_times(
    tmp_path: Path, held: list[list[str]], book: Book, first: int
) -> None:
    for seed, moment in moments(range(first, first + 20)).items():
        folder = tmp_path / str(seed)
        folder.mkdir()
        with subprocess.Popen(
            [sys.executable, "-m", "firstfurrow"],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=folder,
            env=os.environ | {"XDG_STATE_HOME": str(folder)},
        ) as process:  # fmt: skip
            assert process.stdin is not None
            assert process.stdout is not None
            process.stdin.write("".join(f"{line}\n" for line in ("1", *LINES)).encode())
            process.stdin.close()
            shown = process.stdout.read(1)
            time.sleep(2 * moment)
            process.kill()
            shown += process.stdout.read()
        checked(folder, shown, held, book)
