"""The profile without each item, and the price of planning ahead. Sizes stay as they were chosen."""

from __future__ import annotations

from dataclasses import replace

from firstfurrow.advice.changes import Change, changed
from firstfurrow.advice.plan import Plan
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study.felt import Scale, difference
from firstfurrow.advice.study.model import Ahead, Without, WithoutEach
from firstfurrow.advice.study.words import MOST_WITHOUT, TOW, Words


def without_each(profile: Profile, scale: Scale, words: Words) -> WithoutEach:
    """Every item left out in turn, and the other load on wheels; nothing where there is only one thing to leave out."""
    plan = settled(profile)
    things = [(item.id, replace(plan, items=tuple(i for i in plan.items if i is not item))) for item in plan.items]
    if plan.tow is not None:
        things.append((TOW, replace(plan, tow=None)))
    base = profile if plan is profile.plan else advise_plan(profile.book, plan, lean=True)
    if len(things) < 2:
        return WithoutEach(_with_brakes(base, plan, scale, words), ())
    moving: list[Without] = []
    still: list[str] = []
    setting = _setting(base)
    things.sort(key=lambda thing: thing[0] not in setting)
    most = int(profile.book.tables["felt_steps"].rows["without_runs"]["most"].planning)
    for id_, fewer in things[:most]:
        name = words.item(plan, id_)
        found = difference(scale, base, advise_plan(profile.book, fewer, lean=True))
        if found.nothing:
            still.append(name)
        else:
            text = words.say("without_line", item=name, moves=words.moves(found, most=MOST_WITHOUT))
            moving.append(Without(id_, name, found, text))
    moving += _with_brakes(base, plan, scale, words)
    moving.sort(key=lambda one: -one.difference.steps)
    return WithoutEach(tuple(moving), tuple(still), tuple(words.item(plan, id_) for id_, _ in things[most:]))


def _with_brakes(base: Profile, plan: Plan, scale: Scale, words: Words) -> tuple[Without, ...]:
    """Brakes on the load that asks for the heaviest tractor to hold it: often the cheapest thing to change at all."""
    holding = base.outcomes["mass_towing"].widest
    if holding is None or holding.governed_by is None:
        return ()
    id_ = holding.governed_by.hookup
    braked = changed(plan, Change("tow_with_brakes") if id_ == TOW else Change("with_brakes", id_))
    if braked is None:
        return ()
    found = difference(scale, base, advise_plan(base.book, braked, lean=True))
    if found.nothing:
        return ()
    name = words.item(plan, id_)
    text = words.say("brakes_line", item=name, moves=words.moves(found, most=MOST_WITHOUT))
    return (Without(id_, name, found, text),)


def _setting(profile: Profile) -> frozenset[str]:
    """The hookups that set a requirement, or whose wishes cross."""
    governing = [w.governed_by for o in profile.outcomes.values() if (w := o.widest) is not None]
    crossing = [id_ for one in profile.conflicts for id_ in one.about]
    crossing += [id_ for one in profile.refusals for id_ in one.about]
    return frozenset([*crossing, *(demand.hookup for demand in governing if demand is not None)])


def settled(profile: Profile) -> Plan:
    """The plan with every size fixed as the profile chose it; the plan itself where nothing was left to choose."""
    sizes = {note.sized.item.id: note.sized for note in profile.hookups}
    items = tuple(
        item if item.size is not None else replace(item, size=sizes[item.id].size, width=sizes[item.id].width)
        for item in profile.plan.items
    )
    return profile.plan if items == profile.plan.items else replace(profile.plan, items=items)


def price_ahead(profile: Profile, scale: Scale, words: Words) -> Ahead | None:
    """What the items that may come later add to what is sure; None when nothing may come later."""
    later = [item for item in profile.plan.items if item.when == "later"]
    if not later:
        return None
    sure = replace(profile.plan, items=tuple(item for item in profile.plan.items if item.when != "later"))
    names = tuple(item.name for item in later)
    found = difference(scale, advise_plan(profile.book, sure, lean=True), profile)
    lines = [words.move(move) for move in found.leading]
    if found.size_class is not None:
        lines.append(words.size_class(found.size_class))
    lines += [words.say("crossing_comes", title=title) for title in found.comes]
    return Ahead(names, found, tuple(f"{line[:1].upper()}{line[1:]}." for line in lines))
