"""What was measured at a machine, told: right category, what else, what next; unsure stays unsure."""

from __future__ import annotations

import itertools
import random
import re
from pathlib import Path

import pytest

import firstfurrow
from firstfurrow.advice.measuring import find
from firstfurrow.book.model import GRADES, Book

SOURCE = Path(firstfurrow.__file__).parent


def told(book: Book, station: str, **readings: str | float) -> dict[str, str]:
    """The sentences under each heading, as one text."""
    words = book.measuring.words if book.measuring else {}
    found = {part.heading: " ".join(part.lines) for part in find(book, station, readings)}
    return {name: found.get(words[f"head_{name}"], "") for name in ("is", "else", "next", "care")}


# ------------------------------------------------------------------ the arms


@pytest.mark.parametrize("row", ["0", "type_0", "1N", "1", "2", "2N", "3", "3N", "4", "4N"])
def test_an_implement_as_new_is_told_by_pin_and_span(book: Book, row: str) -> None:
    figures = book.tables["hitch_categories"][row]
    pin, span = figures["lower_stud"].planning, figures["span_implement"].planning
    said = told(book, "hitch", side="implement", lower_pin=pin, span_between="shoulders", span=span)
    assert f" is: {figures.name}." in said["is"]


@pytest.mark.parametrize("row", ["type_0", "1N", "1", "2", "2N", "3", "3N", "4", "4N"])
def test_a_tractor_is_told_by_hole_and_ball_centres(book: Book, row: str) -> None:
    figures = book.tables["hitch_categories"][row]
    own = figures.figures.get("span_tractor")
    span = own.planning if own else figures["span_implement"].planning + figures["lower_ball_width"].planning
    hole = figures["lower_ball_hole"].planning
    said = told(book, "hitch", side="tractor", lower_hole=hole, span_between="centres", span=span)
    assert f" is: {figures.name}." in said["is"]


@pytest.mark.parametrize(("row", "points", "span"), [("1", "shoulders", 683.0), ("1", "centres", 718.0),
                                                     ("2", "shoulders", 825.0), ("2", "centres", 870.0)])  # fmt: skip
def test_both_spans_are_accepted_even_when_the_points_are_not_known(
    book: Book, row: str, points: str, span: float
) -> None:
    figures = book.tables["hitch_categories"][row]
    pin = figures["lower_stud"].planning
    for readings in ({"span_between": points}, {}):
        assert f"It is: {figures.name}." in told(book, "hitch", lower_any=pin, span=span, **readings)["is"]


def test_a_span_between_the_other_points_than_said_is_found_out(book: Book) -> None:
    said = told(book, "hitch", side="implement", lower_pin=28.0, span_between="shoulders", span=870.0)
    assert said["is"].startswith("No category")
    assert "category 2, if the span was taken between the middles of the balls." in said["else"]


@pytest.mark.parametrize("pin", [26.1, 26.5, 26.9])
def test_a_worn_2_is_still_a_2_and_not_sure(book: Book, pin: float) -> None:
    said = told(book, "hitch", side="implement", state="worn", lower_pin=pin, span_between="shoulders", span=825.0)
    assert "Most likely it is: category 2." in said["is"]
    assert "The difference is wear." in said["is"]
    assert "where nothing rubs" in said["next"]
    assert "Have it replaced" in said["care"]


def test_a_worn_ball_of_a_2_is_wider_and_still_a_2(book: Book) -> None:
    said = told(book, "hitch", side="tractor", lower_hole=30.8, span_between="centres", span=872.0)
    assert "Most likely it is: category 2." in said["is"]


def test_wear_goes_one_way_only(book: Book) -> None:
    """A pin that is thicker than new by what a worn one may be thinner is no pin of that category."""
    thin = told(book, "hitch", side="implement", lower_pin=26.5, span=825.0)["is"]
    thick = told(book, "hitch", side="implement", lower_pin=29.5, span=825.0)["is"]
    assert "it is: category 2." in thin
    assert thick.startswith("No category")


