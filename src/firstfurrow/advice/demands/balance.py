"""Balance: the tractor mass that keeps the front wheels down with a tool raised behind, level and uphill.

The size class is found by walking upward: the first whose own mass covers what its own geometry and usual front weights
ask for, at the unfavourable end. A longer tractor needs less mass than a shorter one for the same tool; so that a
heavier tool never asks for less, the mass of the class below, which was not enough, is a floor too.
"""

from __future__ import annotations

from collections.abc import Mapping

from firstfurrow.advice.demands.demand import Demand, typical
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.book.model import Row
from firstfurrow.mechanics.balance import mass_for_balance, mass_for_balance_uphill
from firstfurrow.quantities import show
from firstfurrow.reasoning import NoSolutionError, Step


def mass(rig: Rig) -> Demand | None:
    """Empty tractor mass for one mounted hookup.

    None when nothing is carried behind, or on a slope so steep that grip has no answer either (refused there).
    """
    if not rig.mounted or rig.hung is None or rig.centre is None:
        return None
    desk = rig.desk
    key = (rig.key, "balance")
    top = desk.kept(key)
    if top is not None and desk.scratch:
        return Demand("mass_balance", rig.id, rig.name, top.value, top)
    row, below = _class_for(rig)
    if top is None:
        parts = _asked(rig, row)
        if parts is None:
            return None
        if below is not None:
            parts = {**parts, "class_below": typical(desk, below, "mass", "class_below")}
        most = desk.ledger.greatest(rig.title("balance_most"), parts) if len(parts) > 1 else parts["level"]
        top = desk.keep(key, most)
    return Demand("mass_balance", rig.id, rig.name, top.value, top, more=lambda: (_choices(rig, row),))


def front_weights(rig: Rig, balanced: Demand) -> Demand | None:
    """The front weights that the balance counts; None where the same mass is enough without them.

    Mass and weights belong together: it is the pair that keeps the front wheels down.
    """
    desk = rig.desk
    row, _ = _class_for(rig)
    without = _worst_without(rig, row)
    stated = desk.ends(balanced.top).high
    if without is not None and stated is not None and without <= stated:
        return None
    top = typical(desk, row, "front_weights", "weights_counted")
    return Demand("front_ballast", rig.id, rig.name, top.value, top, (rig.title("weights_with_mass", row=row.name),))


def _worst_without(rig: Rig, row: Row) -> float | None:
    """Mass in kg without front weights at the unfavourable end; None where there is no solution. Plain numbers only."""
    load, reach = _worst(rig)
    shape = {**_shape(row, load, reach), "front": 0.0}
    desk = rig.desk
    try:
        level = mass_for_balance(**shape, kept=desk.book.choice("front_kept").high)
        return level if not desk.steep else max(level, _uphill(desk, row, shape))
    except NoSolutionError:
        return None


def _class_for(rig: Rig) -> tuple[Row, Row | None]:
    """The class that covers itself, and the one below it; the largest where none does."""
    desk = rig.desk
    load, reach = _worst(rig)
    kept = desk.book.choice("front_kept").high
    below: Row | None = None
    rows = list(desk.book.tables["size_classes"].rows.values())
    for row in rows:
        shape = _shape(row, load, reach)
        most = row["mass"].planning
        try:
            enough = mass_for_balance(**shape, kept=kept) <= most and (
                not desk.steep or _uphill(desk, row, shape) <= most
            )
        except NoSolutionError:
            enough = False
        if enough:
            return row, below
        below = row
    return rows[-1], rows[-2]


def _worst(rig: Rig) -> tuple[float, float]:
    """Load and its distance from the ball ends at the unfavourable end."""
    assert rig.hung is not None
    assert rig.centre is not None
    load, reach = rig.desk.ends(rig.hung).high, rig.desk.ends(rig.centre).high
    assert load is not None
    assert reach is not None
    return load, reach


def _shape(row: Row, load: float, reach: float) -> dict[str, float]:
    return {
        "rear": load, "reach": reach, "overhang": row["hitch_overhang"].planning,
        "front_share": row["front_share"].planning, "wheelbase": row["wheelbase"].planning,
        "front": row["front_weights"].planning, "ahead": row["front_weights_ahead"].planning,
    }  # fmt: skip


def _uphill(desk: Desk, row: Row, shape: Mapping[str, float]) -> float:
    angle = desk.ends(desk.angle()).high
    assert angle is not None
    return mass_for_balance_uphill(
        **shape, raised=desk.book.choice("raised_height").high, centre_height=row["centre_height"].planning,
        kept=desk.book.choice("front_kept_uphill").high, angle=angle,
    )  # fmt: skip


def _asked(rig: Rig, row: Row) -> Mapping[str, Step] | None:
    """The steps of one class: level, and uphill where there is a slope; None where there is no solution."""
    desk = rig.desk
    assert rig.hung is not None
    assert rig.centre is not None
    try:
        found = {"level": _level(rig, row, "front_weights", "front_weights_ahead")}
        if desk.steep:
            found["uphill"] = desk.ledger.work(
                mass_for_balance_uphill, rig.title("balance_uphill"), rear=rig.hung,
                overhang=typical(desk, row, "hitch_overhang"), reach=rig.centre, raised=desk.choice("raised_height"),
                front=typical(desk, row, "front_weights"), ahead=typical(desk, row, "front_weights_ahead"),
                front_share=typical(desk, row, "front_share"), wheelbase=typical(desk, row, "wheelbase"),
                centre_height=typical(desk, row, "centre_height"), kept=desk.choice("front_kept_uphill"),
                angle=desk.angle(),
            )  # fmt: skip
    except NoSolutionError:
        return None
    return found


def _level(rig: Rig, row: Row, front: str | None, ahead: str) -> Step:
    desk = rig.desk
    assert rig.hung is not None
    assert rig.centre is not None
    return desk.ledger.work(
        mass_for_balance, rig.title("balance_level"), rear=rig.hung, overhang=typical(desk, row, "hitch_overhang"),
        reach=rig.centre,
        front=desk.constant(desk.say("no_front_weights"), 0, "kg") if front is None else typical(desk, row, front),
        ahead=typical(desk, row, ahead), front_share=typical(desk, row, "front_share"),
        wheelbase=typical(desk, row, "wheelbase"), kept=desk.choice("front_kept"),
    )  # fmt: skip


def _choices(rig: Rig, row: Row) -> str:
    """The same on level ground without front weights, and with a loader that stays on."""
    without, loader = _said(rig, row, None, "front_weights_ahead"), _said(rig, row, "loader_mass", "loader_ahead")
    return rig.title("balance_choices", without=without, loader=loader, row=row.name)


def _said(rig: Rig, row: Row, front: str | None, ahead: str) -> str:
    """The level balance with usual figures and, like the requirement that it stands beside, at the unfavourable end."""
    desk, key = rig.desk, (rig.key, "balance_choices", front)
    usual = desk.kept((key, 0)) or desk.keep((key, 0), _level(rig, row, front, ahead))
    worst = desk.kept((key, 1)) or desk.keep(
        (key, 1), desk.ledger.at_worst(usual, desk.say("at_worst", title="{title}")) or usual
    )
    shown = [f"{show(step.value, 'kg', desk.plan.units)} ({step.id})" for step in (usual, worst)]
    if worst.value <= 0:
        return desk.say("balance_none", step=worst.id if worst is usual else f"{usual.id}, {worst.id}")
    return shown[0] if worst is usual else desk.say("range", low=shown[0], high=shown[1])
