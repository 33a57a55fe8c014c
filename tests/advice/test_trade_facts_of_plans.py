"""Facts of the trade, held against whole profiles (common practice, no source)."""

from __future__ import annotations

from typing import Any

import pytest

from firstfurrow.advice.profile import Profile
from firstfurrow.book.load import load
from making import Maker

pytestmark = pytest.mark.practice  # common practice, no source

TOP, SIDE = "hydraulic_top_link", "hydraulic_side_link"
Item = dict[str, Any]


def sets(profile: Profile) -> int:
    one = profile.outcomes["rear_sets"].widest
    return 0 if one is None else one.stated


def planned(profile: Profile, id_: str) -> float:
    one = profile.outcomes[id_].widest
    assert one is not None, f"{id_} is not asked for"
    return float(one.planning)


# ------------------------------------------------------------- shaft work and oil work


@pytest.mark.parametrize(
    "kind",
    ["rotary_cutter_medium", "finish_mower", "flail_mower", "rotary_tiller", "round_baler", "cone_spreader", "tedder",
     "snow_blower", "wood_chipper", "post_hole_digger", "disc_mower", "small_square_baler", "manure_spreader_shaft"],
)  # fmt: skip
def test_what_turns_all_the_time_asks_for_the_shaft_and_not_for_a_set_to_turn_it(maker: Maker, kind: str) -> None:
    profile = maker.profile([{"kind": kind}])
    assert profile.outcomes["pto_power"].status == "determined"
    assert profile.outcomes["pto_speed"].status == "determined"
    assert profile.outcomes["pto_engagement"].status == "determined"
    features = profile.outcomes["oil_features"].widest
    assert features is None or ("motor_return",) not in features.stated


@pytest.mark.parametrize("kind", ["box_blade_hydraulic", "dump_trailer", "groomer_trailed", "tandem_disc_trailed"])
def test_what_moves_now_and_then_asks_for_oil_and_not_for_the_shaft(maker: Maker, kind: str) -> None:
    profile = maker.profile([{"kind": kind}])
    assert sets(profile) >= 1
    assert profile.outcomes["oil_flow"].status == "determined"
    for id_ in ("pto_speed", "pto_shaft_type", "pto_engagement", "mid_pto"):
        assert profile.outcomes[id_].status == "not_needed"


def test_a_mower_under_the_belly_asks_for_the_mid_shaft_only(maker: Maker) -> None:
    profile = maker.profile([{"kind": "mid_mount_mower"}])
    mid = profile.outcomes["mid_pto"].widest
    assert mid is not None
    assert mid.stated == ((2000,),)
    assert profile.outcomes["pto_speed"].status == "not_needed"
    assert profile.outcomes["hitch_category"].status == "not_needed"


# ---------------------------------------------------------------------- counting sets


@pytest.mark.parametrize(
    ("items", "expected"),
    [
        pytest.param([{"kind": "finish_mower"}, {"kind": "rotary_tiller"}, {"kind": "rear_blade", "variant": "plain"},
                      {"kind": "post_hole_digger"}, {"kind": "cone_spreader"}, {"kind": "loader_bucket"}], 0,
                     id="mow, till, plain blade, post holes, spread, loader"),
        pytest.param([{"kind": "box_blade", "with": (TOP,)}], 1, id="top link alone"),
        pytest.param([{"kind": "landscape_rake", "with": (TOP, SIDE)}], 2, id="top and side link"),
        pytest.param([{"kind": "no_till_drill", "variant": "mounted", "with": (TOP, SIDE)}], 3,
                     id="both links with one oil-worked tool"),
        pytest.param([{"kind": "box_blade_hydraulic", "with": (TOP,)}], 2, id="top link and hydraulic scarifiers"),
        pytest.param([{"kind": "box_blade_hydraulic", "with": (TOP, SIDE)}], 3, id="top, side and scarifiers"),
        pytest.param([{"kind": "rear_blade", "variant": "hydraulic", "options": ("offset", "tilt"), "with": (TOP,)}], 4,
                     id="blade with angle, offset, tilt and top link"),
        pytest.param([{"kind": "round_baler", "variant": "oil_pickup"}], 2, id="round baler, gate and pickup"),
        pytest.param([{"kind": "no_till_drill", "variant": "trailed"}], 1, id="no-till drill"),
        pytest.param([{"kind": "dump_trailer"}], 1, id="tipping trailer"),
        pytest.param([{"kind": "tandem_disc_trailed"}], 1, id="trailed disc"),
        pytest.param([{"kind": "groomer_trailed"}], 1, id="trailed groomer, wheels only"),
        pytest.param([{"kind": "tandem_disc_mounted", "with": (TOP,)}], 1, id="mounted disc with top link"),
        pytest.param([{"kind": "manure_spreader_end_gate", "options": ("floor_drive",)}], 2,
                     id="end-gate spreader with a floor motor"),
        pytest.param([{"kind": "loader_grapple"}], 0, id="grapple on the loader"),
    ],
)  # fmt: skip
def test_counting_examples(maker: Maker, items: list[Item], expected: int) -> None:
    assert sets(maker.profile(items)) == expected


