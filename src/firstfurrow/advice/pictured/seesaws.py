"""Seesaws: what lifts the wheels at the far end of the tractor, what holds them down, and what is left on them.

Everything is said as kg on the wheels at the far end: a mass on an arm counts by its arm over the wheelbase.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.book.model import Row
from firstfurrow.mechanics.axles import axle_share
from firstfurrow.mechanics.balance import counterweight, front_axle_load, mass_for_balance
from firstfurrow.reasoning import FORMULAS, Step, ancestors


@dataclass(frozen=True, slots=True)
class Arm:
    """A mass in kg, how far (m) it is from the axle of turning, and what it does to the far wheels."""

    mass: float
    distance: float
    far: float  # kg that it presses on the far wheels, or takes off them


@dataclass(frozen=True, slots=True)
class Seesaw:
    """One tractor about one of its axles."""

    row: Row  # the size class whose usual shape it has
    hookup: str
    name: str
    tractor: float  # kg, what `share` is a share of
    wheelbase: float
    overhang: float  # m from the rear axle to the ball ends
    lifting: Arm  # what lifts the far wheels
    standing: float  # kg on the far wheels before that
    helping: Arm | None  # weights that hold them down
    left: float  # kg
    share: float
    must: float  # kg that must be left
    asked: Strictest  # the requirement that it belongs to
    because: str  # what decides it: level, uphill, downhill, class_below


def tool_behind(profile: Profile) -> Seesaw | None:
    """About the rear axle: the tool that asks for most weight so that the front wheels stay down."""
    asked = profile.outcomes["mass_balance"].widest
    if asked is None or asked.governed_by is None:
        return None
    level = _worked(asked, mass_for_balance)
    if level is None:
        return None
    has, demand = _values(level), asked.governed_by
    shape = {name: has[name] for name in ("wheelbase", "overhang", "reach", "ahead")}
    row = _row(
        profile, wheelbase=has["wheelbase"], hitch_overhang=has["overhang"], front_share=has["front_share"],
        front_weights=has["front"],
    )  # fmt: skip
    weights = any(d.requirement == "front_ballast" and d.hookup == demand.hookup for d in profile.demands)
    front = has["front"] if weights else 0.0  # where none are asked for, the tractor does without
    mass = float(asked.stated)  # a tractor that is just heavy enough, with the shape of that class
    standing = axle_share(mass=mass, share=has["front_share"])
    left = front_axle_load(front=front, front_axle=standing, rear=has["rear"], **shape)
    return Seesaw(
        row=row, hookup=demand.hookup, name=demand.name, tractor=mass, wheelbase=has["wheelbase"],
        overhang=has["overhang"], standing=standing,
        lifting=Arm(
            has["rear"], has["overhang"] + has["reach"],
            -front_axle_load(front=0, front_axle=0, rear=has["rear"], **shape),
        ),
        helping=Arm(
            front, has["wheelbase"] + has["ahead"], front_axle_load(front=front, front_axle=0, rear=0, **shape)
        ) if front else None,
        left=left, share=has["kept"], must=has["kept"] * mass, asked=asked, because=_deciding(asked),
    )  # fmt: skip


def load_in_front(profile: Profile) -> Seesaw | None:
    """About the front axle: the load in the loader that asks for most weight behind."""
    asked = profile.outcomes["rear_ballast"].widest
    if asked is None or asked.governed_by is None:
        return None
    level = _worked(asked, counterweight)
    if level is None:
        return None
    has, demand = _values(level), asked.governed_by
    row = _row(profile, wheelbase=has["wheelbase"], hitch_overhang=has["behind"])
    wheelbase, behind, weight = has["wheelbase"], has["behind"], float(asked.stated)

    def on_rear(rear_axle: float, payload: float, counter: float) -> float:
        # The same seesaw turned round: what hangs behind the rear axle stands for what hangs ahead of the front axle.
        return front_axle_load(
            front=counter, ahead=behind, wheelbase=wheelbase, front_axle=rear_axle, rear=payload, overhang=0,
            reach=has["ahead"],
        )  # fmt: skip

    everything = has["total"] + has["payload"] + weight
    return Seesaw(
        row=row, hookup=demand.hookup, name=demand.name, tractor=everything, wheelbase=wheelbase, overhang=behind,
        standing=has["rear_axle"], lifting=Arm(has["payload"], has["ahead"], -on_rear(0, has["payload"], 0)),
        helping=Arm(weight, wheelbase + behind, on_rear(0, 0, weight)),
        left=on_rear(has["rear_axle"], has["payload"], weight), share=has["share"], must=has["share"] * everything,
        asked=asked, because=_deciding(asked),
    )  # fmt: skip


def _deciding(asked: Strictest) -> str:
    """The name of the greatest among what was compared: level ground where there is nothing to compare."""
    top = _top(asked)
    while top.type == "round" and top.inputs is not None:
        top = top.inputs["value"]
    if top.type != "greatest" or top.inputs is None:
        return "level"
    compared = {name: step.value for name, step in top.inputs.items()}
    return max(compared, key=compared.__getitem__)


def _top(asked: Strictest) -> Step:
    if asked.stated_step is not None:
        return asked.stated_step
    assert asked.governed_by is not None
    return asked.governed_by.top


def _worked(asked: Strictest, function: Callable[..., float]) -> Step | None:
    """The step by `function` below what is stated: with the ends that decide."""
    text = FORMULAS[function].text
    return next((step for step in ancestors(_top(asked)) if step.formula == text), None)


def _values(step: Step) -> dict[str, float]:
    assert step.inputs is not None
    return {name: one.value for name, one in step.inputs.items()}


def _row(profile: Profile, **figures: float) -> Row:
    """The size class of that shape: no two have the same."""
    rows = profile.book.tables["size_classes"].rows.values()
    return next(row for row in rows if all(row[name].planning == value for name, value in figures.items()))
