"""What was taken because nobody knew: the plan's assumptions with their figures, and what the program itself took."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from firstfurrow.advice.demands.train import trains
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import Assumption
from firstfurrow.advice.rig import Rig
from firstfurrow.asking.resolve import size_label
from firstfurrow.book.model import Row
from firstfurrow.quantities import show


def assumed(desk: Desk, rigs: Sequence[Rig], row: Row) -> tuple[Assumption, ...]:
    """Everything assumed in one run; `row` is the size class that stood in for the tractor."""
    return _with_numbers(desk, rigs) + _own(desk, rigs, row)


def _with_numbers(desk: Desk, rigs: Sequence[Rig]) -> tuple[Assumption, ...]:
    """The plan's assumptions; where the book's usual figure was taken, the figure itself."""
    by_id = {rig.id: rig for rig in rigs}
    found: list[Assumption] = []
    for assumption in desk.plan.assumptions:
        rig = by_id.get(assumption.item or "")
        taken = None
        if rig is not None and assumption.question in ("load", "mass"):
            taken = rig.load if assumption.question == "load" else rig.empty
        if taken is not None:
            text = desk.say("from_book_value", value=show(taken.value, taken.unit, desk.plan.units))
            assumption = replace(assumption, text=text)
        found.append(assumption)
    return tuple(found)


def _own(desk: Desk, rigs: Sequence[Rig], row: Row) -> tuple[Assumption, ...]:
    """What the program took by itself: sizes that it chose, and what it takes of every tractor."""
    found: list[Assumption] = []
    for sized in (rig.sized for rig in rigs):
        if sized.reason is not None:
            following = (
                desk.say("next_size", size=size_label(sized.item.kind, sized.next_size, desk.plan.units))
                if sized.next_size is not None
                else None
            )
            size = size_label(sized.item.kind, sized.size, desk.plan.units)
            text = desk.say("size_taken", item=sized.item.name, size=size, reason=sized.reason)
            found.append(Assumption("size", sized.item.id, text, following, (), "measure_size"))
        if not sized.item.variant_said:
            text = desk.say("variant_taken", item=sized.item.name, variant=sized.item.variant.name)
            found.append(Assumption("variant", sized.item.id, text, None, (), None))
    if any(rig.kind.pull is not None or rig.trailed for rig in rigs) or desk.plan.tow is not None:
        found.append(Assumption("four_wheel_drive", None, desk.say("assume_four_wheel_drive"), None, ("mass",), None))
    found += [
        Assumption(
            "train", one.last.id, desk.say("assume_train", item=one.first.name, behind=one.last.name), None, (), None
        )
        for one in trains(rigs)
    ]
    if any(rig.kind.load is not None or rig.sized.size.load is not None for rig in rigs):
        found.append(Assumption("loads_full", None, desk.say("assume_loads_full"), None, (), None))
    if rigs and desk.steep:
        text = desk.say("assume_stand_in", row=row.name)
        found.append(Assumption("stand_in", None, text, None, ("pto_power",), None))
    return tuple(found)
