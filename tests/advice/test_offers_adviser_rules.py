"""What an adviser would not refuse, would not sign, and would ask first: the rules behind the verdicts, by small plans.

The rules are common practice, no source; the one equation that is worked out by hand here is a moment about the front
wheels, from the figures of the book.
"""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from offering import judged, offer_of, stated_values

from firstfurrow.advice.offers.asked import COMFORT, asked
from firstfurrow.advice.offers.checked import CheckedOffer, check
from firstfurrow.advice.offers.items import ItemVerdict
from firstfurrow.advice.offers.verdicts import Judge, Verdict
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.quantities import convert
from firstfurrow.report.json_offers import offers_data
from firstfurrow.report.offers import offers_document
from firstfurrow.report.text import render
from making import Maker

pytestmark = pytest.mark.practice

SLOPE: dict[str, Any] = {"land_shape": ("slopes",), "slope_up": "8 %", "side_slope": "5 %"}
BOX = {"kind": "box_blade", "size": "1.5 m"}
SPEAR = {"kind": "bale_spear"}
OWNED = {"kind": "rotary_tiller", "when": "owned", "size": "not sure"}
HYDRAULIC = {"kind": "box_blade_hydraulic", "size": "1.5 m"}
_RANK = {"short": 0, "unknown": 1, "not_needed": 2, "meets": 2}


def held(profile: Profile, said: dict[str, Any]) -> CheckedOffer:
    return check(profile, [offer_of(said)]).offers[0]


def without(said: dict[str, Any], *keys: str) -> dict[str, Any]:
    return {key: value for key, value in said.items() if key not in keys}


def ids(verdicts: tuple[Verdict, ...]) -> set[str]:
    return {verdict.requirement.id for verdict in verdicts}


def hows(item: ItemVerdict) -> dict[str, str]:
    return {verdict.requirement.id: verdict.how for verdict in item.ask}


def asks(one: CheckedOffer) -> list[tuple[str, str]]:
    return [(question.verdict.requirement.id, question.why) for question in one.questions]


def page_of(profile: Profile, *said: dict[str, Any]) -> str:
    return " ".join(render(offers_document(check(profile, [offer_of(one) for one in said])), 80).split())


# ------------------------------------------------------------------- the bar on a slope


@pytest.mark.parametrize(("bar", "runs"), [("none", "runs_if"), (None, "unknown"), ("bar_and_belt", "runs")])
def test_on_a_slope_every_implement_waits_for_the_roll_bar(maker: Maker, bar: str | None, runs: str) -> None:
    profile = maker.profile([BOX, SPEAR], **SLOPE)
    said = without(stated_values(profile), "roll_bar")
    one = held(profile, said if bar is None else {**said, "roll_bar": bar})
    assert [item.runs for item in one.items] == [runs, runs]
    for item in one.items:
        assert ("roll_bar" in ids(item.if_)) is (bar == "none")
        assert ("roll_bar" in ids(item.ask)) is (bar is None)


def test_a_slope_across_counts_though_none_goes_up_and_though_nobody_has_measured_it(maker: Maker) -> None:
    for across in ("6 %", "not sure"):
        profile = maker.profile([BOX], land_shape=("slopes",), slope_up="0 %", side_slope=across)
        assert held(profile, {**stated_values(profile), "roll_bar": "none"}).items[0].runs == "runs_if"


def test_on_level_land_the_bar_is_the_tractor_s_and_still_asked_for_first(maker: Maker) -> None:
    profile = maker.profile([BOX])
    said = {**stated_values(profile), "roll_bar": "none"}
    one = held(profile, said)
    assert [item.runs for item in one.items] == ["runs"]
    assert asks(one)[0] == ("roll_bar", "fit")
    assert "Short besides, whatever it works with: roll bar." in page_of(profile, said)


def test_under_branches_the_guard_belongs_to_its_implement_alone(maker: Maker, book: Book) -> None:
    guarded = next(kind.kind for kind in book.kinds.values() if kind.guard)
    profile = maker.profile([{"kind": guarded}, SPEAR], strict=False)
    one = held(profile, {**stated_values(profile), "roll_bar": "bar_and_belt"})
    assert ["roll_bar" in ids(item.if_) for item in one.items] == [True, False]


