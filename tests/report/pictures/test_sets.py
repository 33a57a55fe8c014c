"""The picture of remote sets: a pair of ports for each, full where it must be, hatched where it is for comfort."""

from __future__ import annotations

import pytest
from drawn import NAMES, boxes, page_of, profile_named, said, written

from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Area, Disc
from firstfurrow.report.pictures import sets
from making import Maker

BLADE = {"kind": "box_blade_hydraulic", "size": "1.8 m", "with": ("hydraulic_top_link",)}


def pictures(profile: Profile) -> list[Picture]:
    return list(sets.pictures(page_of(profile)))


def ports(picture: Picture, fill: str) -> int:
    return sum(isinstance(s, Disc) and s.fill == fill for s in picture.drawing.shapes)


@pytest.mark.parametrize("name", NAMES)
def test_there_are_two_ports_for_each_set_of_each_hookup_and_of_the_tractor(book: Book, name: str) -> None:
    profile = profile_named(book, name)
    found = pictures(profile)
    notes = profile.hookups
    must, comfort = sum(n.sets_must for n in notes), sum(n.sets_comfortable - n.sets_must for n in notes)
    assert len(found) == bool(must + comfort)
    for picture in found:
        widest = profile.outcomes["rear_sets"].widest
        asked = 0 if widest is None else widest.stated
        key = 1
        assert ports(picture, "dark") == 2 * (key + asked + must)
        assert ports(picture, "hatch") == 2 * ((key if comfort else 0) + comfort)
        frames = [s.stroke for s in picture.drawing.shapes if isinstance(s, Area)]
        assert len(frames) * 2 == ports(picture, "dark") + ports(picture, "hatch")
        assert frames.count("dashed") * 2 == ports(picture, "hatch")  # and the frame is another one too


@pytest.mark.parametrize("name", NAMES)
def test_every_set_is_named_by_what_it_moves(book: Book, name: str) -> None:
    profile = profile_named(book, name)
    for picture in pictures(profile):
        for demand in profile.demands:
            if demand.requirement == "rear_sets":
                item = next(n.sized.item for n in profile.hookups if n.sized.item.id == demand.hookup)
                functions = {f.id: f.job for f in item.variant.oil}
                for id_ in demand.top.inputs or {}:
                    job = functions.get(id_) or book.links[id_].name
                    assert f": {job}." in said(picture)
                    assert f": {job}." in written(picture.drawing)


def test_a_link_that_takes_a_set_is_named(maker: Maker) -> None:
    (picture,) = pictures(maker.profile([BLADE]))
    assert "Set 2: hydraulic top link." in written(picture.drawing)
    assert "Set 2: hydraulic top link." in said(picture)


def test_the_rows_stand_below_each_other_so_that_lengths_compare(maker: Maker) -> None:
    (picture,) = pictures(maker.profile([BLADE, {"kind": "log_splitter"}]))
    lefts = [left for left, _, right, _ in boxes(picture.drawing.shapes, "light") if right - left > 30]
    assert lefts[:2] == lefts[2:4]  # tractor and longest row
    assert lefts[4:] == lefts[:1]


def test_what_is_for_comfort_only_is_said_so(book: Book) -> None:
    (picture,) = pictures(profile_named(book, "drive_and_arena"))
    groomer = next(line for line in picture.says if line.startswith("Trailed groomer"))
    assert "must have this many sets: 1" in groomer
    assert "For comfort this many more: 1" in groomer
    assert "for comfort" in written(picture.drawing)


def test_what_may_come_later_and_what_takes_none_is_said(maker: Maker) -> None:
    profile = maker.profile([{**BLADE, "when": "later"}, {"kind": "log_splitter"}, {"kind": "bale_spear"}])
    (picture,) = pictures(profile)
    for text in (said(picture), written(picture.drawing).replace("\n", " ")):
        assert text.count("This may come later.") == 1
        assert "For what is sure, this many are enough: 1." in text
        assert "These take no set: bale spear." in text


def test_of_many_the_others_are_counted(maker: Maker) -> None:
    (picture,) = pictures(maker.profile([{"kind": "log_splitter"}] * (sets.MOST + 2)))
    assert "2 more take as many or fewer." in picture.says
