"""The page: content blocks as text at any width and encoding, and as JSON that fits its schema."""

import json
import re
from collections.abc import Iterator
from dataclasses import replace

import jsonschema
import pytest

from firstfurrow.advice.profile import advise
from firstfurrow.advice.study import Study
from firstfurrow.advice.study.model import Doubts, Plausibility, WithoutEach
from firstfurrow.asking.answers import Answers, Given, Item
from firstfurrow.asking.complete import complete
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder
from firstfurrow.pages import profile_of
from firstfurrow.report.blocks import Document, Working, texts_of
from firstfurrow.report.document import document
from firstfurrow.report.json_profile import profile_data
from firstfurrow.report.text import render

# Where a test is about the rest of the page: running the road again for every implement of the book takes its time.
NOTHING = Study((), WithoutEach((), ()), None, Doubts((), (), (), (), 0), Plausibility(None, (), False, None, "", ()))


def plan(book: Book, *kinds: str, units: str = "us") -> Answers:
    items = tuple(
        Item(f"i{n}", {"kind": Given(kind, kind), "when": Given("now", "now")}) for n, kind in enumerate(kinds, 1)
    )
    return complete(book, Answers(units=units, items=items, items_made=len(items)))  # type: ignore[arg-type]


def test_an_empty_plan_says_so(book: Book) -> None:
    text = render(document(advise(book, Answers()), full=True), 80)
    assert "Nothing asks anything of a tractor yet" in text


@pytest.mark.parametrize("width", [30, 40, 64, 80, 100])
def test_no_line_is_wider_than_asked(book: Book, width: int) -> None:
    text = render(document(profile_of(book, plan(book, "rotary_tiller", "round_baler")), full=True), width)
    assert max(map(len, text.splitlines())) <= width


def test_plain_characters_where_the_terminal_has_no_others(book: Book) -> None:
    text = render(document(profile_of(book, plan(book, "mouldboard_plough")), full=True), 80, encoding="ascii")
    assert text.isascii()
    assert " x " in text
    everywhere = render(document(profile_of(book, plan(book, "mouldboard_plough")), full=True), 80)
    assert text.count("?") == everywhere.count("?")  # nothing had to be replaced by a question mark


def test_nothing_is_said_by_colour_alone(book: Book) -> None:
    page = document(profile_of(book, plan(book, "rotary_tiller")), full=True)
    bare = re.sub(r"\x1b\[[0-9;]*m", "", render(page, 80, colour=True))
    assert [line.rstrip() for line in bare.splitlines()] == render(page, 80).splitlines()


@pytest.mark.parametrize("units", ["us", "metric"])
def test_json_fits_the_schema(book: Book, units: str) -> None:
    schema = json.loads((book_folder() / "schema" / "profile.schema.json").read_text(encoding="utf-8"))
    kinds = ("rotary_cutter_medium", "round_baler", "box_blade_hydraulic", "loader_grapple", "no_till_drill")
    data = json.loads(json.dumps(profile_data(profile_of(book, plan(book, *kinds, units=units)))))
    jsonschema.Draft202012Validator(schema).validate(data)
    by_id = {r["id"]: r for r in data["requirements"]}
    assert list(by_id) == list(book.requirements)
    steps = {step["id"] for step in data["steps"]}
    for requirement in by_id.values():
        for sort in ("sure", "with_later"):
            if requirement[sort] is not None:
                assert requirement[sort]["top_step"] in steps


def test_json_values_do_not_depend_on_the_readers_units(book: Book) -> None:
    def stated(units: str) -> dict[str, object]:
        data = profile_data(profile_of(book, plan(book, "rotary_tiller", "dump_trailer", units=units)))
        return {r["id"]: r["with_later"] and r["with_later"]["stated"] for r in data["requirements"]}

    assert stated("us") == stated("metric")


def test_every_unfavourable_figure_shows_planning_beside_it(book: Book) -> None:
    profile = profile_of(book, plan(book, "rotary_cutter_medium"))
    text = " ".join(render(document(profile, full=True), 80).split())
    lift = profile.outcomes["lift_610"].widest
    assert lift is not None
    assert lift.planning < lift.high
    assert lift.stated >= lift.high
    assert f"With usual figures it is {lift.planning_shown}" in text


def test_the_page_never_hides_what_is_not_worked_out(book: Book) -> None:
    for full in (True, False):
        text = " ".join(render(document(profile_of(book, plan(book, "bale_spear")), full=full), 80).split())
        assert "What the axles, tyres and brakes of one real tractor may carry and hold stands in" in text


