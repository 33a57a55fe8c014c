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
    "why": "why|w",
    "how": "how|h|how do i find out|how to find out|how do i measure it",
    "unsure": "unsure|u|not sure|i am not sure|i'm not sure|don't know|dont know|do not know|i don't know|i dont know"
    "|i do not know|no idea|dunno|idk|unknown",
    "back": "back|b|go back",
    "answers": "answers|a|my answers|show answers",
    "so_far": "so far|s|sofar|profile|show profile",
    "save": "save|q|save and stop|quit|exit|stop|bye",
    "words": "words|g|word|glossary",
    "units": "units",
    "what_if": "what if|t|whatif",
    "undo": "undo",
    "sheet": "sheet|take along",
    "print": "print|p|print it|report",
    "plans": "plans|my plans",
    "add": "add implement|add an implement",
    "tractor": "my tractor|about the tractor",
    "note": "note|n|notes",
    "guess": "guess|guessing",
    "examples": "examples|example",
    "pairs": "pairs|pair",
    "next": "next customer",
    "help": "help|?|commands",
}
WORDS: Mapping[str, str] = MappingProxyType(
    {spelling: name for name, spellings in _SPELLED.items() for spelling in spellings.split("|")}
)
ENDING = frozenset({"what_if", "sheet", "print", "undo", "plans", "compare", "take"})  # once there is a result
LESSONS = frozenset({"note", "guess", "examples", "pairs", "steps"})
_WITH_REST = re.compile(
    r"(change|c|remove|words|word|g|what if|t|compare|take plan|steps|step by step|examples?|pairs?)\s+(.+)"
)
_CALLED = {
    "c": "change", "example": "examples", "g": "words", "pair": "pairs", "step by step": "steps", "t": "what_if",
    "take plan": "take", "what if": "what_if", "word": "words",
}  # fmt: skip


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
    return Command(_CALLED.get(found[1], found[1]), found[2])
