"""How hard the book is to read: the level of questions, reasons and page, and the sentences that are hardest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem
from firstfurrow.book.reading_level import counts, sentences_of, together, words_of
from firstfurrow.book.rules.texts import Text, of_questions, page

HARDEST = 5  # how many are named
SHORTEST = 8  # words; of fewer a grade says little


def level(files: Files) -> str:
    """One line: grade and ease of the questions with their answers, of the whys, and of the page."""
    asked = list(of_questions(files))
    parts = (
        ("questions", [t for t in asked if t.sort in ("ask", "label")]),
        ("whys", [t for t in asked if t.sort == "why"]),
        ("page", list(page(files))),
    )
    said = "; ".join(f"{name} {_measured(texts)}" for name, texts in parts if texts)
    return f"Reading level (Flesch-Kincaid grade, Flesch ease): {said}."


def hardest(files: Files) -> Iterator[Problem]:
    """The sentences with the highest grade, one a text, the hardest first."""
    texts = [*(t for t in of_questions(files) if t.sort != "other"), *page(files)]
    graded = sorted(((*_worst(text.text), text) for text in texts), key=lambda one: -one[0])
    for grade, sentence, text in graded[:HARDEST]:
        if sentence:
            yield text.problem(f'hard to read (grade {grade:.1f}): "{sentence}"')


def _worst(text: str) -> tuple[float, str]:
    long = [sentence for sentence in sentences_of(text) if len(words_of(sentence)) >= SHORTEST]
    return max(((counts(sentence).grade, sentence) for sentence in long), default=(float("-inf"), ""))


def _measured(texts: Iterable[Text]) -> str:
    found = together(text.text for text in texts)
    return f"{found.grade:.1f}, {found.ease:.0f}"
