"""The picture of lift over distance: read back from its own scales, it shows what the profile says."""

from __future__ import annotations

import re

import pytest
from seeing import NUMBER, meeting, page_of, said, shapes, words

from firstfurrow.advice.profile import Profile
from firstfurrow.reasoning import ends
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Area, Disc, Label, Path
from firstfurrow.report.pictures.lift import BOTTOM, LEFT, pictures
from making import Maker

CUTTER_AND_BALES = [{"kind": "bale_spear", "variant": "mounted"}, {"kind": "rotary_cutter_medium", "size": "1.8 m"}]


@pytest.fixture(scope="module", params=["metric", "us"])
def profile(request: pytest.FixtureRequest, maker: Maker) -> Profile:
    return maker.profile(CUTTER_AND_BALES, units=request.param, strict=False)


@pytest.fixture(scope="module")
def picture(profile: Profile) -> Picture:
    return next(pictures(page_of(profile)))


def scale(picture: Picture, *, upward: bool) -> tuple[float, float]:
    """Units of the sheet for one in the reader's unit, from the numbers along the scale, and how far they differ."""
    ticks = [label for label in shapes(picture, Label) if NUMBER.fullmatch(label.text) and not label.bold]
    if upward:
        places = {float(t.text): BOTTOM + 4.5 - t.y for t in ticks if t.anchor == "end"}
    else:
        places = {float(t.text): t.x - LEFT for t in ticks if t.y == BOTTOM + 18}
    each = [place / number for number, place in places.items() if number]
    assert places[0] == pytest.approx(0, abs=0.01)
    return each[0], max(each) - min(each)


def reader(profile: Profile, kg: float) -> float:
    return kg / 0.45359237 if profile.units == "us" else kg


def along(profile: Profile, m: float) -> float:
    return m / 0.0254 if profile.units == "us" else m


def dots(picture: Picture) -> list[Disc]:
    """Where the loads are, in the order of the plan, without the sample in the key."""
    return [disc for disc in shapes(picture, Disc) if disc.fill == "dark" and disc.y < BOTTOM]


def test_both_scales_are_even(picture: Picture) -> None:
    for upward in (True, False):
        each, spread = scale(picture, upward=upward)
        assert each > 0
        assert spread < 1e-3 * each


def test_every_load_lies_where_its_mass_and_distance_say(profile: Profile, picture: Picture) -> None:
    up, right = scale(picture, upward=True)[0], scale(picture, upward=False)[0]
    hanging = [demand.top.inputs for demand in profile.demands if demand.requirement == "lift_610"]
    assert len(hanging) == 2
    for dot, inputs in zip(dots(picture), hanging, strict=True):
        assert inputs is not None
        assert (BOTTOM - dot.y) / up == pytest.approx(reader(profile, inputs["load"].value), rel=1e-3)
        assert (dot.x - LEFT) / right == pytest.approx(along(profile, inputs["distance"].value), rel=1e-3)


def test_the_line_goes_through_both_figures_and_falls_as_the_linkage_rule_says(
    profile: Profile, picture: Picture
) -> None:
    """With v from the centre of turning to the ball ends, lift falls as v / (v + x): the moment stays the same."""
    up, right = scale(picture, upward=True)[0], scale(picture, upward=False)[0]
    ball_ends, at_610 = (profile.outcomes[id_].widest.stated for id_ in ("lift_ball_ends", "lift_610"))
    v = 0.61 / (ball_ends / at_610 - 1)
    full, broken = (path.points for path in shapes(picture, Path) if len(path.points) > 40)
    for (x, y), (_, lower) in zip(full, broken, strict=True):
        distance = (x - LEFT) / right / along(profile, 1)
        expected = ball_ends * v / (v + distance)
        assert (BOTTOM - y) / up == pytest.approx(reader(profile, expected), rel=2e-3)
        assert (BOTTOM - lower) / up == pytest.approx(reader(profile, 0.85 * expected), rel=2e-3)


