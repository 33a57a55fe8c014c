"""Text that somebody else wrote, before it is shown: no sign that moves a cursor or turns the way of reading.

A name, a remark, a file name or a word of an edition may hold such signs, by accident or on purpose. They are taken
out in this one place, wherever text leaves the program.
"""

from __future__ import annotations

import re

# Controls, marks of direction, ends of lines and paragraphs, marks that no text holds, and halves of a sign.
_SIGNS = (
    "\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufff9-\ufffb\ufffe\uffff"
)
_IN_TEXT = re.compile(f"[\x00-\x08{_SIGNS}]")  # the end of a line and a tab stay
_IN_A_LINE = re.compile(f"[\x00-\x1f{_SIGNS}]")


def harmless(text: str) -> str:
    """Text of any number of lines; each sign that does harm becomes a space, so that columns stay where they are.

    >>> harmless("a\\x1b[1m b\\u202e\\nc")
    'a [1m b \\nc'
    """
    return text if text.isascii() and text.isprintable() else _IN_TEXT.sub(" ", text)


def one_line(text: str) -> str:
    """Text that stands in one line, as a name does: an end of a line becomes a space too.

    >>> one_line("a\\nb\\tc")
    'a b c'
    """
    return text if text.isascii() and text.isprintable() else _IN_A_LINE.sub(" ", text)


def sentence(text: str, longest: int = 1_000) -> str:
    """What is said of bad input: one line, its middle left out where somebody gave far too much.

    >>> sentence("zzz" * 9 + ": there is no such question.", 26)
    'zzzzzzzzzz...uch question.'
    """
    line = one_line(text)
    if len(line) <= longest:
        return line
    end = longest // 2
    return f"{line[: longest - end - 3]}...{line[-end:]}"


def escaped(text: str) -> str:
    """The text of JSON data with those signs as their numbers: who reads the data gets them back, no screen obeys them.

    >>> escaped('{"a": "\\u202e"}')
    '{"a": "\\\\u202e"}'
    """
    return _IN_TEXT.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)
