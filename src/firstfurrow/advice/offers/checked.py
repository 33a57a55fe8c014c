"""Offers held against a profile: all verdicts, whether each implement runs, traps and questions; and the order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from firstfurrow.advice.offers.asked import COMFORT, Asked, asked
from firstfurrow.advice.offers.items import ItemVerdict, item_verdicts
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.seller import Question, questions
from firstfurrow.advice.offers.traps import Trap, traps
from firstfurrow.advice.offers.verdicts import Judge, Judged
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book


@dataclass(frozen=True)
class CheckedOffer:
    """One offer with everything that was found; what only a page needs is worked out when it is looked at."""

    book: Book
    asked: Asked
    judged: Judged

    @property
    def offer(self) -> Offer:
        """The offer itself."""
        return self.judged.offer

    @cached_property
    def items(self) -> tuple[ItemVerdict, ...]:
        """Whether each implement runs."""
        return item_verdicts(self.book, self.asked, self.judged)

    @cached_property
    def traps(self) -> tuple[Trap, ...]:
        """What a brochure may have led astray."""
        return traps(self.judged)

    @cached_property
    def questions(self) -> tuple[Question, ...]:
        """What to ask before signing."""
        return questions(self.book, self.judged)

    def ids(self, status: str) -> tuple[str, ...]:
        """The requirements with that verdict; comfort is no need."""
        return tuple(id_ for id_, v in self.judged.verdicts.items() if v.status == status and id_ != COMFORT)

    @property
    def order(self) -> tuple[int, int, int, int]:
        """Sorts the best first: fewest implements that do not run, then fewest short, then fewest unknown."""
        runs = [item.runs for item in self.items]
        return runs.count("does_not"), len(self.ids("short")), runs.count("runs_if"), len(self.ids("unknown"))


@dataclass(frozen=True, slots=True)
class Checked:
    """All offers of one run, as they were given."""

    profile: Profile
    offers: tuple[CheckedOffer, ...]

    @property
    def best_first(self) -> tuple[CheckedOffer, ...]:
        """The offers with the best first; equal ones as they were given."""
        return tuple(sorted(self.offers, key=lambda one: one.order))

    @property
    def refused(self) -> bool:
        """True when the profile refuses work whatever the tractor."""
        return bool(self.profile.refusals)


def check(profile: Profile, offers: Iterable[Offer]) -> Checked:
    """Every offer held against the profile."""
    ready = asked(profile)
    judge = Judge(ready)
    return Checked(profile, tuple(CheckedOffer(profile.book, ready, judge.judge(offer)) for offer in offers))
