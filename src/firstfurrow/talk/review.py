"""Everything said so far as a numbered list; the numbers are what `change` takes, the item ids what `remove` takes."""

from __future__ import annotations

from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.talk.screen import Screen
from firstfurrow.talk.showing import answer_text


def places(interview: Interview) -> tuple[Ref, ...]:
    """The places with an answer that counts, in asking order."""
    return tuple(step.ref for step in interview.said())


def show_answers(screen: Screen, interview: Interview) -> tuple[Ref, ...]:
    """The numbered list, by section and by implement; and the places in it, in the order of their numbers."""
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
    screen.message("answers_hint")
    return tuple(step.ref for step in steps)


def numbered(listed: tuple[Ref, ...], word: str) -> Ref | None:
    """The place with that number in a list."""
    digits = word.strip(" .)")
    if not (digits.isascii() and digits.isdigit()) or len(digits) > 4:
        return None
    return listed[int(digits) - 1] if 1 <= int(digits) <= len(listed) else None


def item_named(interview: Interview, word: str) -> str | None:
    """The item that a word names: i2, or 2."""
    wanted = word.strip(" .)").casefold()
    for item in interview.answers.items:
        if wanted in (item.id.casefold(), item.id.casefold().removeprefix("i")):
            return item.id
    return None
