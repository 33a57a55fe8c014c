"""Before you sign: what to ask the seller, from what is unknown and from what is only just enough."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from firstfurrow.advice.offers.verdicts import LIFTS, Judged, Verdict
from firstfurrow.book.model import Book

Why = Literal["unknown", "close"]


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to ask: about which verdict, why, and the keys of an offer that would answer it."""

    verdict: Verdict
    why: Why
    keys: tuple[str, ...]


def questions(book: Book, judged: Judged) -> tuple[Question, ...]:
    """Unknown first, in the order of the profile; then what is close. The three lifts are asked about once."""
    unknown: list[Question] = []
    close: list[Question] = []
    lift = False
    for id_, verdict in judged.verdicts.items():
        if id_ in LIFTS and verdict.status == "unknown":
            if lift:
                continue
            lift = True
            verdict = judged.verdicts.get("lift_610", verdict)
            unknown.append(Question(verdict, "unknown", _lift_keys(judged)))
        elif verdict.status == "unknown" and verdict.need is not None:
            if id_ == "rear_sets_comfortable" and "rear_sets" in judged.verdicts:
                continue  # the same count answers both
            asked = verdict.requirement.offer_keys if verdict.how != "tread" else ("tyre_tread",)
            keys = tuple(k for k in asked if k not in judged.offer.said)
            unknown.append(Question(verdict, "unknown", keys))
        elif verdict.status == "meets" and _close(book, verdict):
            close.append(Question(verdict, "close", ()))
    return (*unknown, *close)


def _lift_keys(judged: Judged) -> tuple[str, ...]:
    missing = tuple(k for k in ("lift_610", "lift_from") if k not in judged.offer.said)
    return missing or ("lift_at_load",)


def _close(book: Book, verdict: Verdict) -> bool:
    """Only just enough, for a measure that was read somewhere and not counted."""
    requirement = verdict.requirement
    if requirement.sense not in ("at_least", "at_most") or not requirement.unit or verdict.has is None:
        return False
    share = book.offer_figures["close"].planning / 100
    if requirement.sense == "at_least":
        return bool(verdict.has[0] < verdict.need * (1 + share))
    return bool(verdict.has[1] > verdict.need * (1 - share))
