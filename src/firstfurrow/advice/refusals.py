"""Refusals: no tractor needed, hire this one, not on that slope, not with an unbraked trailer. They are results."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfurrow.advice.beyond import beyond
from firstfurrow.advice.changes import Change
from firstfurrow.advice.conflicts import of_item
from firstfurrow.advice.demands.slope import behind, most_across
from firstfurrow.advice.demands.towing import NoHoldError
from firstfurrow.advice.demands.weight import NoGripError
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.plan import Plan
from firstfurrow.advice.rig import Rig
from firstfurrow.book.model import Book, Row
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.slope import side_grip_angle, slope_of
from firstfurrow.mechanics.towing import grip_to_stop
from firstfurrow.quantities import show


@dataclass(frozen=True, slots=True)
class Refusal:
    """Work that the program will not plan a tractor for: the number, the reason, the way out."""

    kind: str
    title: str
    reason: str
    ways_out: tuple[str, ...]
    caution: str
    changes: tuple[Change, ...] = ()
    about: tuple[str, ...] = ()


def refusals_of(
    desk: Desk,
    rigs: Sequence[Rig],
    no_grip: Sequence[NoGripError],
    no_hold: Sequence[NoHoldError],
) -> tuple[Refusal, ...]:
    """First whether a tractor is the answer at all, then what kills; what to hire takes another run, see `hire`."""
    return (
        *_no_tractor(desk, rigs),
        *_side_slope(desk, rigs),
        *(
            tuple(_climb(desk, rigs, no_grip))
            or (*_pull_up(desk, no_grip), *(tuple(_stop(desk, rigs)) or _unbraked(desk, rigs, no_hold)))
        ),
    )


# ---------------------------------------------------------------------------- no tractor


def _no_tractor(desk: Desk, rigs: Sequence[Rig]) -> Iterator[Refusal]:
    """Everything on the list is done as well by something smaller than a tractor."""
    plan, book = desk.plan, desk.book
    firm = [rig for rig in rigs if not _wish(rig)]  # what is perhaps nice, later and seldom used makes nobody need one
    instead = [_instead(plan, rig) for rig in firm]
    if any(what is None for what in instead) or not _gentle(book, plan):
        return
    light = book.choice("no_tractor_load").planning
    if plan.tow is not None and plan.tow.mass.value > light:
        return
    if not firm and plan.tow is None and not _lawn_only(book, plan):
        return
    whats = dict.fromkeys(what for what in instead if what is not None)
    if not whats:
        whats = dict.fromkeys([desk.say("no_tractor_what")])
    area = _lawn(plan)
    yield Refusal(
        "no_tractor", desk.say("refusal_no_tractor_title"),
        desk.say(
            "refusal_no_tractor" if area is None else "refusal_no_tractor_area", instead=desk.say("or").join(whats),
            area="" if area is None else show(area, "ha", plan.units),
            most=show(book.choice("no_tractor_area").planning, "ha", plan.units),
            load=show(light, "kg", plan.units),
        ),
        (desk.say("refusal_no_tractor_way"),), desk.say("refusal_no_tractor_caution"),
    )  # fmt: skip


def _wish(rig: Rig) -> bool:
    return rig.item.when == "later" and (rig.item.rank == "nice" or rig.item.often == "rarely")


def _gentle(book: Book, plan: Plan) -> bool:
    """True on ground that something smaller than a tractor may work; a side slope nobody measured is not gentle."""
    most = book.choice("no_tractor_slope").planning
    across = 0.0 if plan.side_slope is None else plan.side_slope.value
    return max(plan.slope_up.value, across) <= most and "side_slope" not in plan.open_ceilings


def _instead(plan: Plan, rig: Rig) -> str | None:
    """What does the work of this hookup instead; None when only a tractor does."""
    other = rig.kind.done_without
    if other is None:
        return None
    job = plan.area_jobs.get(rig.kind.area_job or "")
    # An area that nobody gave is not taken for a small one.
    if other.area is not None and (job is None or job.area is None or job.area.value > other.area):
        return None
    if other.load is not None and rig.load is not None and rig.load.value > other.load:
        return None
    return other.what


def _lawn(plan: Plan) -> float | None:
    job = plan.area_jobs.get("lawn_mowing")
    return None if job is None or job.area is None else job.area.value


def _lawn_only(book: Book, plan: Plan) -> bool:
    """Nothing named but a small lawn."""
    area = _lawn(plan)
    return plan.jobs == ("lawn_mowing",) and area is not None and area <= book.choice("no_tractor_area").planning


# -------------------------------------------------------------------------------- slopes


def _side_slope(desk: Desk, rigs: Sequence[Rig]) -> Iterator[Refusal]:
    """Across the slope: the teaching limits, and two thirds of the angle at which the wheels slide."""
    plan, book = desk.plan, desk.book
    if plan.side_slope is None or plan.side_slope.value <= 0:
        return
    slope = plan.side_slope.value
    most = most_across(desk, rigs)
    way, caution = (desk.say("refusal_side_slope_way"),), desk.say("refusal_side_slope_caution")
    title = desk.say("refusal_side_slope_title")
    if slope > most:
        id_ = "refusal_side_slope_behind" if behind(desk, rigs) else "refusal_side_slope"
        yield Refusal("side_slope", title, desk.say(id_, slope=f"{slope:.0f}", most=f"{most:.1f}"), way, caution)
        return
    surface = _surface(desk)
    grip = surface["grip"].planning
    slides = slope_of(side_grip_angle(grip, book.choice("side_grip_share").planning))
    if slope > slides and (rigs or plan.tow is not None):
        said = desk.say(
            "refusal_side_grip", slope=f"{slope:.0f}", surface=surface.name, grip=f"{grip:g}", most=f"{slides:.0f}"
        )
        yield Refusal("side_grip", title, said, way, caution, (Change("firmer", None, "firm"),))


def _climb(desk: Desk, rigs: Sequence[Rig], no_grip: Sequence[NoGripError]) -> Iterator[Refusal]:
    """With all wheels driven a load has no answer just where the tractor alone has none."""
    slope, grip = desk.plan.slope_up.value, _surface(desk)["grip"].planning
    if (rigs or desk.plan.tow is not None) and grip <= slope / 100:
        yield _not_up(desk, no_grip, desk.say("refusal_grip", **_grip_facts(desk)))


def _pull_up(desk: Desk, no_grip: Sequence[NoGripError]) -> Iterator[Refusal]:
    """Close to there a load has one that no tractor weighs."""
    needed = next((reason.needed for reason in no_grip if reason.needed is not None), None)
    if needed is not None:
        most = show(beyond(desk.book, "mass"), "kg", desk.plan.units)
        facts = _grip_facts(desk) | {"item": _names(desk, no_grip), "most": most, "step": needed.id}
        yield _not_up(desk, no_grip, desk.say("refusal_grip_heavy", **facts))


def _not_up(desk: Desk, no_grip: Sequence[NoGripError], said: str) -> Refusal:
    return Refusal(
        "climb", desk.say("refusal_grip_title", item=_names(desk, no_grip)), said, (desk.say("refusal_grip_way"),),
        desk.say("refusal_grip_caution"), _easier(desk), tuple(reason.hookup for reason in no_grip),
    )  # fmt: skip


def _names(desk: Desk, no_grip: Sequence[NoGripError]) -> str:
    names = list(dict.fromkeys(reason.name for reason in no_grip)) or [desk.say("the_tractor_alone")]
    return desk.say("and").join(names)


def _surface(desk: Desk) -> Row:
    return desk.book.tables["surfaces"].rows[desk.plan.surface.value]


def _grip_facts(desk: Desk) -> dict[str, str]:
    surface = _surface(desk)
    return {
        "slope": f"{desk.plan.slope_up.value:.0f}", "surface": surface.name, "grip": f"{surface['grip'].planning:g}",
    }  # fmt: skip


def _stop(desk: Desk, rigs: Sequence[Rig]) -> Iterator[Refusal]:
    """It climbs, but on the way down not even the tractor alone can stop."""
    plan = desk.plan
    surface = _surface(desk)
    slope, grip = plan.slope_up.value, surface["grip"].planning
    if slope <= 0 or not (rigs or plan.tow is not None):
        return
    needed = grip_to_stop(
        ratio=0, rolling=surface["rolling"].planning, angle=angle_of(slope),
        deceleration=desk.book.choice("stop_field").planning,
    )  # fmt: skip
    if grip >= needed:
        return
    said = desk.say("refusal_stop", **_grip_facts(desk), needed=f"{needed:.2f}")
    yield Refusal(
        "stop", desk.say("refusal_stop_title"), said, (desk.say("refusal_stop_way"),),
        desk.say("refusal_stop_caution"), _easier(desk),
    )  # fmt: skip


def _easier(desk: Desk) -> tuple[Change, ...]:
    """Firm, dry ground; or only the gentler parts of the land."""
    half = max(round(desk.plan.slope_up.value / 2), 1)
    return (Change("firmer", None, "firm"), Change("gentler", None, float(half)))


def _unbraked(desk: Desk, rigs: Sequence[Rig], no_hold: Sequence[NoHoldError]) -> Iterator[Refusal]:
    """No tractor stops this load there without brakes on the load itself."""
    by_id = {rig.id: rig for rig in rigs}
    for reason in no_hold:
        load = reason.load
        rig = by_id.get(load.hookup)
        changes = (
            of_item(rig) if rig is not None else tuple(map(Change, ("tow_with_brakes", "tow_half", "without_tow")))
        )
        if not reason.road:  # on a road other ground does not help
            changes = (*changes, *_easier(desk))
        said = _not_stopped(desk, reason)
        yield Refusal(
            "unbraked", desk.say("refusal_unbraked_title", item=load.name), said,
            (desk.say("refusal_unbraked_way"),), desk.say("refusal_unbraked_caution"), changes, (load.hookup,),
        )  # fmt: skip


def _not_stopped(desk: Desk, reason: NoHoldError) -> str:
    """Why: on the land or on a road, and whether any mass would be enough."""
    plan, needed = desk.plan, reason.needed
    facts = {"item": reason.load.name, "mass": show(reason.load.mass.value, "kg", plan.units)}
    if reason.road:
        facts["slope"] = f"{plan.road_slope.value:.0f}"
    else:
        facts |= {"slope": f"{plan.slope_up.value:.0f}", "surface": _surface(desk).name}
    if needed is None:
        return desk.say("refusal_unbraked_road", **facts) if reason.road else desk.say("refusal_unbraked", **facts)
    facts |= {"tractor": show(needed.value, "kg", plan.units), "step": needed.id}
    if reason.road:
        return desk.say("refusal_unbraked_road_heavy", **facts)
    return desk.say("refusal_unbraked_heavy", **facts)


# ---------------------------------------------------------------------------------- hire


@dataclass(frozen=True, slots=True)
class Spared:
    """What leaving one item out spares: the class that then does, and the titles of the conflicts that go."""

    smaller: Row | None
    gone: tuple[str, ...]


def hire(desk: Desk, rig: Rig, larger: Row | None, spared: Spared) -> Refusal | None:
    """An implement used once or twice a year that alone asks for a larger tractor, or crosses a limit."""
    facts = {"item": rig.name, "row": "" if larger is None else larger.name}
    if spared.gone:
        said = desk.say("refusal_hire_conflict", **facts, gone=desk.say("and").join(f'"{t}"' for t in spared.gone))
    elif spared.smaller is not None:
        said = desk.say("refusal_hire_class", **facts, smaller=spared.smaller.name)
    else:
        return None
    return Refusal(
        "hire", desk.say("refusal_hire_title", item=rig.name), said, (desk.say("refusal_hire_way"),),
        desk.say("refusal_hire_caution"), (Change("without_item", rig.id),), (rig.id,),
    )  # fmt: skip


def seldom(rig: Rig) -> bool:
    """True for what is not owned and used once or twice a year."""
    return rig.item.often == "rarely" and rig.item.when != "owned"
