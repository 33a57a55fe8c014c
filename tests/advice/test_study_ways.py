"""Ways out are worked out again on the very plan: a change gives what the changed answers give."""

from __future__ import annotations

import pytest
from studying import agrees, studied, way_with, ways_of_kind, with_category

from firstfurrow.advice import changes
from firstfurrow.advice.changes import Change, changed
from firstfurrow.advice.profile import Profile, advise_plan
from firstfurrow.advice.study import Study
from firstfurrow.advice.study.felt import scale_of, stands
from firstfurrow.book.model import Book
from making import Maker

MOWER = {"kind": "finish_mower", "size": "1.5 m"}
PLOUGH = {"kind": "mouldboard_plough", "variant": "plain", "size": "2 x 0.35 m", "rank": "nice"}
APART = [MOWER, PLOUGH]
GATE = {"gate_width": "2.2 m"}
WIDE = [{"kind": "rotary_tiller", "size": "2 m"}, {"kind": "finish_mower", "size": "1.2 m"}]
TRAILER = {"kind": "utility_trailer", "size": "700 kg", "load": "1500 kg", "brakes": "no_brakes"}
HILL = {"land_shape": ("slopes",), "surface": "wet_grass", "slope_up": "10 %"}
LAWN = {"jobs": ("lawn_mowing",), "lawn_mowing_area": "6 ha", "lawn_mowing_hours": "2 h"}


@pytest.fixture(scope="module")
def crossed(book: Book) -> Maker:
    """A book in which the mower is made for the smallest arms and the plough for the largest: nothing takes both."""
    return Maker(with_category(with_category(book, "finish_mower", "limited 1"), "mouldboard_plough", "3"))


@pytest.fixture(scope="module")
def cases(crossed: Maker) -> list[tuple[Profile, Study]]:
    wheels = {"tow_other": "often", "tow_mass": "9000 kg", "tow_brakes": "no_brakes"}
    return [
        studied(crossed, APART),
        studied(crossed, WIDE, **GATE),
        studied(crossed, [TRAILER], **HILL),
        studied(crossed, [{"kind": "finish_mower", "size": "1.2 m"}], **LAWN),
        studied(crossed, [{"kind": "rotary_tiller", "size": "1.5 m", "rank": "nice"}], **wheels, **HILL),
        studied(crossed, [MOWER], land_shape=("slopes",), surface="wet_grass", slope_up="20 %"),
    ]


def test_every_change_has_its_sentence(book: Book) -> None:
    assert [id_ for id_ in changes._CHANGES if f"reason.way.{id_}" not in book.messages] == []


def test_every_conflict_and_refusal_has_its_ways_in_order(cases: list[tuple[Profile, Study]]) -> None:
    some = 0
    for profile, found in cases:
        assert [w.sort for w in found.ways] == ["refusal"] * len(profile.refusals) + ["conflict"] * len(
            profile.conflicts
        )
        for ways in found.ways:
            crossing = (profile.refusals if ways.sort == "refusal" else profile.conflicts)[ways.index]
            assert ways.kind == crossing.kind
            assert ways.advice == crossing.ways_out
            singles = {way.changes[0] for way in ways.tried if len(way.changes) == 1}
            meant = {c for c in crossing.changes if changed(profile.plan, c) is not None}
            assert singles <= meant
            assert len(singles) + ways.untried == len(meant)
            some += len(singles)
    assert some > 10


def test_what_is_said_of_a_way_is_what_the_changed_plan_gives(cases: list[tuple[Profile, Study]]) -> None:
    for profile, found in cases:
        scale = scale_of(profile.book)
        for ways in found.ways:
            crossing = (profile.refusals if ways.sort == "refusal" else profile.conflicts)[ways.index]
            for way in ways.tried:
                plan = profile.plan
                for change in way.changes:
                    made = changed(plan, change)
                    assert made is not None
                    plan = made
                after = advise_plan(profile.book, plan)
                agrees(way.difference, profile, after)
                assert way.ends == (not stands(scale, crossing, after))


def test_a_smaller_size_gives_what_the_smaller_size_as_an_answer_gives(maker: Maker) -> None:
    profile, found = studied(maker, WIDE, **GATE)
    way = way_with(ways_of_kind(found, "tool_too_wide"), "smaller_size", "i1")
    size = way.changes[0].value
    after = maker.profile([{**WIDE[0], "size": size}, WIDE[1]], strict=False, **GATE)
    agrees(way.difference, profile, after)
    assert way.ends
    assert not [c for c in after.conflicts if c.kind == "tool_too_wide"]


