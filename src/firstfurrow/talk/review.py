"""Everything said so far as a numbered list; the numbers are what `change` takes, the item ids what `remove` takes."""

from __future__ import annotations

from firstfurrow.asking.interview import Interview
from firstfurrow.asking.kinds import by_name
from firstfurrow.asking.refs import Ref
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.showing import answer_text


def places(interview: Interview) -> tuple[Ref, ...]:
    """The places with an answer that counts, in asking order."""
    return tuple(step.ref for step in interview.said())


def show_answers(screen: Screen, interview: Interview, hint: bool = True) -> tuple[Ref, ...]:
    """The numbered list, by section and by implement; and the places in it, in the order of their numbers.

    `hint` says below it what to do with a number.
    """
    steps = interview.said()
    if not steps:
        screen.message("answers_none")
        return ()
    titles = {section.id: section.title for section in interview.book.sections}
    section, item = "", None
    for number, step in enumerate(steps, 1):
        if step.section != section:
            section = step.section
            screen.blank()
            screen.para(titles[section])
        if step.ref.item is not None and step.ref.item != item:
            kind = interview.kind(step.ref.item)
            screen.message("answers_item", item=step.ref.item, kind=kind.name if kind is not None else "?")
        item = step.ref.item
        question = interview.question(step.ref)
        assert step.given is not None
        text = answer_text(screen, question, step.given, interview.answers.units)
        screen.entry(str(number), f"{question.ask} {text}")
    screen.blank()
    if hint:
        screen.message("answers_hint")
    return tuple(step.ref for step in steps)


def numbered(listed: tuple[Ref, ...], word: str) -> Ref | None:
    """The place with that number in a list."""
    digits = word.strip(" .)")
    if not (digits.isascii() and digits.isdigit()) or len(digits) > 4:
        return None
    return listed[int(digits) - 1] if 1 <= int(digits) <= len(listed) else None


def item_named(interview: Interview, word: str) -> str | None:
    """The item that a word names: i2, 2, implement 2, or what it is.

    Where no item has that number any more, it counts the items that are left.
    """
    wanted = word.strip(" .)#").casefold().removeprefix("implement").strip()
    items = [item.id for item in interview.answers.items]
    by_number = next((item for item in items if wanted in (item.casefold(), item.casefold().removeprefix("i"))), None)
    if by_number is not None:
        return by_number
    if wanted.isascii() and wanted.isdigit() and 1 <= int(wanted[:4]) <= len(items):
        return items[int(wanted[:4]) - 1]
    called = [item for item in items if (kind := interview.kind(item)) is not None and by_name(kind, wanted)]
    return called[0] if len(called) == 1 and wanted else None
