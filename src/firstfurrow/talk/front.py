"""What the conversation needs from the place where it happens: say text, ask for one line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True, slots=True)
class Hints:
    """What helps while a line is typed, where the front can edit one; the others ask without it.

    default
        What stands in the line already, to be mended or sent again.
    words
        What a typed beginning may be completed to.
    place
        Which question it is. Lines typed before are offered at the same one only.
    bottom
        One line for the foot of the window: the commands that work here.
    """

    default: str = ""
    words: tuple[str, ...] = ()
    place: str = ""
    bottom: str = ""


NO_HINTS = Hints()


class EndOfInputError(Exception):
    """There will be no further line."""


class InterruptedTalkError(Exception):
    """Somebody pressed the key that stops a program."""


class LeaveError(Exception):
    """The reader wants to stop, in good order."""


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

    def ask(self, prompt: str, hints: Hints = NO_HINTS) -> str:
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
