"""The implements of the plan, one by one: size, hours, oil, what to ask for, and what can hurt."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.profile import HookupNote
from firstfurrow.asking.resolve import size_label
from firstfurrow.quantities import format_number
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph
from firstfurrow.report.page import Page


def hookups(page: Page) -> Iterator[Block]:
    """Every implement."""
    if not page.profile.hookups:
        return
    yield Heading(page.say("hookups"))
    for note in page.profile.hookups:
        yield from _hookup(page, note)


def unbraked(page: Page) -> Iterator[Block]:
    """What is towed and not on the list has no lines of its own; that nothing brakes it must stand somewhere."""
    tow = page.profile.plan.tow
    if tow is not None and tow.brakes != "has_brakes":
        said = page.book.messages["reason.holding"].format(item=page.names["tow"])
        yield Paragraph(page.say("careful", caution=said), "caution")


def _hookup(page: Page, note: HookupNote) -> Iterator[Block]:
    kind = note.sized.item.kind
    when = page.say(f"when.{note.sized.item.when}")
    size = _size(page, note)
    yield Paragraph(
        page.say("hookup", name=kind.name, size=size, when=when)
        if size
        else page.say("hookup_no_size", name=kind.name, when=when),
        "strong",
    )
    lines = list(_work(page, note))
    if note.sets_must or note.sets_comfortable:
        more = note.sets_comfortable > note.sets_must
        lines.append(
            page.say("sets" if more else "sets_enough", must=note.sets_must, comfortable=note.sets_comfortable)
        )
    lines += note.remarks
    if page.full:
        needs = (*kind.needs, page.say("draft_control")) if kind.draft_control else kind.needs
        if needs:
            lines.append(page.say("needs", needs="; ".join(needs)))
        if page.profile.plan.stones.value == "many" and kind.meets_stones:
            lines.append(page.say("stones"))
        lines += [page.say("often_wrong", mistake=mistake) for mistake in kind.mistakes]
    # What can hurt stands on the short page too: many a reader never opens the long one.
    lines += [page.say("careful", caution=caution) for caution in kind.cautions]
    if lines:
        yield Bullets(tuple(lines))


def _work(page: Page, note: HookupNote) -> Iterator[str]:
    """How it is built, and the hours that it takes."""
    item = note.sized.item
    if len(item.kind.variants) > 1:
        yield page.say("build", variant=item.variant.name)
    if note.hours is None:
        return
    hours = format_number(note.hours.value, note.hours.digits)
    step = ""
    if page.full:
        page.point(note.hours)
        step = f" ({note.hours.id})"
    if note.times:
        year = format_number(note.hours.value * note.times, 0)
        yield page.say("hours_a_year", hours=hours, year=year, step=step)
    else:
        yield page.say("hours", hours=hours, step=step)


def _size(page: Page, note: HookupNote) -> str | None:
    sized = note.sized
    if sized.item.size_text is not None:
        return sized.item.size_text
    if len(sized.item.kind.sizes) < 2:
        return None
    return size_label(sized.item.kind, sized.size, page.profile.units)
