"""The sales floor: few prompts, all implements in one line, and the same first deciding entry as the whole way."""

from __future__ import annotations

import pytest
from talking import Plain

from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.profile import advise_plan
from firstfurrow.advice.study.weighing import may_be_skipped, weigh
from firstfurrow.asking.answers import NOT_SURE, Answers
from firstfurrow.asking.complete import complete
from firstfurrow.asking.interview import Interview
from firstfurrow.book.model import Book
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.recordings import Recording, shipped
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore
from firstfurrow.talk.together import parts_of, with_kinds

BUYERS = [recording for recording in shipped() if (recording.folder / "adviser.yaml").is_file()]
UNITS_PROMPT = 1
HEAVY = 3.0  # felt steps: a question that moves more on the average is put, unless the book says why not


def skips(book: Book) -> frozenset[str]:
    return frozenset(book.settings["floor"]["skips"])


def walked(book: Book, answers: Answers) -> tuple[Interview, int]:
    """The buyer on the floor: what he says where he is asked, and how many prompts that takes."""
    interview, prompts = Interview(book, Answers(units=answers.units), skips=skips(book)), UNITS_PROMPT
    items = {f"i{number}": item.given for number, item in enumerate(answers.items, 1)}
    while (place := interview.next()) is not None:
        prompts += 1
        if place.question == "kind":
            interview = with_kinds(interview, tuple(item.given["kind"] for item in answers.items))
            continue
        said = answers.given if place.item is None else items[place.item]
        interview = interview.answer(place, said.get(place.question, NOT_SURE))
    return interview, prompts


def first_deciding(book: Book, answers: Answers) -> tuple[str, ...]:
    return advise_plan(book, make_plan(book, answers), lean=True).deciding[:1]


@pytest.mark.parametrize("buyer", BUYERS, ids=lambda r: r.name)
def test_the_first_thing_that_decides_is_that_of_the_whole_way(book: Book, buyer: Recording) -> None:
    answers = complete(book, buyer.answers(book))
    interview, _ = walked(book, answers)
    assert first_deciding(book, interview.applies()) == first_deciding(book, answers)


@pytest.mark.parametrize("buyer", BUYERS, ids=lambda r: r.name)
def test_up_to_four_implements_take_at_most_twelve_prompts(book: Book, buyer: Recording) -> None:
    answers = complete(book, buyer.answers(book))
    _, prompts = walked(book, answers)
    assert prompts <= 12 + max(0, len(answers.items) - 4)


def test_there_are_six_buyers() -> None:
    assert len(BUYERS) == 6


def test_the_floor_asks_a_part_of_the_questions_in_their_order(book: Book) -> None:
    answers = complete(book, BUYERS[0].answers(book))
    floor = [step.ref.question for step in walked(book, answers)[0].said()]
    every = [step.ref.question for step in Interview(book, answers).said()]
    rest = iter(every)
    assert all(question in rest for question in floor)


# ----------------------------------------------------------------------- by ranking


def against(book: Book, weights: dict[str, float]) -> set[str]:
    """The questions that are put although they are light, or skipped although they are heavy."""
    skipped = skips(book)
    return {q for q, each in weights.items() if (each >= HEAVY) is (q in skipped)}


def test_a_ranking_is_the_same_for_the_same_seeds(book: Book) -> None:
    assert weigh(book, range(2)) == weigh(book, range(2))
    assert {w.question for w in weigh(book, range(2))} <= {q for q in weights_of(book) if may_be_skipped(book, q)}


def weights_of(book: Book) -> set[str]:
    found = {q.id for section in book.sections for q in section.questions}
    return found | {q.id for section in book.sections if section.group for q in section.group.questions}


@pytest.mark.long
def test_what_is_skipped_moves_least_over_random_conversations_or_the_book_says_why(book: Book) -> None:
    """The conversations are made up by seed; none of them is one of the buyers."""
    weights = {w.question: w.each for w in weigh(book, range(1000, 1120))}
    assert against(book, weights) <= set(book.settings["floor"]["against_the_ranking"])


# ------------------------------------------------------------------------ the talk


def test_parts_of_a_line() -> None:
    assert parts_of("1, 3 and box blade; utility trailer & 4 5") == ["1", "3", "box blade", "utility trailer", "4", "5"]


def floor_talk(book: Book, lines: list[str]) -> tuple[list[str], str]:
    """The kinds that a talk on the floor ends with, and its screen."""
    front = ScriptFront(["2", "flat", "brush drive", "dry grass", *lines], 80)
    talk = Conversation(book, front, RehearsalStore(), Answers(), Plain(), "floor")
    talk.run()
    return [item.given["kind"].value for item in talk.interview.answers.items], front.screen


def test_all_implements_are_named_in_one_line_and_the_talk_goes_to_its_end(book: Book) -> None:
    rest = ["nothing", "unsure", "", "unsure", "", "none", "", ""]
    kinds, screen = floor_talk(book, ["light rotary cutter and land plane, box blade", *rest])
    assert kinds == ["rotary_cutter_light", "land_plane", "box_blade"]
    assert "Name all of them in one line" in screen
    assert "PROFILE:" in screen
    assert "SHEET: 3 items" in screen


def test_only_what_is_not_clear_is_asked_about(book: Book) -> None:
    kinds, screen = floor_talk(book, ["zzz, land plane, rear blade, rotary cutter", "", "2"])
    assert 'No implement goes by "zzz"' in " ".join(screen.split())
    assert "Understood: land plane; rear blade." in screen
    assert kinds == ["land_plane", "rear_blade", "rotary_cutter_medium"]


def test_nothing_is_on_the_list_while_a_part_of_the_line_is_open(book: Book) -> None:
    assert floor_talk(book, ["land plane, zzz"])[0] == []
    assert "Name all of them in one line" in floor_talk(book, ["zzz", ""])[1].rsplit("zzz", 1)[1]
