"""Everything that can hurt in one list, for whoever reads nothing else: each caution once, with what it belongs to."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.report.blocks import Block, Bullets, Heading
from firstfurrow.report.page import Page


def cautions(page: Page) -> Iterator[Block]:
    """Cautions of refusals, of the implements and of the requirements; each stands beside its figure as well."""
    about: dict[str, list[str]] = {}
    for refusal in page.profile.refusals:
        about.setdefault(refusal.caution, []).append(refusal.title)
    for note in page.profile.hookups:
        for caution in note.sized.item.kind.cautions:
            about.setdefault(caution, []).append(note.sized.item.name)
    for outcome in page.outcomes:
        if outcome.status != "not_needed":
            for caution in outcome.requirement.cautions:
                about.setdefault(caution, []).append(outcome.requirement.title)
    if about:
        yield Heading(page.say("cautions"))
        lines = (page.say("caution_about", caution=c, about="; ".join(dict.fromkeys(a))) for c, a in about.items())
        yield Bullets(tuple(lines), "caution")