# ------------------------------------------------------------------- two driven wheels


@pytest.fixture(scope="module")
def on_slope(maker: Maker) -> Profile:
    return maker.profile([BOX, SPEAR], **SLOPE)


def test_two_driven_wheels_are_asked_about_where_the_weight_is_enough(on_slope: Profile) -> None:
    said = {**stated_values(on_slope), "driven_wheels": "two", "mass": 6000.0}
    one = held(on_slope, said)
    assert [item.runs for item in one.items] == ["unknown", "unknown"]
    assert [hows(item) for item in one.items] == [{"driven_wheels": "two_enough"}] * 2
    assert one.judged.verdicts["driven_wheels"].status == "short"  # what is advised is not met


def test_two_driven_wheels_refuse_what_they_are_too_light_for(on_slope: Profile) -> None:
    box, spear = held(on_slope, {**stated_values(on_slope), "driven_wheels": "two"}).items
    assert (box.runs, ids(box.never)) == ("does_not", {"mass", "driven_wheels"})
    assert (spear.runs, hows(spear)) == ("unknown", {"driven_wheels": "two_enough"})


def test_two_driven_wheels_refuse_every_work_where_the_tractor_alone_does_not_stop(maker: Maker) -> None:
    profile = maker.profile([SPEAR], **{**SLOPE, "slope_up": "15 %"}, surface="gravel")
    said = {**stated_values(profile), "driven_wheels": "two", "mass": 9000.0}
    one = held(profile, said)
    assert not one.judged.goes_on_two
    assert (one.items[0].runs, ids(one.items[0].never)) == ("does_not", {"driven_wheels"})


def test_a_loader_refuses_two_driven_wheels_on_any_ground(maker: Maker) -> None:
    for land in ({}, SLOPE):
        profile = maker.profile([{"kind": "loader_bucket"}], strict=False, **land)
        one = held(profile, {**stated_values(profile), "driven_wheels": "two", "mass": 9000.0})
        assert one.judged.goes_on_two
        assert (one.items[0].runs, "driven_wheels" in ids(one.items[0].never)) == ("does_not", True)


def test_rear_wheels_alone_stop_it_exactly_where_the_moments_say(maker: Maker) -> None:
    """Moment about the ground under the front wheels, coming down at 1 m/s2; by hand from the figures of the book."""
    profile = maker.profile([SPEAR], **{**SLOPE, "slope_up": "9 %"}, surface="dry_grass")
    judge = Judge(asked(profile))
    surface, row = profile.book.tables["surfaces"].rows["dry_grass"], profile.stand_in
    angle = math.atan(0.09)
    forward = math.sin(angle) + 1 / 9.80665
    wanted = forward - surface["rolling"].low * math.cos(angle)
    share = (wanted / surface["grip"].planning + forward * row["centre_height"].planning / 2.0) / math.cos(angle)
    for more, goes in ((-0.002, False), (0.002, True)):
        rear = 2000 * (share + more)
        offer = offer_of({"front_axle_mass": 2000 - rear, "rear_axle_mass": rear, "wheelbase": 2.0})
        assert judge.exact.goes_on_two(offer) is goes, more


def test_what_hangs_in_front_takes_weight_off_the_wheels_that_brake(maker: Maker) -> None:
    profile = maker.profile([SPEAR], **{**SLOPE, "slope_up": "9 %"}, surface="dry_grass")
    goes = Judge(asked(profile)).exact.goes_on_two
    bare = {"front_axle_mass": 700.0, "rear_axle_mass": 1300.0, "wheelbase": 2.0}
    assert goes(offer_of(bare))
    assert not goes(offer_of({**bare, "front_ballast": 300.0}))
    loader = {"loader_mass": 450.0, "loader_ahead": 0.8}
    assert goes(offer_of({**bare, **loader}))  # nobody says that it stays on
    assert not goes(offer_of({**bare, **loader, "loader_on": "stays_on"}))


