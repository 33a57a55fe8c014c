"""What came of running the road again, on the page and in the data: in short, ways out, prices, doubts, index."""

from __future__ import annotations

import re
from typing import Any

import pytest

from firstfurrow.advice.profile import Profile
from firstfurrow.advice.study import Study, study
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Bullets, Contents, Document, Heading, Paragraph, Working
from firstfurrow.report.document import document
from making import Maker

pytestmark = pytest.mark.xdist_group("study pages")  # one worker keeps what the tests share

TRAILER = {"kind": "utility_trailer", "size": "700 kg", "load": "1500 kg", "brakes": "no_brakes"}
HILL = {"land_shape": ("slopes",), "surface": "wet_grass", "slope_up": "10 %"}
WIDE = [{"kind": "rotary_tiller", "size": "2 m", "rank": "nice"}, {"kind": "finish_mower", "size": "1.2 m"}]
PLANS: list[tuple[list[dict[str, Any]], dict[str, Any]]] = [
    ([TRAILER], HILL),
    (WIDE, {"gate_width": "2.2 m"}),
    ([{"kind": "round_baler", "when": "later"}, {"kind": "finish_mower"}], {"soil": "not sure", "stones": "not sure"}),
    ([{"kind": "mouldboard_plough"}], {**HILL, "slope_up": "20 %", "surface": "not sure", "soil": "not sure"}),
]


@pytest.fixture(scope="module", params=range(len(PLANS)))
def case(request: pytest.FixtureRequest, maker: Maker) -> tuple[Profile, Study]:
    items, said = PLANS[request.param]
    profile = maker.profile(items, strict=False, **said)
    return profile, study(profile)


def under(page: Document, title: str) -> list[str]:
    """The sentences below a heading, up to the next one."""
    found: list[str] = []
    inside = False
    for block in page:
        if isinstance(block, Heading):
            inside = block.text == title
        elif inside and isinstance(block, Bullets):
            found += block.items
        elif inside and isinstance(block, Paragraph):
            found.append(block.text)
    return found


def say(book: Book, id_: str) -> str:
    return book.messages[f"report.{id_}"]


# ------------------------------------------------------------------------- in short


@pytest.mark.parametrize("full", [True, False])
def test_in_short_always_names_power_weight_and_size_class(case: tuple[Profile, Study], full: bool) -> None:
    profile, found = case
    lines = under(document(profile, full=full, studied=found), say(profile.book, "short"))
    power = profile.outcomes["pto_power"]
    assert any(line.startswith(power.requirement.title) for line in lines) == (power.widest is not None)
    masses = [o for id_ in ("mass", "mass_balance", "mass_towing") if (o := profile.outcomes[id_]).widest is not None]
    heaviest = max((o.widest.stated for o in masses if o.widest is not None), default=None)
    named = [o for o in masses if any(line.startswith(o.requirement.title) for line in lines)]
    assert heaviest is None or heaviest in [o.widest.stated for o in named if o.widest is not None]
    assert found.plausibility.text in lines
    if profile.points_to is not None:
        assert profile.points_to.name in found.plausibility.text


def test_where_nothing_asks_for_power_or_weight_that_is_said(maker: Maker) -> None:
    profile = maker.profile([{"kind": "bale_spear_loader"}])
    assert profile.outcomes["pto_power"].widest is None
    lines = under(document(profile, full=False), say(maker.book, "short"))
    assert say(maker.book, "none_asked.pto_power") in lines


