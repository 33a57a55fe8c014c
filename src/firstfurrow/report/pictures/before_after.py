"""Two plans side by side: of each requirement that moves a pair of bars or of words, furthest first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.felt import difference, scale_of
from firstfurrow.book.model import Book, Requirement
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Fill, Label
from firstfurrow.report.pictures.letters import width
from firstfurrow.report.pictures.sheet import MARGIN, ROOM, WIDTH, Sheet, rectangle
from firstfurrow.report.pictures.words import Say, sayer

MOST = 8  # requirements; the others are counted
_COLUMN = 110.0  # at most, for the names of the plans beside the bars
_BAR = 15.0
_FILLS: tuple[Fill, Fill] = ("light", "hatch")


@dataclass(frozen=True, slots=True)
class Side:
    """One plan: what it asks for, and how long the bar is as a share of the longer one; None where words compare."""

    shown: str
    share: float | None


@dataclass(frozen=True, slots=True)
class Pair:
    """One requirement that moves."""

    title: str
    sides: tuple[Side, Side]


def before_after(book: Book, before: Profile, after: Profile, names: tuple[str, str]) -> Picture | None:
    """The picture; None where nothing moves."""
    moves = difference(scale_of(book), before, after).moves
    if not moves:
        return None
    say = sayer(book)
    pairs = [_pair(book, say, move.requirement, before, after) for move in moves[:MOST]]
    more = [say("before_after.more", count=len(moves) - MOST)] if len(moves) > MOST else []
    sheet = Sheet()
    short = _short(say, names)
    _key(sheet, say, names, short)
    column = max(width(name, "small") for name in short) + 8
    values = 8 + max(
        [width(side.shown, "small") for pair in pairs for side in pair.sides if side.share is not None], default=0.0
    )
    for pair in pairs:
        _draw(sheet, pair, short, column, ROOM - column - values)
    sheet.skip(4)
    for line in (*more, say("before_after.scale")):
        sheet.words(line, size="small")
    said = [say("before_after.names", first=_called(say, names, short, 0), second=_called(say, names, short, 1))]
    said += [
        say("before_after.line", title=p.title, first=short[0], before=p.sides[0].shown, second=short[1],
            after=p.sides[1].shown) for p in pairs
    ]  # fmt: skip
    return Picture("before_after", say("before_after.title"), sheet.drawing(), (*said, *more))


def _short(say: Say, names: tuple[str, str]) -> tuple[str, str]:
    """What stands beside the bars: the names where both are short, else letters that the key explains."""
    if names[0] != names[1] and all(0 < width(name[:200], "small") <= _COLUMN for name in names):
        return names
    return say("before_after.first"), say("before_after.second")


def _called(say: Say, names: tuple[str, str], short: tuple[str, str], which: int) -> str:
    """The name of a plan, and the letter that stands for it."""
    name, letter = names[which], short[which]
    return name if name == letter else say("before_after.key", letter=letter, name=name)


# ------------------------------------------------------------------------ pairs


def _pair(book: Book, say: Say, id_: str, before: Profile, after: Profile) -> Pair:
    first, second = before.outcomes[id_], after.outcomes[id_]
    most = first.requirement.sense == "at_most"
    one, other = _number(book, first), _number(book, second)
    shown = [
        say("before_after.no_limit" if most else "before_after.nothing") if outcome.widest is None
        else outcome.widest.shown for outcome in (first, second)
    ]  # fmt: skip
    # Where nothing is the most that is allowed, no bar is long enough.
    if (one is None and other is None) or (most and (one is None or other is None)):
        return Pair(_title(say, first.requirement), (Side(shown[0], None), Side(shown[1], None)))
    longest = max(one or 0.0, other or 0.0) or 1.0
    return Pair(
        _title(say, first.requirement),
        (Side(shown[0], (one or 0.0) / longest), Side(shown[1], (other or 0.0) / longest)),
    )


def _title(say: Say, requirement: Requirement) -> str:
    if requirement.sense in ("at_least", "at_most"):
        return say(f"before_after.{requirement.sense}", title=requirement.title)
    return requirement.title


def _number(book: Book, outcome: Outcome) -> float | None:
    """What is stated where it is an amount; a class is a word, though it is written as a number."""
    requirement, widest = outcome.requirement, outcome.widest
    named = not requirement.unit and book.messages.get(f"reason.shown.{requirement.id}", "{value}") != "{value}"
    if requirement.sense not in ("at_least", "at_most") or widest is None or named:
        return None
    return float(widest.stated)


# ---------------------------------------------------------------------- drawing


def _key(sheet: Sheet, say: Say, names: tuple[str, str], short: tuple[str, str]) -> None:
    for which, fill in enumerate(_FILLS):
        sheet.add(rectangle(MARGIN, sheet.y + 3, 26, 12, fill))
        sheet.words(_called(say, names, short, which), x=MARGIN + 36, bold=True)
        sheet.skip(3)


def _draw(sheet: Sheet, pair: Pair, short: Sequence[str], column: float, longest: float) -> None:
    sheet.skip(9)
    sheet.words(pair.title, bold=True)
    sheet.skip(2)
    for name, side, fill in zip(short, pair.sides, _FILLS, strict=True):
        y = sheet.y
        sheet.add(Label(MARGIN, y + (12 if side.share is None else 13), name, "start", "small"))
        if side.share is None:
            sheet.words(side.shown, x=MARGIN + column, room=WIDTH - 2 * MARGIN - column, size="small", most=3)
            sheet.y = max(sheet.y, y + _BAR) + 3
        else:
            wide = longest * side.share
            sheet.add(rectangle(MARGIN + column, y + 1, wide, _BAR, fill))
            sheet.add(Label(MARGIN + column + wide + 6, y + 13, side.shown, "start", "small"))
            sheet.y = y + _BAR + 5
