"""Slips of whoever writes YAML in a word processor or in haste: the cause, where the parser only sees what follows."""

from __future__ import annotations

import re
from collections.abc import Iterator

from firstfurrow.book.problems import Said

LOST = "The file cannot be read from here on."
QUOTED = "Put straight double quotes round the text."
ODD_SPACES = "\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff"  # look like a space, and are none to the reader
DASHES = "\u2010-\u2015\u2212\u2022\u00b7"
CURLY = "\u201c\u201d\u201e\u2018\u2019\u201a\u00ab\u00bb"
DOCUMENTS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"{\\rtf")  # how files of word processors begin

A_DOCUMENT = Said(
    "this is a document of a word processor, not plain text.", "Only plain text can be read.",
    "Save it once more as plain text, with the encoding UTF-8.",
)  # fmt: skip
ODD_SPACE = Said(
    "there is an odd space here that only looks like one.", "Only plain spaces are read as spaces.",
    "Take it out, and type a plain space in its place.",
)  # fmt: skip
LONG_DASH = Said(
    "a list line begins with a long dash or a dot here.", "Only a plain hyphen and a space begin a list line.",
    "Write a hyphen (-) and a space in its place.",
)  # fmt: skip
DASH_ALONE = Said(
    "a space is missing after the hyphen.", "A hyphen and a space begin a list line; without the space it is a word.",
    "Write a space after the hyphen.",
)  # fmt: skip
COLON_ALONE = Said(
    "a space is missing after the colon.", "A colon and a space part the key from its value.",
    "Write a space after the colon.",
)  # fmt: skip
CURLY_QUOTES = Said(
    "curly quotes stand round this text; they hold nothing together.",
    "Only straight quotes tell where a text begins and ends.", 'Write straight double quotes (") in their place.',
)  # fmt: skip
BRACKETS = Said(
    "a text begins with a bracket or a brace here.", "What begins with [ or { is read as a list or as keys.", QUOTED,
)  # fmt: skip
APOSTROPHE = Said(
    "an apostrophe ends the text here, since it stands in single quotes.", LOST,
    "Put straight double quotes round the text in place of the single ones.",
)  # fmt: skip
INNER_QUOTE = Said(
    "the text in quotes ends here, and more stands behind it.", LOST,
    "Inside straight double quotes write single ones, and put the double ones round the whole text.",
)  # fmt: skip

_KEY = r"^(?: |- )*"
_BEFORE = r"(?:^ *(?:- +)*|[:,\[{] *)"  # what may stand before a value
_SLIPS: tuple[tuple[re.Pattern[str], Said], ...] = tuple(
    (re.compile(pattern), said)
    for pattern, said in (
        (rf"{_KEY}(?:\w+: *)?([{ODD_SPACES}])", ODD_SPACE),
        (rf"^ *([{DASHES}])\s", LONG_DASH),
        (r"^ *(-)(?=[A-Za-z_]\w*:)", DASH_ALONE),
        (rf"{_BEFORE}([{CURLY}])", CURLY_QUOTES),
        (rf"{_KEY}\w+: +([\[{{][^\]}}]*[\]}}] *[^\s,#\]}}])", BRACKETS),
        (rf"{_BEFORE}'[^']*(')\w", APOSTROPHE),
        (rf'{_BEFORE}"[^"]*(") *[^\s,#\]}}:]', INNER_QUOTE),
        (rf"{_KEY}[A-Za-z_]\w*(:)\w", COLON_ALONE),
    )
)  # fmt: skip
_ODD_KEY = re.compile(rf"[{ODD_SPACES}{CURLY}]|^[{DASHES}]|^-[A-Za-z]")


def slip(text: str, line: int, column: int) -> tuple[int, int, Said] | None:
    """The cause of what the parser stumbles over there, and its own place; None when it is none of these slips.

    Lines and columns count from 0, as the parser's do.

    >>> slip("a:\\n  - b: 1\\n  -b: 2\\n", 2, 2)[2].what
    'a space is missing after the hyphen.'
    """
    lines = text.split("\n")
    for number in _near(lines, line):
        for pattern, said in _SLIPS:
            found = pattern.search(lines[number])
            if found:
                return number, found.start(1), said
    return _too_far_right(lines, line)


def odd_key(key: str) -> Said | None:
    """What is wrong with a key that holds a sign no key has."""
    found = _ODD_KEY.search(key)
    if found is None:
        return None
    sign = found[0]
    if sign[0] == "-":
        return DASH_ALONE
    if re.match(f"[{CURLY}]", sign):
        return CURLY_QUOTES
    return LONG_DASH if re.match(f"[{DASHES}]", sign) else ODD_SPACE


def curly(text: str) -> bool:
    """True when curly quotes stand where straight ones should: round the whole text, or opened and cut off."""
    return text[:1] in "\u201c\u201d\u201e\u2018\u2019\u201a" and bool(text) and (
        text[-1] in "\u201c\u201d\u2018\u2019" or not re.search("[\u201c\u201d\u2018\u2019]", text[1:])
    )  # fmt: skip


def open_quote(where: str) -> Said:
    """What is said of a quote that is opened and not closed; `where` it should have been."""
    what = f"the quote that opens here is not closed {where}."
    return Said(what, LOST, "Write the same quote at the end of the text.")


def _near(lines: list[str], line: int) -> Iterator[int]:
    """The line of the complaint, and the last one above it that says something."""
    if line < len(lines):
        yield line
    above = (n for n in range(min(line, len(lines)) - 1, -1, -1) if lines[n].strip())
    yield from (n for n in [next(above, None)] if n is not None)


def _too_far_right(lines: list[str], line: int) -> tuple[int, int, Said] | None:
    """A line that begins further right than the one above, which holds a whole value already."""
    if line >= len(lines):
        return None
    above = next((lines[n] for n in range(line - 1, -1, -1) if lines[n].strip()), "")
    key = re.match(r"( *(?:- +)*)\w+: +[^\s|>&\[{\"']", above)
    here = re.match(r"( *)[\w-]", lines[line])
    begins = re.match(r" *(?:- +)*\w+:(?: |$)", lines[line])
    if key is None or here is None or begins is None or len(here[1]) <= len(key[1]):
        return None
    said = Said(
        "this line begins further to the right than the line above it.", LOST,
        "Begin it in the same column as the line that it belongs with, with spaces.",
    )  # fmt: skip
    return line, len(here[1]), said