def test_the_page_says_with_what_care_two_driven_wheels_are_tried(on_slope: Profile) -> None:
    said = {**stated_values(on_slope), "driven_wheels": "two", "mass": 6000.0}
    page = page_of(on_slope, said)
    first = page.split("Does it run your implements")[0]
    assert "driven wheels (two, where four are advised)" in first
    for words in ("The front wheels neither pull nor brake", "Have both axles weighed", "Try it with nothing on",
                  "with the bar up and the belt on", "the same low gear up and down"):  # fmt: skip
        assert words in page
    question = next(q for q in held(on_slope, said).questions if q.verdict.how == "two_enough")
    assert question.keys == ("front_axle_mass", "rear_axle_mass", "wheelbase")
    assert "Have both axles weighed" not in page_of(on_slope, {**said, "driven_wheels": "four"})


# ----------------------------------------------------------- a tool that nobody has measured


def test_a_guess_about_the_size_of_an_owned_tool_refuses_nothing(maker: Maker) -> None:
    profile = maker.profile([OWNED])
    said = stated_values(profile)
    usual = held(profile, said).items[0]
    less = held(profile, {**said, "pto_power": said["pto_power"] - 4}).items[0]
    assert (usual.runs, usual.size_open) == ("runs", False)
    assert (less.runs, less.size_open, ids(less.never)) == ("unknown", True, {"pto_power"})
    bought = maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}])
    assert stated_values(bought)["pto_power"] == said["pto_power"]
    assert held(bought, {**said, "pto_power": said["pto_power"] - 4}).items[0].runs == "does_not"


def test_what_is_too_little_for_every_size_sold_is_no_guess(maker: Maker, book: Book) -> None:
    """The turn lies where the smallest size sold, bought and known, turns as well."""
    profile = maker.profile([OWNED])
    said = stated_values(profile)
    sizes = [maker.profile([{**OWNED, "size": size.id}]) for size in book.kinds["rotary_tiller"].sizes]
    least = min(p.outcomes["pto_power"].widest.stated for p in sizes)  # type: ignore[union-attr]
    enough, lacking = (held(profile, {**said, "pto_power": least + more}).items[0] for more in (0, -0.5))
    assert (enough.runs, enough.size_open, enough.any_size) == ("unknown", True, False)
    assert (lacking.runs, lacking.size_open, lacking.any_size) == ("does_not", False, True)
    assert {held(p, {**said, "pto_power": least - 0.5}).items[0].runs for p in sizes} == {"does_not"}


def test_what_no_size_changes_is_refused_though_the_size_is_open(maker: Maker) -> None:
    """A tape does not give a tractor front brakes."""
    profile = maker.profile([OWNED], **{**SLOPE, "slope_up": "15 %"}, surface="gravel")
    item = held(profile, {**stated_values(profile), "driven_wheels": "two", "mass": 9000.0}).items[0]
    assert (item.runs, item.any_size) == ("does_not", True)


def test_a_weight_that_was_said_counts_though_the_size_is_open(maker: Maker) -> None:
    profile = maker.profile([{**OWNED, "mass": "900 kg"}])
    said = {**without(stated_values(profile), "lift_at_load", "lift_ball_ends"), "lift_610": 600.0}
    assert held(profile, said).items[0].any_size
    unweighed = maker.profile([OWNED])
    less = {**without(stated_values(unweighed), "lift_at_load", "lift_ball_ends"), "lift_610": 400.0}
    assert held(unweighed, less).items[0].size_open


def test_the_page_sends_the_buyer_home_with_a_tape_and_keeps_the_bar_in_sight(maker: Maker) -> None:
    profile = maker.profile([OWNED], **SLOPE)
    said = stated_values(profile)
    page = page_of(profile, {**said, "pto_power": said["pto_power"] - 4, "roll_bar": "none"})
    assert "Not known before you measure your own: rotary tiller. In the usual size it lacks: shaft power." in page
    assert "To be put right as well: roll bar." in page
    assert "Only this asks for it, in a usual size, and nobody has measured yours: rotary tiller." in page
    runs = page_of(profile, said)
    assert "Runs in the usual size, and nobody has measured yours: rotary tiller." in runs
    assert "You have not measured: " in runs


# ----------------------------------------------------------- within the range of a usual figure


def test_two_requirements_are_usual_figures_of_a_range(book: Book) -> None:
    assert {id_ for id_, r in book.requirements.items() if r.in_band} == {"oil_pressure", "slow_speed"}


