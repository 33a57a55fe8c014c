"""What decides, what crosses and what is refused: order, counts, ways out, and slopes that nobody drives."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import Any

import pytest

from firstfurrow.advice.deciding import meets, smallest_class
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from making import Maker

Item = dict[str, Any]
MANY: list[Item] = [
    {"kind": "rotary_tiller", "size": "1.8 m"},
    {"kind": "box_blade_hydraulic", "size": "1.8 m", "with": ("hydraulic_top_link",)},
    {"kind": "round_baler", "variant": "oil_pickup"},
    {"kind": "mouldboard_plough", "variant": "plain", "size": "2 x 0.35 m"},
    {"kind": "loader_bucket", "size": "1.5 m"},
]


def many(maker: Maker, **more: Any) -> Profile:
    said: Item = {"land_shape": ("slopes",), "slope_up": "8 %", "front_load": "400 kg", **more}
    return maker.profile(MANY, **said)


def stated(profile: Profile, id_: str) -> Any:
    one = profile.outcomes[id_].widest
    assert one is not None, id_
    return one.stated


# ---------------------------------------------------------------------------- deciding


def test_requirements_stand_in_the_order_of_what_they_rule_out(maker: Maker) -> None:
    profile = many(maker)
    assert not profile.refusals
    assert not profile.conflicts
    assert len(profile.deciding) > 4
    counts = [profile.ruled_out[id_] for id_ in profile.deciding]
    assert counts == sorted(counts, reverse=True)
    assert len(set(counts)) > 2
    assert set(profile.deciding) == {id_ for id_, count in profile.ruled_out.items() if count > 0}


def test_among_equals_what_cannot_be_met_later_stands_first_and_then_book_order(maker: Maker) -> None:
    book_order = list(maker.book.requirements)
    mixed = 0
    for items in (MANY, MANY[:2], MANY[1:3], MANY[2:4], MANY[3:]):
        profile = maker.profile(items)
        keys = [
            (-profile.ruled_out[id_], maker.book.requirements[id_].later != "no", book_order.index(id_))
            for id_ in profile.deciding
        ]
        assert keys == sorted(keys)
        mixed += any(a[0] == b[0] and a[1] != b[1] for a, b in itertools.pairwise(keys))
    assert mixed, "no plan here has a tie between what can and what cannot be met later"


def test_refusals_stand_first_then_conflicts(maker: Maker) -> None:
    profile = maker.profile(
        [*MANY[:2], {"kind": "rotary_cutter_heavy", "variant": "mounted", "size": "2.4 m"}], land_shape=("slopes",),
        slope_up="10 %", side_slope="30 %", gate_width="2.5 m",
    )  # fmt: skip
    assert profile.refusals
    assert profile.conflicts
    sorts = [id_.split(":")[0] for id_ in profile.deciding]
    refused, crossed = len(profile.refusals), len(profile.conflicts)
    assert sorts[:refused] == ["refusal"] * refused
    assert sorts[refused : refused + crossed] == ["conflict"] * crossed
    assert not {"refusal", "conflict"} & set(sorts[refused + crossed :])
    assert sorts[refused + crossed :]


@pytest.mark.parametrize("id_", ["pto_power", "rear_sets", "mass", "lift_610", "mass_balance", "loader_lift"])
def test_what_a_requirement_rules_out_is_counted_in_the_size_class_table(maker: Maker, id_: str) -> None:
    profile = many(maker)
    column = maker.book.requirements[id_].class_column
    assert column is not None
    asked = stated(profile, id_)
    short = [row.id for row in maker.book.tables["size_classes"].rows.values() if row[column].planning < asked]
    assert profile.ruled_out[id_] == len(short)
    assert short, "this plan should rule out some class"


def test_a_ceiling_rules_out_what_is_too_large(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower", "size": "1.2 m"}], gate_width="2.2 m", door_height="2.7 m")
    rows = maker.book.tables["size_classes"].rows.values()
    for id_, column in (("width_most", "width"), ("height_most", "height")):
        most = stated(profile, id_)
        assert profile.ruled_out[id_] == sum(row[column].planning > most for row in rows) > 0


def test_a_hitch_category_rules_out_the_classes_that_have_another(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_cutter_heavy", "variant": "mounted", "size": "1.8 m"}])
    assert stated(profile, "hitch_category") == ("2", "3")
    rows = maker.book.tables["size_classes"].rows.values()
    assert profile.ruled_out["hitch_category"] == sum(row.words["hitch_category"] not in ("2", "3") for row in rows) > 0


def test_what_the_table_does_not_say_rules_nothing_out(maker: Maker) -> None:
    profile = many(maker)
    for id_, requirement in maker.book.requirements.items():
        if requirement.class_column is None and id_ != "hitch_category" and id_ in profile.ruled_out:
            assert profile.ruled_out[id_] == 0
            assert id_ not in profile.deciding


def test_what_is_not_needed_decides_nothing(maker: Maker) -> None:
    profile = maker.profile([{"kind": "utility_trailer", "size": "700 kg"}])
    for id_, outcome in profile.outcomes.items():
        assert (id_ in profile.ruled_out) == (outcome.status == "determined")


def test_the_plan_points_to_the_smallest_class_that_meets_everything(maker: Maker) -> None:
    rows = list(maker.book.tables["size_classes"].rows.values())
    for items in (MANY[:1], MANY[1:2], MANY[3:], [{"kind": "finish_mower", "size": "1.2 m"}]):
        profile = maker.profile(items)
        asked = [(o.requirement, o.widest.stated) for o in profile.outcomes.values() if o.widest is not None]
        fitting = [row for row in rows if all(meets(requirement, value, row) for requirement, value in asked)]
        assert profile.points_to == (fitting[0] if fitting else None)
        assert profile.points_to == smallest_class(maker.book, profile.outcomes)


def test_no_class_is_named_where_none_meets_everything(maker: Maker) -> None:
    profile = maker.profile(MANY, gate_width="1.6 m", front_load="400 kg")
    assert profile.points_to is None


def test_each_requirement_names_what_governs_and_the_runner_up_with_its_number(maker: Maker) -> None:
    one = many(maker).outcomes["pto_power"].widest
    assert one is not None
    assert one.governed_by is not None
    assert one.runner_up is not None
    assert one.governed_by.hookup == "i3"
    assert one.runner_up.hookup in {"i1", "i2", "i4"}
    assert one.runner_up_shown
    alone = maker.profile(MANY[:1]).outcomes["pto_power"].widest
    assert alone is not None
    assert alone.runner_up is None
    assert alone.runner_up_shown is None


# --------------------------------------------------------------------------- conflicts


def with_category(book: Book, kind_id: str, *categories: str) -> Book:
    """The book with every size of one kind sold in these hitch categories."""
    kind = book.kinds[kind_id]
    sizes = tuple(replace(size, categories=categories) for size in kind.sizes)
    return replace(book, kinds={**book.kinds, kind_id: replace(kind, sizes=sizes)})


def test_what_all_tools_allow_is_what_each_of_them_allows(maker: Maker) -> None:
    items: list[Item] = [
        {"kind": "rear_blade", "variant": "hydraulic", "size": "3.0 m"},
        {"kind": "rotary_cutter_light", "size": "1.2 m"}, {"kind": "subsoiler"},
    ]  # fmt: skip
    each = [set(stated(maker.profile([item]), "hitch_category")) for item in items]
    profile = maker.profile(items)
    assert set(stated(profile, "hitch_category")) == each[0] & each[1] & each[2] != set()
    assert not profile.outcomes["hitch_category"].conflict


@pytest.mark.parametrize(("small", "large"), [(("0",), ("1",)), (("limited 1",), ("3",)), (("1N",), ("1",))])
def test_categories_that_exclude_each_other_cross(maker: Maker, small: tuple[str, ...], large: tuple[str, ...]) -> None:
    """Never a larger tool on a smaller hitch, nor the small or narrow types on category one: said with ways out."""
    book = with_category(with_category(maker.book, "finish_mower", *small), "subsoiler", *large)
    profile = Maker(book).profile([{"kind": "finish_mower"}, {"kind": "rotary_tiller"}, {"kind": "subsoiler"}])
    outcome = profile.outcomes["hitch_category"]
    assert outcome.conflict
    assert outcome.widest is not None
    assert outcome.widest.stated == ()
    assert outcome.widest.shown == book.messages["reason.none_serves_all"]
    (conflict,) = [c for c in profile.conflicts if c.requirement == "hitch_category"]
    told = " ".join(conflict.reasons)
    assert all(book.kinds[kind].name in told for kind in ("finish_mower", "subsoiler"))
    assert conflict.ways_out
    assert profile.points_to is None
    assert profile.deciding[0] == "conflict:0"


@pytest.mark.parametrize(("opening", "most"), [("gate_width", 1.4), ("door_width", 0.8)])
def test_a_tool_wider_than_the_opening_leaves_is_a_conflict(maker: Maker, opening: str, most: float) -> None:
    said: Item = {opening: "2 m"}
    profile = maker.profile([{"kind": "rotary_cutter_medium", "variant": "mounted", "size": "1.8 m"}], **said)
    assert stated(profile, "width_most") == pytest.approx(most)
    conflict = profile.conflicts[0]
    assert conflict.kind == "tool_too_wide"
    assert conflict.requirement == "width_most"
    assert profile.outcomes["width_most"].conflict
    assert maker.kind("rotary_cutter_medium").name in conflict.title
    assert any("1.8 m" in reason for reason in conflict.reasons)
    assert conflict.ways_out
    assert profile.deciding[0] == "conflict:0"


def test_a_tool_that_passes_is_no_conflict(maker: Maker) -> None:
    profile = maker.profile(
        [{"kind": "rotary_cutter_medium", "variant": "mounted", "size": "1.8 m"}], gate_width="2.4 m"
    )
    assert "tool_too_wide" not in {conflict.kind for conflict in profile.conflicts}


def test_the_narrower_of_two_openings_counts(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower"}], gate_width="3 m", door_width="3.2 m")
    assert stated(profile, "width_most") == pytest.approx(2.0)  # 3.2 less 1.2 is narrower than 3 less 0.6
    one = profile.outcomes["width_most"].widest
    assert one is not None
    assert one.governed_by is not None
    assert one.governed_by.name == maker.book.messages["reason.door_name"]


def test_an_opening_that_nobody_measured_is_never_assumed(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower"}], gate_width="not sure", door_width="not sure")
    outcome = profile.outcomes["width_most"]
    assert outcome.status == "not_determined"
    assert set(outcome.open_questions) == {"gate_width", "door_width"}
    half = maker.profile([{"kind": "finish_mower"}], gate_width="3 m", door_width="not sure").outcomes["width_most"]
    assert half.status == "determined"
    assert half.open_questions == ("door_width",)


def test_work_that_nothing_sold_does_in_the_time_is_a_conflict_not_a_silent_larger_tractor(maker: Maker) -> None:
    profile = maker.profile(
        [{"kind": "rotary_cutter_light", "size": "choose"}], jobs=("rough_mowing",), rough_mowing_area="40 ha",
        rough_mowing_hours="4 h",
    )  # fmt: skip
    (conflict,) = profile.conflicts
    assert maker.kind("rotary_cutter_light").name in conflict.title
    assert conflict.requirement is None
    assert conflict.reasons
    assert conflict.ways_out
    assert profile.hookups[0].sized.size.id == maker.kind("rotary_cutter_light").sizes[-1].id
    enough = maker.profile(
        [{"kind": "rotary_cutter_light", "size": "choose"}], jobs=("rough_mowing",), rough_mowing_area="1 ha",
        rough_mowing_hours="8 h",
    )  # fmt: skip
    assert enough.conflicts == ()


def test_a_load_that_no_size_carries_is_a_conflict(maker: Maker) -> None:
    profile = maker.profile([{"kind": "utility_trailer", "size": "choose", "load": "9000 kg"}])
    (conflict,) = profile.conflicts
    assert maker.kind("utility_trailer").name in conflict.title
    assert conflict.ways_out
    assert maker.profile([{"kind": "utility_trailer", "size": "choose", "load": "1200 kg"}]).conflicts == ()


# ---------------------------------------------------------------------------- refusals


@pytest.mark.parametrize(
    ("items", "slope", "refused"),
    [
        ([{"kind": "loader_bucket"}], "17 %", False),
        ([{"kind": "loader_bucket"}], "19 %", True),
        ([{"kind": "finish_mower"}], "17 %", False),
        ([{"kind": "finish_mower"}], "19 %", True),
        ([{"kind": "utility_trailer"}], "19 %", True),
        ([], "26 %", False),
        ([], "16 deg", True),
        ([], "14 deg", False),
    ],
)
def test_a_side_slope_beyond_what_is_planned_is_refused_with_its_number(
    maker: Maker, items: list[Item], slope: str, refused: bool
) -> None:
    profile = maker.profile(items, land_shape=("slopes",), slope_up="5 %", side_slope=slope)
    assert bool(profile.refusals) is refused
    assert profile.outcomes["side_slope"].status == "determined"  # what the land has stays on the sheet
    if refused:
        (refusal,) = profile.refusals
        assert refusal.title == maker.book.messages["reason.refusal_side_slope_title"]
        assert any(character.isdigit() for character in refusal.reason)
        assert refusal.ways_out
        assert refusal.caution
        assert profile.deciding[0] == "refusal:0"


def test_something_towed_that_is_not_on_the_list_counts_as_behind(maker: Maker) -> None:
    profile = maker.profile(
        land_shape=("slopes",), slope_up="5 %", side_slope="20 %", tow_other="often", tow_mass="600 kg",
        tow_axles="four_wheels",
    )  # fmt: skip
    assert len(profile.refusals) == 1


def test_a_side_slope_that_nobody_measured_is_not_determined(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower"}], land_shape=("slopes",), slope_up="5 %", side_slope="not sure")
    assert profile.outcomes["side_slope"].status == "not_determined"
    assert profile.refusals == ()


def test_a_slope_that_wheels_cannot_hold_is_refused_however_heavy_the_tractor(maker: Maker) -> None:
    """Wet grass holds about 0.16 of the weight; 25 per cent pulls with 0.24 of it."""
    said: Item = {"land_shape": ("slopes",), "slope_up": "25 %", "surface": "wet_grass"}
    profile = maker.profile([{"kind": "box_blade", "size": "1.5 m"}], **said)
    (refusal,) = profile.refusals
    assert maker.kind("box_blade").name in refusal.title
    assert "25" in refusal.reason
    assert "0.16" in refusal.reason
    assert refusal.ways_out
    assert refusal.caution
    assert profile.outcomes["mass"].status == "not_needed" or profile.outcomes["mass"].conflict
    gentle = maker.profile([{"kind": "box_blade", "size": "1.5 m"}], **{**said, "slope_up": "8 %"})
    assert gentle.refusals == ()
    assert gentle.outcomes["mass"].status == "determined"


def test_a_towed_load_on_such_a_slope_is_refused_too(maker: Maker) -> None:
    profile = maker.profile(
        land_shape=("slopes",), slope_up="25 %", surface="wet_grass", tow_other="often", tow_mass="800 kg",
        tow_axles="one_axle",
    )  # fmt: skip
    assert len(profile.refusals) == 1


@pytest.mark.parametrize(
    "kind", ["rotary_cutter_light", "finish_mower", "rotary_tiller", "cone_spreader", "loader_bucket"]
)
def test_a_slope_that_the_tractor_alone_cannot_climb_is_refused_for_any_work(maker: Maker, kind: str) -> None:
    """What pulls nothing must climb as well: the wheels that cannot hold the tractor cannot brake it either."""
    profile = maker.profile([{"kind": kind}], land_shape=("slopes",), slope_up="25 %", surface="wet_grass")
    assert profile.refusals


def test_a_refusal_is_said_once_for_each_thing_it_concerns(maker: Maker) -> None:
    items = [{"kind": "box_blade", "size": "1.5 m"}, {"kind": "box_blade", "size": "1.5 m", "when": "later"}]
    profile = maker.profile(items[:1], land_shape=("slopes",), slope_up="25 %", surface="wet_grass", side_slope="30 %")
    titles = [refusal.title for refusal in profile.refusals]
    assert len(titles) == len(set(titles)) == 2
    both = maker.profile(items, land_shape=("slopes",), slope_up="25 %", surface="wet_grass")
    assert len({r.title for r in both.refusals}) == len(both.refusals)


def test_a_worse_surface_that_is_only_feared_leaves_the_high_end_open(maker: Maker) -> None:
    """Not sure of the surface: planned on one that holds, while the hard end may have no answer at all."""
    unsure = maker.questions["surface"].not_sure
    surfaces = maker.book.tables["surfaces"]
    feared, planned = surfaces[unsure.high]["grip"].low, surfaces[unsure.planning]["grip"].planning
    assert feared < planned
    slope = f"{100 * (feared + planned) / 2:.0f} %"
    profile = maker.profile(
        [{"kind": "box_blade", "size": "1.5 m"}], land_shape=("slopes",), slope_up=slope, surface="not sure"
    )
    one = profile.outcomes["mass"].widest
    assert one is not None
    assert one.planning > 0
    assert one.high is None
    assert one.high_shown is None
    assert profile.refusals == ()