def test_no_measure_fits_two_pins_as_new(book: Book) -> None:
    """The tolerances leave a gap between the lower pins of neighbours, worn or not."""
    figures = book.measuring.figures if book.measuring else {}
    pins = sorted({row["lower_stud"].planning for row in book.tables["hitch_categories"].rows.values()})
    for smaller, larger in itertools.pairwise(pins):
        assert smaller + figures["tape"].planning < larger - figures["wear_pin"].planning
    holes = sorted({row["lower_ball_hole"].planning for row in book.tables["hitch_categories"].rows.values()})
    for smaller, larger in itertools.pairwise(holes):
        assert smaller + figures["wear_hole"].planning < larger - figures["tape"].planning


def test_pins_alone_leave_the_small_ones_open_and_ask_for_the_span(book: Book) -> None:
    said = told(book, "hitch", lower_any=22.0)
    assert said["is"].startswith("It can be: category 1, Japanese small type or category 1 narrow.")  # usual first
    assert "limited category 1" in said["else"]
    assert "Measure the span" in said["next"]
    assert "first sold" in said["next"]


@pytest.mark.parametrize(("pin", "name"), [(25.4, "category 2"), (19.0, "category 1"), (31.75, "category 3")])
def test_an_upper_pin_taken_for_a_lower_one_is_named(book: Book, pin: float, name: str) -> None:
    said = told(book, "hitch", side="implement", lower_pin=pin, span=683.0)
    assert "is an upper pin of" in said["is"]
    assert name in said["is"]


def test_pins_of_one_category_on_the_span_of_another_are_no_category(book: Book) -> None:
    said = told(book, "hitch", side="implement", lower_pin=22.0, span_between="shoulders", span=825.0)
    assert "No category" in said["is"]
    assert "other pins or a wider cross-bar" in said["is"]


def test_a_sleeve_never_makes_a_thick_pin_enter_a_small_ball(book: Book) -> None:
    said = told(book, "hitch", side="implement", state="sleeve", lower_pin=22.0, span=683.0)
    assert "never the other way" in said["care"]


def test_an_american_mast_of_old_is_named(book: Book) -> None:
    readings = {"side": "implement", "lower_pin": 28.0, "span_between": "shoulders", "span": 825.0}
    assert "older implement of the United States" in told(book, "hitch", **readings, mast=485.0)["is"]
    assert "is as tall as category 2 asks" in told(book, "hitch", **readings, mast=612.0)["is"]
    assert "It lifts at another angle" in told(book, "hitch", **readings, mast=540.0)["is"]


def test_measuring_more_never_makes_an_other_category_of_it(book: Book) -> None:
    row = book.tables["hitch_categories"]["2"]
    readings: dict[str, str | float] = {"side": "implement"}
    for step, value in (
        ("lower_pin", row["lower_stud"]),
        ("span", row["span_implement"]),
        ("upper_pin", row["upper_pin"]),
    ):
        readings[step] = value.planning
        assert "category 2" in told(book, "hitch", **readings)["is"]


@pytest.mark.parametrize(
    ("pin", "span", "says"),
    [
        (28.0, 325.0, "category 2, if the span was read in inches: 32.5 in, not 32.5 cm."),
        (22.0, 683.0 * 2.54, "category 1, if the span was read in centimetres: 68.3 cm, not 68.3 in."),
        (69.0, 683.0, "category 1, if the tape went around: 69 mm"),
        (26.5, 325.0, "category 2, if the span was read in inches"),
    ],
)
def test_a_reading_in_the_other_unit_or_around_the_pin_is_found_out(
    book: Book, pin: float, span: float, says: str
) -> None:
    said = told(book, "hitch", side="implement", lower_pin=pin, span_between="shoulders", span=span)
    assert said["is"].startswith("No category")
    assert says in said["else"]


# ------------------------------------------------------------------ the shaft


@pytest.mark.parametrize(("grooves", "mm", "name"), [(6, 34.9, "type 1"), (21, 34.9, "type 2"), (20, 44.45, "type 3"),
                                                     (22, 57.5, "type 4"), (15, 25.4, "mid-mount")])  # fmt: skip
def test_grooves_and_thickness_name_the_shaft(book: Book, grooves: int, mm: float, name: str) -> None:
    """1 3/8 in and 1 3/4 in on a tape count for 35 and 45 mm."""
    assert f" is: {name}" in told(book, "shaft", grooves=grooves, thickness=mm)["is"]


def test_a_miscount_of_many_grooves_is_found_by_the_thickness(book: Book) -> None:
    said = told(book, "shaft", grooves=20, thickness=35.0)
    assert "Most likely it is: type 2" in said["is"]
    assert "Count again" in said["is"]


