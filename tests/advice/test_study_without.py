"""The profile without each item, and the price of planning ahead."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st
from studying import agrees, shown, studied

from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study import study
from firstfurrow.advice.study.without import settled
from firstfurrow.book.load import load
from making import Maker

quick = settings(max_examples=15, derandomize=True, deadline=None)
MAKER = Maker(load())
KINDS = st.sampled_from(sorted(MAKER.book.kinds))


def floors(profile: Profile) -> dict[str, float]:
    return {
        id_: -math.inf if o.widest is None else o.widest.stated
        for id_, o in profile.outcomes.items()
        if o.requirement.sense == "at_least" and not o.requirement.stand_in
    }


@quick
@given(st.lists(KINDS, min_size=2, max_size=4))
def test_without_an_item_no_floor_rises(kinds: list[str]) -> None:
    profile = MAKER.profile([{"kind": kind} for kind in kinds], strict=False)
    plan = settled(profile)
    base = floors(advise_plan(MAKER.book, plan))
    for item in plan.items:
        fewer = floors(MAKER.profile([{"kind": i.kind.kind, "size": i.size.id if i.size else "choose"}
                                      for i in plan.items if i is not item], strict=False))  # fmt: skip
        if profile.refusals:
            continue
        assert not {id_: (base[id_], fewer[id_]) for id_ in base if fewer[id_] > base[id_] + 1e-9}


@quick
@given(st.lists(KINDS, min_size=1, max_size=4))
def test_fixing_the_chosen_sizes_changes_nothing(kinds: list[str]) -> None:
    profile = MAKER.profile([{"kind": kind} for kind in kinds], strict=False)
    assert shown(advise_plan(MAKER.book, settled(profile))) == shown(profile)


def test_what_leaving_one_out_moves_is_what_the_answers_without_it_give(maker: Maker) -> None:
    items = [{"kind": "rotary_tiller", "size": "1.5 m"}, {"kind": "finish_mower", "size": "1.2 m"}]
    profile, found = studied(maker, items, soil="clay")
    first = found.without.moving[0]
    assert first.item == "i1"
    agrees(first.difference, profile, maker.profile(items[1:], strict=False, soil="clay"))
    power = next(m for m in first.difference.moves if m.requirement == "pto_power")
    assert first.text.startswith("Leave out the rotary tiller: ")
    assert f"shaft power from {power.before} to {power.after}" in first.text


def test_furthest_first_and_what_moves_nothing_only_by_name(maker: Maker) -> None:
    items = [
        {"kind": "rotary_tiller", "size": "1.5 m"}, {"kind": "finish_mower", "size": "1.2 m"},
        {"kind": "finish_mower", "size": "1.2 m"},
    ]  # fmt: skip
    _, found = studied(maker, items)
    steps = [one.difference.steps for one in found.without.moving]
    assert steps == sorted(steps, reverse=True)
    assert found.without.still == (maker.kind("finish_mower").name,) * 2


def test_the_other_load_on_wheels_can_be_left_out_too(maker: Maker) -> None:
    items = [{"kind": "finish_mower", "size": "1.2 m"}]
    profile, found = studied(maker, items, tow_other="often", tow_mass="4000 kg", tow_brakes="no_brakes")
    of_tow = [one for one in found.without.moving if one.item == "tow"]
    left, braked = sorted(of_tow, key=lambda one: "brakes" in one.text)
    agrees(left.difference, profile, maker.profile(items, strict=False))
    said = {"tow_other": "often", "tow_mass": "4000 kg", "tow_brakes": "has_brakes"}
    agrees(braked.difference, profile, maker.profile(items, strict=False, **said))


def test_with_one_thing_only_there_is_nothing_to_leave_out(maker: Maker) -> None:
    _, found = studied(maker, [{"kind": "finish_mower"}])
    assert found.without.moving == ()
    assert found.without.still == ()


def test_the_price_of_planning_ahead_is_what_lies_between_the_two_columns(maker: Maker) -> None:
    items = [{"kind": "finish_mower", "size": "1.2 m"}, {"kind": "round_baler", "when": "later"}]
    profile, found = studied(maker, items)
    assert found.ahead is not None
    moved = {m.requirement: m for m in found.ahead.difference.moves}
    for id_, outcome in profile.outcomes.items():
        if outcome.requirement.stand_in:
            continue  # of a larger class that stands in, another figure
        sure, later = (None if w is None else w.shown for w in (outcome.sure, outcome.with_later))
        assert (id_ in moved) == (sure != later), id_
        if id_ in moved:
            assert (moved[id_].before, moved[id_].after) == (sure, later)


def test_without_anything_that_may_come_there_is_no_such_price(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower"}])
    assert study(profile).ahead is None
