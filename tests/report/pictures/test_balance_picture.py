"""The seesaw: what is printed on it balances, what is drawn is to scale, and the danger is said."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from seeing import NUMBER, meeting, page_of, said, shapes, words

from firstfurrow.advice.pictured.seesaws import Seesaw, load_in_front, tool_behind
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Area, Label, Line
from firstfurrow.report.pictures.balance import pictures, verdict
from firstfurrow.report.pictures.words import sayer
from making import Maker

CUTTER = {"kind": "rotary_cutter_medium", "size": "1.8 m"}
BALE = {"kind": "bale_spear", "variant": "mounted", "load": "600 kg"}
BUCKET = {"kind": "loader_bucket"}
PRODUCT = re.compile(r"(?P<mass>[\d.]+) (?:kg|lb) × (?P<arm>[\d.]+) (?:m|ft) ÷ (?P<wheelbase>[\d.]+) (?:m|ft)")


@pytest.fixture(scope="module", params=["metric", "us"])
def profile(request: pytest.FixtureRequest, maker: Maker) -> Profile:
    return maker.profile([BALE, CUTTER, BUCKET], units=request.param, strict=False, front_load="700 kg")


@pytest.fixture(scope="module")
def both(profile: Profile) -> list[Picture]:
    return list(pictures(page_of(profile)))


def figures(picture: Picture) -> list[float]:
    """The column of figures at the right, from top to bottom."""
    labels = [label for label in shapes(picture, Label) if label.anchor == "end" and label.x > 400]
    return [float(NUMBER.search(label.text)[0]) for label in sorted(labels, key=lambda one: one.y)]


def products(picture: Picture) -> list[tuple[float, float, float]]:
    found = [PRODUCT.search(text) for text in words(picture)]
    return [tuple(map(float, one.groups())) for one in found if one]


def test_a_tool_behind_and_a_loader_have_a_picture_each(both: list[Picture]) -> None:
    assert [picture.name for picture in both] == ["balance_behind", "balance_front"]


def test_the_printed_sum_comes_out(both: list[Picture]) -> None:
    """With a pencil: mass times arm divided by wheelbase, then plus and minus. Pounds are printed to three figures."""
    for picture in both:
        standing, on, off, left, must = figures(picture)
        close = 0.004 * max(standing, on, off) + 1
        for (mass, arm, wheelbase), far in zip(products(picture), (on, off), strict=True):
            assert mass * arm / wheelbase == pytest.approx(far, abs=close)
        assert standing + on - off == pytest.approx(left, abs=2 * close)
        percent, whole = map(float, re.search(r"(\d+) % of (\d+)", " ".join(words(picture))).groups())
        assert whole * percent / 100 == pytest.approx(must, abs=close)


def test_the_moments_about_the_turning_axle_balance(both: list[Picture]) -> None:
    """What the ground still bears at the far wheels holds the rest: sum of moments nought, from the printed numbers."""
    for picture in both:
        standing, _, _, left, _ = figures(picture)
        (helping, helping_arm, wheelbase), (lifting, lifting_arm, _) = products(picture)
        down = standing * wheelbase + helping * helping_arm - lifting * lifting_arm
        assert down == pytest.approx(left * wheelbase, rel=0.02)


def test_the_arms_are_drawn_to_scale(both: list[Picture]) -> None:
    for picture in both:
        arms = [line for line in shapes(picture, Line) if line.arrow == "both"]
        printed = [label for label in shapes(picture, Label) if re.fullmatch(r"[\d.]+ (m|ft)", label.text)]
        scales = []
        for line in arms:
            middle = (line.x1 + line.x2) / 2
            label = min(printed, key=lambda one: (abs(one.y - 4.5 - line.y1) > 1, abs(one.x - middle)))
            scales.append(abs(line.x2 - line.x1) / float(label.text.split()[0]))
        assert len(scales) == 3
        assert max(scales) == pytest.approx(min(scales), rel=0.005)


def test_the_bars_are_as_long_as_their_figures(both: list[Picture]) -> None:
    for picture in both:
        bars = [area for area in shapes(picture, Area) if len(area.points) == 4
                and area.points[2][1] - area.points[0][1] == pytest.approx(12)]  # fmt: skip
        left, must = (area.points[1][0] - area.points[0][0] for area in bars[-2:])
        assert must / left == pytest.approx(figures(picture)[4] / figures(picture)[3], rel=0.01)


def test_the_stand_in_is_named_in_words(profile: Profile, both: list[Picture]) -> None:
    for picture, found in zip(both, (tool_behind(profile), load_in_front(profile)), strict=True):
        assert found is not None
        assert any("No tractor is chosen yet" in line and found.row.name in line for line in picture.says)


def test_no_two_size_classes_have_the_same_wheelbase(book: Book) -> None:
    """So that the class of a picture is found by its shape."""
    bases = [row["wheelbase"].planning for row in book.tables["size_classes"].rows.values()]
    assert len(set(bases)) == len(bases)


def test_the_tool_that_governs_is_the_one_on_the_seesaw(profile: Profile, both: list[Picture]) -> None:
    governing = profile.outcomes["mass_balance"].widest.governed_by
    assert governing.name in both[0].title
    assert any(governing.name in text for text in words(both[0]))


def test_the_sentences_name_every_number_on_the_drawing(both: list[Picture]) -> None:
    for picture in both:
        for text in words(picture):
            assert set(NUMBER.findall(text)) <= said(picture), text


def test_the_danger_stands_beside_it(both: list[Picture]) -> None:
    assert any("front wheels that lift do not steer" in line and "die" in line for line in both[0].says)
    assert any("rear wheels that lift do not brake" in line for line in both[1].says)


def test_on_a_slope_it_says_that_level_ground_does_not_decide(maker: Maker) -> None:
    steep = maker.profile([BALE], strict=False, land_shape=("slopes",), slope_up="20 %")
    found, picture = tool_behind(steep), next(pictures(page_of(steep)))
    assert found is not None
    assert found.because == "uphill"
    assert any("slope of 20 %" in line for line in picture.says)


def test_where_level_ground_decides_just_enough_is_left(maker: Maker) -> None:
    """But for the mass, which is rounded up to the next 50 kg: a fifth of that, and its share in front."""
    found = tool_behind(maker.profile([{"kind": "transplanter"}], strict=False))
    assert found is not None
    assert found.because == "level"
    assert found.must <= found.left <= found.must + 50 * (0.42 - 0.2)


def test_enough_is_never_left_by_less_than_the_loader_rule(profile: Profile) -> None:
    found = load_in_front(profile)
    assert found is not None
    assert found.must <= found.left + 0.5


@pytest.mark.parametrize(("left", "word"), [(500.0, "enough"), (300.0, "less than must be left")])
def test_the_verdict_follows_what_is_left(profile: Profile, book: Book, left: float, word: str) -> None:
    found = tool_behind(profile)
    assert isinstance(found, Seesaw)
    assert word in verdict(sayer(book), replace(found, left=left, must=400.0))


def test_no_words_lie_on_others(both: list[Picture]) -> None:
    assert [meeting(picture) for picture in both] == [[], []]


def test_nothing_is_drawn_where_nothing_is_carried(maker: Maker) -> None:
    assert list(pictures(page_of(maker.profile([{"kind": "hay_wagon"}], strict=False)))) == []


def test_a_loader_alone_has_only_its_own_picture(maker: Maker) -> None:
    plan = maker.profile([BUCKET], strict=False, front_load="900 kg")
    assert [picture.name for picture in pictures(page_of(plan))] == ["balance_front"]
