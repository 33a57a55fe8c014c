"""The class pack: a card for each recorded buyer, pairs that differ in one answer, notes, and the key at the end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.doubt import doubts
from firstfurrow.advice.study.felt import scale_of
from firstfurrow.advice.study.words import Words
from firstfurrow.asking.answers import Answers
from firstfurrow.asking.said import Line, said
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Blank, Block, Bullets, FillIn, Heading, Paragraph, Part, Table
from firstfurrow.report.sheets.deciding import asked_for, entries
from firstfurrow.report.sheets.pairs import Apart, Run, apart
from firstfurrow.report.sheets.wording import Say, because, careful, made_by, saying

FIRST = 5  # entries of what decides, in the key
MEASURED = 3  # things to measure first, in the key
LINES = 2  # to write on, for each task
TASKS = ("decides", "tool", "measure", "otherwise")


@dataclass(frozen=True, slots=True)
class Card:
    """One recorded buyer: the name of the recording, the answers, and a sentence about him where there is one."""

    name: str
    answers: Answers
    buyer: str = ""


def class_parts(book: Book, cards: Sequence[Card], run: Run) -> tuple[Part, ...]:
    """All of it, in the order in which it is handed out; `run` works out the profile of answers."""
    say = saying(book)
    by_name = {card.name: card for card in cards}
    pairs = [
        (pair.id, None if pair.recording not in by_name else apart(book, by_name[pair.recording].answers, pair))
        for pair in book.teaching.pairs
    ]
    known = tuple(one for _, one in pairs if one is not None)
    broken = tuple(id_ for id_, one in pairs if one is None)
    names = {card.name: _title(say, number, card) for number, card in enumerate(cards, 1)}
    parts = [Part("class", tuple(_head(book, say, cards, known, broken)))]
    parts += [Part(f"card-{card.name}", tuple(_card(book, say, card, names[card.name]))) for card in cards]
    if known:
        parts.append(Part("card-pairs", tuple(_pair_cards(book, say, known, names))))
    if book.teaching.notes:
        parts.append(Part("card-room", tuple(_room(book, say))))
    profiles = {card.name: run(card.answers) for card in cards}
    parts.append(Part("key", tuple(_key(say, names, profiles))))
    if known:
        parts.append(Part("key-pairs", tuple(_pair_key(book, say, known, profiles, run))))
    return tuple(parts)


def _title(say: Say, number: int, card: Card) -> str:
    return say("card", number=number, name=card.answers.name or card.name)


def _head(
    book: Book, say: Say, cards: Sequence[Card], pairs: Sequence[Apart], broken: Sequence[str]
) -> Iterator[Block]:
    yield Heading(say("class_title"), 1)
    yield Paragraph(say("class_invented"), "caution")
    yield Paragraph(say("class_head"))
    yield Bullets((
        say("class_cards", count=len(cards)), say("class_pairs", count=len(pairs)), say("class_room"), say("class_key"),
    ))  # fmt: skip
    yield Paragraph(say("class_guess"))
    if broken:
        yield Paragraph(say("pair_broken", names=", ".join(broken)), "caution")
    yield Paragraph(book.messages["report.not_covered"], "caution")
    yield made_by(book, say)


# ------------------------------------------------------------------------- cards


def _card(book: Book, say: Say, card: Card, title: str) -> Iterator[Block]:
    yield Heading(title)
    yield from (Paragraph(text) for text in (card.buyer, *card.answers.notes) if text)
    headers = (say("card_question"), say("card_answer"))
    closes = {section.group.closes.id for section in book.sections if section.group is not None}
    lines = tuple(line for line in said(book, card.answers) if line.key not in closes)
    yield Table(headers, tuple((_asked(say, line), line.answer) for line in lines))
    yield Heading(say("tasks"), 3)
    for number, task in enumerate(TASKS, 1):
        yield FillIn(str(number), say(f"task.{task}"), lines=("",) * LINES)


def _asked(say: Say, line: Line) -> str:
    return line.ask if line.item is None else say("asked_of", item=line.item, ask=line.ask)


def _pair_cards(book: Book, say: Say, pairs: Sequence[Apart], names: Mapping[str, str]) -> Iterator[Block]:
    yield Heading(say("pairs"))
    yield Paragraph(say("pairs_head"))
    for number, one in enumerate(pairs, 1):
        looked = tuple(Blank(say("pair_look", title=book.requirements[id_].title)) for id_ in one.pair.look_at)
        asked = say("asked_of", item=one.item, ask=one.ask) if one.item else one.ask
        plan = say("pair_plan", plan=names[one.pair.recording], ask=asked, one=one.one, other=one.other)
        yield FillIn(str(number), one.pair.title, lead=plan, blanks=looked, lines=(say("pair_why"),))


def _room(book: Book, say: Say) -> Iterator[Block]:
    yield Heading(say("room"))
    yield Paragraph(say("room_head"))
    headers = (say("card_question"), say("room_wrong"), say("room_because"), say("room_ask"))
    rows = []
    for note in book.teaching.notes.values():
        question = book.question(note.question)
        rows.append((note.question if question is None else question.ask, note.wrong, note.because, note.room))
    yield Table(headers, tuple(rows))


# ------------------------------------------------------------------------- the key


def _key(say: Say, names: Mapping[str, str], profiles: Mapping[str, Profile]) -> Iterator[Block]:
    yield Heading(say("key"))
    yield Paragraph(say("key_head"))
    for name, profile in profiles.items():
        yield from _card_key(say, names[name], profile)


def _card_key(say: Say, title: str, profile: Profile) -> Iterator[Block]:
    """What decides, the main requirements, and what is worth measuring first."""
    yield Heading(title, 3)
    headers = (say("key_decides"), say("key_need"), say("key_because"))
    first = entries(profile)[:FIRST]
    if first:
        yield Table(headers, tuple((entry.title, entry.shown, entry.because) for entry in first))
    named = {entry.name for entry in first}
    main = [
        (outcome.requirement.title, asked_for(profile, say, outcome), because(outcome.widest))
        for outcome in profile.outcomes.values()
        if outcome.widest is not None and outcome.requirement.class_column and outcome.requirement.id not in named
    ]
    if main:
        yield Table((say("key_main"), *headers[1:]), tuple(main))
    yield from careful(say, (
        say("key_refused", title=refusal.title, reason=refusal.reason, caution=refusal.caution)
        for refusal in profile.refusals
    ))  # fmt: skip
    doubtful = doubts(profile, scale_of(profile.book), Words(profile.book, profile.units)).ranked[:MEASURED]
    if doubtful:
        yield Paragraph(say("key_measure", listed="; ".join(doubt.what for doubt in doubtful)))


def _pair_key(
    book: Book, say: Say, pairs: Sequence[Apart], profiles: Mapping[str, Profile], run: Run
) -> Iterator[Block]:
    yield Heading(say("key_pairs"))
    for number, one in enumerate(pairs, 1):
        before, after = profiles[one.pair.recording], run(one.after)
        yield Heading(say("key_pair", number=number, title=one.pair.title), 3)
        rows = tuple(
            (book.requirements[id_].title, *(asked_for(p, say, p.outcomes[id_]) for p in (before, after)))
            for id_ in one.pair.look_at
        )
        yield Table((say("pair_looked"), say("pair_before", answer=one.one), say("pair_after", answer=one.other)), rows)
        yield Paragraph(one.pair.say)
