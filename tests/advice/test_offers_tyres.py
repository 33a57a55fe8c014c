"""Tyres of an offer: sizes as printed, and the grip that the traction equations give for them."""

from __future__ import annotations

import itertools
import random
from typing import Any

import pytest
from offering import judged, offer_of, read_one, stated_values

from firstfurrow.advice.offers.asked import asked
from firstfurrow.advice.offers.checked import check
from firstfurrow.advice.offers.grip import Grip, Soil, Tyres, tyre_of
from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.advice.offers.tyre_size import TyreSize, read_size
from firstfurrow.advice.offers.verdicts import Judge, Verdict
from firstfurrow.book.model import Book
from firstfurrow.mechanics.grip import mass_for_pull
from firstfurrow.mechanics.traction import (
    gross_traction_ratio,
    mobility_number,
    motion_resistance_ratio,
    net_traction_ratio,
)
from firstfurrow.report.offers import offers_document
from firstfurrow.report.text import render
from making import Maker

REAR, FRONT = TyreSize(0.345, 1.21), TyreSize(0.21, 0.82)
AXLES = {"front_axle_mass": 600.0, "rear_axle_mass": 900.0}
TYRES = {"rear_tyre_size": REAR, "front_tyre_size": FRONT}
WHOLE = {**AXLES, **TYRES, "driven_wheels": "four", "tyre_tread": "lug"}
BOX = [{"kind": "box_blade", "size": "1.5 m"}]
_RANK = {"short": 0, "unknown": 1, "not_needed": 2, "meets": 2}


# ------------------------------------------------------------------------- as printed


@pytest.mark.parametrize(
    ("printed", "width", "diameter", "radial"),
    [
        ("320/85R24", 0.320, 1.1536, True), ("320/85 R 24 122A8 (119B)", 0.320, 1.1536, True),
        ("VF380/85R34", 0.380, 1.5096, True), ("240/70-16", 0.240, 0.7424, False),
        ("26x12.00-12", 0.3048, 0.6604, False), ("26×12,00–12 4PR", 0.3048, 0.6604, False),
        ("14.9-28", 0.3785, 1.3622, False), ("14.9x28", 0.3785, 1.3622, False), ("14.9R28", 0.3785, 1.3622, True),
        ("14.9-28 8PR R-1", 0.3785, 1.3622, False), ("14.9/13-28", 0.3785, 1.3622, False),
        ("14.9/28", 0.3785, 1.3622, False), ("10.0/75-15.3", 0.254, 0.7696, False),
        ("6.00-16", 0.1524, 0.7203, False), ("6.0-16", 0.1524, 0.7203, False), ("8-16", 0.2032, 0.8250, False),
        ("17.5L-24", 0.4445, 1.2319, False), ("15-19.5", 0.381, 1.0287, False),
    ],
)  # fmt: skip
def test_sizes_are_read_as_they_are_printed(
    book: Book, printed: str, width: float, diameter: float, radial: bool
) -> None:
    """Width and diameter by hand: the rim in inches and twice the share of the width that is printed or usual."""
    tyre = read_size(printed, book.offer_figures)
    assert tyre is not None
    assert (tyre.width, tyre.diameter) == pytest.approx((width, diameter), abs=0.0002)
    assert tyre.radial is radial


@pytest.mark.parametrize(
    "text",
    ["large", "14.9", "26x12", "R1", "14.9-28 and more", "-", "0-0", "99x99-99", "320/85", "1/2-3", "9e9-28",
     "14..9-28", "14.9-28" * 20],
)  # fmt: skip
def test_what_is_no_size_gets_one_sentence(book: Book, text: str) -> None:
    found = read_offers(book, f"name;rear_tyre_size\na;{text}\n", "yard.csv")
    assert [p for p in found.problems if "size of a tyre" in p] == list(found.problems)
    assert len(found.problems) == (0 if text == "-" else 1)  # a stroke alone says that nobody knows


def test_random_text_is_read_or_refused_and_never_a_mishap(book: Book) -> None:
    draw = random.Random(3)
    for _ in range(3000):
        text = "".join(draw.choice("0123456789./-xXRLBD ()*,PTVFI") for _ in range(draw.randint(1, 14)))
        tyre = read_size(text, book.offer_figures)
        assert tyre is None or 0 < tyre.width < tyre.diameter < 3


