"""A condition said in words: for a drawing of the questions, and for questions on paper."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from firstfurrow.book.model import Book, Condition, Leaf, Question
from firstfurrow.quantities import DIMENSIONS, format_number

# How a test is said. {question} is what `called` makes of the question that is read, {what} the answer it is held
# against; has.FEATURE is said of an implement. Another reader of these conditions gives templates of its own.
WORDS: Mapping[str, str] = {
    "is": '{question} is "{what}"',
    "in": "{question} is {what}",
    "includes": '"{what}" is among {question}',
    "at_least": "{question} is {what} or more",
    "below": "{question} is less than {what}",
    "not_sure": "{question} is left open",
    "not.is": '{question} is not "{what}"',
    "not.in": "{question} is neither of {what}",
    "not.includes": '"{what}" is not among {question}',
    "not.at_least": "{question} is less than {what}",
    "not.below": "{question} is {what} or more",
    "not.not_sure": "{question} is not left open",
    "any_item": "of one implement at least: {test}",
    "has.shaft": "the shaft turns it",
    "has.oil": "oil moves a part of it",
    "has.oil_options": "oil could move more on it",
    "has.three_point": "it hangs on the three arms",
    "has.drawbar": "it is pulled from the drawbar",
    "has.loader": "it hangs on the loader",
    "has.mid_mount": "it hangs under the middle",
    "has.tilts": "it can be tilted on the arms",
    "has.wheels": "it rolls on wheels of its own",
    "has.variants": "it is built in several ways",
    "has.sizes": "it is sold in several sizes",
    "has.width": "its size is a width",
    "has.load": "it carries a load",
    "has.depth": "it works at a depth that is asked for",
    "and": " and ",
    "or": " or ",
    "choices_or": " or ",
    "choice": '"{what}"',
    "not": "not so: {test}",
    "always": "always",
}  # fmt: skip


def in_words(
    book: Book,
    condition: Condition | None,
    *,
    called: Callable[[Question], str] = lambda question: question.id,
    words: Mapping[str, str] = WORDS,
    number: Callable[[float, str | None], str] | None = None,
) -> str:
    """A condition in words.

    Parameters
    ----------
    called
        How a question is called: its id where nothing else is given.
    words
        Templates by the names of `WORDS`.
    number
        How a number of a dimension is shown; in the working unit where nothing is given.

    >>> from firstfurrow.book.load import load
    >>> book = load()
    >>> in_words(book, book.question("slope_up").when)
    '"slopes, banks or a steep lane" is among land_shape'
    >>> in_words(book, book.question("stated_power").when)
    'when is "I own it already" and the shaft turns it'
    >>> in_words(book, None)
    'always'
    """
    if condition is None:
        return words["always"]
    return _Teller(book, called, words, number or _number).condition(condition)


def _number(value: float, dimension: str | None) -> str:
    unit = DIMENSIONS[dimension].working if dimension is not None else ""
    return f"{format_number(value, 3)} {unit}".strip()


class _Teller:
    """Says parts of conditions, one inside the other."""

    def __init__(
        self,
        book: Book,
        called: Callable[[Question], str],
        words: Mapping[str, str],
        number: Callable[[float, str | None], str],
    ) -> None:
        self.book = book
        self.called = called
        self.words = words
        self.number = number

    def condition(self, condition: Condition, *, inside: bool = False) -> str:
        """The whole of it; in brackets where it stands inside another and would be taken apart there."""
        turned = condition.op == "not"
        parts = [self._part(part, turned=turned) for part in condition.parts]
        text = self.words["or" if condition.op == "any" else "and"].join(parts)
        return f"({text})" if inside and len(parts) > 1 else text

    def _part(self, part: Condition | Leaf, *, turned: bool) -> str:
        if isinstance(part, Leaf):
            return self._leaf(part, turned=turned)
        text = self.condition(part, inside=True)
        return self.words["not"].format(test=text) if turned else text

    def _leaf(self, leaf: Leaf, *, turned: bool) -> str:
        question = self.book.question(leaf.subject)
        if question is None:
            return leaf.subject
        if leaf.test == "not_sure" and leaf.value is False:
            turned = not turned
        # Of a list of implements, none may have what is turned round: only the whole sentence can be.
        own = turned and leaf.scope != "any_item" and leaf.test != "has"
        if leaf.test == "has":
            text = self.words[f"has.{leaf.value}"]
        else:
            template = self.words[f"not.{leaf.test}" if own else leaf.test]
            text = template.format(question=self.called(question), what=self._what(question, leaf))
        if leaf.scope == "any_item":
            text = self.words["any_item"].format(test=text)
        return self.words["not"].format(test=text) if turned and not own else text

    def _what(self, question: Question, leaf: Leaf) -> str:
        if leaf.test == "in":
            each = (self.words["choice"].format(what=self._choice(question, value)) for value in leaf.value)
            return self.words["choices_or"].join(each)
        if leaf.test in ("at_least", "below"):
            return self.number(float(leaf.value), question.dimension)
        if leaf.test == "not_sure":
            return ""
        return self._choice(question, leaf.value)

    def _choice(self, question: Question, value: Any) -> str:
        labels = {choice.id: choice.label for choice in question.choices}
        if value in labels:
            return labels[value]
        return self.book.kinds[value].name if question.type == "kind" and value in self.book.kinds else str(value)
