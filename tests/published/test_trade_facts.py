"""Facts that every dealer knows, held against the book (common practice, no source)."""

from __future__ import annotations

import itertools

import pytest

from firstfurrow.book.model import Book, Kind, OilFunction

pytestmark = pytest.mark.practice

CLASSES = [
    "subcompact", "compact_small", "compact_medium", "compact_large",
    "utility_small", "utility", "utility_large", "row_crop",
]  # fmt: skip
TURN_ALL_THE_TIME = [
    "rotary_cutter_light", "rotary_cutter_medium", "rotary_cutter_heavy", "finish_mower", "mid_mount_mower",
    "flail_mower", "sickle_bar_mower", "disc_mower", "tedder", "small_square_baler", "round_baler", "rotary_tiller",
    "snow_blower", "post_hole_digger", "wood_chipper", "cone_spreader", "manure_spreader_shaft",
]  # fmt: skip
NOTHING_TURNS = [
    "bale_spear", "mouldboard_plough", "chisel_plough", "subsoiler", "tandem_disc_mounted", "tandem_disc_trailed",
    "box_blade", "rear_blade", "landscape_rake", "dump_trailer", "utility_trailer", "loader_bucket", "loader_grapple",
]  # fmt: skip


def oil_functions(book: Book) -> list[tuple[str, OilFunction]]:
    kinds: list[Kind] = [*book.kinds.values(), *book.links.values()]
    return [(kind.kind, function) for kind in kinds for variant in kind.variants for function in variant.oil]


@pytest.mark.parametrize("kind", TURN_ALL_THE_TIME)
def test_cutting_tilling_and_throwing_take_the_shaft(book: Book, kind: str) -> None:
    assert "shaft" in book.kinds[kind].features


@pytest.mark.parametrize("kind", NOTHING_TURNS)
def test_what_only_drags_carries_or_opens_takes_no_shaft(book: Book, kind: str) -> None:
    assert "shaft" not in book.kinds[kind].features


def test_motion_now_and_then_is_a_cylinder_and_motion_all_the_time_a_motor(book: Book) -> None:
    """A splitter, a hammer, a digging arm and a crane work stroke after stroke; a laser moves a blade all the time."""
    functions = oil_functions(book)
    assert len(functions) > 20
    motors = [(kind, f) for kind, f in functions if f.acting == "motor"]
    assert motors
    assert {kind for kind, f in motors if f.duty != "continuous"} <= {"snow_blower"}  # it turns the chute
    assert {kind for kind, f in functions if f.acting != "motor" and f.duty == "continuous"} <= {
        "log_splitter", "post_driver", "post_driver_loader", "backhoe", "forwarding_trailer", "land_leveller",
    }  # fmt: skip


def test_a_hydraulic_top_link_takes_one_whole_set(book: Book) -> None:
    """One set is two ports: the cylinder works both ways, so both are used and nothing else can share the moment."""
    for name, place in (("hydraulic_top_link", "top"), ("hydraulic_side_link", "side")):
        functions = [f for variant in book.links[name].variants for f in variant.oil]
        assert [(f.acting, f.is_link, f.supply) for f in functions] == [("double", place, "rear_set")]


def test_a_subcompact_has_oil_but_no_rear_set(book: Book) -> None:
    row = book.tables["size_classes"]["subcompact"]
    assert row["rear_sets"].planning == 0
    assert row["flow"].low > 0
    assert row["pressure"].low > 0
    assert row["loader_lift"].low > 0  # the loader in front uses it


def test_rear_sets_can_be_fitted_later_by_a_dealer(book: Book) -> None:
    assert book.requirements["rear_sets"].later == "dealer"
    assert book.requirements["rear_sets"].later_what


def test_a_subcompact_hitch_is_category_1_and_often_limited(book: Book) -> None:
    classes, hitches = book.tables["size_classes"], book.tables["hitch_categories"]
    assert classes["subcompact"].words["hitch_category"] == "limited 1"
    for column in ("upper_pin", "lower_stud"):
        assert hitches["limited_1"][column].planning == hitches["1"][column].planning


def test_larger_tractors_have_a_larger_drawbar_and_at_least_one_set(book: Book) -> None:
    rows = [book.tables["size_classes"][name] for name in CLASSES]
    drawbars = [r["drawbar_class"].planning for r in rows]
    assert drawbars == sorted(drawbars)
    assert drawbars[0] < drawbars[-1]
    assert all(r["rear_sets"].planning >= 1 for r in rows[2:])
    assert rows[-1]["rear_sets"].planning > 1  # larger tractors and implements gain from more than one


def test_size_classes_rise_from_row_to_row(book: Book) -> None:
    table = book.tables["size_classes"]
    assert list(table.rows) == CLASSES
    rising = (
        "mass", "wheelbase", "hitch_overhang", "track", "width", "height", "centre_height", "engine_power", "pto_power",
        "lift_ball_ends", "lift_610", "pressure", "flow", "loader_lift",
    )  # fmt: skip
    for column in rising:
        values = [table[name][column].planning for name in CLASSES]
        assert all(a < b for a, b in itertools.pairwise(values)), column


def test_a_size_class_agrees_with_itself(book: Book) -> None:
    drawbars, choices = book.tables["drawbar_classes"], book.choice("pto_of_engine_gears")
    for name in CLASSES:
        row = book.tables["size_classes"][name]
        assert row["lift_610"].planning < row["lift_ball_ends"].planning
        assert row["track"].planning < row["width"].planning < row["height"].planning
        assert 0.72 < row["pto_power"].planning / row["engine_power"].planning <= choices.high, name
        most = drawbars[f"{row['drawbar_class'].planning:.0f}"]["power_most"].planning
        assert row["pto_power"].planning <= most, name
        assert 40 <= row["mass"].planning / row["engine_power"].planning <= 80, name  # kg/kW, unballasted tractors


def test_three_arms_carry_and_a_drawbar_only_pulls(book: Book) -> None:
    """What is pulled rests on the pin with a part of its weight; what is carried has a centre behind the pins."""
    pulled = carried = 0
    for kind in book.kinds.values():
        for variant in kind.variants:
            if variant.way == "drawbar":
                pulled += 1
                resting = (variant.tongue, variant.tongue_share, kind.tongue, kind.tongue_share)
                sizes = [s for s in kind.sizes if not s.variants or variant.id in s.variants]
                assert any(resting) or all(s.tongue for s in sizes), (kind.kind, variant.id)
            if variant.way == "three_point":
                carried += 1
                sizes = [s for s in kind.sizes if not s.variants or variant.id in s.variants]
                centre = variant.centre_behind_pins or kind.centre_behind_pins
                assert centre or all(s.centre_behind_pins for s in sizes), (kind.kind, variant.id)
    assert pulled > 5
    assert carried > 15


def test_carried_sizes_name_a_hitch_category_of_the_table(book: Book) -> None:
    known = set(book.tables["hitch_categories"].rows)
    for kind in book.kinds.values():
        ways = {v.id: v.way for v in kind.variants}
        for size in kind.sizes:
            if "three_point" in {ways[v] for v in (size.variants or ways)}:
                assert size.categories, (kind.kind, size.id)
            assert {c.replace(" ", "_") for c in size.categories} <= known, (kind.kind, size.id)


def test_categories_differ_by_both_pins_and_by_the_spacing(book: Book) -> None:
    rows = [book.tables["hitch_categories"][name] for name in ("1", "2", "3", "4")]
    for column in ("upper_pin", "lower_stud", "span_implement"):
        values = [r[column].planning for r in rows]
        assert all(a < b for a, b in itertools.pairwise(values)), column
