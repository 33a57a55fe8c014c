"""Remarks with numbers that hold for one profile only, beside the caveats that the book has for every one."""

from __future__ import annotations

from firstfurrow.advice.desk import Desk
from firstfurrow.advice.outcome import Remark
from firstfurrow.advice.strictest import Strictest
from firstfurrow.mechanics.engine import engine_power_usual
from firstfurrow.quantities import show


def remarks(desk: Desk, requirement: str, outcome: Strictest | None) -> tuple[Remark, ...]:
    """On PTO power: the engine power that usually goes with it, and the ceiling of the usual shaft."""
    if requirement != "pto_power" or outcome is None or outcome.stated_step is None:
        return ()
    engine = desk.ledger.work(
        engine_power_usual, desk.say("engine_power"), power=outcome.stated_step,
        share=desk.choice("pto_of_engine_gears"),
    )  # fmt: skip
    share = desk.book.choice("pto_of_engine_gears")  # only the share is open here: the stated power is what it is
    low, high = (100 * outcome.stated / part if part > 1 else outcome.stated / part for part in (share.high, share.low))
    usual = desk.say("engine_usual", low=_power(desk, low), high=_power(desk, high))
    found = [Remark(usual, engine)]
    ceiling = desk.book.tables["shaft_types"].rows["1"]["ceiling"]
    if outcome.stated > ceiling.planning:
        step = desk.cell("shaft_types", "1", "ceiling")
        found.append(Remark(desk.say("over_ceiling", ceiling=_power(desk, ceiling.planning)), step))
    return tuple(found)


def _power(desk: Desk, value: float) -> str:
    return show(value, "kW", desk.plan.units, 0)
