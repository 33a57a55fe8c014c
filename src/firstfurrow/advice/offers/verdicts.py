"""The verdict on each requirement: meets, short by how much, unknown, or not needed. Unknown never counts as meets."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal

from firstfurrow.advice.offers.asked import Asked, Hookup, Need
from firstfurrow.advice.offers.evidence import Bounds, reader
from firstfurrow.advice.offers.exact import BY_AXLES, BY_DRIVE, Exact
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.book.model import Requirement

Status = Literal["meets", "short", "unknown", "not_needed"]
How = Literal["", "exact", "two_lifts", "two_wheels", "by_weight", "by_610", "by_ball_ends", "likely", "bound"]
LIFTS = ("lift_at_load", "lift_610", "lift_ball_ends")
_WORST: Mapping[Status, int] = {"short": 0, "unknown": 1, "meets": 2, "not_needed": 3}
_CHANGED_LATER = ("drawbar_pull",)  # settled by other verdicts, so that each scope has one of its own
_ENOUGH = ("meets", "not_needed")
_HAIR = 1e-9
_NEVER = float("inf")
_NOTHING: Any = object()


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
    """

    requirement: Requirement
    status: Status
    need: Any
    has: Any = None
    gap: float | None = None
    how: How = ""
    later_only: bool = False


@dataclass(frozen=True, slots=True)
class Judged:
    """One offer with the verdict on every requirement that is asked for."""

    offer: Offer
    verdicts: Mapping[str, Verdict]
    _one: _One

    @property
    def by_hookup(self) -> Mapping[str, Mapping[str, Verdict]]:
        """The verdicts on what each hookup asks by itself, worked out when they are first looked at."""
        return self._one.by_hookup


class Judge:
    """Holds offers against one profile."""

    def __init__(self, asked: Asked) -> None:
        self.asked = asked
        self.book = asked.profile.book
        self.exact = Exact(asked)
        self.reader = reader(self.book)
        keys = self.book.offer_keys
        self.tolerances = {id_: keys[r.offer_keys[0]].tolerance for id_, r in self.book.requirements.items()}

    def judge(self, offer: Offer) -> Judged:
        """Every verdict on one offer."""
        one = _One(self, offer)
        return Judged(offer, one.whole(), one)


