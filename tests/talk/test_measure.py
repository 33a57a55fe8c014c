"""Guided measuring on a scripted front: cold walks to the right category, unsure everywhere, nonsense, 40 columns."""

from __future__ import annotations

from collections.abc import Sequence
from io import StringIO

import pytest

from firstfurrow.advice.measuring import find
from firstfurrow.book.load import load
from firstfurrow.book.model import MeasuringStep
from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT
from firstfurrow.talk.measure import Measure, UnknownStationError
from firstfurrow.talk.script import INTERRUPT, ScriptFront

BOOK = load()
STATIONS = tuple(BOOK.measuring.stations) if BOOK.measuring else ()


def walk(
    lines: Sequence[str], what: str | None = None, *, width: int = 80, units: str | None = None, drawings: bool = True
) -> tuple[str, int]:
    """The screen as it was, and the exit code."""
    front = ScriptFront(lines, width)
    measure = Measure(BOOK, front, lambda station, said: find(BOOK, station, said), units, drawings=drawings)  # type: ignore[arg-type]
    code = measure.run(what)
    return front.screen, code


def flat(screen: str) -> str:
    return " ".join(screen.split())


# A newcomer who types what he sees: which side, the state, the pin, the points, the span, the rest as it comes.
COLD = {
    "1 at the implement, in inches": (
        ["1", "implement", "round", "7/8 in", "shoulders", "26 7/8 in", "3/4 in", "18 in"], "It is: category 1."),
    "1 at the tractor, in centimetres": (
        ["arms", "2", "1", "2.25 cm", "middles", "71.5 cm", "19.5 mm"], "It is: category 1."),
    "1 at the tractor, span taken inside": (
        ["1", "tractor", "good", "22.5 mm", "unsure", "683 mm", "unsure"], "It is: category 1."),
    "1N at the implement": (
        ["1", "1", "1", "22 mm", "1", "402 mm", "unsure", "unsure"], "Most likely it is: category 1 narrow."),
    "1N at the tractor": (
        ["hitch", "tractor", "round", "22.4 mm", "2", "17 1/8 in", "unsure"], "Most likely it is: category 1 narrow."),
    "2 at the implement, in inches": (
        ["1", "1", "1", "1 1/8 in", "1", "32.5 in", "1 in", "24 in"], "It is: category 2."),
    "2 at the tractor": (
        ["1", "2", "1", "28.7 mm", "2", "87 cm", "25.7 mm"], "It is: category 2."),
    "worn 2 at the implement": (
        ["1", "1", "worn", "26.4 mm", "1", "82.8 cm", "24 mm", "unsure"], "Most likely it is: category 2."),
    "worn 2 at the tractor": (
        ["1", "2", "oval", "1 3/16 in", "centres", "34 1/4 in", "unsure"], "Most likely it is: category 2."),
}  # fmt: skip


@pytest.mark.parametrize(("lines", "said"), COLD.values(), ids=COLD.keys())
@pytest.mark.parametrize("width", [40, 80])
def test_a_cold_walk_ends_in_the_right_category(lines: list[str], said: str, width: int) -> None:
    screen, code = walk([*lines, "quit"], width=width)
    assert code == 0
    assert said in flat(screen)
    assert all(len(line) < width for line in screen.splitlines() if not line.startswith(">"))


