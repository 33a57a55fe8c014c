"""When a question is asked, in words for paper: the condition of the book, with the numbers of the questions."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from firstfurrow.asking.resolve import roughly
from firstfurrow.asking.wording import listed
from firstfurrow.book.conditions import Held, passes
from firstfurrow.book.model import Book, Condition, Kind, Leaf, Question
from firstfurrow.quantities import Units
from firstfurrow.report.sheets.wording import Say, either, wanted

_BEHIND = re.compile(r"\s*[:(].*")  # of a label: what comes behind its first words


class Conditions:
    """Says conditions; `numbers` are those that the questions have on the sheet."""

    def __init__(self, book: Book, say: Say, numbers: Mapping[str, int], units: Units | None) -> None:
        self.book = book
        self.say = say
        self.numbers = numbers
        self.units = units

    def only(self, question: Question) -> str:
        """When the question is to be answered; empty where it is for everybody."""
        words = "" if question.when is None else self.words(question.when)
        return self.say("only", what=words) if words else ""

    def words(self, part: Condition | Leaf) -> str:
        """The condition, to stand behind "if"."""
        if isinstance(part, Leaf):
            return self._leaf(part)
        open_ = [each for each in part.parts if _holds(each, lambda leaf: settled(self.book, leaf)) is None]
        if part.op == "not":
            return listed(map(self._not, open_), self.say("and"))
        parts = [self.words(each) for each in open_]
        if part.op == "any" and len(parts) > 1:
            return self.say("any", what=listed(parts, self.say("or")))
        return listed(parts, self.say("and"))

    def _not(self, part: Condition | Leaf) -> str:
        if isinstance(part, Leaf) and part.test == "not_sure":
            return self._sure(part, unsure=not part.value)
        return self.say("not_so", what=self.words(part))

    def _leaf(self, leaf: Leaf) -> str:
        if leaf.test == "not_sure":
            return self._sure(leaf, unsure=bool(leaf.value))
        if leaf.test != "has":
            return self._answered(leaf)
        words = self.say(f"has.{leaf.value}")
        return self.say("any_item", what=words) if leaf.scope == "any_item" else self.say("this", what=words)

    def _sure(self, leaf: Leaf, *, unsure: bool) -> str:
        number = self.numbers[leaf.subject]
        return self.say("at_unsure", number=number) if unsure else self.say("at_sure", number=number)

    def _answered(self, leaf: Leaf) -> str:
        question = self.book.question(leaf.subject)
        assert question is not None
        slots = {"number": self.numbers[leaf.subject], "what": self._value(question, leaf)}
        if leaf.test == "includes":
            words = self.say("at_includes", **slots)
        elif leaf.test == "at_least":
            words = self.say("at_least", **slots)
        elif leaf.test == "below":
            words = self.say("at_below", **slots)
        else:
            words = self.say("at_is", **slots)
        # On "not sure" a condition sees what is planned then.
        planned = question.not_sure.planning
        also = planned is not None and passes(leaf, Held(planned, True))
        return self.say("or_unsure", what=words) if also else words

    def _value(self, question: Question, leaf: Leaf) -> str:
        if leaf.test in ("at_least", "below"):
            shown = (roughly(leaf.value, question.dimension, units) for units in wanted(self.units))
            return either(self.say, shown)
        labels = {choice.id: brief(choice.label) for choice in question.choices}
        values = leaf.value if isinstance(leaf.value, tuple) else (leaf.value,)
        quoted = (self.say("quoted", what=labels.get(value, value)) for value in values)
        return either(self.say, quoted)


def brief(label: str) -> str:
    """The first words of a label, enough to find it again.

    >>> brief("cut rough grass, weeds and brush (rough mowing)"), brief("sand: gritty, falls apart")
    ('cut rough grass, weeds and brush', 'sand')
    """
    return _BEHIND.sub("", label) or label


def reads_kind(condition: Condition | Leaf | None) -> bool:
    """Whether the condition asks for something that the sort of implement has."""
    if isinstance(condition, Leaf):
        return condition.scope == "item" and condition.test == "has"
    return condition is not None and any(map(reads_kind, condition.parts))


def may_hold(condition: Condition | None, kind: Kind) -> bool:
    """Whether the condition can hold for this sort of implement, whatever else was answered."""
    return _holds(condition, lambda leaf: leaf.value in kind.features if reads_kind(leaf) else None) is not False


def is_put(book: Book, question: Question) -> bool:
    """Whether the question is ever asked: not one that a local edition takes out, nor what only that one opens."""
    return question.id not in book.retired and _holds(question.when, lambda leaf: settled(book, leaf)) is not False


def settled(book: Book, leaf: Leaf) -> bool | None:
    """What a test on a question comes to that nobody is asked any more, which counts as not sure; None for others."""
    if leaf.test == "has" or leaf.subject not in book.retired:
        return None
    question = book.question(leaf.subject)
    return question is not None and passes(leaf, Held(question.not_sure.planning, True))


def _holds(condition: Condition | Leaf | None, known: Callable[[Leaf], bool | None]) -> bool | None:
    """True or False where the known tests settle it, None where others do."""
    if condition is None:
        return True
    if isinstance(condition, Leaf):
        return known(condition)
    found = [_holds(part, known) for part in condition.parts]
    if condition.op == "not":
        found = [None if one is None else not one for one in found]
    decisive = condition.op == "any"  # one such part settles it
    if decisive in found:
        return decisive
    return None if None in found else not decisive
