"""Doubtful answers in the talk: two readings of a slope, answers that do not go together, numbers of a list seen."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from odd_book import ODD
from small_book import BOOK
from talking import WHOLE, Talk, talk

from firstfurrow.asking.answers_file import read
from firstfurrow.talk.commands import WORDS
from firstfurrow.talk.script import INTERRUPT
from firstfurrow.talk.store import read_answers

SLOPE = ["14 acre", "slopes"]
BLADE = ["14 acre", "trees", "mowing", "2", "blade"]  # a blade, and no job for it
ASKED = "You named rear blade, but its work is not among your jobs: grading."
KEPT = "They stay as they are, and the report names them."


def slope(held: Talk) -> str | None:
    said = held.answers.given.get("side_slope")
    return None if said is None else said.text


# ------------------------------------------------------------- two readings


def test_degrees_that_are_too_steep_are_asked_about_once() -> None:
    asked = talk([*SLOPE, "35 deg"])
    assert "35 degrees is 70 percent" in asked.flat
    assert "Did you mean 35 %? Type 35 %, keep, or another slope." in asked.flat
    assert slope(asked) is None
    assert slope(talk([*SLOPE, "35 deg", "35 %"])) == "35 %"
    assert slope(talk([*SLOPE, "35 deg", "keep"])) == "35 deg"
    assert slope(talk([*SLOPE, "35 deg", "35 deg"])) == "35 deg"
    assert slope(talk([*SLOPE, "35 deg", "8 deg"])) == "8 deg"
    assert slope(talk([*SLOPE, "35 deg", "36 deg"])) is None  # another doubt, asked about anew


def test_a_steep_number_without_a_unit_is_asked_about_once() -> None:
    asked = talk([*SLOPE, "45"])
    assert "Did you mean degrees? 45 degrees would be 100 percent." in asked.flat
    for line, text in (("45 %", "45 %"), ("keep", "45 %"), ("45", "45 %"), ("45 degrees", "45 degrees"), ("9", "9 %")):
        assert slope(talk([*SLOPE, "45", line])) == text


# ------------------------------------------ answers that do not go together


def test_a_contradiction_is_asked_about_at_the_second_answer_and_can_be_kept() -> None:
    asked = talk(BLADE, book=ODD)
    assert f"{ASKED} 1 keep them as they are 2 answer again: What implement is it? 3 answer again: Which jobs?" in (
        asked.flat
    )
    assert "Do you own it?" not in asked.screen
    for keeping in ("keep", "1", "KEEP.", "yes", "both", "unsure"):
        kept = talk([*BLADE, keeping, "now"], book=ODD)
        assert KEPT in kept.flat
        assert kept.screen.count("You named") == 1
        assert kept.answers.items[0].given["when"].value == "now"


@pytest.mark.parametrize(
    ("lines", "kind", "jobs"),
    [
        (["2", "cutter", "now"], "cutter", ("mowing",)),
        (["3", "2", "now"], "blade", ("grading",)),
        (["jobs", "1 2", "3", "now"], "blade", ("mowing", "grading")),
    ],
)
def test_one_of_the_answers_can_be_given_again(lines: list[str], kind: str, jobs: tuple[str, ...]) -> None:
    held = talk([*BLADE, *lines], book=ODD)
    assert "Now it says:" in held.screen
    assert held.answers.items[0].given["kind"].value == kind
    assert held.answers.given["jobs"].value == jobs
    assert held.answers.kept == ()
    assert held.screen.count("You named") == 1


def test_an_answer_left_as_it_was_is_kept() -> None:
    held = talk([*BLADE, "2", "", "now"], book=ODD)
    assert KEPT in held.flat
    assert held.answers.items[0].given["when"].value == "now"


def test_new_answers_that_contradict_are_asked_about_anew() -> None:
    held = talk([*BLADE, "keep", "change 3", "snow"], book=ODD)
    assert held.screen.count(ASKED) == 2
    assert held.screen.rstrip().endswith("--resume firstfurrow-answers.yaml")


def test_commands_work_there_and_a_strange_line_says_what_can_be_typed() -> None:
    held = talk([*BLADE, "why", "help", "answers", "so far", "how", "", "rake", "9", "back"], book=ODD)
    assert "so one of them may be a slip" in held.after("why")
    assert "What implement is it? rear blade" in held.screen
    assert "PROFILE" in held.screen
    assert BOOK.messages["hint"] in held.after("how")
    assert '"rake" is none of the answers. Type a number from 1 to 3' in held.flat
    assert "There is no answer 9 here." in held.flat
    assert "You said before: rear blade." in held.after("back")


def test_what_no_tool_does_is_asked_about_when_the_list_is_closed_and_one_more_can_be_added() -> None:
    lines = ["14 acre", "trees", "mowing grading", "2", "blade", "now", "8 ft", "none", "all"]
    held = talk([*lines, "2", "cutter", "now", "1", "unsure", "all", "10 ft"], book=ODD)
    assert "Nothing does this work: mowing. 1 keep them as they are 2 put one more implement on the list" in held.flat
    assert [item.given["kind"].value for item in held.answers.items] == ["blade", "cutter"]
    assert held.screen.count("Nothing does this work") == 1
    assert held.answers.kept == ()
    kept = talk([*lines, "keep", "10 ft", "nothing", ""], book=ODD)
    assert kept.code == 0
    assert kept.answers.given["gate"].text == "10 ft"


def test_a_change_at_the_end_that_contradicts_is_asked_about_before_the_talk_ends() -> None:
    held = talk(
        [*WHOLE[:2], "grading", *WHOLE[3:], "change 3", "snow", "keep", "so far", ""],
        book=ODD,
    )
    assert "You named rear blade" in held.after("snow")
    assert held.code == 0
    assert [kept.contradiction for kept in held.answers.kept] == ["tool_without_job"]


def test_what_was_kept_is_not_asked_again_after_a_pause_and_what_was_not_is(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    talk([*BLADE, "keep", "save"], book=ODD, path=path)
    again = talk(["now"], book=ODD, path=path, answers=read_answers(path, ODD))
    assert "You named" not in again.screen
    assert again.answers.items[0].given["when"].value == "now"
    left = tmp_path / "b.yaml"
    talk([*BLADE, "save"], book=ODD, path=left)
    resumed = talk(["keep", "now"], book=ODD, path=left, answers=read_answers(left, ODD))
    assert resumed.screen.index("You named rear blade") < resumed.screen.index("Do you own it?")
    assert read(left.read_text(encoding="utf-8"), "b.yaml", ODD) == resumed.answers


def test_a_pipe_that_repeats_one_line_at_a_contradiction_comes_to_an_end() -> None:
    held = talk([*BLADE, *["rake"] * 500], book=ODD)
    assert "No further input." in held.screen
    assert held.screen.count("> rake") < 200


@settings(max_examples=80, deadline=None)
@given(
    st.lists(
        st.one_of(
            st.text(max_size=25),
            st.sampled_from([*sorted(WORDS), "change 3", "remove i1", "none", "", "keep", *BLADE, *WHOLE, "mowing"]),
            st.integers(0, 9).map(str),
        ),
        max_size=40,
    )
)
def test_no_typed_text_is_ever_a_traceback_where_answers_contradict(lines: list[str]) -> None:
    held = talk([*BLADE, *(line for line in lines if line != INTERRUPT)], book=ODD)
    assert held.code == 0
    # What is kept is what stood: a memory of nothing would never be asked for again.
    assert len({(kept.contradiction, kept.at) for kept in held.answers.kept}) == len(held.answers.kept)


# ------------------------------------------------------- the list, not sure


def test_not_sure_whether_there_is_another_means_that_is_all() -> None:
    held = talk([*WHOLE[:7], "unsure", "10 ft"])
    assert "The list ends here" in held.screen
    assert held.answers.given["complete"].value == "that_is_all"
    assert held.answers.given["gate"].text == "10 ft"


def test_the_numbers_of_a_list_stay_as_they_were_seen() -> None:
    # 1 area, 2 shape, 3 side slope, 4 steep why, 5 jobs: without slopes the jobs would be number 3.
    held = talk(["14 acre", "slopes", "30 %", "must", "snow", "answers", "change 2", "trees", "change 5", "grading"])
    assert "  5  Which jobs? snow\n" in held.screen
    assert held.answers.given["jobs"].value == ("grading",)
    gone = talk(["14 acre", "slopes", "30 %", "must", "snow", "answers", "change 2", "trees", "change 3", "answers"])
    assert "Answer 3 of the list that you saw counts no more." in gone.flat
    assert "  3  Which jobs? snow\n" in gone.after("answers")
    anew = talk(
        ["14 acre", "slopes", "30 %", "must", "snow", "answers", "change 2", "trees", "answers", "change 3", "grading"]
    )
    assert anew.answers.given["jobs"].value == ("grading",)


def test_before_a_list_was_seen_the_numbers_are_those_of_now() -> None:
    held = talk(["14 acre", "trees", "change 2", "slopes"])
    assert held.answers.given["shape"].value == ("slopes",)