# Half of the steps unsure, a unit that cannot be, a slip of the finger; what is told at the end names it all the same.
SLIPS = {
    "1 at the implement": (
        ["hitch", "implment", "implement", "unsure", "22 kg", "22 mm", "unsure", "683 mmm", "683 mm", "unsure",
         "unsure"],
        ["is none of the answers", "That is a mass", '"mmm" is not a unit', "It is: category 1.",
         "It must say the same"]),
    "1 of which only the pin can be measured": (
        ["hitch", "1", "unsure", "7/8", "7/8 in", "unsure", "unsure", "unsure", "unsure"],
        ['"7/8" has no unit', "It can be: category 1, Japanese small type or category 1 narrow.", "Measure the span:"]),
    "1 with the tape laid around the pin": (
        ["hitch", "1", "unsure", "69 mm", "unsure", "26 7/8 in", "unsure", "unsure"],
        ["What else it could be - category 1, if the tape went around", "Measure the lower pin again"]),
    "1N from nobody knows which side": (
        ["hitch", "unsure", "unsure", "7/8 im", "7/8 in", "unsure", "40.2", "40.2 cm", "unsure", "unsure"],
        ['"im" is not a unit', '"40.2" has no unit', "Most likely it is: category 1 narrow.", "from memory"]),
    "2 at the tractor": (
        ["hitch", "tracktor", "tractor", "unsure", "28.7 cm", "28.7 mm", "unsure", "870 mm", "unsure"],
        ["is none of the answers", "28.7 cm cannot be", "It is: category 2.", "Measure the upper pin or its hole."]),
    "worn 2, the span first read off the wrong side of the tape": (
        ["hitch", "implement", "worn", "26,4 mmm", "26.4 mm", "unsure", "32.5 cm", "unsure", "unsure",
         "back", "back", "back", "32.5 in", "unsure", "unsure"],
        ["What else it could be - category 2, if the span was read in inches: 32.5 in, not 32.5 cm.",
         "Measure the span again", "Most likely it is: category 2.", "Have it replaced"]),
    "worn 2 of which only the pin can be measured": (
        ["hitch", "1", "worn", "1 1/16", "1 1/16 in", "unsure", "unsure", "unsure", "unsure"],
        ["It can be: category 2 or category 2 narrow.", "Measure the span:", "where nothing rubs"]),
}  # fmt: skip


@pytest.mark.parametrize(("lines", "said"), SLIPS.values(), ids=SLIPS.keys())
@pytest.mark.parametrize("width", [40, 80])
def test_a_cold_walk_with_slips_still_names_it(lines: list[str], said: list[str], width: int) -> None:
    screen, code = walk([*lines, "quit"], width=width)
    assert code == 0
    rest = flat(screen)
    for words in said:  # in this order
        assert words in rest, words
        rest = rest.split(words, 1)[1]
    assert "Traceback" not in screen


# ------------------------------------------------------------------ drawings

DRAWN = [(s.id, step) for s in (BOOK.measuring.stations.values() if BOOK.measuring else ()) for step in s.steps
         if step.drawing]  # fmt: skip


def test_there_is_a_drawing_where_the_tape_can_go_wrong() -> None:
    drawn = {step.question.id for _, step in DRAWN}
    assert {"lower_pin", "lower_hole", "span_between", "mast", "thickness", "nose", "bar_thickness", "reading", "gap",
            "way"} <= drawn  # fmt: skip


@pytest.mark.parametrize(("station", "step"), DRAWN, ids=[f"{s}-{step.question.id}" for s, step in DRAWN])
def test_a_drawing_is_plain_and_narrow_and_stands_beside_its_words(station: str, step: MeasuringStep) -> None:
    assert max(map(len, step.drawing)) <= 38
    assert all(line.isascii() and line.isprintable() for line in step.drawing)
    assert step.tape


def test_a_drawing_stands_under_the_words_at_forty_columns_and_is_left_out_where_there_is_no_room() -> None:
    lines = ["implement", "round"]
    for width, shown in ((80, True), (40, True), (30, False)):
        screen = walk(lines, "hitch", width=width)[0]
        assert ("where the arm sits\n" in screen) is shown, width
        assert "Where: Measure across the pin" in flat(screen)
    narrow = walk(lines, "hitch", width=40)[0].splitlines()
    assert all(len(line) < 40 for line in narrow)


def test_a_screen_that_is_read_aloud_has_words_only() -> None:
    screen = walk(["implement", "round", "how"], "hitch", drawings=False)[0]
    assert "######" not in screen
    assert screen.count("Where: Measure across the pin") == 2


