"""The sheet to take to the tractor: everything that is sure, what would be nice, how to check it, room to write."""

from __future__ import annotations

from itertools import pairwise

import pytest

from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import Answers, Units
from firstfurrow.book.model import Book
from firstfurrow.pages import yard_page
from firstfurrow.report.blocks import Bullets, Checklist, Document, Heading
from firstfurrow.report.text import ROOM, render
from firstfurrow.report.yard import yard_document
from firstfurrow.talk.recordings import shipped
from making import Maker

NOW = {"kind": "box_blade_hydraulic", "size": "1.8 m"}
LATER = {"kind": "rotary_tiller", "size": "1.5 m", "when": "later"}


def lines(page: Document, title: str) -> tuple[str, ...]:
    """The list below a heading."""
    for heading, block in pairwise(page):
        if isinstance(heading, Heading) and heading.text == title:
            if isinstance(block, Bullets):
                return block.items
            if isinstance(block, Checklist):
                return tuple(f"{row.what}: {row.need}. {row.check}" for row in block.rows)
    return ()


@pytest.fixture(scope="module")
def profile(maker: Maker) -> Profile:
    return maker.profile([NOW, LATER])


def test_every_sure_requirement_has_a_line_with_its_figure_and_room_to_write(profile: Profile) -> None:
    must = lines(yard_document(profile), "It must have")
    sure = [o for o in profile.outcomes.values() if o.sure is not None and o.requirement.id != "rear_sets_comfortable"]
    assert len(must) == len(sure)
    for line, outcome in zip(must, sure, strict=True):
        assert line.startswith(outcome.requirement.title)
        assert outcome.sure is not None
        assert outcome.sure.shown in line
    assert render(yard_document(profile), 80).count(ROOM[:4]) >= len(must)


def test_what_may_come_later_and_comfort_are_nice_to_have(profile: Profile) -> None:
    nice = " ".join(lines(yard_document(profile), "Nice to have"))
    assert "Shaft speed (PTO speed)" in nice
    assert "Rear remote sets, for comfort" in nice
    assert "Shaft speed (PTO speed)" not in " ".join(lines(yard_document(profile), "It must have"))


def test_what_nobody_measured_is_to_be_measured_at_home(maker: Maker) -> None:
    page = yard_document(maker.profile([NOW], gate_width="not sure", door_height="not sure"))
    gates, *_ = lines(page, "To measure or look up at home")
    assert gates.startswith("Measure gates and doors. Open until then: Greatest width of the tractor; Greatest height")


def test_what_was_taken_is_named_by_what_to_do_about_it(maker: Maker) -> None:
    page = yard_document(maker.profile([NOW | {"when": "owned", "mass": "not sure"}], soil="not sure"))
    home = lines(page, "To measure or look up at home")
    assert "Tell the soil by hand." in home
    assert "Find the weight of an implement (box blade, teeth moved by oil)." in home


@pytest.mark.parametrize(("units", "hole"), [("us", "7/8 in (22.4 mm)"), ("metric", "22.4 mm")])
def test_a_category_is_told_by_the_holes_that_a_tape_measures(maker: Maker, units: Units, hole: str) -> None:
    must = lines(yard_document(maker.profile([NOW], units=units)), "It must have")
    assert f"{hole} is category 1" in next(line for line in must if line.startswith("Hitch category"))


def test_every_category_has_a_hole_and_every_drawbar_class_a_pin(book: Book) -> None:
    for table, column in (("hitch_categories", "lower_ball_hole"), ("drawbar_classes", "pin")):
        for row in book.tables[table].rows.values():
            assert column in row.figures, row.id


def test_a_refusal_stands_above_everything(maker: Maker) -> None:
    steep = maker.profile([{"kind": "utility_trailer", "load": "3000 kg"}], land_shape=("slopes",), surface="wet_grass",
                          slope_up="25 %", strict=False)  # fmt: skip
    page = yard_document(steep)
    first = next(block for block in page if not isinstance(block, Heading))
    assert "Refused whatever the tractor" in str(first)


def test_nothing_said_is_an_empty_sheet(book: Book) -> None:
    assert "Name an implement" in yard_page(book, Answers(), 80)


@pytest.mark.parametrize("width", [40, 80])
@pytest.mark.parametrize("recording", shipped()[:4], ids=lambda r: r.name)
def test_it_fits_the_paper(book: Book, recording: object, width: int) -> None:
    page = yard_page(book, recording.answers(book), width)  # type: ignore[attr-defined]
    assert max(map(len, page.splitlines())) <= width
    assert "People die of these." in " ".join(page.split())
