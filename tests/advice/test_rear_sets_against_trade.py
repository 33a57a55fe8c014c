"""Rear sets worked out from the oil functions of each kind, held against the counts that the trade gives by kind."""

from __future__ import annotations

import pytest

from firstfurrow.book.load import load
from firstfurrow.reasoning import evaluate
from making import Maker

pytestmark = pytest.mark.practice  # common practice, no source

# kind: sets that it must have, sets so that nothing is set by hand (common practice, no source)
TRADE: dict[str, tuple[int, int]] = {
    "rotary_cutter_light": (0, 0), "rotary_cutter_medium": (0, 1), "rotary_cutter_heavy": (0, 2),
    "finish_mower": (0, 0), "mid_mount_mower": (0, 0), "flail_mower": (0, 1), "sickle_bar_mower": (0, 1),
    "disc_mower": (1, 1), "rotary_rake": (0, 1), "tedder": (0, 1), "small_square_baler": (0, 1), "round_baler": (1, 2),
    "mini_round_baler": (1, 1), "bale_spear": (0, 1), "manure_spreader_ground": (0, 0), "manure_spreader_shaft": (0, 1),
    "manure_spreader_end_gate": (1, 2), "cone_spreader": (0, 0), "mounted_sprayer": (0, 1),
    "mouldboard_plough": (0, 1), "chisel_plough": (0, 1), "subsoiler": (0, 0), "tandem_disc_mounted": (0, 1),
    "tandem_disc_trailed": (1, 1), "rotary_tiller": (0, 0), "no_till_drill": (1, 1), "box_blade": (0, 1),
    "box_blade_hydraulic": (1, 3), "rear_blade": (0, 1), "landscape_rake": (0, 1), "groomer_trailed": (1, 1),
    "post_hole_digger": (0, 1), "wood_chipper": (0, 1), "log_splitter": (1, 1), "snow_blower": (0, 1),
    "loader_bucket": (0, 0), "loader_grapple": (0, 0), "dump_trailer": (1, 1), "utility_trailer": (0, 0),
    "drum_mower": (0, 1), "mower_conditioner": (2, 2), "wheel_rake": (0, 1), "bar_rake": (0, 1), "bale_wrapper": (1, 2),
    "lime_spreader": (0, 1), "drop_spreader": (0, 1), "trailed_sprayer": (0, 2), "field_cultivator": (0, 1),
    "power_harrow": (0, 0), "spading_machine": (0, 0), "chain_harrow": (0, 1), "seed_drill": (0, 1),
    "overseeder": (0, 0), "cultipacker": (0, 1), "core_aerator": (0, 1), "row_planter_mounted": (0, 1),
    "row_planter_drawn": (0, 2), "roller_crimper": (0, 0), "row_cultivator": (0, 1), "bedder": (0, 0),
    "middle_buster": (0, 0), "mulch_layer": (0, 0), "transplanter": (0, 0), "potato_digger": (0, 0),
    "land_plane": (0, 1), "land_leveller": (1, 2), "log_winch": (0, 0), "forwarding_trailer": (0, 2),
    "post_driver": (1, 2), "stump_grinder": (0, 2), "pallet_forks_loader": (0, 0), "bale_spear_loader": (0, 0),
    "bale_grab_loader": (0, 0), "bucket_four_in_one": (0, 0), "snow_blade_loader": (0, 1), "post_driver_loader": (1, 2),
    "backhoe": (0, 1), "trencher": (0, 1), "carry_all": (0, 1), "pallet_forks_mounted": (0, 1), "boom_pole": (0, 0),
    "ballast_box": (0, 0), "hay_wagon": (0, 0), "livestock_trailer": (0, 0), "ball_frame": (0, 0),
    "gooseneck_frame": (0, 0), "pto_generator": (0, 0), "irrigation_pump": (0, 0),
    "hydraulic_top_link": (1, 1), "hydraulic_side_link": (1, 1),
}  # fmt: skip