# ------------------------------------------------------------------- a slope

SLOPES = {
    "board and level": (["board", "1.2 m", "18 cm", "20 cm"], "The slope is 16.7 %, or 9.5 deg."),
    "board, half of it unsure": (["unsure", "48 in", "unsure", "7.2 in"], "The slope is 15 %, or 8.5 deg."),
    "phone": (["phone", "8 deg", "12 degrees"], "The slope is 21.3 %, or 12 deg."),
    "phone, second place unsure": (["phone", "12°", "unsure"], "The slope is 21.3 %, or 12 deg."),
    "percent at once": (["15 %"], "The slope is 15 %, or 8.5 deg."),
    "degrees at once": (["8 degrees"], "The slope is 14.1 %, or 8 deg."),
    "one in so many": (["1:6"], "The slope is 16.7 %, or 9.5 deg."),
    "degrees where the gap is asked": (["board", "1.2 m", "8 deg"], "The slope is 14.1 %, or 8 deg."),
}


@pytest.mark.parametrize(("lines", "said"), SLOPES.values(), ids=SLOPES.keys())
def test_a_slope_may_come_from_a_board_a_phone_or_the_head(lines: list[str], said: str) -> None:
    assert said in flat(walk(lines, "slope", width=40)[0])


def test_degrees_that_were_meant_as_percent_are_asked_once_more() -> None:
    screen = flat(walk(["phone", "45 deg", "45 %", "unsure"], "slope")[0])
    assert "45 degrees is 100 percent" in screen
    assert "The slope is 45 %, or 24.2 deg." in screen
    kept = flat(walk(["phone", "45 deg", "keep", "unsure"], "slope")[0])
    assert "The slope is 100 %, or 45 deg." in kept


def test_a_bare_slope_is_asked_for_its_unit() -> None:
    assert '"12" has no unit. Write it like 15 %, 8 degrees or 1:6.' in flat(walk(["phone", "12"], "slope")[0])


# --------------------------------------------------------------- every station


@pytest.mark.parametrize("station", STATIONS)
def test_unsure_is_an_answer_at_every_step(station: str) -> None:
    screen, code = walk(["unsure"] * 20, station, width=40)
    assert code == 0
    assert "What it is" in screen
    assert "> unsure\n\nWhat it is" in screen  # the last step led straight to what can be said
    assert "does nothing here" not in flat(screen)


def test_unsure_what_one_stands_before() -> None:
    assert "the first of the list" in flat(walk(["unsure", "quit"])[0])


@pytest.mark.parametrize("station", STATIONS)
def test_cautions_stand_before_the_first_step(station: str) -> None:
    assert BOOK.measuring is not None
    screen = flat(walk([], station)[0])
    for caution in BOOK.measuring.stations[station].cautions:
        assert caution in screen
    first = BOOK.measuring.stations[station].steps[0].question.ask
    assert screen.index(first) > screen.index(BOOK.measuring.stations[station].cautions[-1])


@pytest.mark.parametrize("station", ["hitch", "shaft", "coupler", "drawbar", "coupling", "ports", "tongue"])
def test_machines_stand_still_while_hands_are_near(station: str) -> None:
    assert BOOK.measuring is not None
    cautions = " ".join(BOOK.measuring.stations[station].cautions)
    assert "ngine off, key out" in cautions
    if station in ("hitch", "drawbar"):
        assert "Nobody stands between" in cautions
    if station in ("hitch", "drawbar", "coupling", "tongue"):
        assert "hock" in cautions


NONSENSE = ["banana", "-3 mm", "22", "9000 m", "5 kg", "1/0 in", "\x07", "9" * 300, "22 mm 1 lb", "change 3"]


