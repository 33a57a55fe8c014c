"""Shared by the tests of the study: a plan in words to its profile and study, and what is stated in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study import Study, study
from firstfurrow.advice.study.model import Difference, Doubt, Way, WaysOut
from firstfurrow.book.model import Book
from making import Maker


def studied(maker: Maker, items: Sequence[Mapping[str, Any]] = (), **said: Any) -> tuple[Profile, Study]:
    profile = maker.profile(items, strict=False, **said)
    return profile, study(profile)


def with_category(book: Book, kind_id: str, *categories: str) -> Book:
    """The book with every size of one kind sold in these hitch categories."""
    kind = book.kinds[kind_id]
    sizes = tuple(replace(size, categories=categories) for size in kind.sizes)
    return replace(book, kinds={**book.kinds, kind_id: replace(kind, sizes=sizes)})


def shown(profile: Profile) -> dict[str, str | None]:
    return {id_: None if o.widest is None else o.widest.shown for id_, o in profile.outcomes.items()}


def agrees(difference: Difference, before: Profile, after: Profile) -> None:
    """The difference says of every requirement what a profile worked out from other answers says."""
    was, now = shown(before), shown(after)
    moved = {move.requirement: move for move in difference.moves}
    for id_ in was:
        if id_ in moved:
            assert (moved[id_].before, moved[id_].after) == (was[id_], now[id_]), id_
        else:
            assert was[id_] == now[id_], id_


def ways_of_kind(found: Study, kind: str) -> WaysOut:
    return next(ways for ways in found.ways if ways.kind == kind)


def way_with(ways: WaysOut, change: str, item: str | None = None) -> Way:
    return next(
        way for way in ways.tried
        if len(way.changes) == 1 and way.changes[0].id == change and item in (None, way.changes[0].item)
    )  # fmt: skip


def doubt_about(found: Study, question: str, item: str | None = None) -> Doubt:
    return next(d for d in found.doubts.ranked if d.question == question and (item is None or d.item == item))
