"""Refusals and conflicts with their ways out, and what stands out in the answers themselves."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.study.model import WaysOut
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph
from firstfurrow.report.page import Page

MOST_SHORT = 3  # ways out that were tried, on the short page


def refusals(page: Page) -> Iterator[Block]:
    """What the program refuses: the reason, the caution, and what was tried."""
    if not page.profile.refusals:
        return
    yield Heading(page.say("refusals"))
    for index, refusal in enumerate(page.profile.refusals):
        yield Paragraph(refusal.title, "strong")
        yield Paragraph(page.pointing(refusal.reason))
        yield Paragraph(page.say("careful", caution=refusal.caution), "caution")
        yield from _ways(page, page.study.ways_for("refusal", index), refusal.ways_out)


def conflicts(page: Page) -> Iterator[Block]:
    """Wishes that cross: the reasons side by side, and what was tried."""
    if not page.profile.conflicts:
        return
    yield Heading(page.say("conflicts"))
    for index, conflict in enumerate(page.profile.conflicts):
        yield Paragraph(conflict.title, "strong")
        yield Bullets(tuple(map(page.pointing, conflict.reasons)))
        yield from _ways(page, page.study.ways_for("conflict", index), conflict.ways_out)


def _ways(page: Page, found: WaysOut | None, advice: tuple[str, ...]) -> Iterator[Block]:
    """Ways out that were worked out again, best first; below them the advice that was not."""
    tried = () if found is None else found.tried
    if tried:
        enough = [way for way in tried if way.ends]
        shown = list(tried) if page.full else enough[:MOST_SHORT] or list(tried[:1])
        lines = [way.text for way in shown]
        if len(shown) < len(tried):
            lines.append(page.say("ways_more", count=len(tried) - len(shown)))
        if found is not None and found.untried and page.full:
            lines.append(page.say("ways_untried", count=found.untried))
        yield Paragraph(page.say("ways_tried" if enough else "ways_none"))
        yield Bullets(tuple(lines))
    if advice:
        say = "way_untried" if tried else "way_out"
        yield Bullets(tuple(page.say(say, way=way) for way in advice))


def in_the_answers(page: Page) -> Iterator[Block]:
    """Answers that do not go together, and answers that are unusual and were kept."""
    yield from page.section("contradictions", page.said.contradictions)
    yield from page.section("unusual", page.said.unusual)
