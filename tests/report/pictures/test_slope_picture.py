"""The slopes as triangles: at their true angle, with a tractor that stands on them, and what the plan says."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest
from seeing import NUMBER, meeting, page_of, said, shapes, words

from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Area, Disc, Line, Path
from firstfurrow.report.pictures.places import Place
from firstfurrow.report.pictures.slope import LEFT, pictures
from making import Maker

CUTTER = {"kind": "rotary_cutter_medium", "variant": "mounted", "size": "1.5 m"}


def drawn(maker: Maker, up: str | None, side: str | None, **said_: Any) -> list[Picture]:
    if up is not None or side is not None:
        said_ = {"land_shape": ("slopes",), "slope_up": up or "0 %", "side_slope": side or "0 %", **said_}
    return list(pictures(page_of(maker.profile([CUTTER], strict=False, **said_))))


@pytest.fixture(scope="module")
def both(maker: Maker) -> Picture:
    return drawn(maker, "20 %", "12 %")[0]


def triangles(picture: Picture) -> list[tuple[tuple[float, float], ...]]:
    return [area.points for area in shapes(picture, Area) if len(area.points) == 3 and area.points[0][0] == LEFT]


def angle(points: tuple[tuple[float, float], ...]) -> float:
    (left, foot), (right, _), (_, top) = points
    return math.degrees(math.atan2(foot - top, right - left))


def test_each_triangle_has_its_true_angle_and_a_right_angle(both: Picture) -> None:
    """A slope of 20 % is 20 up on 100 along: 11.3 degrees; 12 % is 6.8 degrees."""
    found = triangles(both)
    assert [round(angle(points), 1) for points in found] == [11.3, 6.8]
    for (_, foot), (right, low), (also_right, _) in found:
        assert low == foot
        assert right == also_right
    assert {"11.3°", "6.8°", "20 %", "12 %"} <= set(words(both))


@pytest.mark.parametrize(
    ("slope", "degrees", "along"),
    [("2 %", "1.1°", "50 m"), ("5 %", "2.9°", "20 m"), ("12.5 %", "7.1°", "8 m"), ("36 %", "19.8°", "2.8 m"),
     ("100 %", "45°", "1 m")],
)  # fmt: skip
def test_percent_degrees_and_rise_over_run_are_one_slope(maker: Maker, slope: str, degrees: str, along: str) -> None:
    picture = drawn(maker, slope, None)[0]
    assert {slope, degrees, along} <= set(words(picture))
    assert f"1 m up on {along} along." in picture.says
    assert angle(triangles(picture)[0]) == pytest.approx(float(degrees[:-1]), abs=0.06)


def test_a_reader_in_feet_has_one_foot_up(maker: Maker) -> None:
    picture = drawn(maker, "12.5 %", None, units="us")[0]
    assert "1 ft up on 8 ft along." in picture.says
    assert "8 ft" in words(picture)


@pytest.mark.parametrize("slope", ["3 %", "20 %", "60 %"])
def test_the_wheels_stand_on_the_slope(maker: Maker, slope: str) -> None:
    """The middle of each wheel is its radius away from the ground."""
    picture = drawn(maker, slope, None)[0]
    (left, foot), _, (right, top) = triangles(picture)[0]
    wheels = [disc for disc in shapes(picture, Disc) if disc.stroke == "thick"]
    assert len(wheels) == 2
    for wheel in wheels:
        away = ((right - left) * (foot - wheel.y) - (foot - top) * (wheel.x - left)) / math.hypot(
            right - left, foot - top
        )
        assert away == pytest.approx(wheel.r, abs=0.01)
        assert left < wheel.x < right


def test_a_place_turns_and_keeps_lengths() -> None:
    place = Place(100, 200, 50, 30)
    assert place.at(0, 0) == (100, 200)
    assert place.at(2, 0) == pytest.approx((100 + 100 * math.cos(math.pi / 6), 150))
    assert math.dist(place.at(0, 0), place.at(0, 3)) == pytest.approx(150)


def test_the_limit_is_drawn_at_its_angle_and_said_to_be_from_memory(both: Picture) -> None:
    """With something carried behind: 10 degrees (teaching figure, from memory)."""
    line = next(line for line in shapes(both, Line) if line.stroke == "dashed")
    assert math.degrees(math.atan2(line.y1 - line.y2, line.x2 - line.x1)) == pytest.approx(9.98, abs=0.01)
    assert "limit 10°" in words(both)
    assert any("above 17.6 % (10 degrees)" in text for text in both.says)
    assert any("from memory" in text for text in both.says)


def test_the_track_that_the_slope_asks_for_is_said(maker: Maker, both: Picture) -> None:
    profile = maker.profile([CUTTER], strict=False, land_shape=("slopes",), slope_up="20 %", side_slope="12 %")
    track = profile.outcomes["track_least"].widest.shown
    assert any(f"at least {track} apart" in text for text in both.says)


def crossed_out(picture: Picture) -> int:
    return len([path for path in shapes(picture, Path) if path.stroke == "thick" and len(path.points) == 2])


def test_a_refused_slope_is_crossed_out_and_says_why(maker: Maker, both: Picture) -> None:
    steep = drawn(maker, "20 %", "30 %")[0]
    assert crossed_out(both) == 0
    assert crossed_out(steep) == 2
    assert "Refused: Not across that slope." in words(steep)
    assert any("You gave a side slope of 30 %" in line for line in steep.says)


def test_wet_grass_lowers_the_limit(maker: Maker) -> None:
    """Two thirds of the angle of friction for a grip of 0.16: 6.1 degrees."""
    picture = drawn(maker, "5 %", "12 %", surface="wet_grass")[0]
    assert "limit 6.1°" in words(picture)
    assert any("slide sideways on wet grass" in line for line in picture.says)


def test_a_slope_across_that_nobody_measured_has_no_triangle(maker: Maker) -> None:
    picture = drawn(maker, "15 %", "not sure")[0]
    assert len(triangles(picture)) == 1
    assert crossed_out(picture) == 2
    assert "?" in words(picture)
    assert any("do not drive across" in text for text in words(picture))


def test_a_climb_that_nobody_measured_says_so(maker: Maker) -> None:
    picture = drawn(maker, "not sure", "5 %")[0]
    assert any(re.match(r"Nobody measured it, so \d+ % is planned", line) for line in picture.says)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_sentences_name_every_number_on_the_drawing(maker: Maker, units: str) -> None:
    picture = drawn(maker, "18 %", "30 %", units=units)[0]
    for text in words(picture):
        assert set(NUMBER.findall(text)) <= said(picture), text


@pytest.mark.parametrize("side", ["0.5 %", "9 %", "17 %", "18 %", "26 %", "60 %"])
def test_no_words_lie_on_others(maker: Maker, side: str) -> None:
    assert meeting(drawn(maker, side, side, units="us")[0]) == []


def test_the_caution_is_always_there(maker: Maker, both: Picture) -> None:
    for picture in (both, drawn(maker, "4 %", None)[0], drawn(maker, None, "not sure")[0]):
        assert any("no figure makes a slope safe" in line for line in picture.says)


def test_nothing_is_drawn_on_flat_land(maker: Maker) -> None:
    assert drawn(maker, None, None) == []
