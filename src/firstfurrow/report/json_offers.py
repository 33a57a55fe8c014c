"""Offers held against a profile as JSON data (firstfurrow-check/1): working units throughout."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

from firstfurrow import __version__
from firstfurrow.advice.offers.checked import Checked, CheckedOffer
from firstfurrow.advice.offers.items import ItemVerdict
from firstfurrow.advice.offers.verdicts import Verdict

FORMAT = "firstfurrow-check/1"


def offers_data(checked: Checked, problems: tuple[str, ...] = ()) -> dict[str, Any]:
    """All verdicts as plain data, the best offer first; `problems` says what could not be read."""
    profile = checked.profile
    return {
        "format": FORMAT,
        "program": {"name": "firstfurrow", "version": __version__},
        "book": {"id": profile.book.id, "version": profile.book.version},
        "scenario": profile.scenario,
        "refusals": [{"kind": r.kind, "title": r.title} for r in profile.refusals],
        "offers": [_offer(one) for one in checked.best_first],
        "problems": list(problems),
    }


def _offer(one: CheckedOffer) -> dict[str, Any]:
    return {
        "name": one.offer.name,
        "place": one.offer.place,
        "requirements": [_verdict(v) for v in one.judged.verdicts.values()],
        "grip": _grip(one),
        "tyres_not_worked": one.judged.tyres_not_worked,
        "loader": one.judged.loader,
        "implements": [_item(item) for item in one.items],
        "traps": [{"id": trap.id, "key": trap.key} for trap in one.traps],
        "ask": [
            {"requirement": q.verdict.requirement.id, "why": q.why, "keys": list(q.keys)} for q in one.questions
        ],
    }  # fmt: skip


def _verdict(verdict: Verdict) -> dict[str, Any]:
    requirement = verdict.requirement
    return {
        "id": requirement.id, "unit": requirement.unit, "status": verdict.status, "need": _plain(verdict.need),
        "has": _plain(verdict.has), "short_by": _plain(verdict.gap), "how": verdict.how,
        "later_only": verdict.later_only,
    }  # fmt: skip


def _grip(one: CheckedOffer) -> dict[str, Any] | None:
    """What its tyres hold, with every ratio that it came from; None where the usual figure was taken."""
    mass = one.judged.verdicts.get("mass")
    grip = None if mass is None else mass.grip
    if grip is None:
        return None
    ends = {"front": grip.front, "rear": grip.rear}
    return {
        "surface": grip.soil.name, "cone_index": grip.soil.cone_index, "slip": grip.soil.slip,
        "deflection": grip.soil.deflection, "weight": grip.weight, "ratio": grip.ratio, "capped": grip.capped,
        "wheels": [
            {"end": end, **asdict(wheel.tyre), **{k: v for k, v in asdict(wheel).items() if k != "tyre"}}
            for end, wheel in ends.items() if wheel is not None
        ],
    }  # fmt: skip


def _item(item: ItemVerdict) -> dict[str, Any]:
    return {
        "item": item.hookup.id, "name": item.hookup.name, "runs": item.runs,
        "never": [v.requirement.id for v in item.never], "if": [v.requirement.id for v in item.if_],
        "ask": [v.requirement.id for v in item.ask], "refused": item.hookup.refused,
        "size_open": item.size_open, "any_size": item.any_size,
    }  # fmt: skip


def _plain(value: Any) -> Any:
    """JSON has no number without end: null stands for it."""
    if isinstance(value, tuple):
        return [_plain(v) for v in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value