def test_pressure_inside_the_range_is_asked_about_and_below_it_is_short(maker: Maker) -> None:
    profile = maker.profile([HYDRAULIC])
    said = stated_values(profile)
    need = said["oil_pressure"]

    def status(pressure: float) -> tuple[str, str, float | None]:
        found = judged(profile, offer_of({**said, "oil_pressure": pressure})).verdicts["oil_pressure"]
        return found.status, found.how, found.gap

    assert status(need) == ("meets", "", None)
    assert status(need - 5) == ("unknown", "band", None)
    assert status(140) == ("unknown", "band", None)  # the low end of the book for such a box
    assert status(139) == ("short", "", need - 139)


def test_speed_up_to_the_usual_one_is_asked_about_and_above_it_is_short(maker: Maker, book: Book) -> None:
    profile = maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}])
    said = stated_values(profile)
    usual = book.kinds["rotary_tiller"].speed
    assert usual is not None
    assert said["slowest_speed"] == usual.low

    def status(speed: float) -> tuple[str, str]:
        found = judged(profile, offer_of({**said, "slowest_speed": speed})).verdicts["slow_speed"]
        return found.status, found.how

    assert status(usual.low) == ("meets", "")
    assert status(usual.low + 0.1) == ("unknown", "band")
    assert status(usual.planning) == ("unknown", "band")
    assert status(usual.planning + 0.1) == ("short", "")


def test_one_of_two_implements_within_its_range_does_not_answer_for_the_other(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}, {"kind": "transplanter"}])
    one = held(profile, {**stated_values(profile), "slowest_speed": 2.0})
    assert [item.runs for item in one.items] == ["unknown", "does_not"]
    assert one.judged.verdicts["slow_speed"].status == "short"
    # What only the tiller waits for is still asked, with what the tiller asks for.
    question = next(q for q in one.questions if q.verdict.requirement.id == "slow_speed")
    assert (question.why, question.verdict.how, question.verdict.need) == ("unknown", "band", 1.0)


def test_the_page_says_what_the_range_means_and_what_not_to_do(maker: Maker) -> None:
    profile = maker.profile([HYDRAULIC])
    page = page_of(profile, {**stated_values(profile), "oil_pressure": 160.0})
    assert "Oil pressure: asked for at least 170 bar, and it has 160 bar. That lies within the range" in page
    assert "Never raise the pressure by turning the relief valve." in page


# ----------------------------------------------------------------------- limited category


def test_limited_category_1_has_the_pins_of_category_1_and_is_tried_and_not_refused(maker: Maker) -> None:
    profile = maker.profile([SPEAR])
    assert "limited 1" not in profile.outcomes["hitch_category"].widest.stated  # type: ignore[union-attr]
    said = stated_values(profile)
    for has, wanted in ((("limited 1",), ("unknown", "limited")), (("1",), ("meets", "")), (("0",), ("short", ""))):
        found = judged(profile, offer_of({**said, "hitch_category": has})).verdicts["hitch_category"]
        assert (found.status, found.how) == wanted
    page = page_of(profile, {**said, "hitch_category": ("limited 1",)})
    assert "The pins are the same, and the arms reach less far. Hang your own tool on before you sign." in page
    assert "Nobody stands between tractor and tool while either can move." in page


def test_limited_category_1_is_no_category_2(maker: Maker) -> None:
    profile = maker.profile([{"kind": "box_blade_hydraulic", "size": "2.4 m"}])
    assert "1" not in profile.outcomes["hitch_category"].widest.stated  # type: ignore[union-attr]
    found = judged(profile, offer_of({"hitch_category": ("limited 1",)})).verdicts["hitch_category"]
    assert (found.status, found.how) == ("short", "")


# ------------------------------------------------------------------------------- lift


