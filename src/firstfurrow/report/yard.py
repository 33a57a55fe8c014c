"""The sheet to take to the yard: what a tractor must have, what would be nice, how to check it there, room to write."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfurrow.advice.offers.asked import COMFORT, SELDOM_DECIDES
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.report.blocks import Block, Bullets, Check, Checklist, Document, Heading, Paragraph

MOST_TO_MEASURE = 5


def yard_document(profile: Profile) -> Document:
    """The sheet; it stands by itself."""
    return tuple(_blocks(profile))


def _blocks(profile: Profile) -> Iterator[Block]:
    def say(id_: str, **slots: str) -> str:
        return profile.book.messages[f"report.{id_}"].format(**slots)

    yield Heading(say("yard_title"), 1)
    if profile.scenario is not None:
        yield Paragraph(say("scenario", name=profile.scenario), "strong")
    for refusal in profile.refusals:
        sentence = "offers_advised" if refusal.kind in SELDOM_DECIDES else "offers_refused"
        yield Paragraph(say(sentence, title=refusal.title, reason=refusal.reason), "caution")
    must = [o for o in profile.outcomes.values() if o.sure is not None and o.requirement.id != COMFORT]
    nice = [o for o in profile.outcomes.values() if _more_is_nice(o)]
    if not must and not nice:
        yield Paragraph(say("nothing_yet"))
        return
    yield Paragraph(say("yard_intro"))
    headers = (say("column_what"), say("yard_need"), say("yard_check"), say("yard_there"))
    for title, outcomes, sure in (("yard_must", must, True), ("yard_nice", nice, False)):
        if outcomes:
            yield Heading(say(title))
            rows = tuple(_check(say, outcome, sure) for outcome in outcomes)
            line = say("yard_line", what="{what}", need="{need}", room="{room}", check="{check}")
            yield Checklist(headers, rows, line)
    home = [profile.book.requirements[o.requirement.id].title for o in profile.outcomes.values()
            if o.status == "not_determined"]  # fmt: skip
    home += [a.text for a in profile.assumptions if a.how is not None and a.moves][:MOST_TO_MEASURE]
    if home:
        yield Heading(say("yard_home"))
        yield Bullets(tuple(home))
    yield Paragraph(say("not_covered"), "caution")
    yield Paragraph(say("manuals"), "caution")


def _more_is_nice(outcome: Outcome) -> bool:
    """Asked for only by what may come later, more for that than for what is sure, or for comfort."""
    if outcome.requirement.id == COMFORT:
        return outcome.widest is not None
    sure, later = outcome.sure, outcome.with_later
    return later is not None and (sure is None or sure.shown != later.shown)


def _check(say: Callable[..., str], outcome: Outcome, sure: bool) -> Check:
    strictest = outcome.sure if sure else outcome.widest
    assert strictest is not None
    requirement = outcome.requirement
    need = say(f"sense.{requirement.sense}", shown=strictest.shown)
    return Check(requirement.title, need, _first_sentence(requirement.check))


def _first_sentence(text: str) -> str:
    return f"{text.split('. ')[0].rstrip('.')}."
