"""What each wish costs: the profile without each implement, and the price of planning ahead."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.study.words import Words
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph
from firstfurrow.report.page import Page


def without_each(page: Page) -> Iterator[Block]:
    """Each item left out in turn; those that move nothing in one line."""
    found = page.study.without
    if not found.moving and not found.still:
        return
    yield Heading(page.say("without"))
    lines = [one.text for one in found.moving]
    if found.still:
        lines.append(page.say("without_still", items=", ".join(dict.fromkeys(found.still))))
    yield Bullets(tuple(lines))


def ahead(page: Page) -> Iterator[Block]:
    """What comes on top of what is sure."""
    found = page.study.ahead
    if found is None:
        return
    words = Words(page.book, page.profile.units)
    yield Heading(page.say("ahead"))
    names = words.listed(found.names)
    difference = found.difference
    if difference.nothing:
        yield Paragraph(page.say("ahead_nothing", items=names))
        return
    yield Paragraph(page.say("ahead_intro", items=names))
    lines = [words.move(move) for move in difference.leading]
    if difference.size_class is not None:
        lines.append(words.size_class(difference.size_class))
    lines += [words.say("crossing_comes", title=title) for title in difference.comes]
    yield Bullets(tuple(f"{line[:1].upper()}{line[1:]}." for line in lines))
