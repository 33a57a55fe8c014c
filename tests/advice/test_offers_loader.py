"""The balance of a real tractor with the loader that stays on: one equation, and the page says which state it was."""

from __future__ import annotations

from typing import Any

import pytest
from offering import judged, offer_of, read_one

from firstfurrow.advice.offers.asked import asked
from firstfurrow.advice.offers.checked import check
from firstfurrow.advice.offers.verdicts import Judge
from firstfurrow.advice.profile import Profile
from firstfurrow.mechanics.balance import front_axle_load
from firstfurrow.reasoning import ends
from firstfurrow.report.offers import offers_document
from firstfurrow.report.text import render
from making import Maker

BARE = {"front_axle_mass": 800.0, "rear_axle_mass": 1300.0, "wheelbase": 1.9, "hitch_overhang": 0.85}
LOADER = {"loader_mass": 450.0, "loader_on": "stays_on", "loader_ahead": 0.8}
SPEAR = [{"kind": "bale_spear"}]


@pytest.fixture(scope="module")
def profile(maker: Maker) -> Profile:
    return maker.profile(SPEAR)


def test_the_loader_counts_in_the_moments_beside_the_front_weights(profile: Profile) -> None:
    """Level ground: the front axle keeps a fifth of the bare weight exactly where the verdict turns."""
    ready = asked(profile)
    judge = Judge(ready)
    weights, loader, ahead = 60.0, 150.0, 0.7

    def meets(front: float) -> bool:
        said = {**BARE, "front_axle_mass": front, "front_ballast": weights, "loader_mass": loader,
                "loader_on": "stays_on", "loader_ahead": ahead}  # fmt: skip
        return judge.judge(offer_of(said)).verdicts["mass_balance"].status == "meets"

    low, high = 200.0, 6000.0
    assert not meets(low)
    assert meets(high)
    while high - low > 0.5:
        middle = (low + high) / 2
        low, high = (low, middle) if meets(middle) else (middle, high)
    hung = ready.hookups[0].needs["lift_610"].demands[0].top.inputs
    assert hung is not None
    rear, reach = ends(hung["load"]).high, ends(hung["distance"]).high
    assert rear is not None
    assert reach is not None
    # Where the front weights of this size class hang is not said by the offer: the figure of the book.
    usual = {row["front_weights_ahead"].planning for row in profile.book.tables["size_classes"].rows.values()}
    left = []
    for weights_ahead in usual:
        axle = front_axle_load(front=weights, ahead=weights_ahead, wheelbase=1.9, front_axle=high, rear=rear,
                               overhang=0.85, reach=reach)  # fmt: skip
        left.append(axle + loader * (ahead + 1.9) / 1.9)
    assert any(one == pytest.approx(0.2 * (high + 1300), abs=3) for one in left)


def test_a_loader_that_stays_on_takes_the_place_of_front_weights(profile: Profile) -> None:
    without = judged(profile, offer_of(BARE)).verdicts
    with_loader = judged(profile, offer_of({**BARE, **LOADER})).verdicts
    assert (without["front_ballast"].status, with_loader["front_ballast"].status) == ("short", "not_needed")
    assert without["mass_balance"].status == "short"
    assert with_loader["mass_balance"].status == "not_needed"  # what hangs in front outweighs the bale by itself


@pytest.mark.parametrize(
    "said",
    [{}, {"loader_mass": 450.0}, {"loader_on": "stays_on"}, {"loader_mass": 450.0, "loader_on": "comes_off"},
     {"loader_ahead": 0.9}],
)  # fmt: skip
def test_nothing_changes_unless_the_loader_is_known_and_stays_on(profile: Profile, said: dict[str, Any]) -> None:
    assert judged(profile, offer_of({**BARE, **said})).verdicts == judged(profile, offer_of(BARE)).verdicts


def test_nothing_changes_where_the_axles_are_not_known(profile: Profile) -> None:
    offer = {"mass": 2600.0, "mass_bare": 2100.0}
    plain, with_loader = (judged(profile, offer_of(s)) for s in (offer, {**offer, **LOADER}))
    assert with_loader.verdicts == plain.verdicts
    assert with_loader.loader is None


@pytest.mark.parametrize(
    ("key", "values"),
    [("loader_mass", (50, 150, 300, 500, 800)), ("loader_ahead", (0.2, 0.5, 0.8, 1.2)),
     ("front_ballast", (0, 50, 120, 300))],
)  # fmt: skip
@pytest.mark.parametrize("land", [{}, {"land_shape": ("slopes",), "slope_up": "15 %"}])
def test_more_in_front_never_makes_the_balance_worse(
    maker: Maker, key: str, values: tuple[float, ...], land: dict[str, Any]
) -> None:
    judge = Judge(asked(maker.profile(SPEAR, strict=False, **land)))
    found = [judge.judge(offer_of({**BARE, **LOADER, "loader_mass": 150.0, key: v})).verdicts for v in values]
    needs = [one["mass_balance"].need for one in found]
    assert needs == sorted(needs, reverse=True)
    assert needs[0] > needs[-1]


def test_where_the_distance_is_not_said_the_usual_one_of_the_book_counts(profile: Profile) -> None:
    rows = profile.book.tables["size_classes"].rows.values()
    said = {k: v for k, v in LOADER.items() if k != "loader_ahead"}
    usual = judged(profile, offer_of({**BARE, **said})).verdicts["mass_balance"].need
    each = [judged(profile, offer_of({**BARE, **said, "loader_ahead": row["loader_ahead"].planning})) for row in rows]
    assert usual in [one.verdicts["mass_balance"].need for one in each]


def test_the_loaders_own_weight_counts_where_it_lifts(maker: Maker) -> None:
    """Counterweight and front axle with the bucket full are worked out for this loader, whether it stays on or not."""
    profile = maker.profile([{"kind": "loader_bucket"}], strict=False)
    light, heavy = (
        judged(profile, offer_of({**BARE, "loader_mass": mass, "loader_on": "comes_off"})).verdicts
        for mass in (200.0, 700.0)
    )
    assert heavy["front_axle_load"].need > light["front_axle_load"].need + 500
    assert heavy["rear_ballast"].need >= light["rear_ballast"].need


@pytest.mark.parametrize(
    ("said", "state", "sentence"),
    [
        ({"loader_mass": "900 lb", "loader_on": "stays on", "loader_ahead": "30 in"}, "on",
         "with the loader on (900 lb, 30 in ahead of the front axle)"),
        ({"loader_mass": "900 lb", "loader_on": "always on"}, "on",
         "with the loader on (900 lb, the usual distance ahead of the front axle)"),
        ({"loader_mass": "900 lb", "loader_on": "comes off"}, "off", "with the loader off, because it comes off"),
        ({"loader_mass": "900 lb"}, "open", "with the loader off, because nobody says that it stays on"),
        ({}, None, ""),
    ],
)  # fmt: skip
def test_the_page_says_for_which_state_it_was_worked(
    profile: Profile, said: dict[str, str], state: str | None, sentence: str
) -> None:
    axles = {"front_axle_mass": "1760 lb", "rear_axle_mass": "2860 lb", "wheelbase": "75 in", "hitch_overhang": "33 in"}
    checked = check(profile, [read_one(profile.book, **axles, **said)])
    assert checked.offers[0].judged.loader == state
    page = " ".join(render(offers_document(checked), 80).split())
    assert sentence in page
    assert ("What keeps the front wheels down is worked out with the loader" in page) is (state is not None)
    assert ("Without the loader the front wheels carry less." in page) is (state == "on")
