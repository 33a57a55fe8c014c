"""The sheet to take to the yard: what a tractor must have, what would be nice, how to check it there, room to write."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfurrow.advice.measuring.telling import length
from firstfurrow.advice.offers.asked import COMFORT, SELDOM_DECIDES
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.quantities import format_number
from firstfurrow.report.blocks import Block, Bullets, Check, Checklist, Document, Heading, Paragraph
from firstfurrow.report.made_with import made_with
from firstfurrow.report.page import unpointed

MOST_TO_MEASURE = 5
LONGEST_CHECK = 124  # signs that fit two lines beside the room to write
Say = Callable[..., str]


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
        yield Paragraph(say(sentence, title=refusal.title, reason=unpointed(refusal.reason)), "caution")
    must = [o for o in profile.outcomes.values() if o.sure is not None and o.requirement.id != COMFORT]
    nice = [o for o in profile.outcomes.values() if _more_is_nice(o)]
    if not must and not nice:
        yield Paragraph(say("nothing_yet"))
        return
    yield Paragraph(say("yard_intro"))
    for title, outcomes, sure in ((say("yard_must"), must, True), (say("yard_nice"), nice, False)):
        if outcomes:
            yield Heading(title)
            rows = tuple(_check(say, profile, outcome, sure) for outcome in outcomes)
            line = say("yard_line", what="{what}", need="{need}", room="{room}", check="{check}")
            yield Checklist((title, say("yard_check"), say("yard_there")), rows, line)
    home = tuple(_at_home(say, profile))
    if home:
        yield Heading(say("yard_home"))
        yield Bullets(home)
    yield Paragraph(say("not_covered"), "caution")
    yield Paragraph(say("manuals"), "caution")
    if profile.book.edition is not None:  # who buys by figures of a county should see whose they are
        yield Paragraph(made_with(profile.book), "quiet")


def _more_is_nice(outcome: Outcome) -> bool:
    """Asked for only by what may come later, more for that than for what is sure, or for comfort."""
    if outcome.requirement.id == COMFORT:
        return outcome.widest is not None
    sure, later = outcome.sure, outcome.with_later
    return later is not None and (sure is None or sure.shown != later.shown)


def _at_home(say: Say, profile: Profile) -> Iterator[str]:
    """What to do before the visit: first what was not measured, then what was taken and moves something."""
    open_: dict[tuple[str, str], list[str]] = {}  # what to do, and what has no figure before that
    for outcome in profile.outcomes.values():
        for id_ in outcome.open_questions:
            question = profile.book.question(id_)
            assert question is not None
            guide = profile.book.guides[question.how].title if question.how is not None else ""
            titles = open_.setdefault((guide, "" if guide else question.ask), [])
            if outcome.status == "not_determined" and outcome.requirement.title not in titles:
                titles.append(outcome.requirement.title)
    for (guide, ask), titles in open_.items():
        if ask:
            yield say("yard_home_asked", ask=ask)
        elif titles:
            yield say("yard_home_open", guide=guide, titles="; ".join(titles))
        else:
            yield say("yard_home_found", guide=guide)
    names = {note.sized.item.id: note.sized.item.name for note in profile.hookups}
    taken = [one for one in profile.assumptions if one.how is not None and one.moves]
    for one in taken[:MOST_TO_MEASURE]:
        guide = profile.book.guides[one.how or ""].title
        if one.item in names:
            yield say("yard_home_taken", guide=guide, item=names[one.item])
        else:
            yield say("yard_home_found", guide=guide)


def _check(say: Say, profile: Profile, outcome: Outcome, sure: bool) -> Check:
    strictest = outcome.sure if sure else outcome.widest
    assert strictest is not None
    requirement = outcome.requirement
    need = say(f"sense.{requirement.sense}", shown=strictest.shown)
    check = _by_tape(say, profile, strictest, requirement.id) or _short(requirement.check, LONGEST_CHECK * sure)
    return Check(requirement.title, need, check)


def _by_tape(say: Say, profile: Profile, strictest: Strictest, requirement: str) -> str | None:
    """A category or a class is a word; what a tape shows are the sizes that belong to it."""
    tables = profile.book.tables
    if requirement == "drawbar_class":
        class_ = tables["drawbar_classes"].rows.get(format_number(strictest.stated, 0))
        return None if class_ is None else say("yard_pin", size=_length(profile, class_["pin"].planning))
    if requirement == "pto_shaft_type":  # the sizes stand in what is asked for
        return say("yard_grooves")
    if requirement != "hitch_category":
        return None
    names: dict[str, list[str]] = {}
    for word in strictest.stated:
        row = tables["hitch_categories"].rows[word.replace(" ", "_")]
        names.setdefault(_length(profile, row["lower_ball_hole"].planning), []).append(row.name)
    sizes = (say("yard_hole", size=size, names=say("yard_or").join(of)) for size, of in names.items())
    return say("yard_holes", sizes="; ".join(sizes))


def _length(profile: Profile, mm: float) -> str:
    """As it is marked on the tape of this reader."""
    metric, _, inches = length(mm).rstrip(")").partition(" (about ")
    return metric if profile.units == "metric" else f"{inches} ({metric})"


def _short(text: str, most: int) -> str:
    """The first sentence, and those after it as long as there is room for all of them.

    >>> _short("Look at the tyres. Low blocks are turf. Look again.", 40)
    'Look at the tyres. Low blocks are turf.'
    """
    first, *rest = text.removesuffix(".").split(". ")
    short = f"{first}."
    for sentence in rest:
        if len(short) + len(sentence) + 2 > most:
            break
        short += f" {sentence}."
    return short
