"""The front of a real terminal: line editing, imported only when the first line is asked."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from typing import TYPE_CHECKING

from firstfurrow.talk.front import NO_HINTS, EndOfInputError, Hints, InterruptedTalkError, tidy
from firstfurrow.talk.plain import PlainFront, forgive

if TYPE_CHECKING:
    from firstfurrow.talk.editing import LineEditor


class TerminalFront:
    """A terminal: a line is edited in place, with the hints at hand."""

    def __init__(self, idle: Callable[[], None] | None = None) -> None:
        """`idle` is called once, beside the talk, as soon as the first line may be typed."""
        forgive()
        self._idle = idle
        self._editor: LineEditor | None = None
        self._plain: PlainFront | None = None  # in its place where the terminal turns out to be none

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

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
        """One line, edited in place."""
        if self._editor is None and self._plain is None:
            from firstfurrow.talk.editing import LineEditor

            try:
                self._editor = LineEditor(self.colour, self._idle)
            except Exception:  # each system has its own way of saying that there is no console
                self._plain = PlainFront()
        if self._plain is not None:
            return self._plain.ask(prompt, hints)
        assert self._editor is not None
        try:
            return tidy(self._editor.ask(prompt, hints))
        except (EOFError, OSError):  # closed, or gone
            raise EndOfInputError from None
        except KeyboardInterrupt:
            raise InterruptedTalkError from None
