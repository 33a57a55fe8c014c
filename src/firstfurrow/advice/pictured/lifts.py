"""Lift over distance behind the ball ends: the loads of a plan, and what a tractor lifts that just meets the plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.mechanics.hitch import lift_between
from firstfurrow.reasoning import Ends, ends


@dataclass(frozen=True, slots=True)
class Load:
    """One hookup as it hangs on the arms."""

    hookup: str
    name: str
    mass: Ends  # kg, full
    distance: Ends  # m from the ball ends to its centre
    later: bool  # it may come; it is not sure


@dataclass(frozen=True, slots=True)
class Lifts:
    """All loads, the three requirements that follow from them, and the rule between these."""

    loads: tuple[Load, ...]
    at_load: Strictest
    at_test: Strictest
    at_ends: Strictest
    test: float  # m behind the ball ends
    movement: float  # share of the lift that is left on moving ground

    def lifted(self, distance: float) -> float:
        """Lift in kg at `distance` (m) behind the ball ends, standing, of a tractor that just has what is asked for.

        The same rule with which the two test figures of a real tractor are read.
        """
        return lift_between(ball_ends=self.at_ends.stated, at_610=self.at_test.stated, distance=distance)

    def moving(self, distance: float) -> float:
        """The part of it that is left on moving ground."""
        return self.lifted(distance) * self.movement


def lifts(profile: Profile) -> Lifts | None:
    """What hangs on the arms with everything that may come; None where nothing does."""
    needs = [profile.outcomes[id_].widest for id_ in ("lift_at_load", "lift_610", "lift_ball_ends")]
    at_load, at_test, at_ends = needs
    if at_load is None or at_test is None or at_ends is None:
        return None
    first = next(demand for demand in profile.demands if demand.requirement == "lift_610").top.inputs
    assert first is not None
    return Lifts(
        tuple(_loads(profile)), at_load, at_test, at_ends, first["test"].value, first["movement"].value
    )  # fmt: skip


def _loads(profile: Profile) -> Iterator[Load]:
    """In the order of the plan."""
    later = {note.sized.item.id: note.sized.item.when == "later" for note in profile.hookups}
    for demand in profile.demands:
        if demand.requirement == "lift_610":
            assert demand.top.inputs is not None
            mass, distance = demand.top.inputs["load"], demand.top.inputs["distance"]
            yield Load(demand.hookup, demand.name, ends(mass), ends(distance), later[demand.hookup])
