"""What is said outside a conversation, as "soil=clay" or "finish mower": read as a typed line is, same sentences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches

from firstfurrow.asking.answers import NOT_SURE, Answers, Given
from firstfurrow.asking.kinds import by_name, named, search
from firstfurrow.asking.typed import Problem, understand
from firstfurrow.asking.wording import wording
from firstfurrow.book.model import Book, Kind, Leaf, Question

UNSURE = frozenset({"unsure", "not sure"})


class SettingError(ValueError):
    """An answer that cannot be taken; the message is one sentence."""


def outer_questions(book: Book) -> dict[str, Question]:
    """The questions that are asked once, by id: all but those of an implement."""
    return {question.id: question for section in book.sections for question in section.questions}


def with_answers(book: Book, answers: Answers, said: Iterable[str]) -> Answers:
    """The answers with these taken over, each "QUESTION=ANSWER" in the words of a typed line.

    Raises
    ------
    SettingError
        Where there is no such question, or the words are no answer to it.
    """
    given = dict(answers.given)
    for one in said:
        name, mark, text = one.partition("=")
        if not mark or not text.strip():
            raise SettingError(wording(book.messages, "set_form", text=one))
        question = _question(book, name.strip())
        given = _opened(given, question) | {question.id: _read(book, answers, question, text.strip())}
    return replace(answers, given=given)


def _opened(given: Mapping[str, Given], question: Question) -> dict[str, Given]:
    """The answers with those changed that would keep this question from being asked: who says how steep has slopes."""
    found = dict(given)
    for part in question.when.parts if question.when is not None and question.when.op == "all" else ():
        if not isinstance(part, Leaf) or part.scope != "answer":
            continue
        now = found.get(part.subject)
        held = () if now is None or now.unsure else now.value
        if part.test == "includes" and part.value not in held:
            values = (*(held if isinstance(held, tuple) else ()), part.value)
            found[part.subject] = Given(values, ", ".join(values))
        elif part.test in ("is", "in"):
            allowed = part.value if isinstance(part.value, tuple) else (part.value,)
            if held not in allowed:
                found[part.subject] = Given(allowed[0], allowed[0])
    return found


def _question(book: Book, name: str) -> Question:
    questions = outer_questions(book)
    if name not in questions:
        near = get_close_matches(name, questions, n=1)
        hint = wording(book.messages, "set_near", near=near[0]) if near else ""
        raise SettingError(wording(book.messages, "set_unknown", name=name, near=hint).strip())
    return questions[name]


def _read(book: Book, answers: Answers, question: Question, text: str) -> Given:
    if text.casefold() in UNSURE:
        return NOT_SURE
    found = understand(question, text, answers.units, None, book)
    if isinstance(found, Problem):
        raise SettingError(wording(book.messages, "set_problem", name=question.id, problem=found.sentence))
    return found.given


def kinds_named(book: Book, words: Sequence[str]) -> tuple[Kind, ...]:
    """The kinds that any of the words may mean, in book order: a family, a name, or a word of a name.

    Raises
    ------
    SettingError
        Where no implement goes by one of them.
    """
    found: set[str] = set()
    for word in words:
        family = next((f for f in book.families if word.casefold() in (f.id, f.title.casefold())), None)
        mine = family.kinds if family is not None else named(book, word)
        mine = mine or tuple(kind for kind in search(book, word) if by_name(kind, word)) or search(book, word)
        if not mine:
            raise SettingError(wording(book.messages, "set_no_kind", text=word))
        found |= {kind.kind for kind in mine}
    return tuple(kind for kind in book.kinds.values() if kind.kind in found)
