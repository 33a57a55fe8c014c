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
            if sys.stdin is None or sys.stdout is None:  # closed before the program began
                raise EOFError
            line = tidy(input(prompt))
        except BrokenPipeError:
            raise
        except (EOFError, OSError, ValueError):  # at its end, gone, closed
            print(flush=True)
            raise EndOfInputError from None
        except KeyboardInterrupt:
            print(flush=True)
            raise InterruptedTalkError from None
        if not sys.stdin.isatty():
            print(line, flush=True)
        return line