def test_leaving_one_out_gives_what_the_answers_without_it_give(crossed: Maker) -> None:
    profile, found = studied(crossed, APART)
    way = way_with(ways_of_kind(found, "category"), "without_item", "i2")
    agrees(way.difference, profile, crossed.profile(APART[:1], strict=False))
    assert way.ends


def test_half_the_load_gives_what_half_the_load_as_an_answer_gives(maker: Maker) -> None:
    profile, found = studied(maker, [TRAILER], **HILL)
    way = way_with(ways_of_kind(found, "unbraked"), "half_load")
    agrees(way.difference, profile, maker.profile([{**TRAILER, "load": "750 kg"}], strict=False, **HILL))
    assert "driven twice as often" in way.text


def test_brakes_end_what_nothing_holds_without_them(maker: Maker) -> None:
    profile, found = studied(maker, [TRAILER], **HILL)
    ways = ways_of_kind(found, "unbraked")
    way = way_with(ways, "with_brakes")
    agrees(way.difference, profile, maker.profile([{**TRAILER, "brakes": "has_brakes"}], strict=False, **HILL))
    assert way.ends
    assert ways.tried[0].ends


def test_more_hours_say_what_they_cost(maker: Maker) -> None:
    item = {"kind": "finish_mower", "size": "1.2 m"}
    profile, found = studied(maker, [item], **LAWN)
    ways = ways_of_kind(found, "time")
    assert way_with(ways, "more_hours").ends
    wider = way_with(ways, "larger_size")
    after = maker.profile([{**item, "size": wider.changes[0].value}], strict=False, **LAWN)
    agrees(wider.difference, profile, after)
    before_h, after_h = (p.hookups[0].hours for p in (profile, after))
    assert before_h is not None
    assert after_h is not None
    assert after_h.value < before_h.value
    assert f"takes {after_h.value:g} h in place of {before_h.value:g}" in wider.text


# ------------------------------------------------------------------------------ order


def test_what_ends_it_comes_first_and_what_is_nice_gives_way_before_a_must(
    cases: list[tuple[Profile, Study]],
) -> None:
    seen = 0
    for profile, found in cases:
        relief = {profile.book.messages["reason.refusal_no_tractor_title"]}
        for ways in found.ways:
            keys = [
                (
                    0 if way.ends and not set(way.comes) - relief else 1 if way.ends else 2,
                    {"nice": 0, None: 1, "must": 2}[way.gives_way],
                )
                for way in ways.tried
                if len(way.changes) == 1
            ]
            assert keys == sorted(keys)
            seen += len(set(keys)) > 1
    assert seen >= 2


@pytest.mark.parametrize("nice", [0, 1])
def test_the_buyers_own_rank_decides_which_of_two_gives_way(nice: int, crossed: Maker) -> None:
    items = [{**item, "rank": "nice" if n == nice else "must"} for n, item in enumerate(APART)]
    _, found = studied(crossed, items)
    first = ways_of_kind(found, "category").tried[0]
    assert first.ends
    assert first.changes[0].item == f"i{nice + 1}"
    assert first.gives_way == "nice"
    assert "You called the" in first.text


def test_an_owned_tool_counts_as_a_must(crossed: Maker) -> None:
    _, found = studied(crossed, [{**MOWER, "when": "owned"}, PLOUGH])
    of_owned = [way for way in ways_of_kind(found, "category").tried if way.changes[0].item == "i1"]
    assert of_owned
    assert {way.gives_way for way in of_owned} == {"must"}


def test_where_no_single_change_is_enough_several_together_are_tried(crossed: Maker) -> None:
    """Two mowers against two ploughs: leaving one of them out is never enough, two of a kind are."""
    items = [{**item, "when": "owned"} for item in (MOWER, MOWER, PLOUGH, PLOUGH)]
    profile, found = studied(crossed, items)
    assert profile.conflicts[0].kind == "category"
    ways = ways_of_kind(found, "category")
    first, *others = ways.tried
    assert len(first.changes) == 2
    assert first.ends
    assert not any(way.ends for way in others)
    plan = profile.plan
    for change in first.changes:
        plan = changed(plan, change) or plan
    assert not [c for c in advise_plan(crossed.book, plan).conflicts if c.kind == "category"]


def test_a_change_that_means_nothing_is_not_tried(crossed: Maker) -> None:
    profile, found = studied(crossed, APART)
    assert changed(profile.plan, Change("without_tow")) is None
    assert not [w for ways in found.ways for way in ways.tried for w in way.changes if w.id == "without_tow"]
