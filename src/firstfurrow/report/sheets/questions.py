"""The worksheet: every question of the book once, in the order asked, to be answered on paper before the computer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from firstfurrow.asking.resolve import FILLED, from_kind, roughly
from firstfurrow.asking.said import planned_words
from firstfurrow.book.model import Book, Group, Question, Section
from firstfurrow.quantities import Units, reader_unit
from firstfurrow.report.blocks import Blank, Block, FillIn, Heading, Paragraph, Part, Steps, Tick
from firstfurrow.report.glossary import terms_in
from firstfurrow.report.sheets.conditions import Conditions, is_put
from firstfurrow.report.sheets.kinds import kinds_list
from firstfurrow.report.sheets.wording import Say, either, head, in_short, made_by, saying, wanted


@dataclass
class Worksheet:
    """What all parts of the worksheet have in common: the numbers of questions and guides, the words, the units."""

    book: Book
    units: Units | None
    say: Say = field(init=False)
    numbers: Mapping[str, int] = field(init=False)  # of the questions
    guides: Mapping[str, int] = field(init=False)  # of the guides that questions name, in the order named
    conditions: Conditions = field(init=False)

    def __post_init__(self) -> None:
        self.say = saying(self.book)
        asked = tuple(every_question(self.book))
        self.numbers = {question.id: number for number, question in enumerate(asked, 1)}
        named = dict.fromkeys(question.how for question in asked if question.how in self.book.guides)
        self.guides = {str(guide): number for number, guide in enumerate(named, 1)}
        self.conditions = Conditions(self.book, self.say, self.numbers, self.units)


def every_question(book: Book) -> Iterator[Question]:
    """The questions that may be put, in the order of the conversation, those of an implement once."""
    for section in book.sections:
        yield from put_of(book, section)


def put_of(book: Book, section: Section) -> tuple[Question, ...]:
    """The questions of one section that may be put."""
    group = () if section.group is None else (*section.group.questions, section.group.closes)
    return tuple(question for question in (*section.questions, *group) if is_put(book, question))


def question_parts(book: Book, units: Units | None = None) -> tuple[Part, ...]:
    """The worksheet: questions, how to measure, the list of implements, words of the trade."""
    sheet = Worksheet(book, units)
    parts = [*_asking(sheet), Part("card-guides", tuple(_guides(sheet)))]
    listed = kinds_list(book, sheet.say, sheet.numbers, units)
    parts.append(Part("card-kinds", tuple(listed)))
    terms = terms_in(book, tuple(block for part in parts for block in part.document))
    if terms.items:
        parts.append(Part("card-words", (Heading(sheet.say("words")), terms)))
    return tuple(parts)


# ------------------------------------------------------------------------- asking


def _asking(sheet: Worksheet) -> Iterator[Part]:
    """The sections; the questions of an implement stand on pages of their own, to be copied."""
    name, blocks = "questions", list(_head(sheet))
    for section in sheet.book.sections:
        if section.group is not None:
            yield Part(name, tuple(blocks))
            yield Part("card-implement", tuple(_group(sheet, section, section.group)))
            name, blocks = "card-more", []
            continue
        questions = put_of(sheet.book, section)
        if questions:
            blocks += [Heading(section.title), Paragraph(section.intro)]
            blocks += [blank_question(sheet, question) for question in questions]
    yield Part(name, (*blocks, Paragraph(sheet.say("questions_foot")), made_by(sheet.book, sheet.say)))


def _head(sheet: Worksheet) -> Iterator[Block]:
    say = sheet.say
    yield Heading(say("questions_title"), 1)
    yield Paragraph(say("questions_head"))
    yield Paragraph(say("questions_unsure"))
    yield head(say, say("questions_paper"), sheet.units)
    yield FillIn(lines=(say("questions_name"), say("questions_day")))


def _group(sheet: Worksheet, section: Section, group: Group) -> Iterator[Block]:
    say = sheet.say
    yield Heading(section.title)
    yield Paragraph(section.intro)
    yield Paragraph(say("copy_page", most=group.most), "strong")
    yield Paragraph(say("implement_marked"))
    yield FillIn(ask=say("implement_number", title=group.title), blanks=(Blank(),))
    for question in put_of(sheet.book, section):
        yield blank_question(sheet, question)


def blank_question(sheet: Worksheet, question: Question) -> FillIn:
    """One question with room for its answer."""
    say = sheet.say
    lead = [
        sheet.conditions.only(question),
        say("several") if question.type == "several" else "",
        say("from_list") if from_kind(question) else "",
    ]
    notes = list(_instead(sheet, question))
    notes.append(say("why", why=in_short(question.why)))
    guide = sheet.guides.get(question.how or "")
    lines = []
    if guide is not None:
        lines.append(say("measured", title=sheet.book.guides[question.how or ""].title, guide=guide))
    return FillIn(
        str(sheet.numbers[question.id]), question.ask, question.id, " ".join(filter(None, lead)),
        _blanks(sheet, question), tuple(_ticks(sheet, question)), tuple(notes), tuple(lines),
    )  # fmt: skip


def _instead(sheet: Worksheet, question: Question) -> Iterator[str]:
    """The other words of a question, and when they hold."""
    for other in question.asks:
        when = sheet.conditions.words(other.when)
        if when:
            yield sheet.say("asked_else", when=when, ask=other.ask)


def _blanks(sheet: Worksheet, question: Question) -> tuple[Blank, ...]:
    if question.dimension is not None:
        own, dimension = question.bare_unit, question.dimension
        units = (own.get(each) or reader_unit(dimension, each) for each in wanted(sheet.units))
        return (Blank(unit=either(sheet.say, units)),)
    if from_kind(question):
        return (Blank(wide=True),)
    return (Blank(),) if question.type in ("count", "text") else ()


def _ticks(sheet: Worksheet, question: Question) -> Iterator[Tick]:
    """Choices, rough answers, and not sure; what depends on the implement stands in the list at the end."""
    for choice in question.choices:
        yield Tick(choice.label)
    if question.type == "size" and question.choose:
        yield Tick(sheet.book.messages["size_choose"])
    elif from_kind(question) and question.type not in FILLED:
        yield Tick(sheet.book.messages["options_none"])
    for band in question.bands:
        about = (roughly(band.value, question.dimension, units) for units in wanted(sheet.units))
        yield Tick(sheet.say("rough", about=either(sheet.say, about), label=band.label))
    unsure = not_sure_label(sheet.say, question, sheet.units)
    if unsure:
        yield Tick(unsure)


def not_sure_label(say: Say, question: Question, units: Units | None) -> str:
    """What stands behind the box for not sure: what happens then; empty where the question must be answered."""
    how = question.not_sure.how
    if how == "refused":
        return ""
    if how == "not_determined" and question.not_sure.say:
        return say("unsure_say", say=question.not_sure.say)
    planned = either(say, (planned_words(question, each) for each in wanted(units)))
    if how == "planned" and planned:
        return say("unsure_planned", what=say("quoted", what=planned) if question.choices else planned)
    if how == "left_out":
        return say("unsure_left_out")
    if question.type == "size":
        return say("unsure_size")
    return say("unsure_from_book") if how == "from_book" else say("unsure_open")


# ------------------------------------------------------------------------- guides


def _guides(sheet: Worksheet) -> Iterator[Block]:
    """How to measure, each guide once, with the questions that it is for."""
    say = sheet.say
    yield Heading(say("guides"))
    yield Paragraph(say("guides_head"))
    for id_, number in sheet.guides.items():
        guide = sheet.book.guides[id_]
        yield Heading(say("guide", number=number, title=guide.title), 3)
        asked = [str(sheet.numbers[q.id]) for q in every_question(sheet.book) if q.how == id_]
        yield Paragraph(say("guide_for", numbers=", ".join(asked)), "quiet")
        yield Steps(guide.steps, guide.drawing)
