"""What a conversation shows of the advice: each page is made by modules that are loaded when it is wanted first."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from firstfurrow.advice.profile import Profile
    from firstfurrow.asking.answers import Answers
    from firstfurrow.book.model import Book
    from firstfurrow.talk.walk_around import Reader

Width = Callable[[], int]


class Shown:
    """The pages of a conversation that looks for a tractor."""

    def __init__(self, book: Book, width: Width) -> None:
        self.book = book
        self.width = width
        self._latest: tuple[Answers, Profile] | None = None  # what came of the last answer: the next one begins there

    def profile(self, answers: Answers) -> str:
        """The profile so far, as a short page."""
        from firstfurrow.pages import short_page

        return short_page(self.book, answers, self.width())

    def moved(self, before: Answers, after: Answers) -> tuple[str, ...]:
        """One sentence for each requirement that the last answer moved."""
        from firstfurrow.advice.moved import moved
        from firstfurrow.pages import lean_profile

        latest = self._latest
        one = latest[1] if latest is not None and latest[0] == before else lean_profile(self.book, before)
        other = lean_profile(self.book, after)
        self._latest = (after, other)
        return moved(one, other)

    def compared(self, before: Answers, after: Answers, names: tuple[str, str]) -> str:
        """What differs between two plans."""
        from firstfurrow.pages import compared_page

        return compared_page(self.book, before, after, names, self.width())

    def sheet(self, answers: Answers) -> str:
        """The sheet to take to the yard."""
        from firstfurrow.pages import yard_page

        return yard_page(self.book, answers, self.width())

    def report(self, answers: Answers) -> str:
        """The whole report as an HTML page, the sheet first."""
        from firstfurrow.pages import html_report

        return html_report(self.book, answers)

    def steps(self, answers: Answers, word: str) -> tuple[str, tuple[str, ...]]:
        """The title of the requirement that a word names and its reasoning, a block of lines for each step."""
        from firstfurrow.pages import steps_of

        return steps_of(self.book, answers, word, self.width())

    def examples(self) -> tuple[tuple[str, str], ...]:
        """The recorded conversations: name and title."""
        from firstfurrow.talk.recordings import shipped

        return tuple((one.name, one.answers(self.book).name or one.name) for one in shipped())

    def example(self, name: str) -> Answers:
        """The answers of a recorded conversation."""
        from firstfurrow.talk.recordings import shipped

        return next(one for one in shipped() if one.name == name).answers(self.book)

    def tractor(self, text: str) -> TractorShown:
        """The pages where a tractor is there already."""
        return TractorShown(self.book, self.width, text)


class TractorShown(Shown):
    """The pages of a conversation about a tractor that is there; `text` is what is known of it, as an offer file."""

    def __init__(self, book: Book, width: Width, text: str = "") -> None:
        super().__init__(book, width)
        self.text = text

    def profile(self, answers: Answers) -> str:
        """Whether it runs each implement, as a page."""
        from firstfurrow.pages import owned_page

        return owned_page(self.book, answers, self.text, self.width())

    def report(self, answers: Answers) -> str:
        """The same as an HTML page."""
        from firstfurrow.pages import owned_report

        return owned_report(self.book, answers, self.text)

    def moved(self, before: Answers, after: Answers) -> tuple[str, ...]:
        """One sentence for each implement that the last answer moved; nothing while nothing is known of the tractor."""
        from firstfurrow.pages import runs_moved

        return runs_moved(self.book, before, after, self.text) if self.text else ()

    def wanted(self, answers: Answers) -> tuple[str, ...]:
        """The keys of an offer that would settle what is not known of it."""
        from firstfurrow.pages import wanted_keys

        return wanted_keys(self.book, answers, self.text)

    def boxes(self, answers: Answers) -> Reader:
        """Reads and writes offers in the units of the reader."""
        from firstfurrow.advice.offers.walk_around import OfferBoxes

        return OfferBoxes(self.book, answers.units)
