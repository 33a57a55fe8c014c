"""The front of a script: lines from a list, the screen kept as text. Recordings and tests run through it."""

from __future__ import annotations

from collections.abc import Iterable

from firstfurrow.talk.front import NO_HINTS, EndOfInputError, Hints, InterruptedTalkError, tidy

INTERRUPT = "\x03"  # a line that stands for the key that stops a program


class ScriptFront:
    """Types the given lines one after the other; `screen` is what a reader would have seen."""

    def __init__(self, lines: Iterable[str], width: int = 80) -> None:
        self._lines = iter(lines)
        self._width = width
        self._shown: list[str] = []

    @property
    def width(self) -> int:
        """The width that the script was written for."""
        return self._width

    @property
    def colour(self) -> bool:
        """Never."""
        return False

    @property
    def screen(self) -> str:
        """Everything shown so far, the typed lines after their prompts."""
        return "\n".join(self._shown) + "\n" if self._shown else ""

    def say(self, text: str, strong: bool = False) -> None:
        """Keep the text."""
        self._shown.append(text)

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
        """The next line of the script; a script needs no hints."""
        line = next(self._lines, None)
        if line is None or line == INTERRUPT:
            self._shown.append(prompt.rstrip())
            raise EndOfInputError if line is None else InterruptedTalkError
        typed = tidy(line)
        self._shown.append(f"{prompt}{typed}".rstrip())
        return typed
