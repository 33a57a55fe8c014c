"""Answers that do not go together: found from answers and book alone, remembered with the answers that were kept."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from odd_book import ODD
from walks import State, histories

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item
from firstfurrow.asking.answers_file import read, write
from firstfurrow.asking.contradictions import carries, contradictions, jobs_of
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.book.load import load
from firstfurrow.book.model import Book

SHIPPED = load()


def answers(text: str, book: Book = ODD) -> Answers:
    """The answers of a file with this body."""
    head = f"format: firstfurrow-answers/1\nbook: {{id: {book.id}, version: 1}}\nunits: metric\nanswers:\n"
    return read(head + text, "a.yaml", book)


def found(text: str, book: Book = ODD) -> dict[str, str]:
    return {each.id: each.sentence for each in contradictions(book, answers(text, book))}


BLADE = "  jobs: [mowing]\n  implements: [{item: i1, kind: blade, when: later, size: 3.5 m}]\n"


def test_a_tool_whose_work_is_no_chosen_job() -> None:
    assert found(BLADE)["tool_without_job"] == "You named rear blade, but its work is not among your jobs: grading."
    assert "tool_without_job" not in found(BLADE.replace("[mowing]", "[mowing, grading]"))
    trailer = "  jobs: [snow]\n  implements: [{item: i1, kind: trailer}]\n"
    assert found(trailer) == {}  # let pass by the book, and for no job in particular


def test_each_implement_is_looked_at_by_itself() -> None:
    two = answers("  jobs: [snow]\n  implements: [{item: i1, kind: blade}, {item: i4, kind: cutter}]\n")
    assert [(c.id, c.places[0].item) for c in contradictions(ODD, two)] == [
        ("tool_without_job", "i1"),
        ("tool_without_job", "i4"),
    ]


def test_a_load_that_the_size_does_not_carry() -> None:
    trailer = "  implements: [{item: i1, kind: trailer, size: 500 kg, load: 760 kg}]\n"
    assert found(trailer)["overloaded"] == "farm trailer: the load is 760 kg, but 500 kg carries 500 kg."
    assert found(trailer.replace("760", "740")) == {}  # within what the book lets pass
    assert found(trailer.replace("size: 500 kg", "size: 600 kg")) == {}  # a size typed as a load carries that load
    typed = trailer.replace("size: 500 kg", "size: 600 kg").replace("760", "910")  # 1.5 times 600 is 900
    assert found(typed)["overloaded"] == "farm trailer: the load is 910 kg, but 600 kg carries 600 kg."
    assert found(trailer.replace("size: 500 kg", "size: choose")) == {}
    assert found(trailer.replace("size: 500 kg", "size: not sure")) == {}


def test_a_job_that_nothing_on_the_list_does() -> None:
    listed = "  jobs: [mowing, grading, snow]\n  implements: [{item: i1, kind: blade}]\n  complete: that_is_all\n"
    assert found(listed) == {"job_without_tool": "Nothing does this work: mowing."}
    two = listed.replace("kind: blade", "kind: trailer")
    assert found(two) == {"job_without_tool": "Nothing does this work: mowing; grading."}
    assert found(listed.replace("  complete: that_is_all\n", "")) == {}  # the list is not complete yet
    assert found("  jobs: [mowing]\n  complete: that_is_all\n") == {}  # an empty list says so by itself
    opened = Interview(ODD, answers(listed)).add_item()
    assert contradictions(ODD, opened.answers) == ()  # the next one may do it


def test_a_condition_of_the_book() -> None:
    assert found("  shape: [wet_places]\n  gate: 90 cm\n") == {
        "gate_among_trees": "A gate of 90 cm is for people. You said of the land: wet places."
    }
    assert found("  shape: [trees]\n  gate: 90 cm\n") == {}
    assert found("  shape: [wet_places]\n  gate: 3 m\n") == {}
    assert found("  gate: 90 cm\n") == {}  # the other answer is not there


def test_a_condition_about_one_implement_and_the_words_that_a_sentence_may_use() -> None:
    assert found(BLADE)["two_ways"] == 'rear blade: 3.5 m at "What size?", later.'
    assert "two_ways" not in found(BLADE.replace("later", "now"))


@pytest.mark.parametrize(("question", "text"), [("shape", "  gate: 90 cm\n"), ("gate", "  shape: [wet_places]\n")])
def test_who_is_not_sure_contradicts_nothing(question: str, text: str) -> None:
    assert found(f"{text}  {question}: not sure\n") == {}
    assert found(BLADE.replace("[mowing]", "not sure")).keys() == {"two_ways"}


def test_what_lies_aside_contradicts_nothing() -> None:
    assert found("  shape: [wet_places]\naside: {gate: 90 cm}\n") == {}
    begun = Interview(ODD, answers("  area: 2 ha\n  shape: [wet_places]\n  jobs: [snow]\n  gate: 90 cm\n")).change(
        Ref("shape"), Given(("trees",), "trees")
    )
    assert contradictions(ODD, begun.answers) == ()


# ------------------------------------------------------------------ keeping


def test_what_was_kept_is_not_asked_about_again_while_the_answers_stay() -> None:
    interview = Interview(ODD, answers("  jobs: [mowing]\n  implements: [{item: i1, kind: blade}]\n"))
    [open_] = contradictions(ODD, interview.answers)
    assert not open_.kept
    kept = interview.keep(open_.memory)
    [after] = contradictions(ODD, kept.answers)
    assert after == replace(open_, kept=True)
    other = kept.change(Ref("jobs"), Given(("snow",), "snow"))
    assert [each.kept for each in contradictions(ODD, other.answers)] == [False]
    again = other.change(Ref("jobs"), Given(("mowing",), "mowing"))
    assert again == kept  # a change and its reverse is the same state
    beside = kept.answer(Ref("gate"), NOT_SURE)
    assert [each.kept for each in contradictions(ODD, beside.answers)] == [True]


def test_keeping_changes_no_answer_and_goes_with_its_implement() -> None:
    before = answers("  jobs: [snow]\n  implements: [{item: i1, kind: blade}, {item: i2, kind: cutter}]\n")
    interview = Interview(ODD, before)
    for each in contradictions(ODD, interview.answers):
        interview = interview.keep(each.memory).keep(each.memory)  # kept twice is kept once
    assert len(interview.answers.kept) == 2
    assert interview.applies().kept == interview.answers.kept
    assert replace(interview.answers, kept=()) == before
    assert [kept.at for kept in interview.remove_item("i1").answers.kept] == ["i2.kind"]


def test_a_file_remembers_what_was_kept_and_a_file_without_it_stays_as_it_was() -> None:
    before = answers("  jobs: [mowing, snow]\n  implements: [{item: i1, kind: blade}]\n  gate: 9'6\"\n")
    assert "kept" not in write(before, ODD)
    [open_] = contradictions(ODD, before)
    kept = Interview(ODD, before).keep(open_.memory).answers
    text = write(kept, ODD)
    assert "  - {contradiction: tool_without_job, at: i1.kind, answers: [blade, 'mowing, snow']}\n" in text
    assert read(text, "a.yaml", ODD) == kept
    assert [each.kept for each in contradictions(ODD, read(text, "a.yaml", ODD))] == [True]


@settings(max_examples=60, deadline=None)
@given(histories(lambda: ODD))
def test_whatever_was_said_every_contradiction_can_be_kept_and_comes_back_from_the_file(state: State) -> None:
    interview = Interview(ODD, *state)
    open_ = contradictions(ODD, interview.answers)
    for each in open_:
        interview = interview.keep(each.memory)
    assert contradictions(ODD, interview.answers) == tuple(replace(each, kept=True) for each in open_)
    again = read(write(interview.answers, ODD), "a.yaml", ODD)
    assert [each.kept for each in contradictions(ODD, again)] == [True] * len(open_)


# ------------------------------------------------------------ the shipped book

# For each contradiction answers in which it stands alone, and a change after which nothing stands.
STANDS = {
    "area_beyond_land": ("  land_area: 2 ha\n  jobs: [hay]\n  hay_area: 3 ha\n", "3 ha", "2.1 ha"),
    "soft_ground_nowhere": ("  land_shape: [slopes]\n  surface: soft\n", "[slopes]", "[wet_places]"),
    "slopes_hardly_any": ("  land_shape: [slopes]\n  slope_up: 2 %\n  side_slope: 1 %\n", "2 %", "12 %"),
    "tool_without_job": (
        "  jobs: [snow]\n  implements: [{item: i1, kind: bale_spear}]\n", "[snow]", "[snow, bale_moving]",
    ),
    "load_beyond_size": (
        "  implements: [{item: i1, kind: dump_trailer, size: 1500 kg, load: 2500 kg}]\n", "2500 kg", "1600 kg",
    ),
    "job_without_tool": (
        "  jobs: [snow, hay]\n  implements: [{item: i1, kind: snow_blower}]\n  implements_complete: that_is_all\n",
        "[snow, hay]", "[snow]",
    ),
    "towing_nothing": (
        "  jobs: [towing]\n  implements_complete: that_is_all\n  tow_other: nothing\n", "nothing", "often",
    ),
    "road_for_the_trailer_only": ("  tow_other: often\n  tow_place: roads\n  road: never\n", "never", "along"),
    "hauled_loader_nowhere": (
        "  implements_complete: that_is_all\n  tight_more: [hauled]\n  haul_with: loader\n", "loader", "alone",
    ),
    "haul_trailer_beyond_rating": (
        "  tight_more: [hauled]\n  haul_rating: 2000 kg\n  haul_trailer: 3000 kg\n", "3000 kg", "900 kg",
    ),
    "haul_trailer_beyond_tow_rating": (
        "  tight_more: [hauled]\n  haul_trailer: 900 kg\n  haul_tow_rating: 800 kg\n", "900 kg", "300 kg",
    ),
}  # fmt: skip


def test_every_contradiction_of_the_shipped_book_stands_somewhere_and_can_be_undone() -> None:
    assert [rule.id for rule in SHIPPED.contradictions] == list(STANDS)
    for name, (text, old, new) in STANDS.items():
        assert list(found(text, SHIPPED)) == [name]
        assert found(text.replace(old, new), SHIPPED) == {}, name
        [sentence] = found(text, SHIPPED).values()
        rule = next(rule for rule in SHIPPED.contradictions if rule.id == name)
        assert not any(f"({slot})" in sentence for slot in re.findall(r"{(\w+)}", rule.say))  # none was left open


def test_every_tool_is_asked_about_without_its_job_and_never_with_it() -> None:
    [rule] = [rule for rule in SHIPPED.contradictions if rule.no_job is not None]
    asked = 0
    for kind in SHIPPED.kinds.values():
        named = (Item("i1", {"kind": Given(kind.kind, kind.kind)}),)
        every = [c.id for q in SHIPPED.sections[1].questions if q.id == "jobs" for c in q.choices]
        for job in every:
            said = Answers(given={"jobs": Given((job,), job)}, items=named, items_made=1)
            stands = "tool_without_job" in [each.id for each in contradictions(SHIPPED, said)]
            free = not jobs_of(kind) or kind.kind in (rule.no_job or ())
            assert stands == (not free and job not in jobs_of(kind)), (kind.kind, job)
            asked += stands
    assert asked > 500


def test_every_size_that_says_so_carries_its_load() -> None:
    for kind in SHIPPED.kinds.values():
        for size in kind.sizes:
            load_ = carries(kind, Given(size.id, size.id))
            if size.load is not None:
                assert load_ == size.load.high
            elif kind.asks_load and kind.size_is == "load":
                assert load_ is not None
        assert carries(kind, Given("choose", "choose")) is None


def test_a_size_typed_in_metres_or_litres_is_no_load() -> None:
    typed = Given(2.0, "2 of something")
    for kind in SHIPPED.kinds.values():
        assert carries(kind, typed) == (2.0 if kind.size_is == "load" else None)


def test_a_size_without_a_load_of_its_own_carries_that_of_the_implement() -> None:
    wagon = SHIPPED.kinds["hay_wagon"]
    first, second = wagon.sizes[:2]
    assert first.load is not None
    assert second.load is not None
    assert first.load.high != second.load.high
    bare = replace(wagon, sizes=(replace(first, load=None),), load=second.load)
    said = Given(first.id, first.id)
    assert carries(wagon, said) == first.load.high
    assert carries(bare, said) == second.load.high
    assert carries(replace(bare, load=None), said) is None