def test_nobody_miscounts_six_grooves(book: Book) -> None:
    assert told(book, "shaft", grooves=7, thickness=35.0)["is"].startswith("No shaft")


def test_one_of_two_measures_says_what_to_measure_next(book: Book) -> None:
    assert "Count the grooves" in told(book, "shaft", thickness=35.0)["next"]
    said = told(book, "shaft", grooves=20)
    assert "type 2" in said["else"]
    assert "thickness" in said["next"]


def test_a_thin_old_shaft_is_not_type_1(book: Book) -> None:
    said = told(book, "shaft", grooves=6, thickness=29.0)
    assert "thin six-groove shaft" in said["is"]
    assert "none of the usual types" in said["is"]


# ------------------------------------------------- couplers, drawbar, couplings


def test_every_coupler_is_told_by_its_face_its_stamp_and_its_tip(book: Book) -> None:
    assert book.measuring is not None
    rows = book.measuring.lookalikes["coupler"]
    assert len(rows) == 15
    for row in rows:
        nose = row["nose"].planning
        said = told(book, "coupler", face=row.words["face"], stamp=row.words["stamp"], nose=nose)
        assert f"t is: {row.name}." in said["is"]
        assert "Stamp and tip say the same." in said["is"]
        assert f"{row['size'].planning:g} mm" in said["is"]


def test_the_usual_coupler_and_its_look_alike_have_one_stamp_and_two_tips(book: Book) -> None:
    by_stamp = told(book, "coupler", face="tip", stamp="half")
    assert by_stamp["is"].startswith("By its stamp it can be quick coupler for oil, usual size or North American")
    assert "Measure the round end" in by_stamp["next"]
    usual = told(book, "coupler", face="tip", stamp="half", nose=20.5)["is"]
    assert "quick coupler for oil, usual size." in usual
    assert "that tractors and implements usually have" in usual
    north = told(book, "coupler", face="tip", stamp="half", nose=23.5)
    assert "North American coupler with a tip, half-inch size." in north["is"]
    assert "not even with one of the same stamp" in north["is"]
    assert "look" in north["else"]


def test_a_tip_between_two_sizes_asks_for_a_calliper(book: Book) -> None:
    said = told(book, "coupler", face="tip", nose=19.8)
    assert said["is"].startswith("It can be: quick coupler for oil, usual size or North American")
    assert "Measure the tip again with a calliper" in said["next"]
    assert "Measure the tip again" not in told(book, "coupler", face="tip", nose=29.0)["next"]


def test_a_coupler_of_another_size_does_not_go_with_the_usual_one(book: Book) -> None:
    for readings in ({"nose": 29.0}, {"nose": 11.8}, {"stamp": "quarter", "nose": 11.8}):
        assert "It will not go with couplers of 12.5 mm" in told(book, "coupler", face="tip", **readings)["is"]


def test_a_stamp_and_a_tip_that_do_not_agree_are_said(book: Book) -> None:
    said = told(book, "coupler", face="tip", stamp="inch", nose=20.5)["is"]
    assert "one-inch size" in said
    assert "and the tip says quick coupler for oil, usual size" in said
    strange = told(book, "coupler", face="tip", stamp="half", nose=50.0)["is"]
    assert "no coupler in the book has a tip of 50 mm" in strange
    assert "that stamp and that face" in told(book, "coupler", face="tip", stamp="five_eighths")["is"]


def test_the_face_alone_is_the_family(book: Book) -> None:
    assert "a family with a tip" in told(book, "coupler", face="tip", stamp="none")["is"]
    flat = told(book, "coupler", face="flat")
    assert "flush-face coupler" in flat["is"]
    assert "200 bar" in flat["is"]
    assert "never goes with a tip" in flat["else"]
    assert "flat-face coupler, five-eighths size" in told(book, "coupler", face="flat", stamp="five_eighths")["is"]
    assert "whether a tip stands out" in told(book, "coupler")["next"]


@pytest.mark.parametrize(("pin", "power", "name"), [(18.0, 20.0, "0"), (30.0, 40.0, "1"), (29.0, 90.0, "2"),
                                                    (38.0, 150.0, "3"), (50.0, 250.0, "4"),
                                                    (70.0, 450.0, "5")])  # fmt: skip