class _One:
    """One offer while it is judged."""

    def __init__(self, judge: Judge, offer: Offer) -> None:
        self.judge = judge
        self.offer = offer
        self.get: Callable[[str], Any] = {key: said.value for key, said in offer.said.items()}.get
        self.shape = judge.exact.shape(offer)
        self.two = offer.get("driven_wheels")
        self._has: dict[str, Any] = {}
        self._plain_ones: dict[str, Verdict] = {}
        self._whole_lifts: dict[str, Verdict] = {}
        ball, far = (judge.reader.lift(offer.get, k) for k in ("lift_ball_ends", "lift_610"))
        self.lifts = None if ball is None or far is None or "lift_at_load" in offer.said else (ball, far)

    def has(self, requirement: Requirement) -> Any:
        """What the offer proves for a requirement."""
        found = self._has.get(requirement.id, _NOTHING)
        if found is _NOTHING:
            reader = self.judge.reader
            read = reader.bounds if requirement.sense in ("at_least", "at_most") else reader.words
            found = self._has[requirement.id] = read(requirement.id, self.get)
        return found

    # ------------------------------------------------------------------- scopes

    def hookup(self, hookup: Hookup) -> dict[str, Verdict]:
        """The verdicts on what one hookup asks."""
        known, found = self._plain_ones, {}
        for id_, need in hookup.needs.items():
            if id_ in LIFTS:
                continue
            # What is enough for everything is enough for each, and what nobody knows stays unknown: judged once.
            everything = known.get(id_)
            shared = everything is not None and (everything.status == "meets" or everything.has is None)
            found[id_] = everything if everything and shared and not self._again(id_) else self._own(need)
        found |= self._lift(hookup.needs, hookup)
        if self.shape is not None:
            self._front_weights(hookup, found)
        return self._finished(hookup.needs, found)

    @cached_property
    def by_hookup(self) -> Mapping[str, Mapping[str, Verdict]]:
        """The verdicts on what each hookup asks by itself."""
        return {h.id: self.hookup(h) for h in self.judge.asked.hookups}

    def whole(self) -> dict[str, Verdict]:
        """The verdicts on everything together: what was worked out again is as good as its worst hookup."""
        asked = self.judge.asked
        found: dict[str, Verdict] = {}
        for id_, need in asked.needs.items():
            if id_ not in LIFTS:
                worst = self._worst(id_) if self._again(id_) else None
                if worst is None:
                    worst = self._plain(need) if id_ in _CHANGED_LATER else self._for_everything(id_)
                found[id_] = worst
        if self.shape is not None and "front_ballast" not in found:
            # Weights that the usual tractor does not need, but this one does.
            worst = self._worst("front_ballast")
            if worst is not None and worst.status != "not_needed":
                found["front_ballast"] = worst
        found |= self._lift(asked.needs, None)
        finished = self._finished(asked.needs, found)
        for id_, verdict in finished.items():
            if verdict.status == "short" and id_ in asked.needs:
                verdict.later_only = self._only_later(asked.needs[id_])
        for requirement in asked.not_measured:
            finished[requirement.id] = Verdict(requirement, "unknown", None, self.has(requirement))
        return finished

    def _worst(self, id_: str) -> Verdict | None:
        mine = [v[id_] for v in self.by_hookup.values() if id_ in v]
        # Demands of the land or of the driver belong to no hookup; they are looked at as well.
        need = self.judge.asked.needs.get(id_)
        loose = () if need is None else tuple(d for d in need.demands if d.hookup not in self.by_hookup)
        if need is not None and loose:
            mine.append(self._own(Need(need.requirement, need.value, need.planning, need.sure, loose)))
        return worst_of(mine) if mine else None

    def _again(self, id_: str) -> bool:
        return (self.shape is not None and id_ in BY_AXLES) or (self.two != "four" and id_ in BY_DRIVE)

    def _only_later(self, need: Need) -> bool:
        """True where everything that is sure is met."""
        if need.sure == need.value:
            return False
        id_ = need.requirement.id
        if self._again(id_) or id_ in LIFTS:
            later = {h.id for h in self.judge.asked.hookups if h.later}
            return all(v[id_].status != "short" for i, v in self.by_hookup.items() if id_ in v and i not in later)
        if need.sure is None:
            return True
        return self._plain(replace(need, value=need.sure)).status != "short"

    # ----------------------------------------------------------------- one need

    def _plain(self, need: Need) -> Verdict:
        requirement = need.requirement
        tolerance = self.judge.tolerances[requirement.id]
        return _BY_SENSE[requirement.sense](requirement, need.value, self.has(requirement), tolerance)

    def _own(self, need: Need) -> Verdict:
        id_ = need.requirement.id
        if self.shape is not None and id_ in BY_AXLES and id_ != "front_ballast":
            value = max(self.judge.exact.need(demand, self.shape) for demand in need.demands)
            has = self.has(need.requirement)
            if value <= 0:
                return Verdict(need.requirement, "not_needed", 0.0, has, how="exact")
            found = compare(need.requirement, value, has, 0.0)
            found.how = "exact"
            return found
        if self.two != "four" and id_ in BY_DRIVE:
            return self._by_drive(need)
        return self._plain(need)

    def _for_everything(self, id_: str) -> Verdict:
        found = self._plain_ones.get(id_)
        if found is None:
            found = self._plain_ones[id_] = self._plain(self.judge.asked.needs[id_])
        return found

    def _by_drive(self, need: Need) -> Verdict:
        """Rear wheels alone ask for more weight; where nobody knows which are driven, both must hold."""
        plain = self._plain(need)
        value = max(self.judge.exact.by_two_wheels(demand, self.offer) for demand in need.demands)
        rear = compare(need.requirement, max(value, need.value), self.has(need.requirement), 0.0)
        rear.how = "two_wheels"
        if self.two == "two" or plain.status == rear.status:
            return rear if self.two == "two" else plain
        plain.status = "unknown"
        plain.how = "two_wheels"
        return plain

    def _front_weights(self, hookup: Hookup, found: dict[str, Verdict]) -> None:
        """Front weights of this very tractor: none, so many, or more than is planned on."""
        assert self.shape is not None
        if "mass_balance" not in hookup.needs:
            return
        weight = self.judge.exact.front_weights(hookup, self.offer, self.shape)
        requirement = self.judge.book.requirements["front_ballast"]
        if weight == 0.0:
            found["front_ballast"] = Verdict(requirement, "not_needed", 0.0, self.has(requirement), how="exact")
            return
        fitted = self.get("front_ballast") or 0.0
        needed = _NEVER if weight is None else weight
        found["front_ballast"] = compare(requirement, needed, (fitted, fitted), 0.0)
        found["front_ballast"].how = "exact"

    # --------------------------------------------------------------------- lift

    def _lift(self, needs: Mapping[str, Need], hookup: Hookup | None) -> dict[str, Verdict]:
        """The three lifts are one question: both test figures answer it exactly, else the one further back."""
        if "lift_610" not in needs:
            return {id_: self._plain(needs[id_]) for id_ in LIFTS if id_ in needs}
        if self.lifts is None:
            if hookup is None:
                self._whole_lifts = self._one_lift(needs)
            elif not self._whole_lifts or any(v.status not in _ENOUGH for v in self._whole_lifts.values()):
                return self._one_lift(needs)
            return self._whole_lifts
        found: dict[str, Verdict] = {}
        for id_ in ("lift_at_load", "lift_610"):
            if hookup is not None:
                found[id_] = self._two_lifts(needs[id_], hookup)
            else:
                found[id_] = worst_of(v[id_] for v in self.by_hookup.values() if id_ in v)
        ends = self._plain(needs["lift_ball_ends"])
        if ends.status != "meets":  # the figure further back counts where it is known
            ends.status, ends.gap = "not_needed", None
        return {**found, "lift_ball_ends": ends}

    def _two_lifts(self, need: Need, hookup: Hookup) -> Verdict:
        assert self.lifts is not None
        ball, far = self.lifts
        missing = [self.judge.exact.lift_missing(hookup, ball[end], far[end]) for end in (0, 1)]
        low, high = missing
        if low is None or high is None:
            return Verdict(need.requirement, "unknown", need.value, self.has(need.requirement))
        status: Status = "meets" if low <= 0 else "short" if high > 0 else "unknown"
        if need.requirement.id != "lift_at_load":
            # How much is missing is said once, where the load hangs.
            return Verdict(need.requirement, status, need.value, far, None, "two_lifts")
        has = (max(need.value - low, 0.0), max(need.value - high, 0.0))
        return Verdict(need.requirement, status, need.value, has, high if status == "short" else None, "two_lifts")

    def _one_lift(self, needs: Mapping[str, Need]) -> dict[str, Verdict]:
        far, ends, load = (self._plain(needs[id_]) for id_ in ("lift_610", "lift_ball_ends", "lift_at_load"))
        if "lift_610" in self.offer.said:
            if ends.status != "meets":
                ends.status, ends.gap = "not_needed", None
            if load.has is None:
                load.status, load.how = far.status, "by_610"
        else:
            # From the ball ends alone only the pessimistic linkage is sure; between it and the usual one: ask.
            planning = needs["lift_ball_ends"].planning
            if ends.status == "short" and planning is not None and ends.has[1] >= planning * (1 - _HAIR):
                ends.status, ends.gap, ends.how = "unknown", None, "likely"
            if load.has is None:
                load.status, load.how = ends.status, "by_ball_ends"
        return {"lift_at_load": load, "lift_610": far, "lift_ball_ends": ends}

    # --------------------------------------------------------------------- last

    def _finished(self, needs: Mapping[str, Need], found: dict[str, Verdict]) -> dict[str, Verdict]:
        """A pull that nobody measured: weight that grips and power that carries it are enough for it."""
        pull = found.get("drawbar_pull")
        enough = all(id_ in found and found[id_].status == "meets" for id_ in ("mass", "pto_power"))
        if pull is not None and pull.has is None and enough:
            pull.status, pull.how = "meets", "by_weight"
        return found