def test_a_measured_tyre_wins_over_what_is_printed(book: Book) -> None:
    said = {"rear_tyre_size": "14.9R28", "rear_tyre_width": "36 cm"}
    assert tyre_of(read_one(book, **said), "rear") == TyreSize(pytest.approx(0.36), pytest.approx(1.3622), True)
    measured = read_one(book, rear_tyre_width="14 in", rear_tyre_diameter="52 in")
    assert tyre_of(measured, "rear") == TyreSize(pytest.approx(0.3556), pytest.approx(1.3208), False)
    assert tyre_of(measured, "front") is None
    assert tyre_of(read_one(book, rear_tyre_width="14 in"), "rear") is None


def test_a_tyre_wider_than_high_is_refused(book: Book) -> None:
    text = "format: firstfurrow-offer/1\nname: mine\noffer:\n  rear_tyre_width: 50 in\n  rear_tyre_diameter: 15 in\n"
    (problem,) = read_offers(book, text, "mine.yaml").problems
    assert "swapped" in problem


# -------------------------------------------------------------------------- the verdict


def verdict(maker: Maker, surface: str = "firm", items: Any = BOX, **said: Any) -> Verdict:
    return judged(maker.profile(items, surface=surface), offer_of(said)).verdicts["mass"]


def test_the_weight_is_the_least_with_which_the_equations_and_the_grip_equation_agree(maker: Maker) -> None:
    """Worked by hand at the weight that is asked for: it pulls, and fifty kilograms less do not."""
    profile = maker.profile(BOX, surface="tilled")
    found = judged(profile, offer_of({**WHOLE, "mass": 1600.0})).verdicts["mass"]
    top = next(d.top for d in profile.demands if d.requirement == "mass")
    assert top.inputs is not None
    planned = {name: step.value for name, step in top.inputs.items()}
    assert planned["grip"] == profile.book.tables["surfaces"]["tilled"]["grip"].planning

    def asks(weight: float) -> float:
        pulled = 0.0
        for tyre, axle in ((FRONT, 0.4 * weight), (REAR, 0.6 * weight + planned["pressed_on"])):
            mobility = mobility_number(
                cone_index=900, width=tyre.width, diameter=tyre.diameter, load=axle * 9.80665 / 2000, deflection=0.2
            )
            gross, rolls = gross_traction_ratio(mobility, 0.12), motion_resistance_ratio(mobility, 0.12)
            pulled += net_traction_ratio(gross, rolls) * axle
        return mass_for_pull(**{**planned, "grip": pulled / (weight + planned["pressed_on"])})

    assert found.how == "by_tyres"
    assert asks(found.need) <= found.need + 5  # the steps are rounded on the way
    assert asks(found.need - 50) > found.need - 50
    assert found.need < profile.outcomes["mass"].widest.stated  # type: ignore[union-attr]


def test_the_printed_figures_of_the_grip_give_each_other(maker: Maker) -> None:
    grip = verdict(maker, "soft", **WHOLE).grip
    assert grip is not None
    assert grip.front is not None
    for wheel, share in ((grip.front, 0.4), (grip.rear, 0.6)):
        assert wheel.load == pytest.approx(share * grip.weight * 9.80665 / 2000, abs=0.006)
        assert wheel.net == pytest.approx(wheel.gross - wheel.resistance)
        assert wheel.efficiency == pytest.approx((1 - 0.15) * wheel.net / wheel.gross, abs=0.0051)
    assert grip.ratio == pytest.approx(0.4 * grip.front.net + 0.6 * grip.rear.net, abs=0.0006)
    assert (grip.soil.cone_index, grip.soil.slip) == (450, 0.15)


@pytest.mark.parametrize(
    ("surface", "lacking", "why"),
    [
        ("dry_grass", (), "surface"), ("wet_grass", (), "surface"), ("gravel", (), "surface"), ("snow", (), "surface"),
        ("firm", ("front_axle_mass",), "axles"), ("firm", ("rear_tyre_size",), "rear"),
        ("firm", ("front_tyre_size",), "front"), ("firm", tuple(TYRES), None),
    ],
)  # fmt: skip
def test_where_the_equations_cannot_be_used_the_usual_figure_stays_and_the_page_says_so(
    maker: Maker, surface: str, lacking: tuple[str, ...], why: str | None
) -> None:
    profile = maker.profile(BOX, surface=surface)
    stated = profile.outcomes["mass"].widest.stated  # type: ignore[union-attr]
    offer = offer_of({"mass": stated, **{k: v for k, v in WHOLE.items() if k not in lacking}})
    found = judged(profile, offer)
    assert found.tyres_not_worked == why
    mass = found.verdicts["mass"]
    assert (mass.status, mass.need, mass.how, mass.grip) == ("meets", stated, "", None)
    page = " ".join(render(offers_document(check(profile, [offer])), 80).split())
    assert ("Its tyres are not counted" in page) is (why is not None)


