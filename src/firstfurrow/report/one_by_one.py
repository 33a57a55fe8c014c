"""Each requirement by itself with its working, the steps that figures point at, and the sources."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.strictest import Strictest
from firstfurrow.reasoning import Step
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph, Working
from firstfurrow.report.page import Page
from firstfurrow.report.reasoned import chain_of
from firstfurrow.report.step_lines import short, step_line


def outcomes(page: Page) -> Iterator[Block]:
    """Every requirement that is asked for."""
    yield Heading(page.say("one_by_one"))
    for outcome in page.outcomes:
        if outcome.status == "determined":
            yield from _outcome(page, outcome)


def _outcome(page: Page, outcome: Outcome) -> Iterator[Block]:
    widest = outcome.widest
    assert widest is not None
    requirement = outcome.requirement
    yield Heading(f"{requirement.title}: {page.need(outcome, widest)}", 3)
    yield Paragraph(requirement.what)
    yield Paragraph(_governed(page, outcome, widest))
    if widest.top_step is not None:
        yield Paragraph(page.say("working"))
        yield _working(page, page.profile.step(widest.top_step), widest)
    for remark in outcome.remarks:
        page.point(remark.step)
    said = tuple(page.say("with_step", text=r.text, step=r.step.id) for r in outcome.remarks)
    notes = (*map(page.pointing, widest.notes), *said, *requirement.caveats)
    if notes:
        yield Bullets(notes)
    yield Paragraph(page.say("at_the_tractor", check=requirement.check))
    yield Paragraph(page.say(f"later.{requirement.later}", what=requirement.later_what))
    if requirement.cautions:
        yield Bullets(tuple(page.say("careful", caution=c) for c in requirement.cautions), "caution")


def _governed(page: Page, outcome: Outcome, widest: Strictest) -> str:
    parts: list[str] = []
    if widest.governed_by is not None:
        parts.append(page.say("governed", name=widest.governed_by.name))
    if widest.runner_up is not None and widest.runner_up_shown is not None:
        parts.append(page.say("next_below", name=widest.runner_up.name, shown=widest.runner_up_shown))
    if outcome.requirement.decides == "unfavourable" and widest.ranged:
        parts.append(page.say("range_unfavourable", high=widest.high_shown or "", planning=widest.planning_shown))
    elif widest.high_shown is None:
        parts.append(page.say("range_open", low=widest.low_shown, planning=widest.planning_shown))
    elif widest.ranged:
        parts.append(
            page.say("range_planning", low=widest.low_shown, high=widest.high_shown, planning=widest.planning_shown)
        )
    if outcome.sure is None and outcome.with_later is not None:
        parts.append(page.say("only_later"))
    elif outcome.sure is not None and outcome.with_later is not None:
        sure, later = outcome.sure.shown, outcome.with_later.shown
        if sure != later:
            parts.append(page.say("sure_and_later", sure=sure, later=later))
    return " ".join(parts)


def _working(page: Page, top: Step, widest: Strictest) -> Working:
    """The chain of the governing demand; of the others only the result, which the further working shows."""
    chain = chain_of(top, widest)
    page.printed |= {step.index for step in chain}
    for step in chain:
        page.cite(step)
        for below in (step.inputs or {}).values():
            page.point(below)
    about = widest.governed_by.name if widest.governed_by is not None else None
    return Working(tuple(step_line(step, page.book, page.names, about) for step in chain))


def further(page: Page) -> Iterator[Block]:
    """The lines that figures point to and that are not printed with them."""
    missing = sorted(page.pointed - page.printed)
    if not missing:
        return
    yield Heading(page.say("further"))
    yield Paragraph(page.say("further_intro"))
    steps = [page.profile.steps[index] for index in missing]
    for step in steps:
        page.cite(step)
    yield Working(tuple(step_line(step, page.book, page.names) for step in steps))


def sources(page: Page) -> Iterator[Block]:
    """Every source that a printed figure names."""
    if not page.sources:
        return
    yield Heading(page.say("sources"))
    lines = []
    for id_ in page.sources:
        source = page.book.sources[id_]
        lines.append(". ".join(part for part in (short(source), source.publisher, source.link) if part) + ".")
    yield Bullets(tuple(lines))
