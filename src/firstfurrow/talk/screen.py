"""Text on the screen: every line wrapped by us, entries with their number hanging, sentences from the catalogue."""

from __future__ import annotations

import os
import re
import textwrap
from collections.abc import Mapping
from unicodedata import east_asian_width

from firstfurrow.asking.wording import wording
from firstfurrow.quantities.harmless import harmless, one_line
from firstfurrow.talk.front import Front

WIDEST = 76
NARROWEST = 20
_UNIT = re.compile(
    r"(?<=\d) (?=(?:%|[A-Za-z/]{1,6})(?:[\s.,;:)]|$))"
)  # the space that keeps a number and its unit together
_TIE = "\x00"
_SECOND = "\x01"  # the second column of a sign that takes two
_WORD = re.compile(r"(?:'[^']*'|[^\s'])+")  # of a command, as a shell parts it


class Screen:
    """Says things on a front."""

    def __init__(self, front: Front, messages: Mapping[str, str]) -> None:
        self.front = front
        self.messages = messages

    @property
    def width(self) -> int:
        """The columns that we fill."""
        return max(NARROWEST, min(self.front.width - 1, WIDEST))

    def text(self, message: str, **slots: object) -> str:
        """A sentence of the catalogue."""
        return wording(self.messages, message, **slots)

    def blank(self) -> None:
        """An empty line."""
        self.front.say("")

    def para(self, text: str, strong: bool = False, hang: int = 0) -> None:
        """A paragraph for each line of the text, wrapped; nothing for empty text."""
        for line in text.splitlines():
            if line.strip():
                self.front.say("\n".join(self._wrap(line.strip(), "", " " * hang)), strong)

    def message(self, message: str, **slots: object) -> None:
        """A sentence of the catalogue as a paragraph."""
        self.para(self.text(message, **slots))

    def entry(self, label: str, text: str, space: int = 3) -> None:
        """One line of a list: its label, then the text hanging beside it."""
        first = f"{label.rjust(space)}  "
        self.front.say("\n".join(self._wrap(text, first, " " * len(first))))

    def raw(self, text: str) -> None:
        """Text that somebody else has laid out."""
        self.front.say(harmless(text.rstrip("\n")))

    def pasted(self, command: str) -> None:
        """A command to be pasted into a shell: in a window too narrow for it, it goes on in lines of its own."""
        lines = [""]
        for word in _WORD.findall(command):
            room = os.name != "posix" or len(f"    {lines[-1]} {word} \\") < self.front.width
            if room or not lines[-1]:
                lines[-1] = f"{lines[-1]} {word}".lstrip()
            else:
                lines.append(word)
        self.front.say(harmless("  " + " \\\n    ".join(lines)))

    def _wrap(self, text: str, first: str, rest: str) -> list[str]:
        text = one_line(text)
        if not text.isascii():
            text = "".join(c + _SECOND if east_asian_width(c) in "WF" else c for c in text)
        wrapped = textwrap.wrap(
            _UNIT.sub(_TIE, text),
            self.width,
            initial_indent=first,
            subsequent_indent=rest,
            break_on_hyphens=False,
            tabsize=1,
        )
        return [line.replace(_TIE, " ").replace(_SECOND, "") for line in wrapped] or [first.rstrip()]
