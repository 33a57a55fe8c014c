"""One participant's handout: the sheet for the yard, behind it what decides and why. Nothing is run again for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfurrow.advice.facts import Assumption
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study import Study
from firstfurrow.advice.study.model import Doubts, WithoutEach
from firstfurrow.advice.study.plausible import plausibility
from firstfurrow.advice.study.words import Words
from firstfurrow.report import crossings, implements, summary, unknown
from firstfurrow.report.answers_given import answers_given
from firstfurrow.report.blocks import Block, Bullets, Heading, Paragraph, Part, Steps, Terms
from firstfurrow.report.classroom.names import plain
from firstfurrow.report.classroom.words import ClassWords
from firstfurrow.report.page import Page, Said
from firstfurrow.report.yard import yard_document

LONGEST_NAME = 120
MOST_NOTES = 5
LONGEST_NOTE = 600


@dataclass(frozen=True, slots=True)
class _Handout:
    """A short page of the report, and the words of the handout."""

    page: Page
    words: ClassWords

    @property
    def profile(self) -> Profile:
        """What the page is about."""
        return self.page.profile


def _nothing_run_again(profile: Profile) -> Study:
    """What a page wants of a study, as far as one run tells: the size class, and what is rare."""
    size_class = plausibility(profile, Words(profile.book, profile.units))
    return Study((), WithoutEach((), ()), None, Doubts((), (), (), (), 0), size_class)


def handout(profile: Profile, said: Said, name: str, file: str) -> tuple[Part, Part]:
    """Both parts. `name` is the participant's, `file` that of the answers; `profile` is without a name of its own."""
    words = ClassWords(profile.book)
    made = _Handout(Page(profile, _nothing_run_again(profile), said, full=False), words)
    return Part("yard", tuple(_sheet(made, name))), Part("handout", tuple(_blocks(made, name, file)))


def _sheet(made: _Handout, name: str) -> Iterator[Block]:
    """The sheet for the yard, with whose it is; it names no line of working, because there is none behind it."""
    title, *rest = yard_document(made.profile)
    yield title
    yield Paragraph(made.words.say("whose", name=plain(name, LONGEST_NAME)), "strong")
    yield from rest


def _blocks(made: _Handout, name: str, file: str) -> Iterator[Block]:
    page, profile, report = made.page, made.profile, made.profile.book.messages
    yield Heading(made.words.say("handout_title", name=plain(name, LONGEST_NAME)), 1)
    yield Paragraph(made.words.say("from_file", file=plain(file, LONGEST_NAME)), "quiet")
    for note in profile.plan.notes[:MOST_NOTES]:
        yield Paragraph(plain(note, LONGEST_NOTE))
    if profile.refusals or any(o.status == "determined" for o in profile.outcomes.values()):
        yield Paragraph(report["report.intro_short"])
        yield from summary.short(page)
        yield from crossings.refusals(page)
        yield from crossings.conflicts(page)
        yield from crossings.in_the_answers(page)
        yield from _one_by_one(made)
        yield from implements.hookups(page)
        yield from implements.unbraked(page)
    else:
        yield Paragraph(report["report.nothing_yet"])
        yield from crossings.in_the_answers(page)
    yield from unknown.open_ceilings(page)
    yield from _taken(made)
    yield from unknown.left_out(page)
    yield from answers_given(page)
    yield Paragraph(report["report.not_covered"], "caution")
    yield Paragraph(report["report.manuals"], "caution")


# ----------------------------------------------------------------- requirements


def _one_by_one(made: _Handout) -> Iterator[Block]:
    """Every requirement with its value, what sets it, and one line of caution."""
    asked = [outcome for outcome in made.page.outcomes if outcome.widest is not None]
    if asked:
        yield Heading(made.words.say("one_by_one"))
        yield Terms(tuple((_need(made, outcome), " ".join(_why(made, outcome))) for outcome in asked))


def _need(made: _Handout, outcome: Outcome) -> str:
    widest = outcome.widest
    assert widest is not None
    return made.words.say("need", title=outcome.requirement.title, need=made.page.need(outcome, widest))


def _why(made: _Handout, outcome: Outcome) -> Iterator[str]:
    widest = outcome.widest
    if widest is not None and widest.governed_by is not None:
        yield made.words.say("set_by", name=widest.governed_by.name)
    if outcome.sure is None:
        yield made.words.say("only_later")
    elif outcome.with_later is not None and outcome.sure.shown != outcome.with_later.shown:
        yield made.words.say("sure", sure=outcome.sure.shown)
    if outcome.requirement.cautions:
        yield made.words.say("careful", caution=outcome.requirement.cautions[0])


# ---------------------------------------------------------------------- unknowns


def _taken(made: _Handout) -> Iterator[Block]:
    """What was taken because nobody knew, each with how to find it out; then how that is done."""
    lines = [" ".join(_assumed(made, assumption)) for assumption in made.profile.assumptions]
    if not lines:
        return
    yield Heading(made.words.say("taken"))
    yield Bullets(tuple(lines))
    guides = list(dict.fromkeys(a.how for a in made.profile.assumptions if a.how is not None and a.moves))
    for id_ in guides:
        guide = made.page.book.guides[id_]
        yield Heading(made.words.say("how", guide=guide.title), 3)
        yield Steps(guide.steps, guide.drawing)


def _assumed(made: _Handout, assumption: Assumption) -> Iterator[str]:
    question = made.page.book.question(assumption.question)
    if question is None or assumption.question in ("size", "variant"):  # taken by the program, in words of its own
        yield assumption.text
        if assumption.range is not None:
            yield assumption.range
    else:
        if assumption.item in made.page.names:
            yield made.words.say("about", item=made.page.names[assumption.item])
        yield made.words.say("taken_line", ask=question.ask, text=assumption.text)
        if assumption.range is not None:
            yield made.words.say("range", range=assumption.range)
    if assumption.how is not None:
        yield made.words.say("find_out", guide=made.page.book.guides[assumption.how].title)