def test_drawbar_by_pin_and_power(book: Book, pin: float, power: float, name: str) -> None:
    said = told(book, "drawbar", what="pin", pin=pin, power=power)
    assert f"Most likely it is: drawbar class {name}." in said["is"]  # both columns are from memory
    assert "from memory" in said["next"]


def test_the_hole_of_the_drawbar_is_wider_than_its_pin(book: Book) -> None:
    assert "drawbar class 1 or drawbar class 2" in told(book, "drawbar", what="hole", hole=33.0)["is"]
    assert told(book, "drawbar", what="hole", hole=25.4)["is"].startswith("No class")


def test_pin_and_bar_together_tell_the_class_and_a_bar_that_is_too_thick_is_said(book: Book) -> None:
    """With the hole of 33 mm a bar is at most 32 mm thick (PAES 118, at second hand)."""
    agrees = told(book, "drawbar", what="pin", pin=30.0, bar_thickness=30.0, power=40.0)
    assert "Most likely it is: drawbar class 1." in agrees["is"]
    assert "Pin and bar agree." in agrees["is"]
    clash = told(book, "drawbar", what="pin", pin=30.0, bar_thickness=45.0, power=90.0)
    assert clash["is"].startswith("No class in the book has all of this")
    assert "The bar speaks against them." in clash["is"]
    assert "A thin pin or a sleeve may stand in a larger bar." in clash["is"]
    assert "look for a sleeve" in clash["next"]
    assert "drawbar class 2, if the thickness of the bar is not 45 mm" in clash["else"]


def test_a_thin_bar_names_no_class_by_itself(book: Book) -> None:
    assert told(book, "drawbar", bar_thickness=25.0)["is"].startswith("A bar alone names no class.")
    assert "no figure for the bar of drawbar class 3" in told(book, "drawbar", pin=38.0, bar_thickness=25.0)["is"]


def test_a_thick_bar_alone_rules_out_the_classes_of_which_a_figure_is_known(book: Book) -> None:
    said = told(book, "drawbar", bar_thickness=45.0)
    assert "A bar of drawbar class 1 or drawbar class 2 is at most 32 mm" in said["is"]
    assert "fits none" not in said["is"]
    thicker = told(book, "drawbar", pin=38.0, bar_thickness=45.0)  # as it must be
    assert "Most likely it is: drawbar class 3." in thicker["is"]
    assert "sleeve" not in thicker["is"] + thicker["next"]


@pytest.mark.parametrize(("width", "drilled"), [(45.0, True), (66.0, False)])
def test_a_hole_that_takes_up_most_of_the_bar_was_drilled_out(book: Book, width: float, drilled: bool) -> None:
    said = told(book, "drawbar", what="pin", pin=30.0, bar_width=width)["is"]
    assert ("may have been drilled out" in said) is drilled
    assert ("No table in the book tells a class by the width" in said) is not drilled


def test_power_that_does_not_go_with_the_pin_is_said_and_rules_nothing_out(book: Book) -> None:
    said = told(book, "drawbar", what="pin", pin=50.0, power=40.0)["is"]
    assert "drawbar class 4" in said
    assert "another than drawbar class 4" in said


def test_couplings_pair_by_sort(book: Book) -> None:
    assert "It is: ball coupling." in told(book, "coupling", sort="ball", ball_size=80.0)["is"]
    road = told(book, "coupling", sort="ball", ball_size=50.8)
    assert "ball of road trailers" in road["is"]
    assert "No standard for farm tractors" in road["care"]
    open_ = told(book, "coupling", ring_hole=50.0)
    assert "hook" in open_["is"]
    assert "piton" in open_["is"]
    assert "what sort it is" in open_["next"]


# ------------------------------------------------------ ports, land and tongue


@pytest.mark.parametrize(
    ("ports", "returns", "said"), [(2, 0, "one set"), (5, 1, "2 sets"), (6, 0, "3 sets"), (1, 0, "There is no set")]
)
def test_ports_to_sets(book: Book, ports: int, returns: int, said: str) -> None:
    assert said in told(book, "ports", ports=ports, returns=returns)["is"]


