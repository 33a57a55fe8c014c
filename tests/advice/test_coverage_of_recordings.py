"""Together the recordings show every requirement, every refusal, and every conflict that can occur."""

from __future__ import annotations

from functools import reduce
from itertools import combinations

import pytest

from firstfurrow.advice.demands import arms
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.rig import Rig, Sized
from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.talk.recordings import shipped
from making import Maker

pytestmark = pytest.mark.xdist_group("coverage")  # one worker keeps what the tests share

REFUSALS = {"no_tractor", "hire", "side_slope", "side_grip", "climb", "stop", "unbraked"}
CONFLICTS = {
    "tread", "coupler", "time", "load", "tool_too_wide", "outgrows_width", "outgrows_height", "outgrows_mass",
    "track_width", "no_class",
}  # fmt: skip
NEVER = {"category"}  # the program can say it, and no two tools of the shipped book make it do so


@pytest.fixture(scope="module")
def profiles(book: Book) -> dict[str, Profile]:
    return {recording.name: profile_of(book, recording.answers(book)) for recording in shipped()}


def test_every_requirement_is_determined_in_one_of_them(book: Book, profiles: dict[str, Profile]) -> None:
    seen = {id_ for p in profiles.values() for id_, o in p.outcomes.items() if o.status == "determined"}
    assert set(book.requirements) - seen == set()


def test_every_kind_of_refusal_is_seen(profiles: dict[str, Profile]) -> None:
    assert {refusal.kind for p in profiles.values() for refusal in p.refusals} == REFUSALS


def test_every_kind_of_conflict_that_can_occur_is_seen(book: Book, profiles: dict[str, Profile]) -> None:
    assert {conflict.kind for p in profiles.values() for conflict in p.conflicts} == CONFLICTS
    start, end = "reason.conflict_", "_way"
    worded = {key[len(start) : -len(end)] for key in book.messages if key.startswith(start) and key.endswith(end)}
    assert worded == CONFLICTS | NEVER


def categories(maker: Maker) -> dict[tuple[str, str], frozenset[str]]:
    """For every tool on three arms, in every size it is sold in: the categories of tractors that take it."""
    desk = Desk(maker.book, make_plan(maker.book, Answers()), scratch=True)
    found: dict[tuple[str, str], frozenset[str]] = {}
    for kind in maker.book.kinds.values():
        builds = [build for build in kind.variants if build.way == "three_point"]
        for size in kind.sizes:
            fitting = [build for build in builds if not size.variants or build.id in size.variants]
            if not fitting or not size.categories:
                continue
            said = maker.raw([{"kind": kind.kind, "variant": fitting[0].id, "size": size.id}])
            (item,) = make_plan(maker.book, said).items
            rig = Rig(desk, Sized(item, size, item.width))
            (demand,) = [d for d in arms.demands(rig) if d.requirement == "hitch_category"]
            found[kind.kind, size.id] = frozenset(demand.value)
    return found


def test_no_two_tools_have_pins_that_exclude_each_other(maker: Maker) -> None:
    """So the conflict of categories cannot occur: a larger tractor takes smaller pins with bushings."""
    taken = categories(maker)
    assert len({kind for kind, _ in taken}) > 40
    apart = [(one, other) for one, other in combinations(taken, 2) if not taken[one] & taken[other]]
    assert apart == []
    # Two by two is not enough for many at once: one category takes them all.
    assert reduce(frozenset.intersection, taken.values())