OWNED: list[Item] = [
    {"kind": "flail_mower", "variant": "centred"}, {"kind": "no_till_drill", "variant": "trailed"},
    {"kind": "round_baler", "variant": "oil_pickup"},
]  # fmt: skip


@pytest.mark.parametrize(
    ("blade", "expected", "governs"),
    [
        ({"kind": "box_blade", "with": (TOP,)}, 2, "round_baler"),
        ({"kind": "box_blade_hydraulic", "with": (TOP,)}, 2, None),
        ({"kind": "box_blade_hydraulic", "with": (TOP, SIDE)}, 3, "box_blade_hydraulic"),
    ],
)
def test_an_owner_needs_the_largest_hookup_never_the_sum(
    maker: Maker, blade: Item, expected: int, governs: str | None
) -> None:
    profile = maker.profile([*OWNED, blade])
    assert sets(profile) == expected
    one = profile.outcomes["rear_sets"].widest
    assert one is not None
    assert one.governed_by is not None
    if governs is not None:
        assert one.governed_by.name == maker.kind(governs).name


def test_a_link_named_by_the_buyer_is_not_counted_twice_for_comfort(maker: Maker) -> None:
    """The comfortable count of the oil-moved box blade has its links already; those that were refused do not count."""
    for links, sets in (("not sure", 3), (("none_of_these",), 1), ((TOP,), 2), ((TOP, SIDE), 3)):
        one = maker.profile([{"kind": "box_blade_hydraulic", "with": links}]).outcomes["rear_sets_comfortable"].widest
        assert one is not None
        assert one.stated == sets


