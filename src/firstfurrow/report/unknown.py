"""What nobody knows: limits not measured, doubts in the order in which they move the plan, and what was left out."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph
from firstfurrow.report.page import Page

MOST_SHORT = 3  # doubts on the short page
MOST_FULL = 12  # doubts in full on the long page; the rest by name


def open_ceilings(page: Page) -> Iterator[Block]:
    """Limits that nobody measured, with how to measure them and their cautions."""
    open_ = [outcome for outcome in page.outcomes if outcome.open_questions]
    titles: dict[str, list[str]] = {}
    for outcome in open_:
        for question_id in outcome.open_questions:
            titles.setdefault(question_id, []).append(outcome.requirement.title)
    lines: list[str] = []
    for question_id, limited in titles.items():
        question = page.book.question(question_id)
        assert question is not None
        slots = {"titles": "; ".join(limited), "ask": question.ask}
        if question.how is None:
            lines.append(page.say("not_measured_plain", **slots))
        else:
            lines.append(page.say("not_measured_line", **slots, guide=page.book.guides[question.how].title))
    yield from page.section("not_measured", lines)
    # What a narrow gate leads to is for the long page; a slope that nobody measured kills.
    cautions = dict.fromkeys(
        page.say("careful", caution=caution)
        for outcome in open_
        if page.full or outcome.requirement.sense != "at_most"
        for caution in outcome.requirement.cautions
    )
    if cautions:
        yield Bullets(tuple(cautions), "caution")


def doubts(page: Page) -> Iterator[Block]:
    """What is not known, furthest first: the short page has the first few, the long page nearly all."""
    found = page.study.doubts
    if not (found.ranked or found.still_names or found.untried):
        return
    yield Heading(page.say("doubts"))
    most = MOST_FULL if page.full else MOST_SHORT
    if found.ranked:
        yield Paragraph(page.say("doubts_intro"))
        yield Bullets(tuple(doubt.text for doubt in found.ranked[:most]))
    rest = [doubt.what for doubt in found.ranked[most:]]
    if rest and page.full:
        yield Paragraph(page.say("doubts_rest", names="; ".join(rest)))
    elif rest:
        yield Paragraph(page.say("doubts_more", count=len(rest)))
    if found.still_names:
        yield Paragraph(page.say("doubts_still", names="; ".join(found.still_names)))
    if found.untried and page.full:
        yield Paragraph(page.say("doubts_untried", names="; ".join(found.untried)))


def assumptions(page: Page) -> Iterator[Block]:
    """What else was taken and is no doubt of its own: sizes that follow from the work, what holds for every tractor."""
    found = page.study.doubts
    told = {(doubt.question, doubt.item) for doubt in found.ranked} | set(found.still)
    lines: list[str] = []
    for assumption in page.profile.assumptions:
        if (assumption.question, assumption.item) in told:
            continue
        question = page.book.question(assumption.question)
        own = question is None or assumption.question in ("size", "variant")
        text = assumption.text
        if not own:
            assert question is not None
            item = f"{page.names[assumption.item]}: " if assumption.item in page.names else ""
            text = item + page.say("assumed_question", ask=question.ask, text=assumption.text)
        parts = [text]
        if assumption.range is not None:
            parts.append(assumption.range if own else page.say("assumed_range", range=assumption.range))
        if own and page.full and assumption.item is not None:
            parts += _size_step(page, assumption.item)
        lines.append(" ".join(parts))
    yield from page.section("assumed", tuple(lines))


def _size_step(page: Page, item: str) -> list[str]:
    """Where the width that chose a size was worked out."""
    for note in page.profile.hookups:
        step = note.sized.reason_step
        if note.sized.item.id == item and step is not None:
            page.point(step)
            return [page.say("see_step", step=step.id)]
    return []


def left_out(page: Page) -> Iterator[Block]:
    """What was left out because the buyer was not sure of wanting it."""
    names = page.names
    yield from page.section(
        "left_out",
        tuple((f"{names[left.item]}: " if left.item in names else "") + left.text for left in page.profile.left_out),
    )
