"""Answers in the reader's words: labels for choices, his own text for numbers."""

from __future__ import annotations

from firstfurrow.asking.answers import Given
from firstfurrow.book.model import Question


def in_words(question: Question, given: Given) -> str:
    """An answer that is sure, as the reader would say it; `question` carries its choices.

    >>> from firstfurrow.book.model import Choice, NotSure
    >>> asked = Question("when", "choice", "When?", "So.", NotSure("planned"), choices=(Choice("now", "right now"),))
    >>> in_words(asked, Given("now", "now")), in_words(asked, Given(2.5, "2.5 ha"))
    ('right now', '2.5 ha')
    """
    labels = {choice.id: choice.label for choice in question.choices}
    if isinstance(given.value, tuple):
        return "; ".join(labels.get(each, str(each)) for each in given.value)
    return labels.get(given.value, given.text) if isinstance(given.value, str) else given.text
