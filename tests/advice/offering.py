"""Offers for tests: from plain words, and from what a profile states."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.advice.offers.asked import asked
from firstfurrow.advice.offers.offer import Offer, Said
from firstfurrow.advice.offers.reading import FORMAT, read_offers
from firstfurrow.advice.offers.verdicts import Judge, Judged
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book

# Fields that make the program work it out again with the figures of this tractor.
MORE_EXACT = ("front_axle_mass", "rear_axle_mass", "wheelbase", "hitch_overhang")


def read_one(book: Book, **said: str) -> Offer:
    """An offer as somebody would type it."""
    lines = [f"format: {FORMAT}", "name: mine", "offer:", *(f"  {key}: '{value}'" for key, value in said.items())]
    found = read_offers(book, "\n".join(lines) + "\n", "mine.yaml")
    assert not found.problems, found.problems
    return found.offers[0]


def offer_of(said: Mapping[str, Any]) -> Offer:
    """An offer from values in working units."""
    return Offer("made", "here", {key: Said(value, str(value), "here") for key, value in said.items()})


def stated_values(profile: Profile) -> dict[str, Any]:
    """The value that the profile states for each requirement, under the first key of that requirement.

    Where two requirements share a key, the stricter one. All wheels are driven, because every weight of a profile
    counts on that; and the lift is said to be a test figure, because another one counts lower.
    """
    found: dict[str, Any] = {"driven_wheels": "four", "lift_from": "test_report"}
    for id_, outcome in profile.outcomes.items():
        if outcome.widest is None or id_ == "driven_wheels":
            continue
        key, value = outcome.requirement.offer_keys[0], outcome.widest.stated
        if outcome.requirement.sense == "each_of":
            value = tuple(dict.fromkeys(one[0] for one in value))
        elif outcome.requirement.sense == "one_of":
            value = value[0] if key == "tyre_tread" else (value[0],)
        elif key in found and outcome.requirement.sense == "at_least":
            value = max(value, found[key])
        elif key in found and outcome.requirement.sense == "at_most":
            continue  # a floor on the same key stands first in the book, and there is no conflict
        found[key] = value
    return found


def judged(profile: Profile, offer: Offer) -> Judged:
    """The verdicts on one offer."""
    return Judge(asked(profile)).judge(offer)
