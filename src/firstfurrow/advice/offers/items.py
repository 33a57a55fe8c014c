"""Does it run: for each implement runs, runs if, does not, or unknown, from the verdicts on what it asks by itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

from firstfurrow.advice.offers.asked import COMFORT, Asked, Hookup
from firstfurrow.advice.offers.verdicts import Judged, Verdict
from firstfurrow.book.model import Book

Runs = Literal["runs", "runs_if", "does_not", "unknown"]
BY_BALLAST = ("mass", "mass_towing", "drawbar_pull")
# Said once by what they go with: weights in front keep the front wheels down, and lift is one question.
_WITH_ANOTHER = {"mass_balance": "front_ballast"}


@dataclass(frozen=True, slots=True)
class ItemVerdict:
    """Whether one hookup runs behind the offer.

    never
        What is short and cannot be mended.
    if_
        What is short and can: by a dealer, or by the buyer.
    ask
        What nobody knows yet.
    size_open
        A tool of the buyer that nobody has measured does not run in the size that was taken, and may in another.
    any_size
        It does not run in any size sold: so it does not run, measured or not.
    """

    hookup: Hookup
    runs: Runs
    never: tuple[Verdict, ...] = ()
    if_: tuple[Verdict, ...] = ()
    ask: tuple[Verdict, ...] = ()
    size_open: bool = False
    any_size: bool = False


def item_verdicts(book: Book, asked: Asked, judged: Judged) -> tuple[ItemVerdict, ...]:
    """One verdict for each hookup, in the order of the plan."""
    return tuple(_item(book, asked, hookup, judged) for hookup in asked.hookups)


def _item(book: Book, asked: Asked, hookup: Hookup, judged: Judged) -> ItemVerdict:
    mine = _with_the_driver(asked, hookup, judged)
    never: list[Verdict] = []
    if_: list[Verdict] = []
    ask: list[Verdict] = []
    for id_, verdict in mine.items():
        status = verdict.status
        if status == "meets" or id_ == COMFORT:
            continue
        if status == "unknown":
            ask.append(verdict)
        elif status == "short":
            other = mine.get(_WITH_ANOTHER.get(id_, ""))
            if other is not None and other.status == "short" and other.need != float("inf"):
                continue  # the weights that mend it are said instead
            if id_ == "driven_wheels" and _two_hold(asked, hookup, judged, mine):
                ask.append(replace(verdict, status="unknown", how="two_enough"))
            else:
                (if_ if mendable(book, verdict) else never).append(verdict)
    runs: Runs = "runs"
    guessed = hookup.size_open and hookup.refused is None and bool(never)
    any_size = guessed and _in_no_size(book, hookup, judged)
    size_open = guessed and not any_size
    if size_open:
        runs = "unknown"  # a guess about the buyer's tool is no verdict on the seller's tractor
    elif hookup.refused is not None or never:
        runs = "does_not"
    elif if_:
        runs = "runs_if"
    elif ask:
        runs = "unknown"
    return ItemVerdict(hookup, runs, tuple(never), tuple(if_), tuple(ask), size_open, any_size)


def _in_no_size(book: Book, hookup: Hookup, judged: Judged) -> bool:
    """True when it would not run whatever the size that a tape will find."""
    tried = False
    for asked, mine, found in judged.in_each_size(hookup):
        if _item(book, asked, mine, found).runs != "does_not":
            return False
        tried = True
    return tried


def _with_the_driver(asked: Asked, hookup: Hookup, judged: Judged) -> Mapping[str, Verdict]:
    """What the hookup asks, and on a slope what keeps the driver alive: without a bar nothing is done there."""
    mine, bar = judged.by_hookup[hookup.id], judged.verdicts.get("roll_bar")
    if bar is None or "roll_bar" in mine or not _slopes(asked):
        return mine
    return {"roll_bar": bar, **mine}


def _slopes(asked: Asked) -> bool:
    """True when there is a slope, or one that nobody has measured."""
    plan = asked.profile.plan
    across = plan.side_slope is not None and plan.side_slope.value > 0
    return plan.slope_up.value > 0 or across or "side_slope" in plan.open_ceilings


def _two_hold(asked: Asked, hookup: Hookup, judged: Judged, mine: Mapping[str, Verdict]) -> bool:
    """Two driven wheels where four are advised: asked about where their weight grips, and climbs and stops alone."""
    loads = hookup.item is not None and hookup.item.variant.way == "loader"
    weights = [mine[id_].status for id_ in ("mass", "mass_towing") if id_ in mine]
    return not loads and all(status in ("meets", "unknown") for status in weights) and judged.goes_on_two


def mendable(book: Book, verdict: Verdict) -> bool:
    """True when what is short can be mended on this tractor, by what the book says and within reason."""
    requirement = verdict.requirement
    if verdict.need == float("inf") or requirement.later == "no":
        return False
    if requirement.id in BY_BALLAST or (requirement.id == "mass_balance" and verdict.how != "exact"):
        return _by_ballast(book, verdict)
    if requirement.id == "mass_balance":
        return False  # its front weights were tried, and no reasonable weight is enough
    if requirement.id == "hitch_category":
        return _larger(book, verdict)
    return True


def _by_ballast(book: Book, verdict: Verdict) -> bool:
    """Ballast helps a tractor that is nearly heavy enough; a light frame does not become a heavy tractor."""
    if verdict.gap is None or verdict.has is None:
        return False
    share = book.offer_figures["ballast_most"].planning / 100
    return bool(verdict.gap <= share * verdict.has[1])


def _larger(book: Book, verdict: Verdict) -> bool:
    """A smaller tool goes on larger arms with bushings; a larger tool never goes on smaller arms."""
    order = [row.replace("limited_", "limited ") for row in book.tables["hitch_categories"].rows]
    has = [order.index(category) for category in verdict.has or () if category in order]
    asked = [order.index(category) for category in verdict.need if category in order]
    return bool(has) and bool(asked) and max(has) > max(asked)
