"""A demand worked out again with other figures in the place of some leaves: the same steps, the same formulas."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from firstfurrow.reasoning import NoSolutionError, Step, ancestors, ends


def worked_again(top: Step, leaves: Mapping[str, float], *, worst: bool, without: str = "") -> float | None:
    """The value of `top` with the leaves of these titles replaced; None where that has no solution.

    worst
        Every other leaf at its unfavourable end.
    without
        The name of an input that is left out of what takes the greatest of several.
    """
    made: dict[int, Step] = {}
    try:
        for step in ancestors(top):
            if step.inputs is None:
                if step.title in leaves:
                    made[step.index] = replace(step, value=leaves[step.title], low=None, high=None, moves=False)
            elif without in step.inputs or any(below.index in made for below in step.inputs.values()):
                made[step.index] = _again(step, made, without)
    except NoSolutionError:
        return None
    found = made.get(top.index, top)
    return ends(found).high if worst else float(found.value)


def _again(step: Step, made: Mapping[int, Step], without: str) -> Step:
    assert step.inputs is not None
    assert step.run is not None
    inputs = {name: made.get(below.index, below) for name, below in step.inputs.items() if name != without}
    value = round(step.run(**{name: below.value for name, below in inputs.items()}), step.digits)
    return replace(
        step, inputs=inputs, value=value, moves=any(below.moves for below in inputs.values()),
        reads=tuple((name, below.index, below.value) for name, below in inputs.items()),
    )  # fmt: skip