def test_ball_ends_enough_for_the_worst_linkage_leave_nothing_to_ask_about_lift(maker: Maker) -> None:
    profile = maker.profile([SPEAR])
    said = without(stated_values(profile), "lift_610", "lift_at_load")
    enough = held(profile, said)
    assert {enough.judged.verdicts[id_].status for id_ in ("lift_at_load", "lift_ball_ends")} == {"meets"}
    assert enough.judged.verdicts["lift_610"].status == "not_needed"
    assert not {id_ for id_, _ in asks(enough) if id_.startswith("lift")} - {"lift_ball_ends"}
    less = held(profile, {**said, "lift_ball_ends": said["lift_ball_ends"] - 1})
    assert less.judged.verdicts["lift_610"].status == "unknown"
    assert ("lift_610", "unknown") in asks(less)


def test_ball_ends_that_are_only_just_enough_are_no_question_where_the_figure_further_back_is_known(
    maker: Maker,
) -> None:
    profile = maker.profile([SPEAR])
    said = without(stated_values(profile), "lift_at_load")
    assert ("lift_ball_ends", "close") in asks(held(profile, without(said, "lift_610")))
    assert ("lift_ball_ends", "close") not in asks(held(profile, {**said, "lift_610": said["lift_610"] * 2}))


# ------------------------------------------------------------------------ front weights


def test_front_weights_are_compared_before_they_are_rounded(maker: Maker) -> None:
    judge = Judge(asked(maker.profile([SPEAR])))
    base = {"rear_axle_mass": 1500.0, "wheelbase": 1.9, "hitch_overhang": 0.85, "front_axle_mass": 950.0}
    need = judge.judge(offer_of(base)).verdicts["front_ballast"].need
    step = judge.book.requirements["front_ballast"].round_to
    assert step == 10
    assert need % step > 1  # a rounded figure would ask for more than the balance does
    for weight, status in ((need, "meets"), (need - 1.5, "short"), (math.ceil(need / step) * step - step, "short")):
        found = judge.judge(offer_of({**base, "front_ballast": weight})).verdicts["front_ballast"]
        assert found.status == status, weight


# --------------------------------------------------------------------- before you sign


def test_where_nothing_runs_nothing_is_asked_and_the_page_says_why(maker: Maker) -> None:
    profile = maker.profile([SPEAR])
    said = {**stated_values(profile), "lift_610": 100.0, "lift_at_load": 100.0}
    assert held(profile, without(said, "rear_axle_limit", "roll_bar")).questions == ()
    assert "Nothing on your list runs behind this tractor" in page_of(profile, said)


def test_what_can_be_fitted_comes_first_then_what_is_unknown_then_what_is_close(maker: Maker) -> None:
    profile = maker.profile([HYDRAULIC, SPEAR], **SLOPE)
    said = {**without(stated_values(profile), "rear_axle_limit"), "rear_sets": 0, "roll_bar": "none"}
    found = asks(held(profile, said))
    assert found[:2] == [("roll_bar", "fit"), ("rear_sets", "fit")]
    whys = [why for _, why in found]
    assert whys == sorted(whys, key=["fit", "unknown", "close"].index)
    assert set(whys) == {"fit", "unknown", "close"}


def test_a_bar_that_nobody_knows_of_is_asked_about_before_all_else_that_is_unknown(maker: Maker) -> None:
    profile = maker.profile([BOX, SPEAR], **SLOPE)
    assert asks(held(profile, {}))[0] == ("roll_bar", "unknown")


def test_unknown_is_asked_by_what_decides_and_then_by_how_many_wait_for_it(maker: Maker) -> None:
    profile = maker.profile([BOX, SPEAR, {"kind": "utility_trailer", "load": "500 kg"}], strict=False)
    one = held(profile, {"roll_bar": "bar_and_belt"})
    order = [id_ for id_, why in asks(one) if why == "unknown"]
    decides = [id_ for id_ in order if id_ in profile.deciding]
    assert len(decides) > 2
    assert order[: len(decides)] == decides == [id_ for id_ in profile.deciding if id_ in order]
    of_items = {id_ for item in one.items for id_ in item.hookup.needs}
    rest = [
        sum(id_ in ids(item.ask) for item in one.items) if id_ in of_items else len(one.items)
        for id_ in order[len(decides) :]
    ]
    assert rest == sorted(rest, reverse=True)
    assert len(set(rest)) > 1


