"""Axle loads: what is found is put back, loads on both axles add up, and nothing comes out with the wrong sign."""

from __future__ import annotations

import math

import pytest

from firstfurrow.mechanics.axles import axle_share, lever_on_front, rear_axle_relieved, rear_share
from firstfurrow.mechanics.balance import (
    counterweight,
    counterweight_downhill,
    front_axle_load,
    front_axle_loaded,
    mass_for_balance,
    mass_for_balance_uphill,
    most_behind,
    most_on_tongue,
    rear_axle_load,
    weight_transfer,
)
from firstfurrow.reasoning import EITHER, FORMULAS, NoSolutionError

LOADER = {"rear_axle": 800, "total": 1700, "payload": 450, "ahead": 1.5, "wheelbase": 1.65, "behind": 1.1}
DOWN = {
    "mass": 1500, "front_share": 40, "payload": 600, "ahead": 1.5, "payload_height": 0.6, "wheelbase": 1.65,
    "centre_height": 0.75, "behind": 1.1, "counter_height": 0.6, "kept": 0.2,
}  # fmt: skip
UP = {
    "rear": 350, "overhang": 0.6, "reach": 1, "raised": 0.9, "front": 80, "ahead": 0.7, "front_share": 42,
    "wheelbase": 1.7, "centre_height": 0.75, "kept": 0.2,
}  # fmt: skip


def test_what_hangs_behind_loads_the_rear_axle_by_more_than_it_weighs() -> None:
    front = front_axle_load(front=0, ahead=0, wheelbase=1.7, front_axle=600, rear=350, overhang=0.6, reach=1)
    rear = rear_axle_load(rear_axle=900, rear=350, overhang=0.6, reach=1, wheelbase=1.7)
    assert front + rear == pytest.approx(600 + 900 + 350)
    assert rear - 900 > 350
    assert rear_axle_load(900, 350, 0, 0, 1.7) == 900 + 350  # over the axle: just its weight


@pytest.mark.parametrize("kept", [0.1, 0.2, 0.3])
def test_the_most_that_may_hang_behind_leaves_just_the_share_in_front(kept: float) -> None:
    most = most_behind(front_axle=600, kept=kept, empty=1500, wheelbase=1.7, overhang=0.6, reach=1)
    left = front_axle_load(front=0, ahead=0, wheelbase=1.7, front_axle=600, rear=most, overhang=0.6, reach=1)
    assert left == pytest.approx(kept * 1500)
    assert mass_for_balance(most, 0.6, 1, 0, 0.9, 40, 1.7, kept) == pytest.approx(1500)
    assert most_behind(600, kept, 1500, 1.7, 0.6, 0) == pytest.approx(most_on_tongue(600, kept, 1500, 1.7, 0.6))


def test_a_weight_in_front_put_back_leaves_just_the_share_there() -> None:
    found = mass_for_balance(
        rear=350, overhang=0.6, reach=1, front=80, ahead=0.7, front_share=42, wheelbase=1.7, kept=0.2
    )
    left = front_axle_load(80, 0.7, 1.7, axle_share(found, 42), rear=350, overhang=0.6, reach=1)
    assert left == pytest.approx(0.2 * found)


@pytest.mark.parametrize("angle", [0, 5, 10, 15])
def test_facing_up_the_mass_found_leaves_just_the_share_in_front(angle: float) -> None:
    """Each mass has its weight into the ground ahead of, and along the slope above, the feet of the rear wheels."""
    found = mass_for_balance_uphill(**UP, angle=angle)
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    base = UP["wheelbase"]
    masses = (  # mass, ahead of the rear axle, height
        (found, base * UP["front_share"] / 100, UP["centre_height"]),
        (UP["rear"], -UP["overhang"] - UP["reach"], UP["raised"]),
        (UP["front"], base + UP["ahead"], UP["raised"]),
    )
    front = sum(m * (x * cosine - y * sine) for m, x, y in masses) / base
    assert front == pytest.approx(UP["kept"] * found * cosine)


def test_enough_in_front_of_what_hangs_behind_asks_for_no_tractor_not_for_less_than_none() -> None:
    held = {**UP, "rear": 100, "front": 300}
    assert mass_for_balance_uphill(**held, angle=0) == 0
    level = {n: v for n, v in held.items() if n not in ("raised", "centre_height")}
    assert mass_for_balance(**level) == 0


@pytest.mark.parametrize("front_share", [15, 20])
def test_a_tractor_with_no_more_in_front_than_must_stay_there_may_carry_nothing(front_share: float) -> None:
    level = {n: v for n, v in UP.items() if n not in ("raised", "centre_height")}
    with pytest.raises(NoSolutionError, match="cannot carry anything"):
        mass_for_balance(**{**level, "front_share": front_share})
    with pytest.raises(NoSolutionError, match="too light"):
        mass_for_balance_uphill(**{**UP, "front_share": front_share}, angle=0)


@pytest.mark.parametrize("front_share", [30, 42, 50])
def test_the_shares_of_both_axles_are_the_whole(front_share: float) -> None:
    assert 1500 * rear_share(front_share) + axle_share(1500, front_share) == pytest.approx(1500)


def test_a_tractor_that_is_too_light_in_front_may_carry_nothing_not_less_than_nothing() -> None:
    assert most_behind(front_axle=250, kept=0.2, empty=1500, wheelbase=1.7, overhang=0.6, reach=1) == 0
    assert most_on_tongue(front_axle=250, kept=0.2, empty=1500, wheelbase=1.7, overhang=0.6) == 0


