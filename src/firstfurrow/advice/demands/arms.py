"""Arms: hitch category, and lift where the load hangs, at 610 mm and at the ball ends."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.hitch import lift_at_610, lift_at_ball_ends, lift_where_it_hangs


def demands(rig: Rig) -> Iterator[Demand]:
    """Category and the three lifts of a mounted hookup."""
    if not rig.mounted:
        return
    yield from _category(rig)
    if rig.kind.draft_control:
        step = rig.desk.ledger.words(rig.title("draft_control"), "draft", grade="practice")
        yield Demand("draft_control", rig.id, rig.name, "draft", step)
    load, distance = rig.hung, rig.centre
    if load is None or distance is None:
        return
    desk = rig.desk
    link, movement, test = (desk.choice(n) for n in ("instant_centre", "lift_movement", "lift_test_distance"))
    hangs = desk.ledger.work(lift_where_it_hangs, rig.title("lift_hangs"), load=load, movement=movement)
    where = rig.title("hangs_at", distance=f"{distance.value:g}")
    yield Demand("lift_at_load", rig.id, rig.name, hangs.value, hangs, (where,))
    at_610 = desk.ledger.work(
        lift_at_610, rig.title("lift_610"), load=load, distance=distance, link=link, test=test, movement=movement
    )
    yield Demand("lift_610", rig.id, rig.name, at_610.value, at_610)
    ends = desk.ledger.work(
        lift_at_ball_ends, rig.title("lift_ends"), load=load, distance=distance, link=link, movement=movement
    )
    yield Demand("lift_ball_ends", rig.id, rig.name, ends.value, ends)


def _category(rig: Rig) -> Iterator[Demand]:
    """The tractor categories that take this implement: its own, or one larger with bushings."""
    sold = rig.sized.size.categories
    if not sold:
        return
    desk = rig.desk
    table = desk.book.tables["hitch_categories"].rows
    fits: list[str] = []
    for category in sold:
        key = _row(category)
        fits += [c for c in (category, *map(_plain, table[key].words.get("fits", ()))) if c not in fits]
    order = [_plain(row) for row in table]
    fits.sort(key=order.index)
    shown = desk.say("or").join(_shown(rig, c) for c in sold)
    step = desk.ledger.words(
        rig.title("category", categories=shown, tractors=desk.say("or").join(_shown(rig, c) for c in fits)),
        tuple(fits), grade="practice", note=desk.say("note_bushings"),
    )  # fmt: skip
    yield Demand("hitch_category", rig.id, rig.name, tuple(fits), step)


def _row(category: str) -> str:
    return category.replace(" ", "_")


def _plain(row: str) -> str:
    return row.replace("_", " ")


def _shown(rig: Rig, category: str) -> str:
    return rig.desk.say("category_limited") if category == "limited 1" else category
