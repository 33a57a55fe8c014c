"""How hard the book is to read: the level of questions, reasons and page, and the sentences that are hardest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from firstfurrow.book.files import Files
from firstfurrow.book.problems import Problem, Said
from firstfurrow.book.reading_level import counts, sentences_of, together, words_of
from firstfurrow.book.rules.texts import Text, conversation, of_kinds, of_questions, page

HARDEST = 5  # how many are named
SHORTEST = 8  # words; of fewer a grade says little
LONGEST = 30  # words in a sentence; ours


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
            what = f'hard to read (grade {grade:.1f}): "{sentence}"'
            yield text.problem(Said(what, "Long words and long sentences lose readers.", "Make two sentences of it."))


def too_long(files: Files) -> Iterator[Problem]:
    """Every sentence with more words than somebody takes in at once."""
    for text in (*conversation(files), *page(files), *of_kinds(files)):
        for sentence in sentences_of(text.text):
            words = len(words_of(sentence))
            if words > LONGEST:
                what = f'this sentence has {words} words: "{" ".join(sentence.split()[:8])} ..."'
                why = f"More than {LONGEST} words are hard to keep in mind, most of all when it is read aloud."
                yield text.problem(Said(what, why, "Make two sentences of it."))


def _worst(text: str) -> tuple[float, str]:
    long = [sentence for sentence in sentences_of(text) if len(words_of(sentence)) >= SHORTEST]
    return max(((counts(sentence).grade, sentence) for sentence in long), default=(float("-inf"), ""))


def _measured(texts: Iterable[Text]) -> str:
    found = together(text.text for text in texts)
    return f"{found.grade:.1f}, {found.ease:.0f}"
