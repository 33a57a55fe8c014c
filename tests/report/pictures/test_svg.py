"""Pictures on every page that was recorded: whole, readable, said in words; and as SVG strict and safe."""

from __future__ import annotations

import math
import re
from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from drawn import NAMES, labels, numbers, page_of, profile_named, renamed, said, written

from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import SIZES, Disc, Drawing, Label, Line, Path
from firstfurrow.report.pictures.before_after import before_after
from firstfurrow.report.pictures.every import every
from firstfurrow.report.pictures.letters import MORE, box, fitted, lines, width
from firstfurrow.report.svg import svg, svg_file
from making import Maker

SVG = "{http://www.w3.org/2000/svg}"
NASTY = 'Tool <script>alert("1")</script> & \u202eson\x07\ud800'
EDGE = 0.5  # of a unit: a hair
# Two plans beside each other: as two pages of one list, so that every pair of neighbours is drawn once.
PAIRS = tuple(zip(NAMES, (*NAMES[1:], NAMES[0]), strict=True))


def drawn(book: Book, name: str) -> tuple[Picture, ...]:
    return tuple(every(page_of(profile_named(book, name))))


def overlaps(drawing: Drawing) -> list[tuple[str, str]]:
    """Pairs of words that lie over each other."""
    found = []
    for one, other in combinations(labels(drawing), 2):
        a, b = box(one), box(other)
        wide, high = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
        if wide > EDGE and high > EDGE:
            found.append((one.text, other.text))
    return found


def outside(drawing: Drawing) -> list[str]:
    """Words that run out of the sheet."""
    return [
        label.text for label in labels(drawing)
        if (b := box(label))[0] < 0 or b[1] < 0 or b[2] > drawing.width or b[3] > drawing.height
    ]  # fmt: skip


def checked(picture: Picture) -> None:
    """What holds for every picture."""
    assert picture.title
    assert picture.says
    assert not overlaps(picture.drawing)
    assert not outside(picture.drawing)
    whole = svg(picture.drawing, picture.title, "one")
    ET.fromstring(whole)
    assert not re.search(r"(?:href|src|style|on\w+)=|<(?:script|image|style|foreignObject)|nan|inf\b", whole)


@pytest.mark.parametrize("name", NAMES)
def test_no_words_meet_and_none_leaves_the_sheet(book: Book, name: str) -> None:
    found = drawn(book, name)
    assert found
    for picture in found:
        checked(picture)


@pytest.mark.parametrize("names", PAIRS, ids="-".join)
def test_so_it_is_with_two_plans_side_by_side(book: Book, names: tuple[str, str]) -> None:
    before, after = (profile_named(book, name) for name in names)
    picture = before_after(book, before, after, names)
    assert picture is not None
    checked(picture)
    assert numbers(written(picture.drawing)) <= numbers(said(picture))


@pytest.mark.parametrize("name", NAMES)
def test_the_sentences_name_every_number_that_is_drawn(book: Book, name: str) -> None:
    """Lift, balance and slope say the step of their scale instead of its marks: their own tests look at them."""
    for picture in drawn(book, name):
        if picture.name in ("rear", "power", "sets"):
            missing = numbers(written(picture.drawing)) - numbers(said(picture))
            assert not missing, picture.name


@pytest.mark.parametrize("name", NAMES)
def test_letters_are_large_enough_for_a_sheet_as_wide_as_the_page(book: Book, name: str) -> None:
    for picture in drawn(book, name):
        smallest = min(SIZES[label.size] for label in labels(picture.drawing))
        assert smallest >= 11
        assert smallest / picture.drawing.width >= 11 / 640


@pytest.mark.parametrize("name", NAMES)
def test_no_id_stands_twice_on_a_page_with_all_pictures(book: Book, name: str) -> None:
    page = "".join(svg(p.drawing, p.title, f"report-{n}") for n, p in enumerate(drawn(book, name)))
    ids = re.findall(r'\bid="([^"]*)"', page)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]*)\)", page)) <= set(ids)


def test_a_page_without_anything_has_no_picture(maker: Maker) -> None:
    assert not list(every(page_of(maker.profile())))