def test_ports_that_do_not_add_up_are_said(book: Book) -> None:
    assert "More returns than ports" in told(book, "ports", ports=2, returns=3)["is"]
    assert "One port is left over" in told(book, "ports", ports=3, returns=0)["is"]
    assert "fewer levers than pairs" in told(book, "ports", ports=4, returns=0, levers=1)["is"]
    assert "may be fewer" in told(book, "ports", ports=4)["is"]


def test_the_steeper_of_two_places_counts(book: Book) -> None:
    said = told(book, "slope", board=1.0, gap=12.0, gap_again=15.0)["is"]
    assert "The slope is 15 %, or 8.5 deg." in said
    assert "Measure again" in told(book, "slope", board=1.0, gap=120.0)["is"]


def test_a_phone_and_a_board_tell_the_same_slope(book: Book) -> None:
    """Tangent: 8.53 degrees are 15 %."""
    assert "The slope is 15 %, or 8.5 deg." in told(book, "slope", way="phone", reading=15.0)["is"]
    two = told(book, "slope", way="phone", reading=12.0, reading_again=15.0)["is"]
    assert "The slope is 15 %" in two
    assert "The first place has 12 %, the second 15 %." in two


def test_a_triangle_is_half(book: Book) -> None:
    paced = {"ten_steps": 8.0, "along": 125, "across": 100}
    assert "0.8 ha" in told(book, "area", form="rectangle", **paced)["is"]
    assert "0.4 ha" in told(book, "area", form="triangle", **paced)["is"]
    assert "0.4 ha" in told(book, "area", **paced)["else"]  # nobody said which


def test_a_beam_multiplies_what_the_scale_shows(book: Book) -> None:
    weighed = {"way": "beam", "reading": 60.0, "board_only": 4.0, "beam": 0.9, "arm": 0.3}
    said = told(book, "tongue", **weighed, mass=2000.0)["is"]
    assert "168 kg" in said
    assert "8.4 %" in said
    assert "Put it between" in told(book, "tongue", **{**weighed, "arm": 1.0})["is"]
    assert "both distances" in told(book, "tongue", way="beam", reading=60.0, beam=0.9)["is"]


def test_a_light_or_lifting_tongue_is_a_caution(book: Book) -> None:
    assert "sway" in told(book, "tongue", way="direct", reading=30.0, board_only=0.0, mass=1000.0)["is"]
    assert "pulls upwards" in told(book, "tongue", way="direct", reading=3.0, board_only=5.0)["is"]


# ------------------------------------------------------------------ all of it


def test_nothing_measured_is_said_at_every_station(book: Book) -> None:
    assert book.measuring is not None
    for station in book.measuring.stations:
        said = told(book, station)
        assert said["is"], station
        assert said["next"], station


def test_whatever_is_typed_something_is_said_and_a_caution_stands_beside_it(book: Book) -> None:
    assert book.measuring is not None
    rng = random.Random("measuring")
    for station in book.measuring.stations.values():
        for _ in range(150):
            readings: dict[str, str | float] = {}
            for step in station.steps:
                question = step.question
                if rng.random() < 0.3:
                    continue
                if question.choices:
                    readings[question.id] = rng.choice(question.choices).id
                else:
                    low, high = question.possible or (0.0, 1.0)
                    value = rng.uniform(low, high)
                    readings[question.id] = int(value) if question.type == "count" else value
            said = told(book, station.id, **readings)
            assert said["is"], readings
            assert said["care"], readings


def test_every_sentence_is_said_somewhere_and_every_said_one_is_there(book: Book) -> None:
    assert book.measuring is not None
    rooms = [*sorted((SOURCE / "advice" / "measuring").glob("*.py")), SOURCE / "talk" / "measure.py"]
    source = "\n".join(path.read_text(encoding="utf-8") for path in rooms)
    literal = set(re.findall(r"\"([a-z][a-z0-9_]*)\"", source))
    steps = {step.question.id for station in book.measuring.stations.values() for step in station.steps}
    for id_ in book.measuring.words:
        built = [id_.removeprefix(before) for before in re.findall(r"(?:tell|self)\(\s*f\"([a-z_]+){", source)]
        said = id_ in literal or any(rest != id_ and rest in {*literal, *steps, *GRADES} for rest in built)
        assert said, f"nobody says {id_}"
    for id_ in re.findall(r"(?:tell|message|text)\(\s*\"([a-z0-9_]+)\"", source):
        assert id_ in book.measuring.words, id_
