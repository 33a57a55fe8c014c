"""Words of a study: names of items, answers and requirements, and differences as sentences. All text is in the book."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from firstfurrow.advice.facts import Fact
from firstfurrow.advice.plan import Plan
from firstfurrow.advice.say import job_label, label
from firstfurrow.advice.study.model import Difference, Move
from firstfurrow.asking.answers import Units
from firstfurrow.book.model import Book
from firstfurrow.quantities import DIMENSIONS, show

MOST_MOVES = 4  # how many differences one sentence names
MOST_WITHOUT = 6  # the same where a whole implement is left out

TOW = "tow"


class Words:
    """Says things in the words of the book and in the units of the reader."""

    def __init__(self, book: Book, units: Units) -> None:
        self.book = book
        self.units = units

    def say(self, id_: str, **slots: Any) -> str:
        """A sentence of the book's reasons."""
        return self.book.messages[f"reason.{id_}"].format(**slots)

    def may_say(self, id_: str) -> str | None:
        """A sentence that a book may lack."""
        return self.book.messages.get(f"reason.{id_}")

    def join(self, parts: Sequence[str]) -> str:
        """Several parts in one sentence."""
        return "; ".join(parts)

    def listed(self, parts: Sequence[str]) -> str:
        """a, b and c."""
        return self.say("and").join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)

    # -- names

    def brief(self, requirement: str) -> str:
        """A short name of a requirement; its title where the book has none."""
        return self.may_say(f"brief.{requirement}") or self.book.requirements[requirement].title

    def item(self, plan: Plan, id_: str | None) -> str:
        """An item by its name."""
        if id_ == TOW:
            return self.say("tow_name")
        return next((item.name for item in plan.items if item.id == id_), "")

    def about(self, question: str, item: str | None, plan: Plan) -> str:
        """What a question is about, in a few words."""
        words = self.may_say(f"about.{question}")
        if words is None:
            for job in plan.area_jobs:
                what = question.removeprefix(f"{job}_")
                if what != question and self.may_say(f"job_{what}") is not None:
                    words = self.say(f"job_{what}", job=self.may_say(f"job.{job}") or job_label(self.book, job))
        if words is None:
            found = self.book.question(question)
            words = found.ask if found is not None else question
        name = self.item(plan, item)
        return self.say("about_item", item=name, what=words) if name else words

    def choice(self, question: str, value: str) -> str:
        """The label of a choice."""
        return label(self.book, question, value)

    def quantity(self, fact: Fact, value: float) -> str:
        """A value of a fact as this reader reads it."""
        return show(value, DIMENSIONS[fact.dimension].working, self.units, dimension=fact.dimension)

    def guide(self, id_: str | None) -> str | None:
        """The title of a measuring guide."""
        return None if id_ is None or id_ not in self.book.guides else self.book.guides[id_].title

    # -- differences

    def moves(self, difference: Difference, *, most: int = MOST_MOVES) -> str:
        """What moves, from and to, in one sentence without a full stop."""
        leading = difference.leading
        parts = [self.move(move) for move in leading[:most]]
        if len(leading) > most:
            parts.append(self.say("moves_more", count=len(leading) - most))
        if difference.size_class is not None:
            parts.append(self.size_class(difference.size_class))
        parts += [self.say("crossing_goes", title=title) for title in difference.goes]
        parts += [self.say("crossing_comes", title=title) for title in difference.comes]
        return self.join(parts)

    def move(self, move: Move) -> str:
        """One requirement, from and to."""
        what = self.brief(move.requirement)
        if move.before is None:
            return self.say("move_comes", what=what, after=move.after)
        if move.after is None:
            return self.say("move_goes", what=what)
        return self.say("move_changes", what=what, before=move.before, after=move.after)

    def size_class(self, pair: tuple[str, str]) -> str:
        """The size class, from and to."""
        return self.say("size_class_changes", before=pair[0], after=pair[1])
