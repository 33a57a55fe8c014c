"""Demands worked out again with the figures of one offer, where it gives enough of them.

Axle weights, wheelbase and overhang take the place of the size class that stands in; both lift figures give the lift
where the load hangs; with two driven wheels only what rests on them grips and brakes.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from firstfurrow.advice.demands import Demand
from firstfurrow.advice.offers.again import worked_again
from firstfurrow.advice.offers.asked import Asked, Hookup, rounded
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.say import say
from firstfurrow.mechanics.hitch import lift_between
from firstfurrow.mechanics.towing import mass_to_stop, mass_to_stop_rear
from firstfurrow.reasoning import NoSolutionError, ancestors, ends

# What depends on how the tractor stands on its axles.
BY_AXLES = (
    "pto_power", "mass_balance", "front_ballast", "rear_axle_load", "rear_ballast", "front_axle_load", "track_least",
)  # fmt: skip
BY_DRIVE = ("mass", "mass_towing")
_COLUMNS = ("mass", "front_share", "wheelbase", "hitch_overhang", "track")
_NEVER = float("inf")


class Exact:
    """What one profile asks, ready to be worked out again for offers."""

    def __init__(self, asked: Asked) -> None:
        self.asked = asked
        self.book = asked.profile.book
        rows = self.book.tables["size_classes"].rows.values()
        self._titles = {c: [say(self.book, f"cell.size_classes.{c}", row=r.name) for r in rows] for c in _COLUMNS}
        self._weights = [say(self.book, "cell.size_classes.front_weights", row=r.name) for r in rows]
        self._driven = self.book.tables["our_choices"].rows["driven_share_four"].name
        self._by_share: dict[tuple[int, float], float] = {}

    # -------------------------------------------------------------------- axles

    def shape(self, offer: Offer) -> Mapping[str, float] | None:
        """The leaves that the offer replaces; None where it does not say enough for that."""
        get = offer.get
        front, rear, base, overhang = (
            get(k) for k in ("front_axle_mass", "rear_axle_mass", "wheelbase", "hitch_overhang")
        )
        if front is None or rear is None or base is None or overhang is None:
            return None
        values = {
            "mass": front + rear, "front_share": 100 * front / (front + rear), "wheelbase": base,
            "hitch_overhang": overhang,
        }  # fmt: skip
        if get("track") is not None:
            values["track"] = get("track")
        leaves: dict[str, float] = {}
        for column, value in values.items():
            leaves |= dict.fromkeys(self._titles[column], value)
        return leaves | dict.fromkeys(self._weights, get("front_ballast") or 0.0)

    def need(self, demand: Demand, shape: Mapping[str, float]) -> float:
        """What a demand asks of this very tractor; without end where nothing is enough.

        The size class below, which only keeps a walk over classes in order, says nothing about a real tractor.
        """
        worst = self.book.requirements[demand.requirement].decides == "unfavourable"
        found = worked_again(demand.top, shape, worst=worst, without="class_below")
        return _NEVER if found is None else found

    def front_weights(self, hookup: Hookup, offer: Offer, shape: Mapping[str, float]) -> float | None:
        """Front weights in kg with which the balance of a hookup holds; None where a reasonable weight is not enough.

        Found by trying weights in the demand itself, so that there is one equation and not two.
        """
        balance = hookup.needs.get("mass_balance")
        if balance is None:
            return 0.0
        empty = float(offer.get("front_axle_mass") + offer.get("rear_axle_mass"))
        most = empty * self.book.offer_figures["ballast_most"].planning / 100

        def holds(weight: float) -> bool:
            tried = {**shape, **dict.fromkeys(self._weights, weight)}
            return all(self.need(demand, tried) <= empty for demand in balance.demands)

        if holds(0.0):
            return 0.0
        if not holds(most):
            return None
        low, high = 0.0, most
        while high - low > 1:
            middle = (low + high) / 2
            low, high = (low, middle) if holds(middle) else (middle, high)
        return min(rounded(self.book.requirements["front_ballast"], high), most)

    # --------------------------------------------------------------------- lift

    def lift_missing(self, hookup: Hookup, ball_ends: float, at_610: float) -> float | None:
        """How many kg the lift is short where the load of this hookup hangs (negative: to spare); None: hangs nothing.

        Both test figures of a tractor say how its lift falls off behind the ball ends.
        """
        need, far = hookup.needs.get("lift_at_load"), hookup.needs.get("lift_610")
        if need is None or far is None:
            return None
        missing = -_NEVER
        for demand in far.demands:
            assert demand.top.inputs is not None
            distance = ends(demand.top.inputs["distance"]).high
            assert distance is not None
            missing = max(missing, need.value - lift_between(ball_ends, at_610, distance))
        return missing

    # -------------------------------------------------------------------- drive

    def by_two_wheels(self, demand: Demand, offer: Offer) -> float:
        """The weight that a demand asks of a tractor of which only the rear wheels are driven and brake."""
        share = self._rear_share(offer)
        base = offer.get("wheelbase") or self.asked.profile.stand_in["wheelbase"].planning
        key = (demand.top.index, share + 1000 * base)
        found = self._by_share.get(key)
        if found is None:
            work = self._gripping if demand.requirement == "mass" else self._stopping
            value = work(demand, share, base)
            requirement = self.book.requirements[demand.requirement]
            found = _NEVER if value is None else rounded(requirement, value)
            if len(self._by_share) < 10_000:
                self._by_share[key] = found
        return found

    def _rear_share(self, offer: Offer) -> float:
        front, rear = offer.get("front_axle_mass"), offer.get("rear_axle_mass")
        if front is None or rear is None:
            return self._usual_share
        return float(rear / (front + rear))

    @cached_property
    def _usual_share(self) -> float:
        return self.book.choice("rear_share_two_wheel").planning

    def _gripping(self, demand: Demand, share: float, base: float) -> float | None:
        return worked_again(demand.top, {self._driven: share}, worst=False)

    def _stopping(self, demand: Demand, share: float, base: float) -> float | None:
        row = self.asked.profile.stand_in
        most = float(demand.value)
        for step in ancestors(demand.top):
            if step.run is mass_to_stop and step.inputs is not None:
                try:
                    rear = mass_to_stop_rear(
                        **{name: below.value for name, below in step.inputs.items()}, rear_share=share, wheelbase=base,
                        centre_height=row["centre_height"].planning, hitch_height=row["hitch_height"].planning,
                    )  # fmt: skip
                except NoSolutionError:
                    return None
                most = max(most, rear)
        return most
