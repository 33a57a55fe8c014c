"""The front of plain lines: for a pipe, a terminal that can do nothing else, a screen reader."""

from __future__ import annotations

import shutil
import sys

from firstfurrow.talk.front import NO_HINTS, EndOfInputError, Hints, InterruptedTalkError, tidy


def forgive() -> None:
    """Odd bytes must never end a conversation: what cannot be read or shown becomes a question mark."""
    for stream in (sys.stdin, sys.stdout):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


class PlainFront:
    """Standard input and output, line by line, no escape sequences ever, so no hints either."""

    def __init__(self) -> None:
        forgive()

    @property
    def width(self) -> int:
        """The width of the window; the usual one when there is none."""
        return shutil.get_terminal_size().columns

    @property
    def colour(self) -> bool:
        """Never."""
        return False

    def say(self, text: str, strong: bool = False) -> None:
        """Show text."""
        print(text, flush=True)

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
        """One line. Where nobody sees the typing (a pipe), the line is shown after the prompt."""
        try:
            print(prompt, end="", flush=True)
            # Not input(): that takes a line that begins with a zero byte for the end.
            typed = _line()
        except KeyboardInterrupt:
            print(flush=True)
            raise InterruptedTalkError from None
        if not typed:
            print(flush=True)
            raise EndOfInputError
        line = tidy(typed)
        if not sys.stdin.isatty():
            print(line, flush=True)
        return line


def _line() -> str:
    """The next line with its end; nothing where there is none, because the input has ended, is closed or is gone."""
    if sys.stdin is None or sys.stdout is None:  # closed before the program began
        return ""
    try:
        return sys.stdin.readline()
    except (OSError, ValueError):
        return ""
