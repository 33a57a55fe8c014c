"""One thing said otherwise than in an answers file: another answer to one question, or one implement less."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.kinds import by_name
from firstfurrow.asking.refs import Ref, ref_of
from firstfurrow.asking.said import answer_words
from firstfurrow.asking.setting import UNSURE, SettingError
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Question

WITHOUT = "without"


@dataclass(frozen=True, slots=True)
class Tried:
    """What comes of it: the answers after it, and the question with both answers in words."""

    answers: Answers
    ask: str
    before: str
    after: str


def tried(book: Book, answers: Answers, text: str) -> Tried:
    """The answers with one thing changed: "soil=clay", "i2.size=6 ft", "without=i2" or "without=finish mower".

    Raises
    ------
    SettingError
        Where the question is not asked in this plan, the words are no answer to it, or the answer stands already.
    """
    key, mark, typed = (part.strip() for part in text.partition("="))
    if not mark or not typed:
        raise SettingError(wording(book.messages, "tried_form", text=text))
    interview = Interview.of(book, answers)
    if key.casefold() == WITHOUT:
        return _without(book, interview, typed)
    ref = ref_of(key)
    refs = {step.ref.key: step.ref for step in interview.said()} | {r.key: r for r in interview.asked()}
    if ref.key not in refs:
        near = get_close_matches(key, refs, n=1)
        hint = wording(book.messages, "set_near", near=near[0]) if near else ""
        raise SettingError(wording(book.messages, "tried_not_asked", name=key, near=hint).strip())
    question = interview.question(ref)
    given, before = _read(book, interview, question, ref, typed), interview.given(ref) or NOT_SURE
    if given.value == before.value and given.unsure == before.unsure:
        raise SettingError(wording(book.messages, "tried_the_same", name=key, text=typed))
    words = (answer_words(book.messages, question, one, answers.units) for one in (before, given))
    return Tried(interview.change(ref, given).answers, question.ask, *words)


def _read(book: Book, interview: Interview, question: Question, ref: Ref, typed: str) -> Given:
    if typed.casefold() in UNSURE:
        return NOT_SURE
    found = understand(question, typed, interview.answers.units, interview.kind(ref.item), book)
    if isinstance(found, Problem):
        raise SettingError(wording(book.messages, "set_problem", name=ref.key, problem=found.sentence))
    return found.given


def _without(book: Book, interview: Interview, word: str) -> Tried:
    items = {item.id: interview.kind(item.id) for item in interview.answers.items}
    found = [id_ for id_, kind in items.items() if word.casefold() == id_ or (kind and by_name(kind, word))]
    if len(found) != 1:
        known = ", ".join(f"{id_} ({kind.name if kind else '?'})" for id_, kind in items.items())
        raise SettingError(wording(book.messages, "tried_which", text=word, known=known or "-"))
    kind = items[found[0]]
    assert kind is not None
    say = book.messages
    return Tried(
        interview.remove_item(found[0]).answers, wording(say, "tried_without", name=kind.name),
        wording(say, "tried_with_it"), wording(say, "tried_without_it"),
    )  # fmt: skip