def test_names_of_ten_thousand_letters_and_of_signs_do_no_harm(book: Book, maker: Maker) -> None:
    plan = maker.plan([
        {"kind": "box_blade_hydraulic", "size": "1.8 m"}, {"kind": "rotary_tiller", "size": "1.5 m", "when": "later"},
        {"kind": "small_square_baler"}, {"kind": "hay_wagon"},
    ], strict=False)  # fmt: skip
    for name in (NASTY * 250, "x" * 10_000, "Seeder for forty-five letters, as a name has it", "畑" * 300, "?"):
        profile: Profile = renamed(book, plan, name)
        pictures = list(every(page_of(profile)))
        assert {"power", "sets"} <= {picture.name for picture in pictures}
        for picture in pictures:
            checked(picture)
        both = before_after(book, profile, maker.profile(), (name, name))
        assert both is not None
        checked(both)


# ---------------------------------------------------------------------- letters


def test_the_estimate_is_not_below_the_letters_of_the_usual_font() -> None:
    # Advances in thousandths of Helvetica, from memory, and the same as measured of a font made to its measures.
    known = {"The tractor must have": 9726, "mower": 3000, "0123456789": 5560, "WWW": 2832, "illi": 888,
             "category": 3835}  # fmt: skip
    for text, thousandths in known.items():
        real = thousandths / 1000 * SIZES["normal"]
        assert real * 0.99 <= width(text) <= real * 1.12, text


def test_a_long_name_is_broken_and_then_shortened() -> None:
    two = lines("Seeder for forty-five letters, as a name has it and more of it", 200)
    assert len(two) == 2
    assert all(width(line) <= 200 for line in two)
    assert fitted("short", 200) == "short"
    assert fitted("x" * 10_000, 200).endswith(MORE)
    assert width(fitted("x" * 10_000, 200)) <= 200


def test_no_line_ends_between_a_number_and_its_unit() -> None:
    for room in range(100, 240, 3):
        for line in lines("Middle to middle of the balls: 34 1/4 in (870 mm) for category 2.", room, most=9):
            assert not re.search(r"\d$", line.rstrip(MORE)), (room, line)


# -------------------------------------------------------------------- as a file


SHEET = Drawing(480, 100, (Line(0, 0, 10, 1 / 3, arrow="both"), Path(((0, 0), (5, 5))), Label(8, 20, NASTY)))


def test_text_is_text_and_hidden_signs_are_gone() -> None:
    tree = ET.fromstring(svg(SHEET, NASTY, "one"))
    for element in (tree.find(f"{SVG}title"), tree.find(f"{SVG}text")):
        assert element is not None
        text = element.text or ""
        assert "<script>" in text
        assert "&" in text
        assert not re.search("[\u202a-\u202e\x00-\x1f\ud800-\udfff]", text)
    assert not list(tree.iter(f"{SVG}script"))


def test_it_points_to_its_title_and_to_the_sentences_below_it() -> None:
    tree = ET.fromstring(svg(SHEET, "A title", "report-3"))
    assert tree.get("role") == "img"
    assert tree.get("aria-labelledby") == "report-3-title"
    assert tree.get("aria-describedby") == "report-3-says"
    title = tree.find(f"{SVG}title")
    assert title is not None
    assert (title.get("id"), title.text) == ("report-3-title", "A title")


def test_a_file_of_its_own_carries_the_sentences() -> None:
    whole = svg_file(SHEET, "A title", ("One.", "Two & <three>."))
    tree = ET.fromstring(whole.encode())
    assert (tree.get("width"), tree.get("height"), tree.get("viewBox")) == ("480", "100", "0 0 480 100")
    desc = tree.find(f"{SVG}desc")
    assert desc is not None
    assert desc.text == "One. Two & <three>."
    assert desc.get("id") == tree.get("aria-describedby")


def test_numbers_are_written_to_the_hundredth() -> None:
    assert 'x2="10" y2="0.33"' in svg(SHEET, "", "one")
    assert 'cx="1234.57"' in svg(Drawing(9, 9, (Disc(1234.5678, 0, 1),)), "", "one")


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_refused(number: float) -> None:
    with pytest.raises(ValueError, match="point"):
        svg(Drawing(9, 9, (Disc(number, 0, 1),)), "", "one")


@pytest.mark.parametrize("id_", ["", "1a", 'a" onload="x', "a b", "a#b"])
def test_what_is_no_id_is_refused(id_: str) -> None:
    with pytest.raises(ValueError, match="id"):
        svg(SHEET, "", id_)


def test_the_checks_above_see_words_that_meet_and_words_that_leave() -> None:
    bad = Drawing(100, 50, (Label(10, 20, "one two"), Label(20, 24, "three"), Label(60, 40, "a long way out")))
    assert overlaps(bad) == [("one two", "three")]
    assert outside(bad) == ["a long way out"]
