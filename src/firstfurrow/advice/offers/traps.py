"""Traps of brochures: a figure that says something else than what is asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from firstfurrow.advice.offers.evidence import known
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.verdicts import Judged


@dataclass(frozen=True, slots=True)
class Trap:
    """One trap: its id in the book's sentences, and the key of the offer that it is about."""

    id: str
    key: str


def _instead(here: str, missing: str) -> Callable[[Offer], bool]:
    return lambda offer: known(offer, here) and not known(offer, missing)


def _same(one: str, other: str) -> Callable[[Offer], bool]:
    """The same number twice, where the first is always less."""
    return lambda offer: known(offer, one, other) and offer.get(one) == offer.get(other)


def _lift_of_brochure(offer: Offer) -> bool:
    return (known(offer, "lift_610") or known(offer, "lift_ball_ends")) and offer.get("lift_from") != "test_report"


def _many_sets(offer: Offer) -> bool:
    """Sets in even number that nobody counted by their sockets may be sockets."""
    sets = offer.get("rear_sets")
    return sets is not None and sets >= 2 and sets % 2 == 0 and not known(offer, "rear_ports")


# Trap, the key it is about, when it is seen, and the requirements of which one must be asked for.
_TRAPS: tuple[tuple[str, str, Callable[[Offer], bool], tuple[str, ...]], ...] = (
    ("engine_for_shaft", "engine_power", _instead("engine_power", "pto_power"), ("pto_power",)),
    ("engine_is_shaft", "pto_power", _same("pto_power", "engine_power"), ("pto_power",)),
    ("ports_for_sets", "rear_ports", _instead("rear_ports", "rear_sets"), ("rear_sets", "rear_sets_comfortable")),
    ("sets_or_ports", "rear_sets", _many_sets, ("rear_sets", "rear_sets_comfortable")),
    ("ball_ends_only", "lift_ball_ends", _instead("lift_ball_ends", "lift_610"), ("lift_610",)),
    ("lifts_same", "lift_610", _same("lift_610", "lift_ball_ends"), ("lift_610",)),
    ("lift_of_brochure", "lift_610", _lift_of_brochure, ("lift_610",)),
    ("pump_for_sockets", "pump_flow", _instead("pump_flow", "oil_flow"), ("oil_flow",)),
    ("pump_is_sockets", "oil_flow", _same("oil_flow", "pump_flow"), ("oil_flow",)),
    ("breakout_for_lift", "loader_breakout", _instead("loader_breakout", "loader_lift"), ("loader_lift",)),
    ("bar_folded", "height_folded", _instead("height_folded", "height"), ("height_most",)),
    ("ready_for_bare", "mass", _instead("mass", "mass_bare"), ("mass_balance", "mass_most")),
    ("bare_for_ready", "mass_bare", _instead("mass_bare", "mass"), ("mass", "mass_towing")),
)  # fmt: skip


def traps_about(requirement: str) -> tuple[Trap, ...]:
    """The traps into which one may fall when this is asked for, whatever an offer says."""
    return tuple(Trap(id_, key) for id_, key, _, about in _TRAPS if requirement in about)


def traps(judged: Judged) -> tuple[Trap, ...]:
    """The traps of one offer, as far as something is asked that they touch."""
    asked: Mapping[str, object] = judged.verdicts
    return tuple(
        Trap(id_, key)
        for id_, key, seen, about in _TRAPS
        if any(requirement in asked for requirement in about) and seen(judged.offer)
    )
