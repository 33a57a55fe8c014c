"""The verdict on each requirement: meets, short by how much, unknown, or not needed. Unknown never counts as meets."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache, cached_property
from typing import Any, Literal

from firstfurrow.advice.offers.asked import Asked, Hookup, Need, in_each_size
from firstfurrow.advice.offers.compare import BY_SENSE, HAIR, NEVER, How, Status, Verdict, compare, worst_of
from firstfurrow.advice.offers.evidence import Read, reader
from firstfurrow.advice.offers.exact import BY_AXLES, BY_DRIVE, BY_TYRES, Exact
from firstfurrow.advice.offers.grip import Driven, NotWorked, Tyres
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.reasoning import ends

Loader = Literal["on", "off", "open"]  # open: nobody says, so it is left out of the balance as if it were off
_LOADERS: Mapping[str, Loader] = {"stays_on": "on", "comes_off": "off"}
LIFTS = ("lift_at_load", "lift_610", "lift_ball_ends")
MOST_KEPT = 2_000  # verdicts on one need that are kept for the next offer with the same figure
_ENOUGH = ("meets", "not_needed")
_NOTHING: Any = object()
__all__ = ["LIFTS", "How", "Judge", "Judged", "Loader", "Status", "Verdict"]


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

    @property
    def goes_on_two(self) -> bool:
        """True when two driven wheels take the bare tractor up the steepest place of the plan and stop it there."""
        return self._one.judge.exact.goes_on_two(self.offer)

    @property
    def decides(self) -> tuple[str, ...]:
        """What decides about the sort of tractor, most first."""
        return self._one.judge.asked.profile.deciding

    def in_each_size(self, hookup: Hookup) -> Iterator[tuple[Asked, Hookup, Judged]]:
        """The same offer held against the plan with this tool in each size in which it is sold."""
        for judge in self._one.judge.in_each_size(hookup):
            mine = next(one for one in judge.asked.hookups if one.id == hookup.id)
            yield judge.asked, mine, judge.judge(self.offer)

    @property
    def tyres_not_worked(self) -> NotWorked | None:
        """Why the grip does not rest on the tyres of which the offer says something."""
        found = self._one.tyres
        return found if isinstance(found, str) else None

    @property
    def loader(self) -> Loader | None:
        """In which state the balance was worked out; None where the offer says too little of axles or loader."""
        if self._one.shape is None or "loader_mass" not in self.offer.said:
            return None
        return _LOADERS.get(self.offer.get("loader_on"), "open")


class Judge:
    """Holds offers against one profile. What is the same for every offer is made ready once."""

    def __init__(self, asked: Asked) -> None:
        self.asked = asked
        self.book = asked.profile.book
        self.exact = Exact(asked)
        self.reader = reader(self.book)
        keys = self.book.offer_keys
        self.reads = {id_: self.reader.reads(r) for id_, r in self.book.requirements.items()}
        self.tolerances = {id_: keys[r.offer_keys[0]].tolerance for id_, r in self.book.requirements.items()}
        self.needs = self._kept(asked.needs)
        self.needs_of = {h.id: self._kept(h.needs) for h in asked.hookups}
        self.sure = {id_: replace(n, value=n.sure) for id_, n in asked.needs.items() if n.sure not in (None, n.value)}
        self.later = {h.id for h in asked.hookups if h.later}
        self._sizes: dict[str, tuple[Judge, ...]] = {}

    def _kept(self, needs: Mapping[str, Need]) -> list[_Kept]:
        return [_Kept(need, self.reads[id_]) for id_, need in needs.items() if id_ not in LIFTS]

    def inside(self, need: Need, has: Any) -> bool:
        """True where what an offer has lies within what such tools ask for: some of them do with it."""
        low, high = has
        if need.requirement.sense == "at_least":
            least = [ends(demand.top).low for demand in need.demands]
            return all(value is not None and high >= value * (1 - HAIR) for value in least)
        usual = [self.usual_speed.get(demand.hookup) for demand in need.demands]
        return all(value is not None and low <= value * (1 + HAIR) for value in usual)

    @cached_property
    def usual_speed(self) -> Mapping[str, float]:
        """How fast each implement is usually driven, km/h."""
        items = [hookup.item for hookup in self.asked.hookups if hookup.item is not None]
        return {item.id: item.kind.speed.planning for item in items if item.kind.speed is not None}

    def in_each_size(self, hookup: Hookup) -> tuple[Judge, ...]:
        """The plan with this tool in each size sold, made ready when it is first wanted."""
        found = self._sizes.get(hookup.id)
        if found is None:
            assert hookup.item is not None
            found = self._sizes[hookup.id] = tuple(map(Judge, in_each_size(self.asked.profile, hookup.item)))
        return found

    def judge(self, offer: Offer) -> Judged:
        """Every verdict on one offer."""
        one = _One(self, offer)
        return Judged(offer, one.whole(), one)


class _Kept:
    """One need with the verdicts that were found: in a list the same figures come again. They are never changed."""

    __slots__ = ("id", "need", "read", "verdicts")

    def __init__(self, need: Need, read: Read) -> None:
        self.id = need.requirement.id
        self.need = need
        self.read = read
        self.verdicts: dict[Any, Verdict] = {}  # by what the offer has


class _One:
    """One offer while it is judged."""

    def __init__(self, judge: Judge, offer: Offer) -> None:
        self.judge = judge
        self.offer = offer
        self.get: Callable[[str], Any] = {key: said.value for key, said in offer.said.items()}.get
        self.shape = judge.exact.shape(offer)
        self.two = self.get("driven_wheels")
        self.tyres = judge.exact.soil.tyres(offer)
        self.again = _worked_again(self.shape is not None, self.two != "four", isinstance(self.tyres, Tyres))
        self._has: dict[str, Any] = {}
        self._shared: dict[str, Verdict] = {}
        self._whole_lifts: dict[str, Verdict] = {}
        self._lifts_enough = False
        ball, far = judge.reader.lift(self.get, "lift_ball_ends"), judge.reader.lift(self.get, "lift_610")
        self.lifts = None if ball is None or far is None or "lift_at_load" in offer.said else (ball, far)

    def has(self, id_: str) -> Any:
        """What the offer proves for a requirement."""
        found = self._has.get(id_, _NOTHING)
        if found is _NOTHING:
            found = self._has[id_] = self.judge.reads[id_](self.get)
        return found

    # ------------------------------------------------------------------- scopes

    def hookup(self, hookup: Hookup) -> dict[str, Verdict]:
        """The verdicts on what one hookup asks."""
        shared, again, found = self._shared, self.again, {}
        for kept in self.judge.needs_of[hookup.id]:
            id_ = kept.id
            verdict = shared.get(id_)
            if verdict is None:
                verdict = self._own(kept.need) if id_ in again else self._plain(kept, self.has(id_))
            found[id_] = verdict
        found |= self._lift(hookup.needs, hookup)
        if self.shape is not None:
            self._front_weights(hookup, found)
        return self._finished(found)

    @cached_property
    def by_hookup(self) -> Mapping[str, Mapping[str, Verdict]]:
        """The verdicts on what each hookup asks by itself."""
        return {h.id: self.hookup(h) for h in self.judge.asked.hookups}

    def whole(self) -> dict[str, Verdict]:
        """The verdicts on everything together: what was worked out again is as good as its worst hookup."""
        asked = self.judge.asked
        plain: dict[str, Verdict] = {}
        for kept in self.judge.needs:
            id_ = kept.id
            if id_ in self.again:
                continue
            has = self._has[id_] = kept.read(self.get)
            verdict = plain[id_] = kept.verdicts.get(has) or self._plain(kept, has, whole=True)
            # What is enough for everything is enough for each, and what nobody knows stays unknown: judged once.
            if verdict.status == "meets" or has is None:
                self._shared[id_] = verdict
        self._lifts_for_everything(asked.needs)
        found = plain
        if self.again:
            found = {k.id: plain.get(k.id) or self._worst(k.id) or self._fresh(k.need) for k in self.judge.needs}
        if self.shape is not None and "front_ballast" not in found:
            # Weights that the usual tractor does not need, but this one does.
            worst = self._worst("front_ballast")
            if worst is not None and worst.status != "not_needed":
                found["front_ballast"] = worst
        found |= self._lift(asked.needs, None)
        finished = self._finished(found)
        for id_, verdict in finished.items():
            if verdict.status == "short" and id_ in asked.needs and (id_ in self.again or id_ in LIFTS):
                verdict.later_only = self._only_later(asked.needs[id_])
        for requirement in asked.not_measured:
            finished[requirement.id] = Verdict(requirement, "unknown", None, self.has(requirement.id))
        return finished

    def _worst(self, id_: str) -> Verdict | None:
        mine = [v[id_] for v in self.by_hookup.values() if id_ in v]
        # Demands of the land or of the driver belong to no hookup; they are looked at as well.
        need = self.judge.asked.needs.get(id_)
        loose = () if need is None else tuple(d for d in need.demands if d.hookup not in self.by_hookup)
        if need is not None and loose:
            mine.append(self._own(Need(need.requirement, need.value, need.planning, need.sure, loose)))
        return worst_of(mine) if mine else None

    def _only_later(self, need: Need) -> bool:
        """True where everything that is sure is met."""
        if need.sure == need.value:
            return False
        id_ = need.requirement.id
        if id_ in self.again or id_ in LIFTS:
            later = self.judge.later
            return all(v[id_].status != "short" for i, v in self.by_hookup.items() if id_ in v and i not in later)
        return need.sure is None or self._fresh(self.judge.sure[id_]).status != "short"

    # ----------------------------------------------------------------- one need

    def _plain(self, kept: _Kept, has: Any, *, whole: bool = False) -> Verdict:
        """The plain comparison; a verdict that many offers may share, so nobody changes it."""
        found = kept.verdicts.get(has)
        if found is None:
            found = self._fresh(kept.need)
            if whole and found.status == "short":
                found.later_only = self._only_later(kept.need)
            if len(kept.verdicts) < MOST_KEPT:
                kept.verdicts[has] = found
        return found

    def _fresh(self, need: Need) -> Verdict:
        """The plain comparison, as a verdict of its own."""
        requirement = need.requirement
        id_ = requirement.id
        found = BY_SENSE[requirement.sense](requirement, need.value, self.has(id_), self.judge.tolerances[id_])
        if found.status == "short" and requirement.in_band and self.judge.inside(need, found.has):
            found.status, found.gap, found.how = "unknown", None, "band"
        return found

    def _own(self, need: Need) -> Verdict:
        id_ = need.requirement.id
        if self.shape is not None and id_ in BY_AXLES and id_ != "front_ballast":
            value = max(self.judge.exact.need(demand, self.shape) for demand in need.demands)
            has = self.has(id_)
            if value <= 0:
                return Verdict(need.requirement, "not_needed", 0.0, has, how="exact")
            found = compare(need.requirement, value, has, 0.0)
            found.how = "exact"
            return found
        if id_ == BY_TYRES and isinstance(self.tyres, Tyres):
            return self._by_tyres(need, self.tyres)
        if self.two != "four" and id_ in BY_DRIVE:
            return self._by_drive(need)
        return self._fresh(need)

    def _by_drive(self, need: Need) -> Verdict:
        """Rear wheels alone ask for more weight; where nobody knows which are driven, both must hold."""
        plain = self._fresh(need)
        value = max(self.judge.exact.by_two_wheels(demand, self.offer) for demand in need.demands)
        rear = compare(need.requirement, max(value, need.value), self.has(need.requirement.id), 0.0)
        rear.how = "two_wheels"
        if self.two == "two" or plain.status == rear.status:
            return rear if self.two == "two" else plain
        plain.status = "unknown"
        plain.how = "two_wheels"
        return plain

    def _by_tyres(self, need: Need, tyres: Tyres) -> Verdict:
        """What its own tyres ask for. Where nobody knows the driven wheels or the tread, every case must hold."""
        drives: tuple[Driven, ...] = (self.two,) if self.two is not None else ("four", "two")
        tread = self.get("tyre_tread")
        treads = (tread == "lug",) if tread is not None else (True, False)
        found = [self._on_tyres(need, tyres, driven, lugs) for driven in drives for lugs in treads]
        if len({one.status for one in found}) == 1:
            return max(found, key=lambda one: one.need)
        best = found[0]  # the first case asks for the least
        by_drive = any(one.status != best.status for one in found[:: len(treads)])
        best.status, best.gap, best.how = "unknown", None, "two_wheels" if by_drive else "tread"
        return best

    def _on_tyres(self, need: Need, tyres: Tyres, driven: Driven, lugs: bool) -> Verdict:
        exact = self.judge.exact
        asks = [exact.by_tyres(demand, tyres, driven, lugs=lugs) for demand in need.demands]
        value, grip = max(asks, key=lambda one: one[0])
        found = compare(need.requirement, value, self.has(need.requirement.id), 0.0)
        found.how, found.grip = "by_tyres", grip
        return found

    def _front_weights(self, hookup: Hookup, found: dict[str, Verdict]) -> None:
        """Front weights of this very tractor: none, so many, or more than is planned on."""
        assert self.shape is not None
        if "mass_balance" not in hookup.needs:
            return
        weight = self.judge.exact.front_weights(hookup, self.offer, self.shape)
        requirement = self.judge.book.requirements["front_ballast"]
        if weight == 0.0:
            found["front_ballast"] = Verdict(requirement, "not_needed", 0.0, self.has(requirement.id), how="exact")
            return
        fitted = self.get("front_ballast") or 0.0
        needed = NEVER if weight is None else weight
        found["front_ballast"] = compare(requirement, needed, (fitted, fitted), 0.0)
        found["front_ballast"].how = "exact"

    # --------------------------------------------------------------------- lift

    def _lifts_for_everything(self, needs: Mapping[str, Need]) -> None:
        """What is judged once: enough for everything is enough for each hookup."""
        if self.lifts is None and "lift_610" in needs:
            self._whole_lifts = self._one_lift(needs)
            self._lifts_enough = all(v.status in _ENOUGH for v in self._whole_lifts.values())
        elif self.lifts is not None and "lift_ball_ends" in needs:
            at_ends = self._fresh(needs["lift_ball_ends"])
            if at_ends.status == "meets":
                self._shared["lift_ball_ends"] = at_ends

    def _lift(self, needs: Mapping[str, Need], hookup: Hookup | None) -> dict[str, Verdict]:
        """The three lifts are one question: both test figures answer it exactly, else the one further back."""
        if "lift_610" not in needs:
            return {id_: self._fresh(needs[id_]) for id_ in LIFTS if id_ in needs}
        if self.lifts is None:
            return self._whole_lifts if hookup is None or self._lifts_enough else self._one_lift(needs)
        if hookup is not None:
            found = self._two_lifts(needs, hookup)
        else:
            mine = [v for v in self.by_hookup.values() if "lift_610" in v]
            found = {id_: worst_of(v[id_] for v in mine) for id_ in ("lift_at_load", "lift_610")}
        # The figure further back counts where it is known; at the ball ends it is enough, or nobody asks.
        at_ends = self._shared.get("lift_ball_ends")
        if at_ends is None:
            at_ends = self._fresh(needs["lift_ball_ends"])
            if at_ends.status != "meets":
                at_ends.status, at_ends.gap = "not_needed", None
        found["lift_ball_ends"] = at_ends
        return found

    def _two_lifts(self, needs: Mapping[str, Need], hookup: Hookup) -> dict[str, Verdict]:
        assert self.lifts is not None
        ball, far = self.lifts
        here, behind = needs["lift_at_load"], needs["lift_610"]
        missing = self.judge.exact.lift_missing
        low = missing(hookup, ball[0], far[0])
        high = low if ball[0] == ball[1] and far[0] == far[1] else missing(hookup, ball[1], far[1])
        if low is None or high is None:
            return {n.requirement.id: Verdict(n.requirement, "unknown", n.value, self.has(n.requirement.id))
                    for n in (here, behind)}  # fmt: skip
        status: Status = "meets" if low <= 0 else "short" if high > 0 else "unknown"
        has = (max(here.value - low, 0.0), max(here.value - high, 0.0))
        gap = high if status == "short" else None
        return {
            "lift_at_load": Verdict(here.requirement, status, here.value, has, gap, "two_lifts"),
            # How much is missing is said once, where the load hangs.
            "lift_610": Verdict(behind.requirement, status, behind.value, far, None, "two_lifts"),
        }

    def _one_lift(self, needs: Mapping[str, Need]) -> dict[str, Verdict]:
        far, at_ends, load = (self._fresh(needs[id_]) for id_ in ("lift_610", "lift_ball_ends", "lift_at_load"))
        if "lift_610" in self.offer.said:
            if at_ends.status != "meets":
                at_ends.status, at_ends.gap = "not_needed", None
            if load.has is None:
                load.status, load.how = far.status, "by_610"
        else:
            # From the ball ends alone only the pessimistic linkage is sure; between it and the usual one: ask.
            planning = needs["lift_ball_ends"].planning
            if at_ends.status == "short" and planning is not None and at_ends.has[1] >= planning * (1 - HAIR):
                at_ends.status, at_ends.gap, at_ends.how = "unknown", None, "likely"
            elif at_ends.status == "meets" and far.status == "unknown":
                far.status = "not_needed"  # enough for the worst linkage is enough further back
            if load.has is None:
                load.status, load.how = at_ends.status, "by_ball_ends"
        return {"lift_at_load": load, "lift_610": far, "lift_ball_ends": at_ends}

    # --------------------------------------------------------------------- last

    def _finished(self, found: dict[str, Verdict]) -> dict[str, Verdict]:
        """A pull that nobody measured: weight that grips and power that carries it are enough for it."""
        pull = found.get("drawbar_pull")
        if pull is None or pull.has is not None:
            return found
        if all(id_ in found and found[id_].status == "meets" for id_ in ("mass", "pto_power")):
            found["drawbar_pull"] = Verdict(pull.requirement, "meets", pull.need, how="by_weight")
        return found


@cache
def _worked_again(by_axles: bool, by_drive: bool, by_tyres: bool) -> frozenset[str]:
    """The requirements that are worked out again for a tractor of which so much is known."""
    return frozenset(
        (*(BY_AXLES if by_axles else ()), *(BY_DRIVE if by_drive else ()), *((BY_TYRES,) if by_tyres else ()))
    )
