"""How far an unknown may reach, read off the steps of one run: rough, but it costs next to nothing.

The leaves of the unknown are moved to their ends below the demands that govern, and below those next to them. It tells
which unknowns are worth a run of the whole road, and never takes the place of one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study.candidates import Candidate
from firstfurrow.advice.study.felt import Scale, apart
from firstfurrow.book.model import Requirement
from firstfurrow.reasoning import NoSolutionError, Step, ancestors

BEYOND = 10.0  # steps counted where an end has no solution: as if the requirement went without bound


class Reach:
    """The steps below every governing demand of a profile, ready to be moved."""

    def __init__(self, profile: Profile, scale: Scale) -> None:
        self._scale = scale
        self._by_mark: dict[str, list[Step]] = {}
        for step in profile.steps:
            if step.inputs is None:
                for mark in (step.question, step.title):
                    if mark:
                        self._by_mark.setdefault(mark, []).append(step)
        self._tops: list[tuple[Requirement, float, Step, list[Step], frozenset[int]]] = []
        for outcome in profile.outcomes.values():
            widest = outcome.widest
            if widest is None or outcome.requirement.sense not in ("at_least", "at_most"):
                continue
            for demand in (widest.governed_by, widest.runner_up):
                if demand is not None and demand.top.inputs is not None:
                    order = ancestors(demand.top)
                    below = frozenset(step.index for step in order)
                    self._tops.append((outcome.requirement, float(demand.top.value), demand.top, order, below))

    def of(self, candidate: Candidate) -> float | None:
        """Rough steps of an unknown; None where it stands in no step, so that nothing can be said."""
        leaves = [step for mark in candidate.marks for step in self._by_mark.get(mark, ())]
        if not leaves:
            return None
        found = 0.0
        for ends in zip(*(_ends(leaf, candidate.ends) for leaf in leaves), strict=True):
            values = {leaf.index: end for leaf, end in zip(leaves, ends, strict=True)}
            things: dict[str, float] = {}
            for requirement, planned, top, order, below in self._tops:
                if below.isdisjoint(values):
                    continue
                moved = _moved(top, order, values)
                steps = BEYOND if moved is None else apart(self._scale, requirement, planned, moved)
                row = self._scale.things.get(requirement.id)
                thing = requirement.id if row is None else row.id
                things[thing] = max(things.get(thing, 0.0), steps)
            found += sum(things.values())
        return found


def _ends(leaf: Step, ends: tuple[float, float] | None) -> tuple[float, float]:
    if ends is not None:
        return ends
    value = float(leaf.value)
    return (value if leaf.low is None else leaf.low, value if leaf.high is None else leaf.high)


def _moved(top: Step, order: Sequence[Step], values: Mapping[int, float]) -> float | None:
    """The value of a step with some leaves moved; None where a formula has no solution."""
    now: dict[int, float] = dict(values)
    try:
        for step in order:
            if step.inputs is None or step.run is None:
                continue
            if any(below.index in now for below in step.inputs.values()):
                inputs = {name: now.get(below.index, below.value) for name, below in step.inputs.items()}
                now[step.index] = round(step.run(**inputs), step.digits)
    except NoSolutionError:
        return None
    return float(now.get(top.index, top.value))
