"""Conversations over the tiny book, line by line: what is shown, what is kept, and that no line is a dead end."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_book import BOOK
from talking import WHOLE, talk

from firstfurrow.asking.answers_file import read
from firstfurrow.asking.refs import Ref
from firstfurrow.book.load import load
from firstfurrow.talk.commands import WORDS
from firstfurrow.talk.script import INTERRUPT
from firstfurrow.talk.store import RehearsalStore


def test_a_whole_conversation_ends_with_thanks_and_the_profile() -> None:
    held = talk([*WHOLE, ""])
    assert held.code == 0
    assert held.interview.next() is None
    assert "The land. Questions left: about 9." in held.screen
    assert held.screen.index("Thank you") < held.screen.index("PROFILE: 6 answers, 1 items")
    assert "firstfurrow --resume firstfurrow-answers.yaml" in held.screen
    assert isinstance(held.store, RehearsalStore)
    assert read(held.store.text, "a.yaml", BOOK) == held.answers


def test_the_first_question_is_about_units_unless_they_are_known() -> None:
    held = talk(["2", "3", "save"], ask_units=True)
    assert held.screen.index("Which measures") < held.screen.index("How much land")
    assert held.answers.units == "metric"
    assert "Taken as 3 ha." in held.screen
    assert "Which measures" not in talk(["save"]).screen
    unsure = talk(["unsure", "3", "save"], ask_units=True)
    assert "Taken as 3 acre." in unsure.screen


def test_a_hint_of_at_most_forty_characters_stands_under_the_first_questions_and_after_an_empty_line() -> None:
    hint = BOOK.messages["hint"]
    assert len(hint) <= 40
    assert talk(["14 acre", "trees"]).screen.count(hint) == 2
    assert talk(["14 acre", "trees", ""]).after("trees").count(hint) == 1


def test_choices_and_rough_answers_are_numbered() -> None:
    screen = talk(["14 acre"]).screen
    assert " r1  a garden: 0.5 acre\n r2  some fields: 15 acre\n" in screen
    assert "  1  slopes\n  2  wet places\n  3  trees\n  4  none of these\n" in screen


def test_what_an_answer_moved_is_said_at_once() -> None:
    assert "remote sets: now 1" in talk([*WHOLE[:4]]).after("blade")


@pytest.mark.parametrize("word", ["unsure", "not sure", "Don't know", "don\u2019t know.", "I DO NOT KNOW", "no idea"])
def test_unsure_says_what_is_planned(word: str) -> None:
    held = talk(["14 acre", "slopes", word, "save"])
    assert "the plan uses: 20 %" in held.screen
    assert held.answers.given["side_slope"].unsure


@pytest.mark.parametrize("line", ["", "unsure", "u"])
def test_unsure_at_a_number_shows_three_ways_on_and_the_last_leaves_it_open(line: str) -> None:
    held = talk(["unsure", line, "save"])
    assert "to find out now: type how" in held.flat
    assert "a rough one from the list: type r1 to r2" in held.flat
    assert held.answers.given["area"].unsure
    assert "left out of the plan" in held.after(line) if line else "left out of the plan" in held.screen


def test_after_unsure_the_other_ways_are_open() -> None:
    assert talk(["unsure", "r2", "save"]).answers.given["area"].text == "6 ha"
    assert talk(["unsure", "3 acre", "save"]).answers.given["area"].text == "3 acre"
    measured = talk(["unsure", "how", "3 acre", "save"])
    assert measured.answers.given["area"].text == "3 acre"


def test_commands_have_one_letter() -> None:
    held = talk(["w", "h", "14 acre", "b", "", "u", "a", "g draw", "?", "q"])
    assert "It gives the width." in held.screen
    assert held.answers.given["area"].text == "14 acre"
    assert "change 7 (c 7)" in held.screen
    assert "Saved in" in held.screen


def test_unsure_by_what_the_book_says() -> None:
    held = talk(["unsure", "", "trees", "snow", "unsure", "blade", "now", *["unsure"] * 5])
    assert "left out of the plan" in held.screen
    assert "Name one, or type none." in held.screen
    assert "The program chooses a size" in held.screen
    assert "The list ends here" in held.screen
    assert "stays open until you have measured" in held.screen


def test_why_how_and_words() -> None:
    held = talk(["why", "how", "words", "words draw", "words sprocket", "why not", "14 acre", "how"])
    assert "It gives the width." in held.screen
    assert "  1  Walk two sides.\n" in held.screen
    assert "drawbar, draft" in held.screen
    assert "drawbar: A bar at the back." in held.screen
    assert '"sprocket" is not explained here.' in held.screen
    assert "nothing to measure here" in held.screen
    assert held.answers.given["area"].text == "14 acre"


def test_help_names_every_command() -> None:
    shown = talk(["?"]).after("?")
    for word in (
        "unsure",
        "why",
        "how",
        "back",
        "answers",
        "change 7",
        "remove i2",
        "so far",
        "words",
        "save",
        "units",
    ):
        assert word in shown


def test_back_offers_the_answer_again_and_enter_keeps_it() -> None:
    held = talk(["14 acre", "back", "", "back", "3 ha", "back", "back"])
    assert "You said before: 14 acre." in held.screen
    assert "You said before: 3 ha." in held.screen
    assert "This is the first question." in held.screen
    kept = talk(["14 acre", "back", "", "trees"])
    assert kept.answers.given["area"].text == "14 acre"
    assert kept.answers.given["shape"].value == ("trees",)


def test_answers_are_numbered_and_change_takes_the_number() -> None:
    held = talk([*WHOLE, "answers", "change 1", "20 acre", "change 99", "change", "change 4", ""])
    shown = held.after("answers")
    assert "  1  How much land is there? 14 acre\n" in shown
    assert "Implement i1: rear blade" in shown
    assert "Now it says: 14 acre. Enter keeps it." in held.screen
    assert held.answers.given["area"].text == "20 acre"
    assert "Type change and a number" in held.after("change 99")
    assert "Left as it was." in held.after("change 4")


def test_a_change_that_makes_questions_vanish_says_so_and_back_again() -> None:
    held = talk(["14 acre", "slopes", "30 %", "must", "snow", "change 2", "trees", "change 2", "slopes", "answers"])
    assert "No longer asked, so kept aside: side slope, steep why." in held.after("trees")
    assert "Counts again: side slope, steep why." in held.screen
    assert held.answers.given["side_slope"].value == 30.0


def test_going_back_and_answering_again_says_nothing_needless() -> None:
    held = talk(["14 acre", "slopes", "30 %", "must", "snow", "back", "back", "back", "back", "", "", "", ""])
    assert "No longer asked" not in held.screen
    assert "Counts again" not in held.screen


def test_going_back_and_answering_differently_says_what_vanished() -> None:
    held = talk(["14 acre", "slopes", "30 %", "must", "snow", "back", "back", "back", "back", "trees"])
    assert "shape" not in held.answers.aside
    assert held.answers.given["shape"].value == ("trees",)


def test_implements_are_listed_by_jobs_then_by_family_then_by_words() -> None:
    begin = ["14 acre", "trees", "mowing", "2"]
    held = talk([*begin, "more", "2", "1"])
    assert "  1  rotary cutter: a spinning blade for weeds\n" in held.screen
    assert "  1  mowing\n  2  grading\n  3  hauling\n" in held.after("more")
    assert "  1  rear blade: a long blade for gravel and snow\n" in held.after("2")
    assert held.answers.items[0].given["kind"].value == "blade"
    searched = talk([*begin, "submarine", "blade for", "2"])
    assert 'No implement goes by "submarine".' in searched.screen
    assert searched.answers.items[0].given["kind"].value == "blade"
    assert talk([*begin, "7"]).interview.next() is not None


def test_no_implement_at_all() -> None:
    held = talk(["14 acre", "trees", "snow", "none", "10 ft", "x", ""])
    assert held.code == 0
    assert held.answers.items == ()
    assert held.answers.given["complete"].value == "that_is_all"


def test_a_second_implement_and_one_taken_off() -> None:
    lines = [*WHOLE[:7], "another", "trailer", "now", "500 kg", "300 kg", "remove i1", "answers", "remove i9"]
    held = talk(lines)
    assert "Implement 2" in held.screen
    assert "Off the list: rear blade." in held.screen
    assert [item.id for item in held.answers.items] == ["i2"]
    assert "Type remove and an implement" in held.after("remove i9")


def test_an_implement_added_at_the_end() -> None:
    held = talk([*WHOLE, "add implement", "trailer", "now", "500 kg", "300 kg", "both", ""])
    assert held.code == 0
    assert held.interview.next() is None
    assert [item.id for item in held.answers.items] == ["i1", "i2"]


def test_the_opened_implement_can_be_left_with_back_or_none() -> None:
    back = talk([*WHOLE[:7], "another", "back", "all", "10 ft"])
    none = talk([*WHOLE[:7], "another", "none", "10 ft"])
    assert back.answers.given == none.answers.given
    assert [i.id for i in back.answers.items] == [i.id for i in none.answers.items] == ["i1"]


def test_the_implausible_is_asked_once_more_and_may_be_kept() -> None:
    kept = talk(["900 acres", "keep"])
    assert "unusually much" in kept.screen
    assert kept.answers.given["area"].text == "900 acres"
    assert talk(["900 acres", "900 acres"]).answers.given["area"].text == "900 acres"
    assert talk(["900 acres", "9 acres"]).answers.given["area"].text == "9 acres"
    assert talk(["900 acres", "800 acres", "900 acres"]).answers.given == {}
    assert talk(["keep"]).answers.given == {}


def test_so_far_and_what_is_unknown_at_the_end() -> None:
    held = talk([*WHOLE, "so far", "clay", "why", ""])
    assert held.screen.count("PROFILE") == 2
    assert held.screen.count("All questions are answered.") == 2
    assert held.code == 0


def test_save_interrupt_and_end_of_input_keep_the_answers() -> None:
    saved = talk(["14 acre", "save"])
    assert saved.code == 0
    assert "Saved in firstfurrow-answers.yaml." in saved.screen
    ended = talk(["14 acre"])
    assert ended.code == 0
    assert "No further input." in ended.screen
    interrupted = talk(["14 acre", INTERRUPT])
    assert interrupted.code == 130
    assert "Nothing is lost" in interrupted.screen
    for held in (saved, ended, interrupted):
        assert held.screen.endswith("  firstfurrow --resume firstfurrow-answers.yaml\n")
    assert "nothing was kept" in talk(["save"]).screen


def test_units_can_be_changed_in_the_middle() -> None:
    held = talk(["14 acre", "units", "2", "trees", "back", "back"])
    assert held.answers.units == "metric"
    assert "some fields: 6 ha" in held.after("back")


@pytest.mark.parametrize("width", [20, 40, 80, 200])
def test_no_line_is_wider_than_the_window(width: int) -> None:
    lines = ["?", "why", "how", "words", *WHOLE, "answers", "units", "1"]
    screen = talk(lines, width=width, ask_units=False).screen
    own = [line for line in screen.splitlines() if not line.startswith((">", "    firstfurrow-", "PROFILE"))]
    assert max(map(len, own)) <= max(20, min(width - 1, 76))


def test_the_name_of_a_tool_says_that_there_is_another_one() -> None:
    held = talk([*WHOLE[:7], "trailer", "now", "500 kg", "300 kg", "all", "10 ft"])
    said = talk([*WHOLE[:7], "another", "trailer", "now", "500 kg", "300 kg", "all", "10 ft"])
    assert held.answers == said.answers
    assert len(held.answers.items) == 2
    assert "is none of the answers" in talk([*WHOLE[:7], "spaceship"]).screen


def test_the_end_of_the_list_is_no_answer_that_counts_again() -> None:
    held = talk([*WHOLE, "add implement", "trailer", "now", "500 kg", "300 kg", ""])
    assert "implements complete" not in held.screen


def test_a_pipe_that_repeats_one_line_for_ever_comes_to_an_end() -> None:
    held = talk(["unsure"] * 5000)
    assert "No further input." in held.screen
    assert held.screen.count("unsure\n") < 400


def test_the_end_names_the_command_for_all_the_working() -> None:
    screen = talk([*WHOLE, ""], ask_units=False).screen
    assert "  firstfurrow --resume" in screen
    assert "  firstfurrow advise" in screen.split("  firstfurrow --resume")[1]


def test_a_number_is_not_parted_from_its_unit() -> None:
    for width in range(30, 60):
        screen = talk(["unsure", "slopes", "unsure", "answers"], width=width).screen
        assert "20\n" not in screen
        assert not any(line.strip().startswith("%") for line in screen.splitlines())


@settings(max_examples=120, deadline=None)
@given(
    st.lists(
        st.one_of(
            st.text(max_size=25),
            st.sampled_from([*sorted(WORDS), "change 2", "remove i1", "more", "none", "", "keep", *WHOLE]),
            st.integers(0, 9).map(str),
        ),
        max_size=40,
    )
)
def test_no_typed_text_is_ever_a_traceback(lines: list[str]) -> None:
    held = talk([line for line in lines if line != INTERRUPT], ask_units=True)
    assert held.code == 0
    assert "Traceback" not in held.screen


def test_a_conversation_over_the_shipped_book() -> None:
    book = load()
    lines = ["10 acre", "flat", "rough_mowing", "5", "7 h", "2", "loam", "firm", "none_seen", "usual", "r1", "mild"]
    held = talk([*lines, "medium cutter", "now"], book=book)
    assert held.answers.items[0].given["kind"].value == "rotary_cutter_medium"
    assert "The ground. Questions left: about" in held.screen


def test_no_command_word_is_an_answer_of_the_shipped_book() -> None:
    book = load()
    for section in book.sections:
        group = (*section.group.questions, section.group.closes) if section.group else ()
        for question in (*section.questions, *group):
            for choice in question.choices:
                names = {choice.id, choice.label.casefold(), *(word.casefold() for word in choice.also)}
                assert not names & set(WORDS), f"{question.id}: {names & set(WORDS)}"
    for kind in book.kinds.values():
        assert not {kind.name, *kind.also} & set(WORDS)


@pytest.mark.parametrize("word", ["remove i3", "remove 3", "remove implement 3", "remove #3", "remove trailer"])
def test_an_implement_is_taken_off_by_its_number_or_its_name(word: str) -> None:
    blade, trailer = ["blade", "now", "8 ft", "angle"], ["trailer", "now", "500 kg", "300 kg"]
    held = talk(["14 acre", "trees", "snow", *blade, "another", *blade, "another", *trailer, word])
    assert "Implement 3" in held.screen
    assert "Off the list: farm trailer." in held.screen
    assert [item.id for item in held.answers.items] == ["i1", "i2"]


def test_the_number_on_the_screen_is_the_one_to_remove_by() -> None:
    """After one is gone the others keep their numbers; a number that is gone counts those that are left."""
    blade, trailer = ["blade", "now", "8 ft", "angle"], ["trailer", "now", "500 kg", "300 kg"]
    lines = ["14 acre", "trees", "snow", *blade, "another", *blade, "remove 1", "another", *trailer]
    held = talk(lines)
    assert "Implement 3" in held.screen
    assert [item.id for item in held.answers.items] == ["i2", "i3"]
    assert [item.id for item in talk([*lines, "remove 3"]).answers.items] == ["i2"]
    assert [item.id for item in talk([*lines, "remove 1"]).answers.items] == ["i3"]
    assert "Type remove and an implement" in talk([*lines, "remove 9"]).flat


def test_the_start_of_a_tools_name_neither_ends_the_list_nor_begins_a_tool() -> None:
    """With the shipped book, at the question whether there is another implement."""
    shipped = load()
    begin = ["0.5 acre", "flat", "loader work", *["unsure"] * 6, "ballast box", "now", *["unsure"] * 5]
    waits = talk(begin, book=shipped).interview.next()
    assert waits == Ref("implements_complete")
    asked = talk([*begin, "finish"], book=shipped)
    assert '"finish" can mean "that is all" or "finish mower, rear".' in asked.flat
    assert asked.interview.next() == waits
    named = talk([*begin, "finish mower"], book=shipped)
    assert named.answers.items[-1].given["kind"].value == "finish_mower"
