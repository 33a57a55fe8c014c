"""A model: the worksheet of a recorded conversation, filled in, with what comes out and what an adviser says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import Answers, Given
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.walk import Step
from firstfurrow.book.model import Book, Question
from firstfurrow.report.blocks import Blank, Block, Bullets, Document, FillIn, Heading, Paragraph, Part, Table, Tick
from firstfurrow.report.sheets.deciding import Entry, entries
from firstfurrow.report.sheets.questions import Worksheet, not_sure_label
from firstfurrow.report.sheets.wording import Say, made_by


def model_parts(
    book: Book, answers: Answers, profile: Profile, comes_out: Document, adviser: Mapping[str, Any] | None = None
) -> tuple[Part, ...]:
    """The filled worksheet; then what comes out; then the adviser, where there is one."""
    sheet = Worksheet(book, answers.units)
    parts = [Part("model", tuple(_filled(sheet, answers))), Part("key-comes-out", comes_out)]
    if adviser is not None:
        parts.append(Part("key-adviser", tuple(_advised(sheet.say, profile, adviser))))
    return tuple(parts)


def _filled(sheet: Worksheet, answers: Answers) -> Iterator[Block]:
    book, say = sheet.book, sheet.say
    yield Heading(say("model_title", name=answers.name or say("no_name")), 1)
    yield Paragraph(say("model_invented"), "caution")
    yield from (Paragraph(note) for note in answers.notes)
    yield Paragraph(say("model_head"))
    interview = Interview(book, answers)
    titles = {section.id: section.title for section in book.sections}
    place: tuple[str, str | None] | None = None
    for step in interview.said():
        here = (step.section, step.ref.item)
        if place is None or place[0] != step.section:
            yield Heading(titles[step.section])
        if step.ref.item is not None and here != place:
            kind = interview.kind(step.ref.item)
            item = [each.id for each in answers.items].index(step.ref.item) + 1
            yield Heading(say("model_item", number=item, name=kind.name if kind is not None else ""), 3)
        place = here
        yield filled_question(sheet, interview, step)
    yield made_by(book, say)


def filled_question(sheet: Worksheet, interview: Interview, step: Step) -> FillIn:
    """One question as it was answered: the box that was ticked or the blank that was filled in."""
    question, given = interview.question(step.ref), step.given
    assert given is not None
    ticks = _ticks(question, given)
    unsure = not_sure_label(sheet.say, question, interview.answers.units)
    if unsure:
        ticks += (Tick(unsure if given.unsure else sheet.say("unsure"), given.unsure),)
    return FillIn(
        str(sheet.numbers.get(question.id, "")), question.ask, question.id,
        blanks=_written(interview, step, question, given, ticked=any(tick.on for tick in ticks)), ticks=ticks,
    )  # fmt: skip


def _ticks(question: Question, given: Given) -> tuple[Tick, ...]:
    """The choices; of the many sorts of implement only the one that was chosen is named, in the blank."""
    if question.type == "kind":
        return ()
    chosen = given.value if isinstance(given.value, tuple) else (given.value,)
    return tuple(Tick(choice.label, not given.unsure and choice.id in chosen) for choice in question.choices)


def _written(interview: Interview, step: Step, question: Question, given: Given, *, ticked: bool) -> tuple[Blank, ...]:
    """What stands in the blank: numbers as they were typed, and a size that is on no list."""
    if ticked:
        return ()
    kind = interview.kind(step.ref.item)
    text = kind.name if question.type == "kind" and kind is not None else given.text
    return (Blank(written=text, wide=True),)


# ------------------------------------------------------------------------- the adviser


def _advised(say: Say, profile: Profile, adviser: Mapping[str, Any]) -> Iterator[Block]:
    """What an adviser says decides, line by line, beside what the program says."""
    yield Heading(say("adviser"))
    yield Paragraph(say("adviser_head"), "quiet")
    yield Paragraph(str(adviser["buyer"]).strip())
    program = entries(profile)
    headers = (say("adviser_says"), say("adviser_program"), say("adviser_agree"))
    lines = [(line, _named(line.get("entry"), program)) for line in adviser["table"]]
    yield Table(headers, tuple(_row(say, line, found) for line, found in lines))
    also = [(line, _named(line["entry"], program)) for line in adviser.get("also") or ()]
    if also:
        yield Paragraph(say("adviser_also", listed="; ".join(_said(say, found) for _, found in also)))
    why = tuple(_why(say, line, found) for line, found in (*lines, *also) if "why" in line)
    if why:
        yield Heading(say("adviser_why"), 3)
        yield Bullets(why)


def _row(say: Say, line: Mapping[str, Any], found: Entry | None) -> tuple[str, ...]:
    return (str(line["adviser"]), _said(say, found), say(f"agreement.{str(line['agreement']).replace(' ', '_')}"))


def _why(say: Say, line: Mapping[str, Any], found: Entry | None) -> str:
    """Who is right about one line, and why; the line goes by what it is about."""
    about = str(line.get("adviser", "")) if found is None else say("about", title=found.title)
    right = say(f"right.{line['right']}") if "right" in line else ""
    return " ".join(filter(None, (about, right, str(line["why"]).strip())))


def _named(name: str | None, program: Sequence[Entry]) -> Entry | None:
    """The entry of that name; a name may go on with the implements that it is about."""
    wanted = "" if name is None else name
    return next((e for e in program if wanted == e.name or wanted.startswith(f"{e.name}:")), None)


def _said(say: Say, entry: Entry | None) -> str:
    if entry is None:
        return say("adviser_missing")
    return say("decides", title=entry.title, shown=entry.shown) if entry.shown else entry.title