# ------------------------------------------------------------------------ compare


def worst_of(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of several verdicts on one requirement, as a verdict of its own."""
    one = min(verdicts, key=lambda v: (_WORST[v.status], -(v.gap or 0.0)))
    return Verdict(one.requirement, one.status, one.need, one.has, one.gap, one.how)


def compare(requirement: Requirement, need: Any, has: Any, tolerance: float) -> Verdict:
    """The plain comparison by the sense of the requirement."""
    return _BY_SENSE[requirement.sense](requirement, need, has, tolerance)


def _floor(requirement: Requirement, need: float, has: Bounds | None, tolerance: float) -> Verdict:
    if need == _NEVER:  # nothing is enough, whatever it has
        return Verdict(requirement, "short", need, has, _NEVER)
    if has is None:
        return Verdict(requirement, "unknown", need)
    low, high = has
    if low >= need - abs(need) * _HAIR:
        return Verdict(requirement, "meets", need, has)
    if high < need - abs(need) * _HAIR:
        return Verdict(requirement, "short", need, has, need - high, "bound" if low < high else "")
    return Verdict(requirement, "unknown", need, has, None, "bound")


def _ceiling(requirement: Requirement, need: float, has: Bounds | None, tolerance: float) -> Verdict:
    if has is None:
        return Verdict(requirement, "unknown", need)
    low, high = has
    if high <= need + abs(need) * _HAIR:
        return Verdict(requirement, "meets", need, has)
    if low > need + abs(need) * _HAIR:
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
    return Verdict(requirement, "meets" if any(v in need for v in mine) else "short", need, has)


def _each_of(requirement: Requirement, need: tuple[Any, ...], has: tuple[Any, ...] | None, tolerance: float) -> Verdict:
    if has is None:
        return Verdict(requirement, "unknown", need)
    missing = tuple(one for one in need if not any(_fits(want, mine, tolerance) for want in one for mine in has))
    return Verdict(requirement, "short" if missing else "meets", need, has)


def _fits(want: Any, mine: Any, tolerance: float) -> bool:
    if isinstance(want, str) or isinstance(mine, str):
        return bool(want == mine)
    return abs(float(want) - float(mine)) <= tolerance * (1 + _HAIR)


_BY_SENSE: Mapping[str, Callable[[Requirement, Any, Any, float], Verdict]] = {
    "at_least": _floor,
    "at_most": _ceiling,
    "level": _level,
    "one_of": _one_of,
    "each_of": _each_of,
}