def test_what_can_hurt_stands_on_the_short_page_too(book: Book) -> None:
    text = " ".join(render(document(profile_of(book, plan(book, "rotary_cutter_medium")), full=False), 80).split())
    assert book.kinds["rotary_cutter_medium"].cautions
    for caution in book.kinds["rotary_cutter_medium"].cautions:
        assert caution in text


def test_a_side_slope_that_nobody_measured_carries_its_caution(book: Book) -> None:
    answers = plan(book, "finish_mower")
    answers = replace(answers, given={**answers.given, "land_shape": Given(("slopes",), "slopes")})
    for full in (True, False):
        text = " ".join(render(document(profile_of(book, answers), full=full), 80).split())
        assert "Do not drive across a slope that nobody has measured." in text
        assert "Roll bar up and belt on." in text


def test_a_load_without_brakes_carries_its_caution_on_every_page(book: Book) -> None:
    given = {"tow_other": Given("often", "often"), "tow_mass": Given(6000.0, "6000 kg")}
    for brakes, warned in (("no_brakes", True), ("has_brakes", False)):
        answers = plan(book)
        answers = replace(answers, given={**answers.given, **given, "tow_brakes": Given(brakes, brakes)})
        for full in (True, False):
            text = " ".join(render(document(profile_of(book, answers), full=full), 80).split())
            assert ("A load that outweighs the tractor pushes it aside and over" in text) is warned


def sentences(page: Document) -> Iterator[str]:
    """Every text of a page by itself: what stands beside it in a table or above it in the working is no slip."""
    for block in page:
        if isinstance(block, Working):
            yield from (text for line in block.lines for text in (line.title, line.formula, line.origin) if text)
        else:
            yield from texts_of(block)


@pytest.mark.parametrize("slope", [5.0, 70.0])
def test_no_word_stands_twice_in_a_row(book: Book, slope: float) -> None:
    """A name that brings its own article, put into a sentence that has one, reads like a slip."""
    given = {
        "land_shape": Given(("slopes",), "slopes"), "slope_up": Given(slope, f"{slope:g} %"),
        "tow_other": Given("often", "often"), "tow_mass": Given(6000.0, "6000 kg"),
    }  # fmt: skip
    kinds = list(book.kinds)  # a quarter of them on each of the slopes: a plan of all takes long to carry to the end
    some, few = plan(book, *kinds[slope > 30 :: 4]), plan(book, *kinds[::9])
    for answers, studied in ((some, NOTHING), (few, None)):
        answers = replace(answers, given={**answers.given, **given})
        texts = list(sentences(document(profile_of(book, answers), full=True, studied=studied)))
        assert len(texts) > 300
        assert [text for text in texts if re.search(r"\b([A-Za-z]+) \1\b", text, re.IGNORECASE)] == []


def test_the_distance_to_the_pin_is_in_whole_inches_for_a_us_reader(book: Book) -> None:
    us, metric = (
        profile_of(book, plan(book, "small_square_baler", units=units)).outcomes["shaft_to_pin"].widest
        for units in ("us", "metric")
    )
    assert us is not None
    assert metric is not None
    assert us.shown == "14 in (350 mm)"
    assert metric.shown == "350 mm"


def test_what_meets_no_stones_gets_no_advice_about_stones(book: Book) -> None:
    """A clutch, a bolt or a trip protects what works in or close to the ground, not a splitter or a trailer."""
    advice = book.messages["report.stones"]
    for kind, told in (
        ("log_splitter", False), ("utility_trailer", False), ("wood_chipper", False), ("ball_frame", False),
        ("mouldboard_plough", True), ("rotary_tiller", True), ("rotary_cutter_light", True), ("post_hole_digger", True),
    ):  # fmt: skip
        answers = plan(book, kind)
        answers = replace(answers, given={**answers.given, "stones": Given("many", "many")})
        texts = sentences(document(profile_of(book, answers), full=True, studied=NOTHING))
        assert any(advice in text for text in texts) == told, kind


def test_weight_that_nothing_asks_for_is_no_leave_to_buy_a_light_tractor(book: Book) -> None:
    profile = profile_of(book, plan(book, "loader_bucket"))
    assert not {"mass", "mass_balance", "mass_towing"} & {id_ for id_, o in profile.outcomes.items() if o.widest}
    text = " ".join(render(document(profile, full=False), 80).split())
    assert "nothing named here asks for more than a usual tractor of its sort weighs" in text