def test_what_is_not_asked_for_is_one_line_and_a_whole_group_is_named_once(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower"}])
    page = document(profile, full=False)
    begin = say(maker.book, "not_needed").partition("{")[0]
    lines = [b.text for b in page if isinstance(b, Paragraph) and b.text.startswith(begin)]
    assert len(lines) == 1
    assert "drawbar (all of it)" in lines[0]
    assert "pull at the drawbar" not in lines[0]


# ------------------------------------------------------------------- ways out, prices, doubts


def test_what_was_tried_stands_above_the_advice_that_was_not(case: tuple[Profile, Study]) -> None:
    profile, found = case
    for full in (True, False):
        page = document(profile, full=full, studied=found)
        lines = under(page, say(profile.book, "conflicts")) + under(page, say(profile.book, "refusals"))
        for ways in found.ways:
            enough = [way for way in ways.tried if way.ends]
            wanted = ways.tried if full else (enough[:3] or ways.tried[:1])
            places = [lines.index(way.text) for way in wanted]
            assert places == sorted(places)
            for advice in ways.advice:
                id_ = "way_untried" if ways.tried else "way_out"
                assert say(profile.book, id_).format(way=advice) in lines


def test_the_short_page_has_the_three_doubts_that_move_most(case: tuple[Profile, Study]) -> None:
    profile, found = case
    lines = under(document(profile, full=False, studied=found), say(profile.book, "doubts"))
    first = [doubt.text for doubt in found.doubts.ranked[:3]]
    assert [line for line in lines if line in {d.text for d in found.doubts.ranked}] == first


def test_what_moves_nothing_is_one_line_and_stands_nowhere_else(maker: Maker) -> None:
    profile = maker.profile([{"kind": "finish_mower", "size": "1.5 m"}], soil="not sure", stones="not sure")
    found = study(profile)
    page = document(profile, full=True, studied=found)
    begin = say(maker.book, "doubts_still").partition("{")[0]
    lines = [b.text for b in page if isinstance(b, Paragraph) and b.text.startswith(begin)]
    assert len(lines) == 1
    for name in found.doubts.still_names:
        assert name in lines[0]
    soil = maker.book.question("soil")
    assert soil is not None
    assert not [line for line in under(page, say(maker.book, "assumed")) if soil.ask in line]


def test_the_full_page_has_the_price_of_every_wish_and_of_planning_ahead(maker: Maker) -> None:
    items = [{"kind": "round_baler", "when": "later"}, {"kind": "finish_mower"}]
    profile = maker.profile(items)
    found = study(profile)
    page = document(profile, full=True, studied=found)
    lines = under(page, say(maker.book, "without"))
    assert [one.text for one in found.without.moving] == lines[: len(found.without.moving)]
    ahead = under(page, say(maker.book, "ahead"))
    assert found.ahead is not None
    assert maker.kind("round_baler").name in ahead[0]
    assert len(ahead) > 3
    short = document(profile, full=False, studied=found)
    assert under(short, say(maker.book, "without")) == []


def test_comfort_does_not_count_what_the_buyer_refused(maker: Maker) -> None:
    def line(options: Any) -> str:
        page = document(maker.profile([{"kind": "groomer_trailed", "options": options}], strict=False), full=False)
        sets = [i for b in page if isinstance(b, Bullets) for i in b.items if i.startswith("Rear remote sets:")]
        return sets[0]

    assert "so that nothing is set by hand" in line("not sure")
    assert line(("none_of_these",)) == "Rear remote sets: 1."


# ---------------------------------------------------------------------------- the page


def test_a_step_that_a_conflict_names_stands_on_the_full_page_and_is_not_named_on_the_short_one(maker: Maker) -> None:
    said = {"jobs": ("lawn_mowing",), "lawn_mowing_area": "6 ha", "lawn_mowing_hours": "2 h"}
    profile = maker.profile([{"kind": "finish_mower", "size": "1.2 m"}], **said)
    named = re.findall(r"\bs[0-9]+\b", " ".join(r for c in profile.conflicts for r in c.reasons))
    assert named
    found = study(profile)
    page = document(profile, full=True, studied=found)
    printed = {line.id for block in page if isinstance(block, Working) for line in block.lines}
    assert set(named) <= printed
    short = " ".join(under(document(profile, full=False, studied=found), say(maker.book, "conflicts")))
    assert not re.findall(r"\bs[0-9]+\b", short)



def test_the_full_page_begins_with_its_index(case: tuple[Profile, Study]) -> None:
    profile, found = case
    page = document(profile, full=True, studied=found)
    titles = [b.text for b in page if isinstance(b, Heading) and b.level == 2]
    assert [b.titles for b in page if isinstance(b, Contents)] == [tuple(titles)]
    assert len(titles) == len(set(titles))  # a link finds its heading by its title