def test_nobody_is_asked_for_a_pull_where_the_weight_is_judged(maker: Maker) -> None:
    profile = maker.profile([BOX])
    assert "drawbar_pull" in profile.outcomes
    one = held(profile, {})
    assert "drawbar_pull" in ids(one.items[0].ask)
    assert "drawbar_pull" not in {id_ for id_, _ in asks(one)}
    assert "pull at the drawbar" not in page_of(profile, {})


def test_what_only_something_that_cannot_run_asks_for_is_no_question(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}, SPEAR])
    said = without(stated_values(profile), "pto_engagement", "slowest_speed")
    assert {"pto_engagement", "slow_speed"} <= {id_ for id_, _ in asks(held(profile, said))}
    weak = held(profile, {**said, "pto_power": 1.0})
    assert [item.runs for item in weak.items] == ["does_not", "runs"]
    assert not {"pto_engagement", "slow_speed", "pto_power"} & {id_ for id_, _ in asks(weak)}


def test_a_question_names_what_those_ask_for_that_still_may_run(maker: Maker) -> None:
    profile = maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}, {"kind": "rotary_tiller", "size": "2.1 m"}])
    small = maker.profile([{"kind": "rotary_tiller", "size": "1.5 m"}])
    alone = small.outcomes["rear_axle_load"].widest
    assert alone is not None
    said = without(stated_values(profile), "rear_axle_limit", "lift_at_load", "lift_ball_ends", "lift_610")
    one = held(profile, {**said, "pto_power": stated_values(small)["pto_power"]})
    assert [item.runs for item in one.items] == ["unknown", "does_not"]
    needs = {q.verdict.requirement.id: q.verdict.need for q in one.questions}
    wanted = one.items[0].hookup.needs
    for id_ in ("rear_axle_load", "lift_610"):
        assert needs[id_] == wanted[id_].value < one.judged.verdicts[id_].need


def test_the_page_asks_five_in_full_and_names_the_rest(maker: Maker) -> None:
    profile = maker.profile([BOX, SPEAR])
    one = held(profile, {})
    assert len(one.questions) > 5
    signing = page_of(profile, {}).split("Before you sign")[1]
    asked_for, rest = signing.split("Ask about these too: ")
    for number, question in enumerate(one.questions):
        requirement = question.verdict.requirement
        assert (f"{requirement.title}: asked for" in asked_for) is (number < 5)
        if number >= 5:
            brief = profile.book.messages[f"reason.brief.{requirement.id}"]
            assert brief in rest.split(". ")[0]


# ---------------------------------------------------------------------------- best first


def test_the_worth_of_an_offer_is_what_runs_and_what_may(maker: Maker) -> None:
    profile = maker.profile([SPEAR], **SLOPE)
    said = {**stated_values(profile), "side_slope": 5.0}
    offers = {
        "does not": ({**said, "lift_610": 100.0, "lift_at_load": 100.0}, 0.0),
        "both": ({**without(said, "rear_axle_limit"), "roll_bar": "none"}, 0.375),
        "unknown": (without(said, "rear_axle_limit"), 0.5),
        "put right": ({**said, "roll_bar": "none"}, 0.75),
        "runs": (said, 1.0),
    }
    found = check(profile, [offer_of(one) for one, _ in offers.values()])
    assert [one.standing.worth for one in found.offers] == [worth for _, worth in offers.values()]
    assert list(found.best_first) == list(reversed(found.offers))


def test_a_wish_counts_half_of_a_must(maker: Maker) -> None:
    profile = maker.profile([SPEAR, {"kind": "rotary_tiller", "size": "1.5 m", "rank": "nice"}])
    said = stated_values(profile)
    must, wish = {**said, "pto_power": 1.0}, {**said, "lift_610": 400.0, "lift_at_load": 400.0}
    found = check(profile, [offer_of(wish), offer_of(must), offer_of(said)])
    assert [[item.runs for item in one.items] for one in found.offers] == [
        ["does_not", "does_not"], ["runs", "does_not"], ["runs", "runs"],
    ]  # fmt: skip
    assert [one.standing.worth for one in found.offers] == [0.0, 1.0, 1.5]


# ------------------------------------------------------------------ what holds for all of it

LANDS = {"level": {}, "slope": SLOPE}
ALL = [BOX, SPEAR, HYDRAULIC, OWNED, {"kind": "utility_trailer", "load": "500 kg"}]


