"""The top of the page: what decides, power, weight and size class in short; and the table of all requirements."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.strictest import Strictest
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph, Table
from firstfurrow.report.page import Page

FIRST = 3  # how many deciding entries the summary names
# What every reader wants to know, whether it decides or not; of several weights the largest counts.
ALWAYS = (("pto_power",), ("mass", "mass_balance", "mass_towing"))


def short(page: Page) -> Iterator[Block]:
    """What decides, always with power, weight and the size class."""
    profile = page.profile
    yield Heading(page.say("short"))
    lines: list[str] = []
    named: set[str] = set()
    for entry in profile.deciding[:FIRST]:
        sort, _, index = entry.partition(":")
        if sort == "refusal":
            lines.append(page.say("decides_refusal", title=profile.refusals[int(index)].title))
        elif sort == "conflict":
            lines.append(page.say("decides_conflict", title=profile.conflicts[int(index)].title))
        else:
            named.add(entry)
            lines.append(_decides(page, profile.outcomes[entry]))
    for group in ALWAYS:
        largest = _largest([profile.outcomes[id_] for id_ in group if id_ in profile.outcomes])
        if largest is None:
            lines.append(page.say(f"none_asked.{group[0]}"))
        elif largest.requirement.id not in named:
            lines.append(_decides(page, largest))
    yield Bullets(tuple(lines))
    plausibility = page.study.plausibility
    yield Paragraph(plausibility.text)
    if plausibility.warnings:
        yield Bullets(tuple(page.say("rare", text=text) for text in plausibility.warnings))


def _decides(page: Page, outcome: Outcome) -> str:
    widest = outcome.widest
    assert widest is not None
    because = widest.governed_by.name if widest.governed_by is not None else ""
    return page.say(
        "decides", title=outcome.requirement.title, shown=page.need(outcome, widest), because=because
    )  # fmt: skip


def _largest(outcomes: list[Outcome]) -> Outcome | None:
    """The one that asks for most; None where nothing is asked for."""
    asked = [(widest.stated, -index, outcome) for index, outcome in enumerate(outcomes)
             if (widest := outcome.widest) is not None]  # fmt: skip
    return max(asked)[2] if asked else None


# ------------------------------------------------------------------------- the table


def table(page: Page) -> Iterator[Block]:
    """Every requirement that is asked for, in one table; below it what is not asked for, in one line."""
    shown = [o for o in page.outcomes if o.status != "not_needed"]
    yield Heading(page.say("profile"))
    if shown:
        apart = any(_shown(o.sure) != _shown(o.with_later) for o in shown)
        headers = (
            ("column_what", "column_sure", "column_later", "column_because")
            if apart
            else ("column_what", "column_need", "column_because")
        )
        yield Table(tuple(page.say(h) for h in headers), tuple(_row(page, o, apart) for o in shown))
    rest = _not_needed(page)
    if rest:
        yield Paragraph(page.say("not_needed", titles="; ".join(rest)), "quiet")


def _shown(strictest: Strictest | None) -> str | None:
    return None if strictest is None else strictest.shown


def _row(page: Page, outcome: Outcome, apart: bool) -> tuple[str, ...]:
    def cell(strictest: Strictest | None) -> str:
        if outcome.status == "not_determined":
            return page.say("not_determined")
        return page.say("nothing") if strictest is None else page.need(outcome, strictest)

    widest = outcome.widest
    because = widest.governed_by.name if widest is not None and widest.governed_by is not None else ""
    if not apart:
        return (outcome.requirement.title, cell(widest), because)
    sure, later = cell(outcome.sure), cell(outcome.with_later)
    return (outcome.requirement.title, sure, page.say("the_same") if sure == later else later, because)


def _not_needed(page: Page) -> list[str]:
    """Short names of what nothing asks for; a group of which nothing is asked for by its title alone."""
    found: list[str] = []
    for group, title in page.book.groups.items():
        mine = [o for o in page.outcomes if o.requirement.group == group]
        idle = [o for o in mine if o.status == "not_needed"]
        if mine and len(idle) == len(mine):
            found.append(page.say("nothing_of", group=_plain(title)))
        else:
            found += [_brief(page, o.requirement.id) for o in idle]
    return found


def _brief(page: Page, requirement: str) -> str:
    own = page.book.messages.get(f"reason.brief.{requirement}")
    return own or page.book.requirements[requirement].title


def _plain(title: str) -> str:
    """A title without its trade word in brackets."""
    return title.partition(" (")[0].lower()
