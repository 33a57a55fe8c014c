"""A question on the screen, and answers in the reader's words: labels for choices, his own text for numbers."""

from __future__ import annotations

from firstfurrow.asking.answers import Given, Units
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref, ref_of
from firstfurrow.asking.resolve import roughly
from firstfurrow.asking.said import answer_words, planned_words
from firstfurrow.asking.typed import ROUGH
from firstfurrow.book.model import Book, Question
from firstfurrow.talk.screen import Screen

FROM_BOOK = {"variant": "unsure_from_book_variant", "size": "unsure_from_book_size"}
MOST_TITLES = 12  # a longer list says less than "nearly every one"


def show_question(screen: Screen, question: Question, units: Units) -> None:
    """The question with its numbered choices or lettered suggestions."""
    screen.para(question.ask, strong=True)
    for number, choice in enumerate(question.choices, 1):
        screen.entry(str(number), choice.label)
    if question.type == "several":
        screen.message("several_hint")
    for number, band in enumerate(question.bands, 1):
        screen.entry(f"{ROUGH}{number}", f"{band.label}: {number_text(question, band.value, units)}")


def show_ways(screen: Screen, question: Question) -> None:
    """The ways on without knowing: find out, a rough answer, leave it open."""
    screen.message("unsure_ways")
    first, last = f"{ROUGH}1", f"{ROUGH}{len(question.bands)}"
    ways = [screen.text("unsure_way_how")] if question.how is not None else []
    ways += [screen.text("unsure_way_rough", first=first, last=last), screen.text("unsure_way_open")]
    for way in ways:
        screen.entry("-", way)


def show_why(screen: Screen, book: Book, question: Question) -> None:
    """What the answer is for, and what it moves."""
    screen.para(question.why)
    titles = [book.requirements[r].title for r in question.moves if r in book.requirements]
    if len(titles) > MOST_TITLES:
        screen.message("why_moves_most")
    elif titles:
        screen.message("why_moves", what="; ".join(titles))
    else:
        screen.message("why_moves_nothing")


def show_how(screen: Screen, book: Book, question: Question) -> None:
    """The measuring guide of the question."""
    guide = book.guides.get(question.how) if question.how is not None else None
    if guide is None:
        screen.message("how_none")
        return
    screen.para(guide.title)
    if guide.drawing and all(len(line) <= screen.width for line in guide.drawing):
        screen.raw("\n".join(guide.drawing))
    for number, step in enumerate(guide.steps, 1):
        screen.entry(str(number), step)


def show_words(screen: Screen, book: Book, word: str) -> None:
    """The meaning of a word of the trade, or all words that there are."""
    wanted = word.casefold().strip()
    if not wanted:
        screen.message("words_all", words=", ".join(book.glossary))
        return
    found = {w: m for w, m in book.glossary.items() if w.casefold() == wanted}
    found = found or {w: m for w, m in book.glossary.items() if wanted in w.casefold()}
    if not found:
        screen.message("words_unknown", word=word)
    for name, meaning in found.items():
        screen.para(f"{name}: {meaning}")


def number_text(question: Question, value: float, units: Units) -> str:
    """A number of this question in the reader's units."""
    return roughly(value, question.dimension, units)


def answer_text(screen: Screen, question: Question, given: Given, units: Units) -> str:
    """An answer as the reader would say it."""
    return answer_words(screen.messages, question, given, units)


def unsure_text(screen: Screen, question: Question, units: Units) -> str:
    """What happens now that the reader is not sure."""
    if question.not_sure.say:
        return question.not_sure.say
    how, planned = question.not_sure.how, planned_words(question, units)
    message = f"unsure_{how}" if planned or how != "planned" else "unsure_open"
    if how == "from_book" and question.type in FROM_BOOK:
        message = FROM_BOOK[question.type]
        planned = question.choices[0].label if question.choices else planned
    return screen.text(message, what=planned)


def short_name(interview: Interview, key: str) -> str:
    """A few words for a place: the question's id as words, and the implement where there is one."""
    ref: Ref = ref_of(key)
    name = ref.question.replace("_", " ")
    if ref.item is None:
        return name
    kind = interview.kind(ref.item)
    return f"{name} ({kind.name if kind is not None else ref.item})"
