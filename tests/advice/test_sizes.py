"""What a tractor runs: the answer of `sizes` given to `check` runs, and the next size sold is short there."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace

import pytest
from offering import read_one

from firstfurrow.advice.offers.checked import check
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.sizes import ITEM, KindSizes, Sizes, answers_with, sizes
from firstfurrow.asking.answers import Answers, Given
from firstfurrow.asking.answers_text import write
from firstfurrow.asking.setting import SettingError, kinds_named, with_answers
from firstfurrow.book.model import Book, Size
from firstfurrow.pages import checked_offers, ground_of, profile_of, sizes_json, sizes_of_offer, sizes_page
from firstfurrow.talk.recordings import shipped

# A small utility tractor of which everything is known, invented for this test.
KNOWN = {
    "engine_power": "48 hp", "pto_power": "40 hp", "pto_speeds": "540", "shaft_types": "1", "mid_pto": "none",
    "pto_engagement": "independent", "rear_sets": "2", "oil_features": "float", "oil_flow": "9 gpm",
    "oil_pressure": "2700 psi", "oil_source": "levers", "hitch_category": "1", "lift_610": "2600 lb",
    "lift_ball_ends": "3400 lb", "lift_from": "test_report", "draft_control": "draft", "drawbar_class": "1",
    "drawbar_vertical": "1200 lb", "shaft_to_pin": "14 in", "mass": "4600 lb", "front_axle_mass": "1700 lb",
    "rear_axle_mass": "2400 lb", "wheelbase": "74 in", "hitch_overhang": "32 in", "driven_wheels": "four",
    "tyre_tread": "lug", "front_ballast": "300 lb", "rear_ballast": "0 lb", "rear_axle_limit": "7000 lb",
    "front_axle_limit": "4000 lb", "track": "56 in", "side_slope": "20 %", "slowest_speed": "0.5 mph",
    "transmission": "gears", "loader_functions": "2", "loader_lift": "1500 lb", "drawbar_pull": "3500 lbf",
    "roll_bar": "bar_belt_and_guard", "trailer_brakes": "none", "first_driver": "shown", "road_kit": "lights",
    "height": "8 ft", "width": "70 in",
}  # fmt: skip


@pytest.fixture(scope="module")
def offer(book: Book) -> Offer:
    return read_one(book, **KNOWN)


@pytest.fixture(scope="module")
def ground(book: Book) -> Answers:
    return ground_of(book, None, ["slope_up=6%"], "us")


@pytest.fixture(scope="module")
def found(book: Book, offer: Offer, ground: Answers) -> Sizes:
    return sizes(book, offer, ground, kinds=list(book.kinds.values())[::2])


def by_check(book: Book, offer: Offer, ground: Answers, one: KindSizes, size: Size) -> tuple[str, list[str]]:
    """What `check` says of this implement in this size: whether it runs, and what is short."""
    driven = replace(ground, given={**ground.given, "drive": Given("gears", "gears")})
    checked = check(profile_of(book, answers_with(driven, one.kind, one.variant, size)), (offer,)).offers[0]
    item = next(item for item in checked.items if item.hookup.id == ITEM)
    return item.runs, [v.requirement.id for v in (*item.never, *item.if_)]


def several(found: Sizes) -> Iterator[KindSizes]:
    """Those that run up to a size, with a larger one sold."""
    return (one for one in found.kinds if one.largest is not None and one.next_size is not None)


def test_check_says_runs_of_the_answer_and_short_of_the_next_size(
    book: Book, offer: Offer, ground: Answers, found: Sizes
) -> None:
    tried = 0
    for one in several(found):
        assert one.largest is not None
        assert one.next_size is not None
        assert by_check(book, offer, ground, one, one.largest.size) == ("runs", [])
        runs, short = by_check(book, offer, ground, one, one.next_size.size)
        assert runs in ("runs_if", "does_not")
        assert short or one.next_size.verdict.hookup.refused
        tried += 1
    assert tried >= 12


def test_every_size_gets_the_verdict_of_check(book: Book, offer: Offer, ground: Answers, found: Sizes) -> None:
    for one in found.kinds[::5]:
        for tried in one.tried:
            assert tried.verdict.runs == by_check(book, offer, ground, one, tried.size)[0]


def test_steeper_ground_never_lets_a_larger_size_run(book: Book, offer: Offer, found: Sizes) -> None:
    steep = sizes(book, offer, ground_of(book, None, ["slope_up=25%"], "us"), kinds=list(book.kinds.values())[::4])
    gentle = {(one.kind.kind, one.variant.id): one for one in found.kinds}
    fewer = 0
    for one in steep.kinds:
        before = gentle[one.kind.kind, one.variant.id]
        runs = [t.size.id for t in one.tried if t.verdict.runs == "runs"]
        assert set(runs) <= {t.size.id for t in before.tried if t.verdict.runs == "runs"}
        fewer += len(runs) < sum(t.verdict.runs == "runs" for t in before.tried)
    assert fewer > 3


def test_more_shaft_power_never_lets_a_smaller_size_run(book: Book, ground: Answers, found: Sizes) -> None:
    strong = sizes(book, read_one(book, **{**KNOWN, "pto_power": "46 hp"}), ground, kinds=kinds_named(book, ["mowing"]))
    weak = {(one.kind.kind, one.variant.id): one for one in found.kinds}
    both = [(weak[k], one) for one in strong.kinds if (k := (one.kind.kind, one.variant.id)) in weak]
    assert len(both) > 4
    for before, after in both:
        sold = [tried.size for tried in before.tried]
        if before.largest is not None:
            assert after.largest is not None
            assert sold.index(after.largest.size) >= sold.index(before.largest.size)


def test_hours_are_those_of_the_profile(book: Book, offer: Offer, ground: Answers) -> None:
    cutter = sizes(
        book, offer, ground, area=Given(2.0, "2 ha"), kinds=[book.kinds["rotary_cutter_light"]]
    ).kinds[0]  # fmt: skip
    five_feet = next(tried for tried in cutter.tried if tried.size.id == "1.5 m")
    answers = answers_with(ground, cutter.kind, cutter.variant, five_feet.size, area=Given(2.0, "2 ha"))
    assert five_feet.hours == float(profile_of(book, answers).hookups[0].hours.value)  # type: ignore[union-attr]
    assert [t.hours for t in cutter.tried] == sorted((t.hours for t in cutter.tried), reverse=True)  # type: ignore[type-var]


def test_an_answers_file_written_from_it_is_checked_the_same(
    book: Book, offer: Offer, ground: Answers, found: Sizes
) -> None:
    """The whole road of the command: the plan of one size as a file, read again, held against the offer file."""
    from firstfurrow.asking.answers_file import read

    one = next(several(found))
    assert one.largest is not None
    text = write(answers_with(ground, one.kind, one.variant, one.largest.size), book)
    lines = ["format: firstfurrow-offer/1", "name: known", "offer:", *(f"  {k}: '{v}'" for k, v in KNOWN.items())]
    checked, problems = checked_offers(book, read(text, "a.yaml", book), {"o.yaml": "\n".join(lines) + "\n"})
    assert not problems
    assert [item.runs for item in checked.offers[0].items] == ["runs"]


def test_the_drive_is_a_fact_of_the_tractor(book: Book, ground: Answers) -> None:
    """A hydrostatic drive passes on less of the power, so a plough may be at most as wide; the wish is not read."""
    wish = replace(ground, given={**ground.given, "drive": Given("gears", "gears")})
    gears, pedal = (
        sizes(book, read_one(book, **{**KNOWN, "transmission": how}), wish, kinds=[book.kinds["power_harrow"]])
        for how in ("gears", "hydrostatic")
    )
    assert pedal.profile.plan.drive.value == "hydrostatic"
    runs = [[t.size.id for t in one.kinds[0].tried if t.verdict.runs == "runs"] for one in (gears, pedal)]
    assert runs[0]
    assert set(runs[1]) <= set(runs[0])


# ---------------------------------------------------------------------------- the page and the command


@pytest.mark.parametrize("width", [40, 80])
def test_the_page_says_what_limits_and_fits_its_width(book: Book, found: Sizes, width: int) -> None:
    page = sizes_page(found, width)
    assert max(map(len, page.splitlines())) <= width
    flat = " ".join(page.split())
    assert "does not run. It lacks: shaft power, short by" in flat
    assert "up to 6% uphill" in flat
    assert "People die of these." in flat


def test_a_brochure_that_says_little_proves_nothing(book: Book) -> None:
    folder = shipped()[0].folder.parent
    text = (folder / "offers" / "mid_compact.yaml").read_text(encoding="utf-8")
    (mid,), problems = sizes_of_offer(
        book, text, "mid.yaml", ground_of(book, None, [], "us"), kinds=kinds_named(book, ["mowing"])
    )
    assert not problems
    assert all(one.largest is None for one in mid.kinds)
    assert any(one.perhaps is not None for one in mid.kinds)
    data = sizes_json(mid)
    assert json.loads(json.dumps(data))["format"] == "firstfurrow-sizes/1"


def test_the_usual_ground_of_the_book_can_be_read_and_says_everything_that_counts(book: Book) -> None:
    """Else something would be taken on the careful side without anybody having asked for it."""
    usual = ground_of(book, None, [], "us")
    assert set(usual.given) == {*book.settings["sizes"]["ground"], "jobs"}  # some are asked of those with that job
    assert usual.given["land_shape"].value == ("flat",)


def test_saying_how_steep_says_that_there_are_slopes(book: Book) -> None:
    steep = ground_of(book, None, ["slope_up=10%"], "us")
    assert steep.given["land_shape"].value == ("flat", "slopes")
    assert steep.given["slope_up"].value == pytest.approx(10)


@pytest.mark.parametrize(
    ("said", "sentence"),
    [("sloope_up=10%", "Do you mean slope_up?"), ("soil=peat", 'soil: "peat" is none of the answers'),
     ("soil", "Write QUESTION=ANSWER"), ("slope_up=steep", "slope_up: ")],
)  # fmt: skip
def test_an_answer_that_cannot_be_taken_is_said(book: Book, said: str, sentence: str) -> None:
    with pytest.raises(SettingError) as problem:
        with_answers(book, Answers(), [said])
    assert sentence in str(problem.value)


def test_a_word_that_names_nothing_is_said(book: Book) -> None:
    with pytest.raises(SettingError, match="No implement goes by"):
        kinds_named(book, ["zzzz"])
    assert {kind.family for kind in kinds_named(book, ["mowing"])} == {"mowing"}
    assert [kind.kind for kind in kinds_named(book, ["finish mower"])] == ["finish_mower"]
