"""What the conversation needs from the place where it happens: say text, ask for one line."""

from __future__ import annotations

from typing import Protocol


class EndOfInputError(Exception):
    """There will be no further line."""


class InterruptedTalkError(Exception):
    """Somebody pressed the key that stops a program."""


class Front(Protocol):
    """One place where a conversation happens: a terminal, plain lines, or a script."""

    @property
    def width(self) -> int:
        """How many columns there are now."""
        ...

    @property
    def colour(self) -> bool:
        """True where text may stand out by colour or weight; nothing is said by colour alone."""
        ...

    def say(self, text: str, strong: bool = False) -> None:
        """Show text as it is, wrapped already, and end the line."""
        ...

    def ask(self, prompt: str) -> str:
        """One typed line.

        Raises
        ------
        EndOfInputError
            When there is no further line.
        InterruptedTalkError
            When the reader wants to stop at once.
        """
        ...


def tidy(line: str) -> str:
    """A typed line without what nobody types on purpose: control signs, broken characters, line ends.

    >>> tidy("14\\x07 acre\\n")
    '14 acre'
    """
    spaced = "".join(" " if c in "\t\r\n" else c for c in line)
    kept = "".join(c for c in spaced if c.isprintable())
    return kept.strip()
