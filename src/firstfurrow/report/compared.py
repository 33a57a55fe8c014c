"""Two plans side by side, as content blocks: only what differs, furthest first."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.felt import difference, scale_of
from firstfurrow.asking.tried import Tried
from firstfurrow.report.blocks import Block, Bullets, Document, Heading, Paragraph, Table


def compared_document(before: Profile, after: Profile, names: tuple[str, str]) -> Document:
    """What differs between two profiles, under the names of the two plans."""
    return tuple(_blocks(before, after, names))


def what_if_document(before: Profile, after: Profile, tried: Tried) -> Document:
    """One thing changed: the question, both answers, and what differs, as a table and as a picture."""
    from firstfurrow.report.pictures.before_after import before_after  # a conversation compares without pictures

    book = before.book

    def say(id_: str, **slots: str) -> str:
        return book.messages[f"report.{id_}"].format(**slots)

    names = (say("what_if_before"), say("what_if_after"))
    picture = before_after(book, before, after, names)
    return (
        Heading(say("what_if", ask=tried.ask), 2),
        Table(("", *names), ((say("what_if_answer"), tried.before, tried.after),)),
        *tuple(_blocks(before, after, names))[1:],
        *(() if picture is None else (picture,)),
    )


def _blocks(before: Profile, after: Profile, names: tuple[str, str]) -> Iterator[Block]:
    book = before.book
    found = difference(scale_of(book), before, after)

    def say(id_: str, **slots: str) -> str:
        return book.messages[f"report.{id_}"].format(**slots)

    yield Heading(say("compared_title", before=names[0], after=names[1]))
    if found.nothing:
        yield Paragraph(say("compared_same"))
        return
    nothing = say("compared_nothing")
    rows = tuple(
        (book.requirements[move.requirement].title, move.before or nothing, move.after or nothing)
        for move in found.moves
    )
    if rows:
        yield Table((say("column_what"), *names), rows)
    lines = [say("compared_comes", title=title, plan=names[1]) for title in found.comes]
    lines += [say("compared_goes", title=title, plan=names[1]) for title in found.goes]
    if found.size_class is not None:
        lines.append(say("compared_class", before=found.size_class[0], after=found.size_class[1]))
    if lines:
        yield Bullets(tuple(lines))