def test_a_top_link_on_a_plain_tool_takes_one_whole_set_and_says_so(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_tiller", "with": (TOP,)}])
    one = profile.outcomes["rear_sets"].widest
    assert one is not None
    assert one.top_step is not None
    (line,) = (profile.step(one.top_step).inputs or {}).values()
    assert line.value == 1
    assert line.note == maker.book.messages["reason.note_link_takes_a_set"]


def test_a_selector_valve_is_named_as_the_cheaper_way_and_never_lowers_the_count(maker: Maker) -> None:
    one = maker.profile([{"kind": "box_blade_hydraulic", "with": (TOP, SIDE)}]).outcomes["rear_sets"].widest
    assert one is not None
    assert one.stated == 3
    (note,) = one.notes
    assert "1 in all" in note  # all three may take turns behind selectors
    baler = maker.profile([{"kind": "round_baler", "variant": "oil_pickup"}]).outcomes["rear_sets"].widest
    assert baler is not None
    assert baler.notes == ()  # the pickup floats while the gate is needed


def test_a_link_is_never_an_implement_of_its_own(maker: Maker) -> None:
    assert not set(maker.book.links) & set(maker.book.kinds)


# ------------------------------------------------------------ loader and rear are apart


@pytest.mark.parametrize(("kind", "functions"), [("loader_bucket", 2), ("loader_grapple", 3)])
def test_loader_functions_are_not_rear_sets(maker: Maker, kind: str, functions: int) -> None:
    profile = maker.profile([{"kind": kind}], front_load="300 kg")
    assert planned(profile, "loader_functions") == functions
    for id_ in ("rear_sets", "rear_sets_comfortable", "oil_flow", "oil_pressure"):
        assert profile.outcomes[id_].status == "not_needed"


def test_a_splitter_with_its_own_pump_takes_no_set(maker: Maker) -> None:
    profile = maker.profile([{"kind": "log_splitter", "variant": "own_pump"}])
    assert sets(profile) == 0
    assert sets(maker.profile([{"kind": "log_splitter", "variant": "tractor_oil"}])) == 1


# -------------------------------------------------------------- small and large tractors


def test_one_rear_set_rules_out_the_subcompact_and_can_be_fitted_by_a_dealer(maker: Maker) -> None:
    profile = maker.profile([{"kind": "box_blade", "size": "1.2 m", "with": (TOP,)}])
    assert sets(profile) == 1
    assert profile.ruled_out["rear_sets"] >= 1
    assert profile.points_to is not None
    assert profile.points_to.id != "subcompact"
    assert "rear_sets" in profile.deciding
    assert profile.outcomes["rear_sets"].requirement.later == "dealer"


def test_without_oil_behind_a_subcompact_does(maker: Maker) -> None:
    blade = {"kind": "rear_blade", "variant": "plain", "size": "1.2 m", "when": "owned", "mass": "90 kg"}
    profile = maker.profile([blade])
    assert profile.points_to is not None
    assert profile.points_to.id == "subcompact"


def test_larger_tools_gain_from_more_than_one_set(maker: Maker) -> None:
    small = maker.profile([{"kind": "rotary_cutter_light"}]).outcomes["rear_sets_comfortable"]
    large = maker.profile([{"kind": "rotary_cutter_heavy", "variant": "trailed_folding"}])
    assert small.status == "not_needed"
    assert planned(large, "rear_sets_comfortable") == 2


# ------------------------------------------------------------------ carried and pulled

BOTH_WAYS = [
    ("rotary_cutter_medium", "mounted", "trailed"), ("rotary_cutter_heavy", "mounted", "trailed"),
    ("rotary_rake", "mounted", "trailed"), ("tedder", "mounted", "trailed"), ("chisel_plough", "mounted", "trailed"),
    ("no_till_drill", "mounted", "trailed"), ("wood_chipper", "mounted", "trailed"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "carried", "pulled"), BOTH_WAYS)
def test_three_arms_carry_and_a_drawbar_only_pulls(maker: Maker, kind: str, carried: str, pulled: str) -> None:
    arms = ("hitch_category", "lift_at_load", "lift_610", "lift_ball_ends")
    on_arms = maker.profile([{"kind": kind, "variant": carried}]).outcomes
    on_pin = maker.profile([{"kind": kind, "variant": pulled}]).outcomes
    for id_ in arms:
        assert on_arms[id_].status == "determined", id_
        assert on_pin[id_].status == "not_needed", id_
    assert on_arms["drawbar_vertical"].status == "not_needed"
    assert on_pin["drawbar_vertical"].status == "determined"
    assert on_pin["drawbar_pull"].status == "determined"


@pytest.mark.parametrize("kind", [k.kind for k in load().kinds.values()])
def test_what_is_carried_asks_for_more_lift_at_the_ball_ends_than_where_it_hangs(maker: Maker, kind: str) -> None:
    for variant in maker.kind(kind).variants:
        item = {"kind": kind, **({"variant": variant.id} if "variants" in maker.kind(kind).features else {})}
        profile = maker.profile([item])
        if variant.way != "three_point":
            assert profile.outcomes["lift_ball_ends"].status == "not_needed"
            continue
        at_load, at_610, ends = (planned(profile, i) for i in ("lift_at_load", "lift_610", "lift_ball_ends"))
        assert at_load <= at_610 <= ends


def test_a_larger_category_takes_the_smaller_one_with_bushings_never_the_other_way(maker: Maker) -> None:
    one = maker.profile([{"kind": "rotary_cutter_medium", "variant": "mounted", "size": "1.5 m"}])
    two = maker.profile([{"kind": "rotary_cutter_heavy", "variant": "mounted", "size": "1.8 m"}])
    for profile, expected in ((one, ("1", "2")), (two, ("2", "3"))):
        hitch = profile.outcomes["hitch_category"].widest
        assert hitch is not None
        assert hitch.stated == expected


def test_a_category_1_tool_is_not_for_a_limited_hitch(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_cutter_medium", "variant": "mounted", "size": "1.5 m"}])
    hitch = profile.outcomes["hitch_category"].widest
    assert hitch is not None
    assert "limited 1" not in hitch.stated
    assert profile.points_to is not None
    assert profile.points_to.id != "subcompact"


# -------------------------------------------------------------------- cases with numbers


def test_a_tiller_of_one_and_a_half_metres_in_clay_takes_about_30_kw(maker: Maker) -> None:
    clay, loam = (maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}], soil=s) for s in ("clay", "loam"))
    assert planned(clay, "pto_power") == pytest.approx(30, abs=1)
    assert planned(loam, "pto_power") == pytest.approx(24, abs=1)


def test_a_trailer_of_two_tonnes_on_15_per_cent_pulls_with_about_3_9_kn(maker: Maker) -> None:
    said: Item = {"land_shape": ("slopes",), "slope_up": "15 %", "tow_other": "often", "tow_mass": "2 tonne"}
    other = maker.profile(tow_axles="one_axle", **said)
    assert planned(other, "drawbar_pull") == pytest.approx(3.9, rel=0.06)
    assert planned(other, "drawbar_vertical") == pytest.approx(300, abs=1)
    listed = maker.profile([{"kind": "utility_trailer", "load": "1500 kg"}], land_shape=("slopes",), slope_up="15 %")
    assert planned(listed, "drawbar_pull") == pytest.approx(3.9, rel=0.06)  # its own mass makes up nearly two tonnes