def test_two_driven_wheels_need_no_front_tyres(maker: Maker) -> None:
    said = {k: v for k, v in WHOLE.items() if k != "front_tyre_size"}
    rear = verdict(maker, **{**said, "driven_wheels": "two"})
    both = verdict(maker, **WHOLE)
    assert (rear.how, both.how) == ("by_tyres", "by_tyres")
    assert rear.need > 1.3 * both.need  # three fifths of it rest on the rear wheels
    assert rear.grip is not None
    assert rear.grip.front is None


def test_another_tread_than_farm_lugs_never_counts_for_more_than_the_usual_figure(maker: Maker) -> None:
    lugs, turf = (verdict(maker, "soft", **{**WHOLE, "tyre_tread": tread}) for tread in ("lug", "turf"))
    assert lugs.grip is not None
    assert turf.grip is not None
    assert (lugs.grip.capped, turf.grip.capped) == (False, True)
    assert turf.grip.ratio == maker.book.tables["surfaces"]["soft"]["grip"].planning < lugs.grip.ratio
    assert turf.need > lugs.need


def test_where_nobody_knows_tread_or_driven_wheels_every_case_must_hold(maker: Maker) -> None:
    def statuses(weight: float, *lacking: str) -> tuple[str, str]:
        said = {k: v for k, v in WHOLE.items() if k not in lacking}
        found = verdict(maker, "soft", **said, mass=weight)
        return found.status, found.how

    least = verdict(maker, "soft", **WHOLE).need
    turf = verdict(maker, "soft", **{**WHOLE, "tyre_tread": "turf"}).need
    assert statuses(least - 50, "tyre_tread") == ("short", "by_tyres")
    assert statuses(least, "tyre_tread") == ("unknown", "tread")
    assert statuses(turf, "tyre_tread") == ("meets", "by_tyres")
    assert statuses(least, "driven_wheels") == ("unknown", "two_wheels")
    assert statuses(100_000, "driven_wheels", "tyre_tread") == ("meets", "by_tyres")


def test_an_open_tread_is_asked_of_the_seller(maker: Maker) -> None:
    profile = maker.profile(BOX, surface="soft")
    said = {k: v for k, v in WHOLE.items() if k != "tyre_tread"}
    least = judged(profile, offer_of(WHOLE)).verdicts["mass"].need
    checked = check(profile, [offer_of({**said, "mass": least})])
    question = next(q for q in checked.offers[0].questions if q.verdict.requirement.id == "mass")
    assert question.keys == ("tyre_tread",)
    page = " ".join(render(offers_document(checked), 80).split())
    said = page.split("Before you sign")[1]
    assert "Tractor weight for grip: asked for at least 550 kg with farm lugs, worked out from its tyres" in said
    assert "Ask for the tread." in said


def test_tyres_that_sink_in_are_enough_for_no_weight(maker: Maker) -> None:
    """A hand cart's wheels under a plough: the more it weighs, the deeper they sink."""
    tiny = TyreSize(0.08, 0.26)
    plough = [{"kind": "mouldboard_plough"}]
    found = verdict(maker, "soft", plough, **{**WHOLE, "rear_tyre_size": tiny, "front_tyre_size": tiny, "mass": 5000.0})
    assert (found.status, found.need) == ("short", float("inf"))
    offer = offer_of({**WHOLE, "rear_tyre_size": tiny, "front_tyre_size": tiny, "mass": 5000.0})
    page = render(offers_document(check(maker.profile(plough, surface="soft"), [offer])), 80)
    assert "On these tyres no weight is enough on soft ground, wet soil or sand" in " ".join(page.split())
    assert verdict(maker, "soft", plough, **WHOLE, mass=9000.0).status == "meets"


# ------------------------------------------------------------------ more is never worse


