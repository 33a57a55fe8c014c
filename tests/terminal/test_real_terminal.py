"""The program in a real pseudo-terminal: what the screen shows, that keys work, that nothing is lost."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

pexpect = pytest.importorskip("pexpect")
pyte = pytest.importorskip("pyte")

pytestmark = [
    pytest.mark.terminal,
    pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals of this sort"),
]
WAIT = 20  # seconds; a slow machine is not a failure


class Terminal:
    """The program in a window of that size; the screen is what a person would see now."""

    def __init__(self, folder: Path, columns: int, rows: int, *arguments: str) -> None:
        environment = os.environ | {"PROMPT_TOOLKIT_NO_CPR": "1", "TERM": "xterm", "XDG_STATE_HOME": str(folder)}
        environment.pop("COLUMNS", None)
        environment.pop("LINES", None)
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.Stream(self.screen)
        self.child = pexpect.spawn(
            sys.executable,
            ["-m", "firstfurrow", *arguments],
            cwd=str(folder),
            env=environment,
            dimensions=(rows, columns),
            encoding="utf-8",
            timeout=WAIT,
        )

    def wait_for(self, words: str) -> str:
        """Read until the words and a prompt are on the screen."""
        for _ in range(400):
            try:
                self.stream.feed(self.child.read_nonblocking(4096, timeout=0.1))
            except pexpect.TIMEOUT:
                pass
            except pexpect.EOF:
                break
            if words in self.text and self.lines[-1].startswith(">"):
                break
        assert words in self.text, "\n".join(self.lines)
        return self.text

    def finish(self) -> int:
        """Read to the end of the program and give its exit code."""
        while True:
            try:
                self.stream.feed(self.child.read_nonblocking(4096, timeout=WAIT))
            except pexpect.EOF:
                break
        self.child.close()
        return int(self.child.exitstatus)

    @property
    def lines(self) -> list[str]:
        """The lines on the screen, down to the last one with anything on it."""
        shown = [line.rstrip() for line in self.screen.display]
        while shown and not shown[-1]:
            shown.pop()
        return shown or [""]

    @property
    def text(self) -> str:
        """The screen as one line of words."""
        return " ".join(" ".join(self.lines).split())


@pytest.fixture
def wide(tmp_path: Path) -> Iterator[Terminal]:
    terminal = Terminal(tmp_path, 80, 24)
    yield terminal
    terminal.child.close(force=True)


@pytest.fixture
def narrow(tmp_path: Path) -> Iterator[Terminal]:
    terminal = Terminal(tmp_path, 40, 20, "--units", "us")
    yield terminal
    terminal.child.close(force=True)


def test_a_wide_window(wide: Terminal, tmp_path: Path) -> None:
    wide.wait_for("Which measures do you think in?")
    wide.child.send("1\r")
    wide.wait_for("How much land do you have in all?")
    wide.child.send("14 acrex\x7f\r")  # a slip of the finger, taken back with the backspace key
    wide.wait_for("What is the land like")
    wide.child.send("why\r")
    wide.wait_for("It can move:")
    wide.child.send("2\r")
    wide.wait_for("Which jobs should the tractor do?")
    wide.child.send("save\r")
    assert wide.finish() == 0
    assert "firstfurrow --resume firstfurrow-answers.yaml" in wide.text
    kept = (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")
    assert "  land_area: 14 acre\n  land_shape: [slopes]\n" in kept


def test_a_narrow_window(narrow: Terminal) -> None:
    narrow.wait_for("How much land do you have in all?")
    assert narrow.lines[-1] == ">"
    assert "  c  a smallholding with several" in narrow.lines
    assert "     fields: 15 acre" in narrow.lines
    narrow.child.send("nonsense\r")
    narrow.wait_for('"nonsense" is no number')
    narrow.child.send("help\r")
    narrow.wait_for("save: save and stop")
    narrow.child.send("b\r")
    narrow.wait_for("What is the land like")
    narrow.child.send("\x04")  # the end of input, as from a closed window
    assert narrow.finish() == 0
    assert "The answers are kept in" in narrow.text


def test_an_interrupt_loses_nothing_and_the_printed_command_goes_on(wide: Terminal, tmp_path: Path) -> None:
    wide.wait_for("Which measures do you think in?")
    wide.child.send("2\r")
    wide.wait_for("How much land do you have in all?")
    wide.child.send("3 ha\r")
    wide.wait_for("What is the land like")
    wide.child.send("half a li\x03")
    assert wide.finish() == 130
    assert "Nothing is lost" in wide.text
    again = Terminal(tmp_path, 80, 24, "--resume", "firstfurrow-answers.yaml")
    again.wait_for("What is the land like")
    assert "1 so far" in again.text
    again.child.send("back\r")
    again.wait_for("You said before: 3 ha. Enter keeps it.")
    again.child.close(force=True)