@pytest.mark.parametrize("line", NONSENSE)
def test_nonsense_gets_one_answer_and_the_same_step_again(line: str) -> None:
    screen, code = walk(["implement", "round", line, "22 mm"], "hitch")
    answered = screen.split("How thick is a lower pin?")[1].split("Between which points")[0]
    between = flat(answered.split("\n>")[1].split("\n", 1)[1])
    assert code == 0
    assert 0 < len(between) < 200
    assert "Traceback" not in screen
    assert "> 22 mm" in answered  # and the next line was taken


def test_a_number_without_unit_is_asked_for_its_unit_unless_units_were_given() -> None:
    lines = ["implement", "round", "22", "22 mm", "shoulders", "683 mm", "unsure", "unsure"]
    assert '"22" has no unit. Write it like 22 mm or 7/8 in.' in flat(walk(lines, "hitch")[0])
    bare = ["implement", "round", "7/8", "shoulders", "26 7/8", "unsure", "unsure"]
    assert "It is: category 1." in flat(walk(bare, "hitch", units="us")[0])


def test_back_goes_one_step_back_and_from_the_first_to_the_list() -> None:
    lines = ["1", "tractor", "back", "implement", "round", "22 mm", "back", "28 mm", "shoulders", "825 mm"]
    screen = flat(walk([*lines, "unsure", "unsure", "quit"])[0])
    assert "It is: category 2." in screen
    assert walk(["1", "back", "quit"])[0].count("What do you stand before?") == 2


def test_back_after_the_end_changes_the_last_measures_of_the_only_station_and_of_the_list() -> None:
    pin = ["implement", "round", "28 mm", "shoulders", "683 mm", "unsure", "unsure"]
    mend = ["back", "back", "back", "825 mm", "unsure", "unsure"]
    only = flat(walk([*pin, "nonsense", *mend, ""], "hitch")[0])
    assert only.index("It is: category 2 narrow.") < only.index("It is: category 2.")
    assert only.count("Before you start:") == 1
    listed = flat(walk(["1", *pin, *mend, "quit"])[0])
    assert listed.index("It is: category 2 narrow.") < listed.index("It is: category 2.")


def test_back_at_the_first_step_of_the_only_station_ends_nothing() -> None:
    screen = flat(walk(["back", "implement", "round", "28 mm", "so far"], "hitch")[0])
    assert "This is the first step." in screen
    assert "It can be: category 2" in screen


def test_so_far_says_what_can_be_said_by_now() -> None:
    screen = walk(["implement", "round", "28 mm", "so far"], "hitch")[0]
    assert "It can be: category 2 or category 2 narrow." in flat(screen)


def test_how_repeats_where_to_put_the_tape_and_why_says_what_it_tells() -> None:
    screen = walk(["implement", "round", "how", "why"], "hitch")[0]
    assert screen.count("Where: Measure across the pin") == 2
    assert "says the size of the category" in screen


def test_the_key_that_stops_a_program_stops_it() -> None:
    screen, code = walk(["implement", INTERRUPT], "hitch")
    assert code == 130
    assert "Nothing was kept" in screen


def test_a_pipe_that_never_ends_comes_to_an_end() -> None:
    assert walk(["y"] * 500)[1] == 0


@pytest.mark.parametrize("what", ["hitch", "three-point hitch", "pto", "tongue load", "acres", "remotes", "hose"])
def test_a_station_goes_by_the_words_of_the_trade(what: str) -> None:
    assert "Before you start" in walk([], what)[0]


def test_an_unknown_station_is_one_sentence_with_the_known_ones() -> None:
    with pytest.raises(UnknownStationError, match=r"banana.*hitch, shaft"):
        walk([], "banana")


def test_the_command_measures(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin", StringIO("5\n1\n2\n\n"))
    assert main(["measure", "ports", "--plain"]) == 0
    assert "5 less 1 for free returns: 2 sets." in capsys.readouterr().out


def test_the_command_refuses_what_nobody_measures(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["measure", "banana"]) == BAD_INPUT
    assert "There is nothing to measure by the name banana." in capsys.readouterr().err