def test_a_wagon_on_four_wheels_does_not_press_on_the_pin(maker: Maker) -> None:
    profile = maker.profile(tow_other="often", tow_mass="2 tonne", tow_axles="four_wheels")
    assert profile.outcomes["drawbar_vertical"].status == "not_needed"
    assert profile.outcomes["drawbar_pull"].status == "determined"


def test_a_medium_cutter_hangs_far_back(maker: Maker) -> None:
    """1.8 m, 430 kg, its centre 1.15 m back: 0.6 to 0.7 t at 610 mm with margin, about 1 t at the ball ends."""
    profile = maker.profile(
        [{"kind": "rotary_cutter_medium", "variant": "mounted", "size": "1.8 m", "when": "owned", "mass": "430 kg"}]
    )
    assert planned(profile, "lift_at_load") == pytest.approx(506, abs=2)
    assert 600 <= planned(profile, "lift_610") <= 700
    assert planned(profile, "lift_ball_ends") == pytest.approx(991, abs=5)
    one = profile.outcomes["lift_610"].widest
    assert one is not None
    assert one.stated > one.planning  # the unfavourable end decides


def test_a_bale_of_600_kg_on_a_spear_asks_for_about_0_9_t_at_610_mm(maker: Maker) -> None:
    profile = maker.profile([{"kind": "bale_spear", "variant": "spear", "load": "600 kg"}])
    assert planned(profile, "lift_610") == pytest.approx(900, rel=0.12)


def test_a_box_blade_on_a_15_per_cent_drive_is_work_for_a_compact(maker: Maker) -> None:
    """1.5 m: a tractor of 1.1 to 1.5 t does it with less bite, and most of the power is for the climb."""
    said: Item = {"land_shape": ("slopes",), "slope_up": "15 %"}
    steep = maker.profile([{"kind": "box_blade", "size": "1.5 m"}], **said)
    level = maker.profile([{"kind": "box_blade", "size": "1.5 m"}])
    assert 1000 <= planned(steep, "mass") <= 1500
    assert planned(level, "mass") < planned(steep, "mass")
    climb = [s for s in steep.steps if s.formula is not None and s.formula.startswith("mass * 9.80665 * sin(angle)")]
    assert climb
    one = steep.outcomes["drawbar_pull"].widest
    assert one is not None
    assert one.high > one.planning  # the must is planned, the comfortable bite is the high end
    assert planned(steep, "pto_power") - planned(level, "pto_power") > 0.4 * planned(steep, "pto_power")


def test_more_area_in_the_same_time_asks_for_a_wider_tool(maker: Maker) -> None:
    def width(area: str, hours: str) -> float:
        profile = maker.profile(
            [{"kind": "rotary_cutter_medium", "variant": "mounted", "size": "choose"}], jobs=("rough_mowing",),
            rough_mowing_area=area, rough_mowing_hours=hours,
        )  # fmt: skip
        found = profile.hookups[0].sized.width
        assert found is not None
        return found

    assert width("2 ha", "12 h") == 1.5
    assert width("5 ha", "7 h") > 1.5
    assert width("5 ha", "14 h") == 1.5


def test_power_is_the_largest_hookup_never_a_sum(maker: Maker) -> None:
    alone = [planned(maker.profile([{"kind": kind}]), "pto_power") for kind in ("rotary_tiller", "finish_mower")]
    both = planned(maker.profile([{"kind": "rotary_tiller"}, {"kind": "finish_mower"}]), "pto_power")
    assert both == max(alone)
    assert both < sum(alone)


def test_engine_power_is_said_beside_the_requirement_and_is_never_the_requirement(maker: Maker) -> None:
    outcome = maker.profile([{"kind": "rotary_tiller"}]).outcomes["pto_power"]
    assert any("engine" in remark.text for remark in outcome.remarks)
    assert not any("engine" in id_ for id_ in maker.book.requirements)


def test_different_shaft_speeds_are_all_asked_for(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_tiller"}, {"kind": "mid_mount_mower"}])
    rear, mid = (profile.outcomes[id_].widest for id_ in ("pto_speed", "mid_pto"))
    assert rear is not None
    assert mid is not None
    assert rear.stated == ((540,),)
    assert mid.stated == ((2000,),)


def test_a_machine_sold_for_either_speed_adds_nothing_beside_one_that_takes_540(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_tiller"}, {"kind": "round_baler", "variant": "oil_pickup"}])
    one = profile.outcomes["pto_speed"].widest
    assert one is not None
    assert one.stated == ((540,),)
