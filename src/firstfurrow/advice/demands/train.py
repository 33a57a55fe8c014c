"""Two hookups in one train: a wagon that runs behind a baler is pulled, climbed with and stopped together with it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.demands.shaft import power, rated
from firstfurrow.advice.demands.towing import Load
from firstfurrow.advice.demands.weight import mass_of_pull, pressed_on
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.power import drawbar_power, shaft_power_of_pull
from firstfurrow.reasoning import Step


@dataclass(frozen=True, slots=True)
class Train:
    """A machine and what runs behind it; the demands belong to the last one, which is what may be left off."""

    first: Rig
    last: Rig

    @property
    def name(self) -> str:
        """What to call both."""
        return self.first.desk.say("train_name", item=self.first.name, behind=self.last.name)


def trains(rigs: Sequence[Rig]) -> tuple[Train, ...]:
    """Every machine of the plan with each wagon of the plan that may run behind it."""
    return tuple(
        Train(first, last)
        for first in rigs
        for last in rigs
        if last.kind.kind in first.kind.leads and first.trailed and last.rolls
    )


def load_of(train: Train) -> Load | None:
    """Both as one load without brakes; None where the wagon has its own, or a mass is not known."""
    first, last = train.first, train.last
    if last.item.brakes or first.gross is None or last.gross is None:
        return None
    key = (first.id, last.id, "train_mass")
    desk = first.desk
    mass = desk.kept(key) or desk.keep(
        key, desk.ledger.sum(desk.say("train_mass", item=train.name), {"first": first.gross, "behind": last.gross})
    )
    return Load(last.id, train.name, mass, braked=False, road=last.on_road)


def mass(train: Train) -> Demand | None:
    """Mass to pull both.

    Raises
    ------
    NoGripError
        When no mass is enough on this slope and surface.
    """
    first, last = train.first, train.last
    if first.pull is None or last.pull is None:
        return None
    desk = first.desk
    key = (first.id, last.id, "train_pull")
    pull = desk.kept(key) or desk.keep(
        key, desk.ledger.sum(desk.say("train_pull", item=train.name), {"first": first.pull, "behind": last.pull})
    )
    key = (first.id, last.id, "train_grip")
    top = desk.kept(key) or desk.keep(key, mass_of_pull(desk, last.id, train.name, pull, pressed_on(first)))
    return Demand("mass", last.id, train.name, top.value, top)


def shaft(train: Train, setting: Setting) -> Demand | None:
    """Shaft power of the machine while it pulls the wagon as well."""
    own = power(train.first, setting)
    if own is None or train.last.pull is None or train.first.speed is None:
        return None
    desk = train.first.desk
    key = (train.first.id, train.last.id, "train_power", setting.key)
    top = desk.kept(key) or desk.keep(key, _with_wagon(desk, train, own.top))
    return Demand("pto_power", train.last.id, train.name, top.value, top)


def _with_wagon(desk: Desk, train: Train, own: Step) -> Step:
    speed = train.first.climb_speed if desk.steep else train.first.speed
    assert speed is not None
    assert train.last.pull is not None
    pulling = desk.ledger.work(
        drawbar_power, desk.say("towed_power", item=train.last.name), pull=train.last.pull, speed=speed
    )
    behind = desk.ledger.work(
        shaft_power_of_pull, desk.say("shaft_power_of_pull", item=train.last.name),
        draft_power=desk.constant(desk.say("no_draft"), 0, "kW"), reserve=desk.choice("reserve_draft"), climb=pulling,
        ratio=desk.ratio(),
    )  # fmt: skip
    parts = {"first": own, "behind": rated(desk, train.last.name, behind)}
    return desk.ledger.sum(desk.say("train_power", item=train.name), parts)


def demands(desk: Desk, rigs: Sequence[Rig], setting: Setting) -> Iterator[Demand]:
    """Shaft power and pull of every train; the grip is apart because it may have no answer."""
    for train in trains(rigs):
        found = shaft(train, setting)
        if found is not None:
            yield found
        first, last = train.first.pull, train.last.pull
        if first is not None and last is not None:
            key = (train.first.id, train.last.id, "train_pull")
            pull = desk.kept(key) or desk.keep(
                key, desk.ledger.sum(desk.say("train_pull", item=train.name), {"first": first, "behind": last})
            )
            yield Demand("drawbar_pull", train.last.id, train.name, pull.value, pull)
