"""The words that are commands at any question. Whole words only, so that no lettered or numbered answer is caught."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Command:
    """A command, and what stands behind it ("7" in "change 7")."""

    name: str
    rest: str = ""


_SPELLED = {
    "why": "why",
    "how": "how|how do i find out|how to find out|how do i measure it",
    "unsure": "unsure|not sure|i am not sure|i'm not sure|don't know|dont know|do not know|i don't know|i dont know"
    "|i do not know|no idea|dunno|idk|unknown",
    "back": "back|go back",
    "answers": "answers|my answers|show answers",
    "so_far": "so far|sofar|profile|show profile",
    "save": "save|save and stop|quit|exit|stop|bye",
    "words": "words|word|glossary",
    "units": "units",
    "add": "add implement|add an implement",
    "next": "next customer",
    "help": "help|?|commands",
}
WORDS: Mapping[str, str] = MappingProxyType(
    {spelling: name for name, spellings in _SPELLED.items() for spelling in spellings.split("|")}
)
_WITH_REST = re.compile(r"(change|remove|words|word)\s+(.+)")


def command(line: str) -> Command | None:
    """The command in a typed line; None when it is an answer.

    >>> command("Don’t know.")
    Command(name='unsure', rest='')
    >>> command("change 7")
    Command(name='change', rest='7')
    >>> command("14 acre")
    """
    said = " ".join(line.casefold().replace("\u2019", "'").split())
    plain = said if said == "?" else said.rstrip(" .!?")
    if plain in WORDS:
        return Command(WORDS[plain])
    if plain in ("change", "remove"):
        return Command(plain)
    found = _WITH_REST.fullmatch(plain)
    if found is None:
        return None
    name = "words" if found[1] == "word" else found[1]
    return Command(name, found[2])
