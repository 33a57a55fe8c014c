"""What each wish costs: the profile without each implement, and the price of planning ahead."""

from __future__ import annotations

from collections.abc import Iterator

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
    if found.untried:
        lines.append(page.say("without_untried", items=", ".join(dict.fromkeys(found.untried))))
    yield Bullets(tuple(lines))


def ahead(page: Page) -> Iterator[Block]:
    """What comes on top of what is sure."""
    found = page.study.ahead
    if found is None:
        return
    yield Heading(page.say("ahead"))
    names = ", ".join(dict.fromkeys(found.names))
    if found.difference.nothing:
        yield Paragraph(page.say("ahead_nothing", items=names))
        return
    yield Paragraph(page.say("ahead_intro", items=names))
    yield Bullets(found.lines)
