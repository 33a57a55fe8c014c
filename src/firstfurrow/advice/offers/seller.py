"""Before you sign: what to ask, the most important first: what to fit, what is unknown, what is only just enough."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from firstfurrow.advice.offers.items import ItemVerdict, mendable
from firstfurrow.advice.offers.verdicts import LIFTS, Judged, Verdict
from firstfurrow.book.model import Book

Why = Literal["unknown", "close", "fit"]
DRIVER = "roll_bar"  # what keeps the driver alive comes before everything


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to ask: about which verdict, why, and the keys of an offer that would answer it.

    why
        fit: it is short, and can be fitted before the tractor is paid for.
    """

    verdict: Verdict
    why: Why
    keys: tuple[str, ...]


def questions(book: Book, judged: Judged, items: Sequence[ItemVerdict]) -> tuple[Question, ...]:
    """What to fit, then what is unknown by how much hangs on it, then what is close; nothing where nothing runs.

    What only an implement asks for that cannot run anyhow is not worth a question.
    """
    if items and all(item.runs == "does_not" for item in items):
        return ()
    alive = [item for item in items if item.runs != "does_not"]
    asked_by = Counter(id_ for item in alive for id_ in {*item.hookup.needs})
    loose = {id_ for id_ in judged.verdicts if not any(id_ in item.hookup.needs for item in items)}
    fit: list[Question] = []
    unknown: list[Question] = []
    close: list[Question] = []
    lift = False
    for id_, verdict in judged.verdicts.items():
        if id_ not in asked_by and id_ not in loose:
            continue
        if verdict.status == "short" and mendable(book, verdict) and _fitted(alive, id_):
            fit.append(Question(verdict, "fit", ()))
        elif id_ in LIFTS and verdict.status == "unknown":
            if not lift:
                unknown.append(Question(judged.verdicts.get("lift_610", verdict), "unknown", _lift_keys(judged)))
            lift = True
        elif verdict.status == "unknown" and verdict.need is not None and _worth_asking(judged, id_):
            answers = verdict.requirement.offer_keys if verdict.how != "tread" else ("tyre_tread",)
            keys = tuple(k for k in answers if k not in judged.offer.said)
            unknown.append(Question(verdict, "unknown", keys))
        elif verdict.status == "meets" and _close(book, judged, verdict):
            close.append(Question(verdict, "close", ()))
    fit.sort(key=lambda question: question.verdict.requirement.id != DRIVER)
    unknown.sort(key=lambda question: (question.verdict.requirement.id != DRIVER, -_hangs(asked_by, question)))
    return (*fit, *unknown, *close)


def _fitted(alive: Sequence[ItemVerdict], id_: str) -> bool:
    """True when something that runs otherwise waits for this, or it belongs to no implement at all."""
    return any(v.requirement.id == id_ for item in alive for v in item.if_) or not any(
        id_ in item.hookup.needs for item in alive
    )


def _worth_asking(judged: Judged, id_: str) -> bool:
    if id_ == "rear_sets_comfortable" and "rear_sets" in judged.verdicts:
        return False  # the same count answers both
    # Nobody can say what it pulls before it has pulled; its weight says most of it.
    return not (id_ == "drawbar_pull" and "mass" in judged.verdicts)


def _hangs(asked_by: Counter[str], question: Question) -> int:
    return asked_by[question.verdict.requirement.id]


def _lift_keys(judged: Judged) -> tuple[str, ...]:
    missing = tuple(k for k in ("lift_610", "lift_from") if k not in judged.offer.said)
    return missing or ("lift_at_load",)


def _close(book: Book, judged: Judged, verdict: Verdict) -> bool:
    """Only just enough, for a measure that was read somewhere and not counted."""
    requirement = verdict.requirement
    if requirement.sense not in ("at_least", "at_most") or not requirement.unit or verdict.has is None:
        return False
    if requirement.id == "lift_ball_ends" and "lift_610" in judged.offer.said:
        return False  # the figure further back is known, and counts
    share = book.offer_figures["close"].planning / 100
    if requirement.sense == "at_least":
        return bool(verdict.has[0] < verdict.need * (1 + share))
    return bool(verdict.has[1] > verdict.need * (1 - share))