@pytest.fixture(scope="module", params=list(LANDS))
def everything(request: pytest.FixtureRequest, maker: Maker) -> Profile:
    return maker.profile(ALL, strict=False, **LANDS[request.param])


def test_what_is_stated_runs_everything(everything: Profile) -> None:
    one = held(everything, stated_values(everything))
    assert {item.runs for item in one.items} == {"runs"}
    assert {v.status for v in one.judged.verdicts.values() if v.need is not None} == {"meets"}


def test_an_implement_runs_only_where_nothing_is_short_or_unknown(everything: Profile) -> None:
    draw = random.Random(7)
    stated = stated_values(everything)
    judge = Judge(asked(everything))
    seen = set()
    for _ in range(150):
        said = {
            key: value * draw.choice((0.5, 0.9, 1.0, 1.3)) if isinstance(value, float) else value
            for key, value in stated.items()
            if draw.random() < 0.97
        }
        said["driven_wheels"] = draw.choice(("two", "four", "four"))
        said["roll_bar"] = draw.choice(("none", "bar_and_belt", "bar_and_belt"))
        one = CheckedOffer(judge, offer_of(said))
        for item in one.items:
            own = {v.status for id_, v in one.judged.by_hookup[item.hookup.id].items() if id_ != COMFORT}
            seen.add(item.runs)
            if item.runs == "runs":
                assert own <= {"meets", "not_needed"}
                assert (item.never, item.if_, item.ask) == ((), (), ())
            assert item.runs != "unknown" or item.ask or item.size_open
            assert item.runs != "does_not" or item.never
    assert seen == {"runs", "runs_if", "unknown", "does_not"}


def test_more_of_one_thing_never_makes_its_requirement_worse_though_it_lies_within_a_range(everything: Profile) -> None:
    judge = Judge(asked(everything))
    stated = stated_values(everything)
    seen: dict[str, set[str]] = {}
    for id_, outcome in everything.outcomes.items():
        requirement = outcome.requirement
        key = requirement.offer_keys[0]
        if outcome.widest is None or requirement.sense not in ("at_least", "at_most") or not stated.get(key):
            continue
        before = -1
        for share in (0.3, 0.6, 0.75, 0.85, 0.9, 0.95, 0.99, 1.0, 1.1, 1.5, 2.2):
            value = stated[key] * (share if requirement.sense == "at_least" else 1 / share)
            verdict = judge.judge(offer_of({**stated, key: value})).verdicts[id_]
            assert _RANK[verdict.status] >= before, (id_, share)
            before = _RANK[verdict.status]
            seen.setdefault(id_, set()).add(verdict.how)
    assert len(seen) > 12
    assert "band" in seen["oil_pressure"]
    assert "band" in seen["slow_speed"]


def test_a_wider_hitch_never_makes_it_worse(maker: Maker) -> None:
    profile = maker.profile([SPEAR])
    ranks = [_RANK[judged(profile, offer_of({"hitch_category": has})).verdicts["hitch_category"].status]
             for has in (("0",), ("limited 1",), ("limited 1", "1"))]  # fmt: skip
    assert ranks == [0, 1, 2]


def test_the_data_says_what_is_open_because_of_a_size(maker: Maker) -> None:
    profile = maker.profile([OWNED, SPEAR])
    said = stated_values(profile)
    data = offers_data(check(profile, [offer_of({**said, "pto_power": p}) for p in (20.0, 5.0)]))
    tillers = [offer["implements"][0] for offer in data["offers"]]
    assert [(i["runs"], i["size_open"], i["any_size"]) for i in tillers] == [
        ("unknown", True, False), ("does_not", False, True),
    ]  # fmt: skip


def test_a_question_in_pounds_keeps_the_working_unit_beside(maker: Maker) -> None:
    profile = maker.profile([SPEAR], units="us")
    page = page_of(profile, without(stated_values(profile), "rear_axle_limit"))
    need = profile.outcomes["rear_axle_load"].widest
    assert need is not None
    pounds = math.ceil(convert(need.stated, "kg", "lb") / 100) * 100
    assert f"asked for at least {pounds} lb ({need.stated:.0f} kg)" in page