# Where the book counts otherwise, and why. Anything that is not here must agree.
OTHERWISE: dict[str, tuple[tuple[int, int], str]] = {
    "flail_mower": ((0, 2), "the verge build tilts and shifts, which the trade's count for a centred one leaves out"),
    "tedder": ((0, 2), "the folding build has a fold and a border tilt"),
    "small_square_baler": ((0, 2), "the tongue swing and an oil-fed bale tension are both counted"),
    "round_baler": ((1, 3), "one kind for small and large chambers; knives or a kicker are counted for comfort"),
    "cone_spreader": ((0, 1), "the gate may be opened from the seat"),
    "rotary_tiller": ((0, 1), "the side shift may be moved from the seat"),
    "tandem_disc_trailed": ((1, 2), "the angle of the gangs may be set from the seat"),
    "groomer_trailed": ((1, 2), "tilt or roller depth may be set from the seat"),
    "dump_trailer": ((1, 2), "a rear door or brakes may be worked by oil"),
    "snow_blower": ((0, 2), "chute and chute flap are two functions"),
    "backhoe": ((0, 0), "its own pump or oil beyond the valves feeds it; ordinary sets are a poor supply"),
    "log_splitter": ((0, 1), "one build brings its own pump"),
    "rear_blade": ((0, 3), "one kind for the plain and the oil-moved build"),
    "mower_conditioner": ((1, 2), "an older build whose tongue is swung by hand needs no set for it"),
    "bar_rake": ((0, 2), "the oil-driven build has a motor and a lift"),
    "lime_spreader": ((0, 2), "the build with oil-driven plates has a motor and a gate"),
    "power_harrow": ((0, 1), "the depth roller may be set from the seat"),
    "row_planter_mounted": ((0, 2), "markers and an oil-driven fan are both counted"),
    "row_planter_drawn": ((1, 3), "the drawn build lifts on its wheels, and markers and fan are both counted"),
    "land_leveller": ((1, 3), "ejector and laser control are both counted"),
    "post_driver": ((1, 3), "with the tractor's own levers both tilts are counted"),
    "snow_blade_loader": ((0, 0), "the trade's set turns a blade at the rear; on the loader it is a third function"),
    "post_driver_loader": ((0, 0), "the trade's sets are those of the mounted one; the loader's valve works this one"),
    "trencher": ((0, 2), "the depth of the arm and its cleaning shoe are both counted"),
}

BUILDS = [(k.kind, v.id) for k in load().kinds.values() for v in k.variants]


def counted(maker: Maker, kind_id: str, variant: str) -> tuple[int, int]:
    """Must and comfortable, as the profile states them for this build alone."""
    item = {"kind": kind_id, **({"variant": variant} if "variants" in maker.kind(kind_id).features else {})}
    profile = maker.profile([item])
    must, comfortable = (profile.outcomes[id_].widest for id_ in ("rear_sets", "rear_sets_comfortable"))
    return (0 if must is None else must.stated, 0 if comfortable is None else comfortable.stated)


def of_kind(maker: Maker, kind_id: str) -> tuple[int, int]:
    builds = [counted(maker, kind_id, v.id) for v in maker.kind(kind_id).variants]
    return min(must for must, _ in builds), max(comfortable for _, comfortable in builds)


def test_the_table_holds_every_kind(maker: Maker) -> None:
    assert set(TRADE) == set(maker.book.kinds) | set(maker.book.links)
    assert set(OTHERWISE) <= set(TRADE)


@pytest.mark.parametrize("kind", [k for k in TRADE if not k.startswith("hydraulic_")])
def test_sets_of_a_kind_are_those_of_the_trade_or_a_named_difference(maker: Maker, kind: str) -> None:
    found = of_kind(maker, kind)
    if kind in OTHERWISE:
        ours, reason = OTHERWISE[kind]
        assert reason
        assert ours != TRADE[kind], "no difference any more: take it off the list"
        assert found == ours
    else:
        assert found == TRADE[kind]


@pytest.mark.parametrize("link", ["hydraulic_top_link", "hydraulic_side_link"])
def test_a_link_takes_one_set_wherever_it_is_fitted(maker: Maker, link: str) -> None:
    alone = maker.profile([{"kind": "finish_mower"}]).outcomes["rear_sets"]
    fitted = maker.profile([{"kind": "finish_mower", "with": (link,)}]).outcomes["rear_sets"]
    assert alone.widest is None
    assert fitted.widest is not None
    assert (fitted.widest.stated, fitted.widest.stated) == TRADE[link]


@pytest.mark.parametrize(("kind", "variant"), BUILDS)
def test_sets_are_a_printed_sum_of_ones(maker: Maker, kind: str, variant: str) -> None:
    """Each function that takes a set is one line, so that a reader can count along."""
    item = {"kind": kind, **({"variant": variant} if "variants" in maker.kind(kind).features else {})}
    profile = maker.profile([item])
    must, comfortable = counted(maker, kind, variant)
    assert must <= comfortable
    for id_, expected in (("rear_sets", must), ("rear_sets_comfortable", comfortable)):
        one = profile.outcomes[id_].widest
        if one is None:
            assert expected == 0
            continue
        assert one.top_step is not None
        step = profile.step(one.top_step)
        assert step.inputs is not None
        assert step.formula is not None
        assert {s.value for s in step.inputs.values()} == {1}
        assert evaluate(step.formula, {n: s.value for n, s in step.inputs.items()}) == len(step.inputs) == expected