def _sizes(width: float, diameter: float) -> list[TyreSize]:
    """Larger and larger: wider, then higher, then both."""
    wider = [TyreSize(width * t, diameter) for t in (0.4, 0.6, 0.8, 1, 1.2, 1.5)]
    higher = [TyreSize(width, diameter * t) for t in (0.5, 0.7, 0.85, 1, 1.2, 1.6)]
    both = [TyreSize(width * t, diameter * t) for t in (0.3, 0.5, 0.7, 1, 1.4)]
    return [*wider, *higher, *both]


@pytest.mark.parametrize("surface", ["firm", "tilled", "soft"])
@pytest.mark.parametrize("driven", ["two", "four"])
@pytest.mark.parametrize("end", ["rear", "front"])
def test_a_larger_tyre_never_asks_for_more_weight(maker: Maker, surface: str, driven: str, end: str) -> None:
    profile = maker.profile([{"kind": "mouldboard_plough"}, *BOX], surface=surface)
    judge = Judge(asked(profile))
    tyre = {"rear": REAR, "front": FRONT}[end]
    found = {}
    for size in _sizes(tyre.width, tyre.diameter):
        said = {**WHOLE, "driven_wheels": driven, f"{end}_tyre_size": size, "mass": 2500.0}
        found[size] = judge.judge(offer_of(said)).verdicts["mass"]
    for small, large in itertools.permutations(found, 2):
        if small.width <= large.width and small.diameter <= large.diameter:
            assert found[small].need >= found[large].need
            assert _RANK[found[small].status] <= _RANK[found[large].status]
    if driven == "four" or end == "rear":
        assert len({v.need for v in found.values()}) > 1


@pytest.mark.parametrize("surface", ["firm", "tilled", "soft"])
@pytest.mark.parametrize("tread", [None, "turf", "lug"])
@pytest.mark.parametrize("driven", [None, "two", "four"])
def test_more_weight_never_makes_the_grip_worse(
    maker: Maker, surface: str, tread: str | None, driven: str | None
) -> None:
    judge = Judge(asked(maker.profile(BOX, surface=surface)))
    said: dict[str, Any] = {**WHOLE, "driven_wheels": driven, "tyre_tread": tread}
    said = {k: v for k, v in said.items() if v is not None}
    ranks = [_RANK[judge.judge(offer_of({**said, "mass": w})).verdicts["mass"].status]
             for w in range(200, 12_000, 200)]  # fmt: skip
    assert ranks == sorted(ranks)
    assert {0, 2} <= set(ranks)


def test_radial_tyres_never_ask_for_more_weight_than_cross_ply(maker: Maker) -> None:
    radial = {key: TyreSize(tyre.width, tyre.diameter, True) for key, tyre in TYRES.items()}
    plough = [{"kind": "mouldboard_plough"}]
    for surface in ("firm", "tilled", "soft"):
        cross_ply = verdict(maker, surface, plough, **WHOLE)
        assert verdict(maker, surface, plough, **{**WHOLE, **radial}).need < cross_ply.need


def test_grip_grows_with_the_size_and_falls_with_the_load(maker: Maker) -> None:
    soil = Soil(maker.profile(BOX, surface="soft"))

    def at(weight: float, size: float = 1.0) -> Grip:
        tyres = Tyres(
            TyreSize(REAR.width * size, REAR.diameter * size), TyreSize(FRONT.width * size, FRONT.diameter * size), 0.6
        )
        return soil.grip(tyres, "four", lugs=True, weight=weight, pressed=0)

    loads = [at(weight).ratio for weight in (500, 1000, 2000, 4000, 8000)]
    assert loads == sorted(loads, reverse=True)
    assert len(set(loads)) == len(loads)
    assert at(3000, 0.8).ratio < at(3000).ratio < at(3000, 1.25).ratio


def test_nothing_but_the_weight_for_grip_and_what_rests_on_it_changes_with_tyres(maker: Maker) -> None:
    """Stopping a load goes by the usual figure: what pulls is not what brakes."""
    profile = maker.profile([*BOX, {"kind": "utility_trailer", "load": "800 kg"}], surface="soft", strict=False)
    said = {**stated_values(profile), **AXLES}
    plain, with_tyres = (judged(profile, offer_of(s)).verdicts for s in (said, {**said, **TYRES}))
    moved = {id_ for id_ in plain if plain[id_] != with_tyres[id_]}
    assert moved == {"mass"}
    assert with_tyres["mass_towing"].need == plain["mass_towing"].need
