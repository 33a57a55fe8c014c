"""The front of plain lines: for a pipe, a simple terminal, a screen reader."""

from __future__ import annotations

import shutil
import sys

from firstfurrow.talk.front import EndOfInputError, InterruptedTalkError, tidy


class PlainFront:
    """Standard input and output, line by line, no escape sequences ever."""

    def __init__(self) -> None:
        # Odd bytes must never end a conversation: what cannot be read or shown becomes a question mark.
        for stream in (sys.stdin, sys.stdout):
            reconfigure = getattr(stream, "reconfigure", None)
            if reconfigure is not None:
                reconfigure(errors="replace")

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

    def ask(self, prompt: str) -> str:
        """One line. Where nobody sees the typing (a pipe), the line is shown after the prompt."""
        try:
            line = tidy(input(prompt))
        except EOFError:
            print(flush=True)
            raise EndOfInputError from None
        except KeyboardInterrupt:
            print(flush=True)
            raise InterruptedTalkError from None
        if not sys.stdin.isatty():
            print(line, flush=True)
        return line