def test_squares_stand_on_the_three_requirements(profile: Profile, picture: Picture) -> None:
    up = scale(picture, upward=True)[0]
    squares = [area for area in shapes(picture, Area) if area.fill == "paper" and len(area.points) == 4
               and area.points[1][0] - area.points[0][0] == 10 and area.points[0][1] < BOTTOM]  # fmt: skip
    heights = [BOTTOM - (area.points[0][1] + 5) for area in squares]
    for id_, height in zip(("lift_ball_ends", "lift_610", "lift_at_load"), heights, strict=True):
        widest = profile.outcomes[id_].widest
        assert height / up == pytest.approx(reader(profile, widest.stated), rel=1e-3)
        assert widest.shown.split(" (")[0] in words(picture)


def test_no_load_at_its_heaviest_and_furthest_lies_above_the_broken_line(profile: Profile, picture: Picture) -> None:
    up, right = scale(picture, upward=True)[0], scale(picture, upward=False)[0]
    broken = [path.points for path in shapes(picture, Path) if len(path.points) > 40][1]
    for demand in profile.demands:
        if demand.requirement == "lift_610":
            heavy, far = (ends(demand.top.inputs[name]).high for name in ("load", "distance"))
            beyond = LEFT + along(profile, far) * right
            limit = max(BOTTOM - y for x, y in broken if x >= beyond)
            assert reader(profile, heavy) * up <= limit * 1.03  # both figures are rounded before the line is drawn


def test_a_heavier_tool_lies_higher_and_lifts_the_line(maker: Maker) -> None:
    """Beside a bale of 900 kg, which sets the scale of both drawings."""
    bale = {"kind": "bale_spear", "variant": "mounted", "load": "900 kg"}
    tops = []
    for mass in ("300 kg", "600 kg"):
        cutter = {"kind": "rotary_cutter_medium", "size": "1.8 m", "when": "owned", "mass": mass}
        tops.append(dots(next(pictures(page_of(maker.profile([bale, cutter], strict=False))))))
    (bale_then, light), (bale_now, heavy) = tops
    assert bale_then.y == bale_now.y
    assert bale_now.y < heavy.y < light.y
    assert (BOTTOM - heavy.y) / (BOTTOM - light.y) == pytest.approx(2)
    assert heavy.x == light.x


def test_the_sentences_name_every_number_on_the_drawing(picture: Picture) -> None:
    steps = [float(found) for found in re.findall(r"steps of (\d+(?:\.\d+)?)", " ".join(picture.says))]
    assert len(steps) == 2
    for label in shapes(picture, Label):
        if NUMBER.fullmatch(label.text) and not label.bold:
            assert any(float(label.text) % step == 0 for step in steps), label.text
        else:
            assert set(NUMBER.findall(label.text)) <= said(picture), label.text


def test_the_figure_of_a_sales_sheet_is_told_apart_from_the_one_at_the_load(picture: Picture) -> None:
    assert any("sales sheet" in line and "not what the tractor lifts" in line for line in picture.says)
    assert any("cannot steer" in line for line in picture.says)


def test_what_may_come_later_is_said(maker: Maker) -> None:
    later = [CUTTER_AND_BALES[0], {**CUTTER_AND_BALES[1], "when": "later"}]
    picture = next(pictures(page_of(maker.profile(later, strict=False))))
    assert any("(may come)" in text for text in words(picture))
    assert any(line.startswith("Load 2 may come later") for line in picture.says)


def test_many_loads_keep_their_numbers_apart(maker: Maker) -> None:
    kinds = ["rotary_tiller", "box_blade", "rear_blade", "landscape_rake", "finish_mower", "post_hole_digger", "tedder",
             "log_splitter", "bale_spear", "rotary_cutter_light", "disc_mower", "carry_all"]  # fmt: skip
    picture = next(pictures(page_of(maker.profile([{"kind": kind} for kind in kinds], strict=False))))
    assert len(dots(picture)) == len([line for line in picture.says if re.match(r"Load \d+ is the", line)]) >= 9
    assert meeting(picture) == []


def test_nothing_is_drawn_where_nothing_hangs_on_the_arms(maker: Maker) -> None:
    wagon = maker.profile([{"kind": "hay_wagon"}], strict=False)
    assert list(pictures(page_of(wagon))) == []
