"""One verdict: what is asked for held against what an offer proves, by the sense of the requirement."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from firstfurrow.advice.offers.evidence import Bounds
from firstfurrow.advice.offers.grip import Grip
from firstfurrow.book.model import Requirement

Status = Literal["meets", "short", "unknown", "not_needed"]
How = Literal[
    "", "exact", "two_lifts", "two_wheels", "by_tyres", "tread", "by_weight", "by_610", "by_ball_ends", "likely",
    "bound", "band", "limited", "two_enough",
]  # fmt: skip
LIMITED = "limited "  # before a category: its pins, on arms that reach less far
NEVER = float("inf")  # what is asked for where nothing is enough
HAIR = 1e-9
_WORST: Mapping[Status, int] = {"short": 0, "unknown": 1, "meets": 2, "not_needed": 3}


@dataclass(slots=True)
class Verdict:
    """One requirement held against one offer.

    need
        What is asked, in the working unit; of this very tractor where it was worked out again.
    has
        What the offer proves: (at least, at most) for numbers, else words; None: nothing.
    gap
        Numbers that are short: how much is missing.
    how
        What it rests on where it is not the plain comparison.
    later_only
        Short only because of what may come later.
    grip
        What the tyres hold at the weight that is asked for, where it rests on them.
    """

    requirement: Requirement
    status: Status
    need: Any
    has: Any = None
    gap: float | None = None
    how: How = ""
    later_only: bool = False
    grip: Grip | None = None


def worst_of(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of several verdicts on one requirement, as a verdict of its own."""
    one = min(verdicts, key=lambda v: (_WORST[v.status], -(v.gap or 0.0)))
    return Verdict(one.requirement, one.status, one.need, one.has, one.gap, one.how, grip=one.grip)


def compare(requirement: Requirement, need: Any, has: Any, tolerance: float) -> Verdict:
    """The plain comparison by the sense of the requirement."""
    return BY_SENSE[requirement.sense](requirement, need, has, tolerance)


def _floor(requirement: Requirement, need: float, has: Bounds | None, tolerance: float) -> Verdict:
    if need == NEVER:  # nothing is enough, whatever it has
        return Verdict(requirement, "short", need, has, NEVER)
    if has is None:
        return Verdict(requirement, "unknown", need)
    low, high = has
    if low >= need - abs(need) * HAIR:
        return Verdict(requirement, "meets", need, has)
    if high < need - abs(need) * HAIR:
        return Verdict(requirement, "short", need, has, need - high, "bound" if low < high else "")
    return Verdict(requirement, "unknown", need, has, None, "bound")


def _ceiling(requirement: Requirement, need: float, has: Bounds | None, tolerance: float) -> Verdict:
    if has is None:
        return Verdict(requirement, "unknown", need)
    low, high = has
    if high <= need + abs(need) * HAIR:
        return Verdict(requirement, "meets", need, has)
    if low > need + abs(need) * HAIR:
        return Verdict(requirement, "short", need, has, low - need, "bound" if low < high else "")
    return Verdict(requirement, "unknown", need, has, None, "bound")


def _level(requirement: Requirement, need: str, has: str | None, tolerance: float) -> Verdict:
    if has is None:
        return Verdict(requirement, "unknown", need)
    levels = requirement.levels
    # Words below the weakest level are not among the levels: no shaft, no bar.
    rank = levels.index(has) if has in levels else -1
    return Verdict(requirement, "meets" if rank >= levels.index(need) else "short", need, has)


def _one_of(requirement: Requirement, need: tuple[Any, ...], has: tuple[Any, ...] | str | None, tolerance: float) -> (
    Verdict
):  # fmt: skip
    if has is None:
        return Verdict(requirement, "unknown", need)
    mine = (has,) if isinstance(has, str) else has
    if any(v in need for v in mine):
        return Verdict(requirement, "meets", need, has)
    if any(str(v).removeprefix(LIMITED) in need for v in mine):
        # The same pins; whether height and spread reach, only a tape can tell.
        return Verdict(requirement, "unknown", need, has, how="limited")
    return Verdict(requirement, "short", need, has)


def _each_of(requirement: Requirement, need: tuple[Any, ...], has: tuple[Any, ...] | None, tolerance: float) -> Verdict:
    if has is None:
        return Verdict(requirement, "unknown", need)
    missing = tuple(one for one in need if not any(_fits(want, mine, tolerance) for want in one for mine in has))
    return Verdict(requirement, "short" if missing else "meets", need, has)


def _fits(want: Any, mine: Any, tolerance: float) -> bool:
    if isinstance(want, str) or isinstance(mine, str):
        return bool(want == mine)
    return abs(float(want) - float(mine)) <= tolerance * (1 + HAIR)


Compare = Callable[[Requirement, Any, Any, float], Verdict]
BY_SENSE: Mapping[str, Compare] = {
    "at_least": _floor,
    "at_most": _ceiling,
    "level": _level,
    "one_of": _one_of,
    "each_of": _each_of,
}
