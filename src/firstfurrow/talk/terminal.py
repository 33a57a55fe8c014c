"""The front of a real terminal: line editing with prompt_toolkit, imported only when the first line is asked."""

from __future__ import annotations

import os
import shutil
from typing import Any

from firstfurrow.talk.front import EndOfInputError, InterruptedTalkError, tidy


class TerminalFront:
    """A terminal with line editing and the lines typed before under the arrow keys."""

    def __init__(self) -> None:
        self._session: Any = None

    @property
    def width(self) -> int:
        """The width of the window now; it may change while we talk."""
        return shutil.get_terminal_size().columns

    @property
    def colour(self) -> bool:
        """False when the reader has asked for no colour."""
        return not os.environ.get("NO_COLOR")

    def say(self, text: str, strong: bool = False) -> None:
        """Show text; the question itself is set in bold where the terminal surely can."""
        bold = strong and self.colour and os.name != "nt"
        print(f"\x1b[1m{text}\x1b[0m" if bold else text, flush=True)

    def ask(self, prompt: str) -> str:
        """One line, edited in place."""
        from prompt_toolkit import PromptSession

        if self._session is None:
            self._session = PromptSession()
        try:
            return tidy(self._session.prompt(prompt))
        except EOFError:
            raise EndOfInputError from None
        except KeyboardInterrupt:
            raise InterruptedTalkError from None
