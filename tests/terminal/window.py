"""The program in a window: a real pseudo-terminal, and the screen that a person would see."""

from __future__ import annotations

import os
import re
import signal
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest

pexpect = pytest.importorskip("pexpect")
pyte = pytest.importorskip("pyte")
wcswidth = pytest.importorskip("wcwidth").wcswidth

MARKS = [
    pytest.mark.terminal,
    pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals of this sort"),
    # The process of the tests has threads; what is forked from it becomes another program at once.
    pytest.mark.filterwarnings("ignore:.*multi-threaded.*:DeprecationWarning"),
]
WAIT = 60.0  # seconds; a slow machine is no failure
PROMPT = re.compile(r"^> ?")


def _as_in_a_window() -> None:
    """Where tests run in the background the interrupt is ignored, and what they start would inherit that."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Window:
    """The program in a window of that size."""

    def __init__(
        self,
        folder: Path,
        columns: int,
        rows: int,
        *arguments: str,
        command: Sequence[str] = (sys.executable, "-m", "firstfurrow"),
        **environment: str,
    ) -> None:
        around = os.environ | {"TERM": "xterm", "XDG_STATE_HOME": str(folder / "state")} | environment
        for name in {"COLUMNS", "LINES", "NO_COLOR"} - environment.keys():
            around.pop(name, None)
        self.screen = pyte.HistoryScreen(columns, rows, history=5000)
        self._stream = pyte.Stream(self.screen)
        self.raw = ""
        self.child = pexpect.spawn(
            command[0],
            [*command[1:], *arguments],
            cwd=str(folder),
            env=around,
            dimensions=(rows, columns),
            encoding="utf-8",
            codec_errors="replace",
            timeout=WAIT,
            preexec_fn=_as_in_a_window,
        )
        self.child.delaybeforesend = None

    # ------------------------------------------------------------------ doing

    def send(self, keys: str) -> None:
        """Press these keys."""
        self.child.send(keys)

    def line(self, text: str) -> None:
        """Type a line."""
        self.child.send(f"{text}\r")

    def resize(self, columns: int, rows: int) -> None:
        """Make the window another size; a lower one loses its first lines, and the cursor moves up with the rest."""
        lost = max(0, self.screen.lines - rows)
        self.child.setwinsize(rows, columns)
        self.screen.resize(rows, columns)
        self.screen.cursor.y = max(0, min(self.screen.cursor.y - lost, rows - 1))

    def close(self) -> None:
        """End the program, whatever it does."""
        self.child.close(force=True)

    # ------------------------------------------------------------------ waiting

    def until(self, there: Callable[[], bool], what: str) -> None:
        """Read until it is so."""
        end = time.monotonic() + WAIT
        while not there():
            assert time.monotonic() < end, f"{what} is not on the screen:\n{self.all}"
            try:
                self._feed(self.child.read_nonblocking(65536, timeout=0.2))
            except pexpect.TIMEOUT:
                continue
            except pexpect.EOF:
                assert there(), f"the program has ended, and {what} is not on the screen:\n{self.all}"

    def see(self, words: str) -> str:
        """Read until the words are on the screen and a line may be typed."""
        self.until(lambda: words in self.text and self.asks, f'"{words}"')
        return self.text

    def end(self) -> int:
        """Read to the end of the program: its exit code."""
        while True:
            try:
                self._feed(self.child.read_nonblocking(65536, timeout=WAIT))
            except pexpect.EOF:
                break
        self.child.close()
        return int(self.child.exitstatus) if self.child.exitstatus is not None else -int(self.child.signalstatus)

    def _feed(self, text: str) -> None:
        self.raw += text
        self._stream.feed(text)

    # ------------------------------------------------------------------ seeing

    @property
    def lines(self) -> list[str]:
        """The lines in the window, down to the last one with anything on it."""
        shown = [line.rstrip() for line in self.screen.display]
        while shown and not shown[-1]:
            shown.pop()
        return shown or [""]

    @property
    def scrolled(self) -> list[str]:
        """The lines that have left the window at its top, and those in it."""
        gone = ["".join(row[x].data for x in range(self.screen.columns)).rstrip() for row in self.screen.history.top]
        return gone + self.lines

    @property
    def text(self) -> str:
        """The window as one line of words."""
        return " ".join(" ".join(self.lines).split())

    @property
    def all(self) -> str:
        """Everything that was shown."""
        return "\n".join(self.scrolled)

    @property
    def typing(self) -> str:
        """What stands behind the prompt, on as many lines as it takes."""
        return PROMPT.sub("", "".join(self.screen.display[self._begins : self.screen.cursor.y + 1]).rstrip())

    @property
    def asks(self) -> bool:
        """True when the cursor stands where a line may be typed."""
        # The cursor is hidden while a line is drawn.
        return self.screen.display[self._begins].startswith(">") and not self.screen.cursor.hidden

    @property
    def _begins(self) -> int:
        """The first of the lines that what is typed takes: those above the cursor are full."""
        shown, y = self.screen.display, self.screen.cursor.y
        while y and not shown[y].startswith(">") and wcswidth(shown[y - 1].rstrip()) >= self.screen.columns - 1:
            y -= 1
        return y

    @property
    def foot(self) -> str:
        """What stands below the line with the cursor."""
        below = self.screen.display[self.screen.cursor.y + 1 :]
        return " ".join(" ".join(below).split())


@pytest.fixture
def open_window(tmp_path: Path) -> Iterator[Callable[..., Window]]:
    """Opens windows on the program in an empty folder, and closes them after the test."""
    opened: list[Window] = []

    def open_one(columns: int = 80, rows: int = 24, *arguments: str, **around: Any) -> Window:
        opened.append(Window(tmp_path, columns, rows, *arguments, **around))
        return opened[-1]

    yield open_one
    for window in opened:
        window.close()
