"""Demands worked out again with the figures of one offer, where it gives enough of them.

Axle weights, wheelbase and overhang take the place of the size class that stands in, and a loader that stays on counts
beside the front weights; both lift figures give the lift where the load hangs; with two driven wheels only what rests
on them grips and brakes; tyres and axle weights give the grip.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from firstfurrow.advice.demands import Demand
from firstfurrow.advice.offers.again import Again
from firstfurrow.advice.offers.asked import Asked, Hookup, rounded
from firstfurrow.advice.offers.grip import Driven, Grip, Soil, Tyres
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.say import say
from firstfurrow.mechanics.balance import centre_in_front
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.mechanics.hitch import lift_between
from firstfurrow.mechanics.towing import mass_to_stop, mass_to_stop_rear
from firstfurrow.reasoning import NoSolutionError, ancestors, ends

# What depends on how the tractor stands on its axles.
BY_AXLES = (
    "pto_power", "mass_balance", "front_ballast", "rear_axle_load", "rear_ballast", "front_axle_load", "track_least",
)  # fmt: skip
BY_DRIVE = ("mass", "mass_towing")
BY_TYRES = "mass"
_COLUMNS = (
    "mass", "front_share", "wheelbase", "hitch_overhang", "track", "loader_mass", "loader_ahead", "front_weights",
    "front_weights_ahead",
)  # fmt: skip
_NEVER = float("inf")
_HEAVIEST = 100_000.0  # kg: where a tractor as heavy as this does not pull, weight does not help


@dataclass(frozen=True, slots=True)
class Shape:
    """How one tractor stands: values by the titles of the leaves that they replace, and which columns these are."""

    leaves: Mapping[str, float]
    sort: tuple[str, ...]


class Exact:
    """What one profile asks, ready to be worked out again for offers."""

    def __init__(self, asked: Asked) -> None:
        self.asked = asked
        self.book = asked.profile.book
        self._rows = tuple(self.book.tables["size_classes"].rows.values())
        self._driven = self.book.tables["our_choices"].rows["driven_share_four"].name
        self.soil = Soil(asked.profile)
        self._again: dict[tuple[Any, ...], Again] = {}
        self._hung: dict[str, tuple[float, tuple[float, ...]]] = {}
        self._by_share: dict[tuple[int, float], float] = {}

    @cached_property
    def _titles(self) -> Mapping[str, list[str]]:
        """The titles of the leaves of each column, one for each size class."""
        return {c: [say(self.book, f"cell.size_classes.{c}", row=r.name) for r in self._rows] for c in _COLUMNS}

    # -------------------------------------------------------------------- axles

    def shape(self, offer: Offer) -> Shape | None:
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
        values |= {k: get(k) for k in ("track", "loader_mass", "loader_ahead") if get(k) is not None}
        leaves: dict[str, float] = {}
        for column, value in values.items():
            leaves.update(dict.fromkeys(self._titles[column], value))
        leaves.update(self._in_front(offer, get("front_ballast") or 0.0))
        return Shape(leaves, (*values, offer.get("loader_on") or ""))

    def _in_front(self, offer: Offer, weights: float) -> Mapping[str, float]:
        """The leaves of what hangs in front: so many kg of front weights, and the loader where it stays on.

        Both together are one weight at their common centre: the same moment, and so the same equation.
        """
        loader = offer.get("loader_mass") if offer.get("loader_on") == "stays_on" else None
        leaves = dict.fromkeys(self._titles["front_weights"], weights + (loader or 0.0))
        if loader is not None:
            for row, title in zip(self._rows, self._titles["front_weights_ahead"], strict=True):
                leaves[title] = centre_in_front(
                    weights, row["front_weights_ahead"].planning, loader,
                    offer.get("loader_ahead") or row["loader_ahead"].planning,
                )  # fmt: skip
        return leaves

    def need(self, demand: Demand, shape: Shape) -> float:
        """What a demand asks of this very tractor; without end where nothing is enough.

        The size class below, which only keeps a walk over classes in order, says nothing about a real tractor.
        """
        key = (demand.top.index, shape.sort)
        again = self._again.get(key)
        if again is None:
            worst = self.book.requirements[demand.requirement].decides == "unfavourable"
            again = self._again[key] = Again(demand.top, shape.leaves, worst=worst, without="class_below")
        found = again.value(shape.leaves)
        return _NEVER if found is None else found

    def front_weights(self, hookup: Hookup, offer: Offer, shape: Shape) -> float | None:
        """Front weights in kg with which the balance of a hookup holds; None where a reasonable weight is not enough.

        Found by trying weights in the demand itself, so that there is one equation and not two.
        """
        balance = hookup.needs.get("mass_balance")
        if balance is None:
            return 0.0
        empty = float(offer.get("front_axle_mass") + offer.get("rear_axle_mass"))
        most = empty * self.book.offer_figures["ballast_most"].planning / 100

        def holds(weight: float) -> bool:
            tried = Shape({**shape.leaves, **self._in_front(offer, weight)}, shape.sort)
            return all(self.need(demand, tried) <= empty for demand in balance.demands)

        if holds(0.0):
            return 0.0
        if not holds(most):
            return None
        low, high = 0.0, most
        while high - low > 1:
            middle = (low + high) / 2
            low, high = (low, middle) if holds(middle) else (middle, high)
        return high

    # --------------------------------------------------------------------- lift

    def lift_missing(self, hookup: Hookup, ball_ends: float, at_610: float) -> float | None:
        """How many kg the lift is short where the load of this hookup hangs (negative: to spare); None: hangs nothing.

        Both test figures of a tractor say how its lift falls off behind the ball ends.
        """
        hung = self._hung.get(hookup.id)
        if hung is None:
            hung = self._hung[hookup.id] = self._hanging(hookup)
        need, distances = hung
        if not distances:
            return None
        return max(need - lift_between(ball_ends, at_610, distance) for distance in distances)

    def _hanging(self, hookup: Hookup) -> tuple[float, tuple[float, ...]]:
        """What hangs on the arms with this hookup in kg, and how far behind the ball ends each of its loads may be."""
        need, far = hookup.needs.get("lift_at_load"), hookup.needs.get("lift_610")
        if need is None or far is None:
            return 0.0, ()
        distances = []
        for demand in far.demands:
            assert demand.top.inputs is not None
            distance = ends(demand.top.inputs["distance"]).high
            assert distance is not None
            distances.append(distance)
        return need.value, tuple(distances)

    # -------------------------------------------------------------------- drive

    def goes_on_two(self, offer: Offer) -> bool:
        """True when rear wheels alone take the tractor with nothing behind up the steepest place, and stop it there.

        Rolling helps to stop, so its low end counts on the way down. What hangs in front takes weight off the rear.
        """
        plan = self.asked.profile.plan
        surface, row = self.book.tables["surfaces"].rows[plan.surface.value], self.asked.profile.stand_in
        angle, share = angle_of(plan.slope_up.value), self._rear_share_ready(offer)
        try:
            mass_for_pull(
                pull=0.0, grip=surface["grip"].planning, pressed_on=0.0, driven_share=share,
                rolling=surface["rolling"].planning, angle=angle,
            )  # fmt: skip
            mass_to_stop_rear(
                towed=0.0, grip=surface["grip"].planning, rolling=surface["rolling"].low, angle=angle,
                deceleration=self.book.choice("stop_field").planning, rear_share=share,
                wheelbase=offer.get("wheelbase") or row["wheelbase"].planning,
                centre_height=row["centre_height"].planning, hitch_height=row["hitch_height"].planning,
            )  # fmt: skip
        except NoSolutionError:
            return False
        return True

    def _rear_share_ready(self, offer: Offer) -> float:
        """The share on the rear wheels with front weights and a loader that stays on, as far as the offer says them.

        Both reach ahead of the front axle, so they take weight off the rear and add to the whole.
        """
        row, share = self.asked.profile.stand_in, self._rear_share(offer)
        bare = offer.get("mass_bare") or row["mass"].planning
        if offer.get("front_axle_mass") is not None and offer.get("rear_axle_mass") is not None:
            bare = offer.get("front_axle_mass") + offer.get("rear_axle_mass")
        base = offer.get("wheelbase") or row["wheelbase"].planning
        loader = offer.get("loader_mass") if offer.get("loader_on") == "stays_on" else None
        in_front = (
            (offer.get("front_ballast") or 0.0, row["front_weights_ahead"].planning),
            (loader or 0.0, offer.get("loader_ahead") or row["loader_ahead"].planning),
        )  # fmt: skip
        taken = sum(weight * ahead / base for weight, ahead in in_front)
        return max(float((share * bare - taken) / (bare + sum(weight for weight, _ in in_front))), 0.0)

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

    def by_tyres(self, demand: Demand, tyres: Tyres, driven: Driven, *, lugs: bool) -> tuple[float, Grip | None]:
        """The least weight with which this tractor on its tyres pulls, and its grip then; without end where none does.

        The heavier it is, the more a tyre sinks in and the less of its load it pulls. So weights are tried upward from
        nothing: each asks for a weight, and the first that asks for no more than itself is the least.
        """
        requirement = self.book.requirements[demand.requirement]
        share = 1.0 if driven == "four" else tyres.rear_share
        assert demand.top.inputs is not None
        assert demand.top.inputs["grip"].title == self.soil.leaf
        pressed = float(demand.top.inputs["pressed_on"].value)
        weight = 0.0
        while weight < _HEAVIEST:
            grip = self.soil.grip(tyres, driven, lugs=lugs, weight=weight, pressed=pressed)
            asks = self._pulling(demand, {self.soil.leaf: grip.ratio, self._driven: share})
            if asks is None:
                break
            asks = rounded(requirement, asks)
            if asks <= weight:
                return weight, grip
            weight = asks
        return _NEVER, None

    def _gripping(self, demand: Demand, share: float, base: float) -> float | None:
        return self._pulling(demand, {self._driven: share})

    def _pulling(self, demand: Demand, leaves: Mapping[str, float]) -> float | None:
        key = (demand.top.index, *leaves)
        again = self._again.get(key)
        if again is None:
            again = self._again[key] = Again(demand.top, leaves, worst=False)
        return again.value(leaves)

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
