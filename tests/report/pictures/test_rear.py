"""The rear of a tractor: every place that the plan asks something of has its number, and what is needed there."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from drawn import NAMES, page_of, profile_named, said, written

from firstfurrow.advice.measuring.telling import length
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Disc, Label
from firstfurrow.report.pictures import rear
from firstfurrow.report.pictures.tractor import MIDDLE, PORTS, grooved
from firstfurrow.report.pictures.tractor import rear as tractor
from making import Maker


def picture(profile: Profile) -> Picture:
    return next(rear.pictures(page_of(profile)))


def joined(shown: Picture) -> str:
    return written(shown.drawing).replace("\n", " ")


@pytest.mark.parametrize("name", NAMES)
def test_everything_that_is_seen_there_and_asked_for_is_said(book: Book, name: str) -> None:
    profile = profile_named(book, name)
    text = said(picture(profile)).casefold()
    looked_at = {r for requirements in rear.PLACES.values() for r in requirements} - {"rear_sets_comfortable"}
    asked = [profile.outcomes[id_].widest for id_ in looked_at]
    assert any(asked)
    for widest in asked:
        if widest is not None:
            assert widest.shown.casefold() in text


@pytest.mark.parametrize("name", NAMES)
def test_the_list_counts_from_one_and_each_number_stands_on_the_tractor(book: Book, name: str) -> None:
    shown = picture(profile_named(book, name))
    listed = [int(found[1]) for line in shown.says if (found := re.match(r"Number (\d+)\. ", line))]
    assert listed == list(range(1, len(listed) + 1))
    rings = [s for s in shown.drawing.shapes if isinstance(s, Disc) and s.fill == "paper" and s.r == 10]
    written_in = [s.text for s in shown.drawing.shapes if isinstance(s, Label) and s.anchor == "middle" and s.bold]
    for number in listed:
        assert written_in.count(str(number)) >= 2  # on the tractor and in the list
    assert len(rings) >= len(written_in)
    for label in shown.drawing.shapes:
        if isinstance(label, Label) and label.bold and label.text.isdigit():
            assert any(ring.x == label.x and abs(ring.y - label.y) < ring.r for ring in rings)


@pytest.mark.parametrize("name", NAMES)
def test_a_place_is_either_numbered_or_said_to_be_free(book: Book, name: str) -> None:
    shown = picture(profile_named(book, name))
    (free,) = [line for line in shown.says if line.startswith("This plan asks for no size")] or [""]
    for id_ in rear.PLACES:
        if id_ not in rear.SIZES:
            place = book.messages[f"picture.rear.place.{id_}"]
            assert any(f". {place}. " in line for line in shown.says) != (place in free)


def test_sizes_are_those_of_the_table_in_the_units_of_the_reader(book: Book, maker: Maker) -> None:
    # Ball hole of category 2 at the tractor, 28.7 mm: a trade table, as quoted in the book.
    rows = book.tables["hitch_categories"].rows
    hole = rows["2"]["lower_ball_hole"].planning
    metric, us = (said(picture(maker.profile([{"kind": "bale_spear"}], units=units))) for units in ("metric", "us"))
    assert "28.7 mm for category 2" in metric
    assert length(hole).split(" (")[0] in metric
    assert "1 1/8 in (28.7 mm) for category 2" in us
    assert "in (" not in metric


def test_a_figure_from_memory_says_so_and_sources_are_kept_for_the_list(book: Book, maker: Maker) -> None:
    page = page_of(maker.profile([{"kind": "utility_trailer", "load": "500 kg"}]))
    (shown,) = rear.pictures(page)
    row = book.tables["drawbar_classes"].rows["0"]["pin"]
    assert row.grade == "memory"
    assert f"{row.planning:g} mm (from memory, to be checked)" in said(shown)
    assert row.source in page.sources


@pytest.mark.parametrize("name", NAMES)
def test_the_usual_caution_stands_on_the_drawing(book: Book, name: str) -> None:
    shown = picture(profile_named(book, name))
    care = book.messages["picture.rear.care"]
    assert care in joined(shown)
    assert shown.says[-1] == care


def test_what_only_may_come_is_said_so(maker: Maker) -> None:
    tiller = {"kind": "rotary_tiller", "size": "1.5 m", "when": "later"}
    text = said(picture(maker.profile([{"kind": "bale_spear"}, tiller])))
    assert re.search(r"Speed: 540 rev/min, for what may come later\.", text)


@pytest.mark.parametrize("sets", [0, 1, 3, 6, 8])
def test_there_are_two_ports_for_each_set_between_the_posts(sets: int) -> None:
    shapes = tractor(sets, 6, emblem=False, brake=False)
    ports = [s for s in shapes if isinstance(s, Disc) and s.fill == "dark" and PORTS[0] < s.y < sum(PORTS)]
    assert len(ports) == 2 * sets
    assert all(abs(port.x - MIDDLE) + port.r < 68 for port in ports)  # half of what is free between the posts
    places = sorted({port.x for port in ports})
    assert all(b - a > 2 * ports[0].r for a, b in pairwise(places))


@pytest.mark.parametrize(("type_", "splines"), [("1", 6), ("2", 21), ("3", 20)])
def test_the_shaft_has_as_many_grooves_as_its_type(book: Book, type_: str, splines: int) -> None:
    """Table 3 of PAES 118, as quoted in the book."""
    assert book.tables["shaft_types"].rows[type_]["splines"].planning == splines
    outline, _ = grooved(0, 0, 10, splines)
    radii = [round((x * x + y * y) ** 0.5, 3) for x, y in outline.points]  # type: ignore[union-attr]
    falls = sum(a > b for a, b in zip(radii, [*radii[1:], radii[0]], strict=True))
    assert falls == splines


def test_a_recording_with_a_driven_tool_has_the_grooves_of_its_shaft(book: Book) -> None:
    profile = profile_named(book, "garden_on_clay")
    assert rear._splines(page_of(profile)) == 6


def test_there_is_none_where_nothing_is_asked(maker: Maker) -> None:
    assert not list(rear.pictures(page_of(maker.profile())))
