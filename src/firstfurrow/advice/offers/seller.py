"""Before you sign: what to settle: what can be fitted, then what is unknown, then what is only just enough."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from firstfurrow.advice.offers.asked import COMFORT
from firstfurrow.advice.offers.items import ItemVerdict, mendable
from firstfurrow.advice.offers.verdicts import LIFTS, Judged, Verdict
from firstfurrow.book.model import Book

Why = Literal["unknown", "close", "fit"]
DRIVER = "roll_bar"  # what keeps the driver alive comes before everything
AXLES = ("front_axle_mass", "rear_axle_mass", "wheelbase")  # what says how much rests on the rear wheels


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
    """What to fit, then what is unknown, then what is close; nothing where nothing runs.

    Each comes from what still may run: what only an implement asks for that cannot run anyhow is not worth a question.
    """
    if items and all(item.runs == "does_not" for item in items):
        return ()
    alive = [item for item in items if item.runs != "does_not"]
    asked_by = {id_ for item in items for id_ in item.hookup.needs}
    waits: Counter[str] = Counter()
    fit: list[Question] = []
    unknown: list[Question] = []
    close: list[Question] = []
    for id_, whole in judged.verdicts.items():
        for_all = id_ not in asked_by  # by the land or the driver
        lacking = [v for item in alive for v in item.if_ if v.requirement.id == id_]
        open_ = [_own(item, v) for item in alive for v in item.ask if v.requirement.id == id_]
        waits[id_] = len(alive) if for_all else len(lacking) + len(open_)
        if lacking or (for_all and whole.status == "short" and mendable(book, whole)):
            fit.append(Question(_strictest(lacking) if lacking else whole, "fit", ()))
        elif open_ and id_ in LIFTS:
            if not any(question.verdict.requirement.id in LIFTS for question in unknown):
                unknown.append(Question(_lift(judged, alive, whole), "unknown", _lift_keys(judged)))
        elif (open_ or _open_for_all(whole, for_all, alive)) and _worth_asking(judged, id_):
            verdict = _strictest(open_) if open_ else whole
            unknown.append(Question(verdict, "unknown", _keys(judged, verdict)))
        elif whole.status == "meets" and (for_all or _needed(alive, id_)) and _close(book, judged, whole):
            close.append(Question(whole, "close", ()))
    decides = {id_: place for place, id_ in enumerate(judged.decides)}

    def order(question: Question) -> tuple[bool, bool, int, int]:
        """The driver's life; what decides about the sort of tractor; then by how many implements wait for it."""
        id_ = question.verdict.requirement.id
        same = LIFTS if id_ in LIFTS else (id_,)
        place = min(decides.get(one, len(decides)) for one in same)
        return id_ != DRIVER, question.verdict.how != "two_enough", place, -max(waits[one] for one in same)

    fit.sort(key=lambda question: (order(question)[0], order(question)[3]))
    return (*fit, *sorted(unknown, key=order), *close)


def _needed(alive: Sequence[ItemVerdict], id_: str) -> bool:
    return any(id_ in item.hookup.needs for item in alive)


def _open_for_all(whole: Verdict, for_all: bool, alive: Sequence[ItemVerdict]) -> bool:
    """Unknown, and asked for by no implement, or for the comfort of one; what the buyer must measure is no question."""
    mine = for_all or (whole.requirement.id == COMFORT and _needed(alive, COMFORT))
    return mine and whole.status == "unknown" and whole.need is not None


def _own(item: ItemVerdict, verdict: Verdict) -> Verdict:
    """With what this implement asks for: of what nobody knows anything, one verdict stands for all implements."""
    need = item.hookup.needs.get(verdict.requirement.id)
    return verdict if need is None or verdict.has is not None or verdict.how else replace(verdict, need=need.value)


def _lift(judged: Judged, alive: Sequence[ItemVerdict], other: Verdict) -> Verdict:
    """The lift at 610 mm stands for all three, with what those implements ask there that wait for it."""
    far = judged.verdicts.get("lift_610", other)
    needs = [item.hookup.needs["lift_610"].value for item in alive
             if "lift_610" in item.hookup.needs and any(v.requirement.id in LIFTS for v in item.ask)]  # fmt: skip
    return replace(far, need=max(needs)) if needs and far.how != "two_lifts" else far


def _strictest(verdicts: Sequence[Verdict]) -> Verdict:
    """The one that asks for most; of words, the first."""

    def most(verdict: Verdict) -> float:
        if not isinstance(verdict.need, int | float):
            return 0.0
        return -verdict.need if verdict.requirement.sense == "at_most" else verdict.need

    return max(verdicts, key=most)


def _keys(judged: Judged, verdict: Verdict) -> tuple[str, ...]:
    """What an offer would have to say to answer it."""
    answers = {"tread": ("tyre_tread",), "two_enough": AXLES}.get(verdict.how, verdict.requirement.offer_keys)
    return tuple(key for key in answers if key not in judged.offer.said)


def _worth_asking(judged: Judged, id_: str) -> bool:
    if id_ == COMFORT and "rear_sets" in judged.verdicts:
        return False  # the same count answers both
    # Nobody can say what it pulls before it has pulled; its weight says most of it.
    return not (id_ == "drawbar_pull" and "mass" in judged.verdicts)


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
