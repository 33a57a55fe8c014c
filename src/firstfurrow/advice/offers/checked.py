"""Offers held against a profile: all verdicts, whether each implement runs, traps and questions; and the order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from firstfurrow.advice.offers.asked import COMFORT, Asked, asked
from firstfurrow.advice.offers.items import ItemVerdict, Runs, item_verdicts
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.seller import Question, questions
from firstfurrow.advice.offers.traps import Trap, traps
from firstfurrow.advice.offers.verdicts import Judge, Judged
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book

WORTH: Mapping[Runs, float] = {"runs": 1.0, "runs_if": 0.75, "unknown": 0.5, "does_not": 0.0}
KEPT = 500  # offers of which everything that was found is kept; of a longer list, only how each one stands


class Standing(NamedTuple):
    """How one offer stands, in numbers."""

    items: int
    runs: int
    runs_if: int
    does_not: int
    short: int
    unknown: int
    worth: float  # of what runs, may run or can be made to, by `WORTH`; a wish is half of a must


@dataclass(frozen=True)
class CheckedOffer:
    """One offer with everything that was found, worked out when it is looked at."""

    judge: Judge
    offer: Offer
    keep: bool = True  # False: one of so many that only how it stands is kept

    @property
    def book(self) -> Book:
        """The book of the profile."""
        return self.judge.book

    @property
    def asked(self) -> Asked:
        """What the profile asks."""
        return self.judge.asked

    @cached_property
    def judged(self) -> Judged:
        """Every verdict."""
        return self.judge.judge(self.offer)

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
        return questions(self.book, self.judged, self.items)

    @cached_property
    def standing(self) -> Standing:
        """How it stands; of one of many, its verdicts are let go again."""
        one = self if self.keep else CheckedOffer(self.judge, self.offer)
        runs = [item.runs for item in one.items]
        found = [v.status for id_, v in one.judged.verdicts.items() if id_ != COMFORT]
        return Standing(
            len(runs), runs.count("runs"), runs.count("runs_if"), runs.count("does_not"), found.count("short"),
            found.count("unknown"), sum(map(_worth, one.items)),
        )  # fmt: skip

    def ids(self, status: str) -> tuple[str, ...]:
        """The requirements with that verdict; comfort is no need."""
        return tuple(id_ for id_, v in self.judged.verdicts.items() if v.status == status and id_ != COMFORT)

    @property
    def order(self) -> tuple[float, int, int, int]:
        """Sorts the best first: most that runs or can be made to, a must before a wish; then fewest short and unknown.

        What is refused on this land whatever the tractor counts for none of them.
        """
        standing = self.standing
        return -standing.worth, standing.short, standing.runs_if, standing.unknown


def _worth(item: ItemVerdict) -> float:
    """What can be put right is worth more than what nobody knows; what waits for both is worth less than either."""
    of_item = 0.5 if item.hookup.item is not None and item.hookup.item.rank == "nice" else 1.0
    open_ = WORTH["unknown"] if item.runs == "runs_if" and item.ask else 1.0
    return WORTH[item.runs] * open_ * of_item


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
    judge, given = Judge(asked(profile)), tuple(offers)
    return Checked(profile, tuple(CheckedOffer(judge, offer, len(given) <= KEPT) for offer in given))
