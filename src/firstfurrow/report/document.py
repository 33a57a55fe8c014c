"""A profile as content blocks: the page that a beginner reads, short or with all the working."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study import Study, study
from firstfurrow.report import crossings, implements, one_by_one, prices, summary, unknown
from firstfurrow.report.answers_given import answers_given
from firstfurrow.report.blocks import Block, Contents, Document, Heading, Paragraph
from firstfurrow.report.cautions import cautions
from firstfurrow.report.glossary import terms_in
from firstfurrow.report.made_with import made_with
from firstfurrow.report.page import Page, Said
from firstfurrow.report.pictures.every import every

__all__ = ["Said", "document"]


def document(
    profile: Profile,
    *,
    full: bool,
    studied: Study | None = None,
    said: Said | None = None,
    only: frozenset[str] | None = None,
) -> Document:
    """The whole page: summary, table, implements, doubts; with `full` also one by one, prices, sources.

    studied
        What came of running the road again; left out, it is worked out here.
    said
        Sentences about the answers themselves: unusual ones that were kept, and contradictions that stand.
    only
        Groups of requirements (`shaft`, `oil`, ...): the page is about these alone.
    """
    page = Page(profile, studied or study(profile), said or Said(), full=full, only=only)
    blocks = tuple(_blocks(page))
    if full and only is None:
        blocks = (*blocks, *_behind(page, blocks))
    return tuple(_with_contents(page, blocks))


def _blocks(page: Page) -> Iterator[Block]:
    """Everything in reading order."""
    profile = page.profile
    yield Heading(page.say("title"), 1)
    if profile.scenario is not None:
        yield Paragraph(page.say("scenario", name=profile.scenario), "strong")
        for note in profile.plan.notes:
            yield Paragraph(note)
    determined = any(o.status == "determined" for o in profile.outcomes.values())
    if not determined and not profile.refusals:
        yield Paragraph(page.say("nothing_yet"))
        yield from unknown.open_ceilings(page)
        return
    yield Paragraph(page.say("intro" if page.full else "intro_short"))
    if page.only is not None:
        titles = [title for group, title in page.book.groups.items() if group in page.only]
        yield Paragraph(page.say("only", groups="; ".join(titles)), "caution")
    yield from summary.short(page)
    yield from crossings.refusals(page)
    yield from crossings.conflicts(page)
    yield from crossings.in_the_answers(page)
    yield from summary.table(page)
    if page.full and page.only is None:
        yield from _pictures(page)
    if page.only is None:
        yield from implements.hookups(page)
    yield from implements.unbraked(page)
    if page.only is None and page.full:
        yield from prices.without_each(page)
        yield from prices.ahead(page)
    if page.full:
        yield from one_by_one.outcomes(page)
    yield from unknown.open_ceilings(page)
    if page.only is None:
        yield from unknown.doubts(page)
        yield from unknown.assumptions(page)
        yield from unknown.left_out(page)
    if page.full:
        yield from one_by_one.further(page)
        if page.only is None:
            yield from cautions(page)
        else:
            yield from one_by_one.sources(page)
    yield Paragraph(page.say("not_covered"), "caution")
    yield Paragraph(page.say("manuals"), "caution")
    yield Paragraph(made_with(page.book), "quiet")


def _pictures(page: Page) -> Iterator[Block]:
    found = tuple(every(page))
    if found:
        yield Heading(page.say("pictures"))
        yield from found


def _behind(page: Page, blocks: Document) -> Iterator[Block]:
    """What a reader looks up: his own answers, the words of the trade, where the figures are from."""
    yield from answers_given(page)
    terms = terms_in(page.book, blocks)
    if terms.items:
        yield Heading(page.say("glossary"))
        yield terms
    yield from one_by_one.sources(page)


def _with_contents(page: Page, blocks: Document) -> Iterator[Block]:
    """The full page begins with what stands on it, in order."""
    sections = [(number, block.text) for number, block in enumerate(blocks) if isinstance(block, Heading)
                and block.level == 2]  # fmt: skip
    if not page.full or not sections:
        yield from blocks
        return
    first = sections[0][0]
    yield from blocks[:first]
    yield Contents(tuple(title for _, title in sections))
    yield from blocks[first:]
