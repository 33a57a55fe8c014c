"""What helps while an answer is typed: the words it may be completed to, and the commands that work there."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import chain

from firstfurrow.asking.choosing import plain
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Choice, Question
from firstfurrow.talk.commands import WORDS
from firstfurrow.talk.foot import GAP
from firstfurrow.talk.front import Hints

LONGEST = 60  # characters; a longer line is typed again sooner than it is mended
OPENING = ("unsure", "why", "save")  # commands that work before the first question of the book
ANYWHERE = (*OPENING, "how", "help", "back", "answers", "so_far", "words", "units", "add", "change", "remove")
ENDING = (
    "help", "answers", "so_far", "what_if", "sheet", "print", "undo", "plans", "back", "add", "change", "remove",
    "words", "save",
)  # fmt: skip
LISTED = ("more", "none")  # words of the list of implements
AT_THE_END = ("bottom_help", "bottom_enter", "bottom_what_if", "bottom_answers", "bottom_back")
LOOKING_OVER = ("bottom_help", "bottom_enter", "bottom_answers", "bottom_back")


def at_question(book: Book, question: Question, refused: str = "", *, opening: bool = False) -> Hints:
    """The hints at a question; `refused` is the line that was no answer to it, `opening`: fewer commands work."""
    unsure = [] if question.not_sure.how == "refused" else ["bottom_unsure"]
    how = [] if question.how is None else ["bottom_how"]
    entries = [*unsure, "bottom_why"] if opening else ["bottom_help", *unsure, "bottom_why", *how, "bottom_back"]
    mended = refused if len(refused) <= LONGEST else ""
    names = _kind_names(book) if question.type == "kind" else _choice_names(question.choices)
    words = (*names, *_commands(OPENING if opening else ANYWHERE))
    shown = [*(["bottom_mend"] if mended else []), *entries, "bottom_save"]
    return Hints(mended, words, question.id, _bottom(book, shown))


def at_choices(choices: Iterable[Choice], place: str) -> Hints:
    """The hints where one of a few things must be chosen."""
    return Hints(words=_choice_names(choices), place=place)


def at_end(book: Book, entries: Iterable[str]) -> Hints:
    """The hints where all questions are answered."""
    return Hints(words=_commands(ENDING), place="end", bottom=_bottom(book, entries))


def _bottom(book: Book, entries: Iterable[str]) -> str:
    return GAP.join(wording(book.messages, entry) for entry in entries)


def _commands(names: Iterable[str]) -> tuple[str, ...]:
    """Commands, each by the first of its names."""
    first: dict[str, str] = {}
    for spelling, name in WORDS.items():
        first.setdefault(name, spelling)
    return tuple(first.get(name, name) for name in names)


def _choice_names(choices: Iterable[Choice]) -> tuple[str, ...]:
    """Labels first, then ids and other words that begin otherwise; an id with a dot is a place, not a word."""
    listed = tuple(choices)
    others = [(choice.label, name) for choice in listed for name in (choice.id, *choice.also) if "." not in name]
    apart = (name.replace("_", " ") for label, name in others if not plain(label).startswith(plain(name)))
    return _once([choice.label for choice in listed], apart)


def _kind_names(book: Book) -> tuple[str, ...]:
    kinds = book.kinds.values()
    return _once((kind.name for kind in kinds), (name for kind in kinds for name in kind.also), LISTED)


def _once(*names: Iterable[str]) -> tuple[str, ...]:
    """Each name once, whatever its signs."""
    found: dict[str, str] = {}
    for name in chain(*names):
        found.setdefault(plain(name), name)
    return tuple(found.values())
