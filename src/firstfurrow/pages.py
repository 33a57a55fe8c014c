"""From answers to the page that is shown: the one place where advice and report meet. No input or output."""

from __future__ import annotations

from typing import TYPE_CHECKING

from firstfurrow.advice.moved import moved
from firstfurrow.advice.profile import Profile, advise
from firstfurrow.asking.answers import Answers
from firstfurrow.asking.complete import complete
from firstfurrow.book.model import Book

if TYPE_CHECKING:
    from firstfurrow.report.page import Said


def profile_of(book: Book, answers: Answers) -> Profile:
    """The profile of an answers file: what was never asked counts as not sure."""
    return advise(book, complete(book, answers))


def said_of(book: Book, answers: Answers) -> Said:
    """What stands out in the answers themselves: unusual ones that were kept, and contradictions that stand."""
    from firstfurrow.report.page import Said

    return Said()


def short_page(book: Book, answers: Answers, width: int) -> str:
    """The profile of the answers so far, as a short page of text, with what came of running the road again."""
    from firstfurrow.report.document import document  # rich is loaded when a page is wanted, not before
    from firstfurrow.report.text import render

    return render(document(advise(book, answers), full=False, said=said_of(book, answers)), width)


def what_moved(book: Book, before: Answers, after: Answers) -> tuple[str, ...]:
    """One sentence for each requirement that the last answer moved."""
    return moved(advise(book, before), advise(book, after))