@pytest.mark.parametrize("share", [0.2, 0.25, 0.3])
def test_the_counterweight_put_back_leaves_just_the_share_behind(share: float) -> None:
    found = counterweight(**LOADER, share=share)
    front = front_axle_loaded(front_axle=900, payload=450, ahead=1.5, wheelbase=1.65, counterweight=found, behind=1.1)
    everything = 1700 + 450 + found
    assert everything - front == pytest.approx(share * everything)


def test_a_counterweight_further_back_may_be_lighter_and_none_is_a_negative_one() -> None:
    weights = [counterweight(**{**LOADER, "behind": behind}, share=0.25) for behind in (0.6, 1.1, 1.6)]
    assert weights == sorted(weights, reverse=True)
    assert counterweight(**{**LOADER, "payload": 100}, share=0.2) < 0


@pytest.mark.parametrize("angle", [0, 5, 10, 15])
def test_facing_down_the_counterweight_put_back_leaves_just_the_share_behind(angle: float) -> None:
    """Each mass has its weight into the ground behind, and along the slope above, the feet of the front wheels."""
    found = counterweight_downhill(**DOWN, angle=angle)
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    base = DOWN["wheelbase"]
    masses = (  # mass, behind the front axle, height
        (DOWN["mass"], base * (1 - DOWN["front_share"] / 100), DOWN["centre_height"]),
        (DOWN["payload"], -DOWN["ahead"], DOWN["payload_height"]),
        (found, base + DOWN["behind"], DOWN["counter_height"]),
    )
    rear = sum(m * (x * cosine - y * sine) for m, x, y in masses) / base
    assert rear == pytest.approx(DOWN["kept"] * DOWN["mass"] * cosine)


def test_steeper_and_higher_loads_ask_for_more_behind() -> None:
    by_angle = [counterweight_downhill(**DOWN, angle=angle) for angle in (0, 5, 10, 15)]
    by_height = [counterweight_downhill(**{**DOWN, "payload_height": high}, angle=8) for high in (0.3, 1, 2)]
    assert by_angle == sorted(by_angle)
    assert by_height == sorted(by_height)


def test_a_counterweight_that_leans_over_the_front_wheels_itself_cannot_help() -> None:
    with pytest.raises(NoSolutionError, match="cannot help"):
        counterweight_downhill(**{**DOWN, "counter_height": 3}, angle=45)
    on_the_point = {**DOWN, "wheelbase": 0, "behind": 0}
    with pytest.raises(NoSolutionError, match="cannot help"):
        counterweight_downhill(**on_the_point, angle=0)


def test_a_counterweight_that_leans_far_over_still_helps_a_little() -> None:
    """2.75 m behind the front axle and 2 m high: on 45 degrees it still stands 0.53 m behind their feet."""
    assert counterweight_downhill(**{**DOWN, "counter_height": 2}, angle=45) > 0


def test_where_nothing_is_needed_behind_a_steeper_slope_or_a_longer_tractor_may_go_the_other_way() -> None:
    """1000 kg, 70 % behind, loader empty: held by itself, so that each result is negative.

    By hand, in tangents: wheelbase 2 m holds 0.65 * 1000 * 2 = 1300 kg m, a slope of 1 in 2 takes 250 of them. Level
    -1300 / 2.5 = -520, on the slope -1050 / (2.5 - 0.5) = -525. With the counterweight 3 m high -1050 / (2.5 - 1.5),
    and with a wheelbase of 3 m -1700 / (3.5 - 1.5).
    """
    held = {
        "mass": 1000, "front_share": 30, "payload": 0, "ahead": 1, "payload_height": 1, "wheelbase": 2,
        "centre_height": 0.5, "behind": 0.5, "kept": 0.05,
    }  # fmt: skip
    slope = math.degrees(math.atan(0.5))
    by_angle = [counterweight_downhill(**held, counter_height=1, angle=angle) for angle in (0, slope)]
    by_base = [counterweight_downhill(**{**held, "wheelbase": m}, counter_height=3, angle=slope) for m in (2, 3)]
    assert by_angle == pytest.approx([-520, -525])
    assert by_base == pytest.approx([-1050, -850])
    directions = FORMULAS[counterweight_downhill].directions
    assert (directions["angle"], directions["wheelbase"]) == (EITHER, EITHER)


@pytest.mark.parametrize("times", [0.5, 2, 3])
def test_balance_is_proportional_to_all_masses_together(times: float) -> None:
    heavy = {n: v * times if n in ("rear_axle", "total", "payload") else v for n, v in LOADER.items()}
    assert counterweight(**heavy, share=0.25) == pytest.approx(times * counterweight(**LOADER, share=0.25))
    down = {n: v * times if n in ("mass", "payload") else v for n, v in DOWN.items()}
    one = counterweight_downhill(**DOWN, angle=8)
    assert counterweight_downhill(**down, angle=8) == pytest.approx(times * one)
    assert most_behind(600 * times, 0.2, 1500 * times, 1.7, 0.6, 1) == pytest.approx(318.75 * times)


def test_a_loader_takes_off_the_rear_axle_what_it_adds_in_front_beyond_its_own_weight() -> None:
    gained = lever_on_front(mass=300, ahead=0.75, wheelbase=1.5)
    lost = 900 - rear_axle_relieved(axle=900, mass=300, ahead=0.75, wheelbase=1.5)
    assert gained - lost == pytest.approx(300)


def test_a_pull_at_ground_level_moves_no_weight() -> None:
    assert weight_transfer(pull=10, hitch_height=0, wheelbase=1.7) == 0
    assert weight_transfer(10, 0.8, 1.7) == pytest.approx(2 * weight_transfer(10, 0.4, 1.7))
