"""The slopes of a plan as angles, and how steep a slope across may be for which work is planned at all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfurrow.advice.demands.slope import behind, most_across
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import Fact
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.refusals import Refusal
from firstfurrow.advice.rig import rig_for
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.slope import side_grip_angle, slope_of

_CLIMB = frozenset({"climb", "stop"})
_ACROSS = frozenset({"side_slope", "side_grip"})


@dataclass(frozen=True, slots=True)
class Slope:
    """One slope of the land that the plan was worked out for."""

    percent: float
    angle: float  # degrees
    said: bool  # measured or judged by the buyer; else it was planned
    low: float
    high: float
    refusals: tuple[Refusal, ...]  # those that are about it


@dataclass(frozen=True, slots=True)
class Limit:
    """Steepest slope across for which work is planned."""

    percent: float
    angle: float
    because: Literal["teaching", "grip"]
    name: str  # which figure of ours, or the surface
    grade: str


def climb(profile: Profile) -> Slope | None:
    """The steepest place to drive up or down; None where there is none."""
    return _slope(profile.plan.slope_up, profile, _CLIMB)


def across(profile: Profile) -> Slope | None:
    """The steepest place to drive along sideways; None where there is none or nobody knows."""
    return _slope(profile.plan.side_slope, profile, _ACROSS)


def across_is_open(profile: Profile) -> bool:
    """There are slopes, and nobody measured how steep they are to drive across."""
    return profile.plan.side_slope is None and "side_slope" in profile.plan.open_ceilings


def limit_across(profile: Profile) -> Limit:
    """What the refusals hold a side slope against: the teaching limit, or less where the wheels would slide before."""
    book, plan = profile.book, profile.plan
    desk = Desk(book, plan, lean=True)
    rigs = [rig_for(desk, note.sized) for note in profile.hookups]
    most, stricter = most_across(desk, rigs), behind(desk, rigs)
    desk.clear()
    surface = book.tables["surfaces"].rows[plan.surface.value]
    slides = side_grip_angle(surface["grip"].planning, book.choice("side_grip_share").planning)
    if slope_of(slides) < most and (rigs or plan.tow is not None):
        return Limit(slope_of(slides), slides, "grip", surface.name, "derived")
    row = book.tables["our_choices"].rows["side_slope_most_behind" if stricter else "side_slope_most"]
    return Limit(most, angle_of(most), "teaching", row.name, row["value"].grade)


def _slope(fact: Fact | None, profile: Profile, kinds: frozenset[str]) -> Slope | None:
    if fact is None or fact.value <= 0:
        return None
    about = tuple(refusal for refusal in profile.refusals if refusal.kind in kinds)
    return Slope(fact.value, angle_of(fact.value), fact.origin == "said", fact.low, fact.high, about)
