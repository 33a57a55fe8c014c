"""Lines that used to be taken for something else than people mean by them, against the shipped book."""

from __future__ import annotations

import pytest

from firstfurrow.asking.answers import NOT_SURE, Given, Units
from firstfurrow.asking.choosing import candidates, plain
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.resolve import LINKS, SAME_SIZE, SIZE_UNIT, as_said, pointless, resolve, size_label
from firstfurrow.asking.typed import Doubt, Problem, Reading, Understood, understand
from firstfurrow.book.load import load
from firstfurrow.book.model import Kind, Question

BOOK = load()
QUESTIONS: dict[str, Question] = {
    question.id: question
    for section in BOOK.sections
    for question in (
        *section.questions,
        *((*section.group.questions, section.group.closes) if section.group is not None else ()),
    )
}
GROUP_END = next(section.group.closes for section in BOOK.sections if section.group is not None)


def read(question: str, line: str, units: Units = "us", kind: str | None = None) -> Reading:
    tool = None if kind is None else BOOK.kinds[kind]
    return understand(resolve(BOOK, QUESTIONS[question], units, tool, None), line, units, tool, BOOK)


def problem(question: str, line: str, units: Units = "us", kind: str | None = None) -> Problem:
    found = read(question, line, units, kind)
    assert isinstance(found, Problem), found
    return found


# ---------------------------------------------------------- is there another implement?


def test_the_start_of_a_tools_name_does_not_end_the_list() -> None:
    found = problem(GROUP_END.id, "finish")
    assert found.unclear
    assert found.sentence == '"finish" can mean "that is all" or "finish mower, rear". Type all of it.'


@pytest.mark.parametrize(
    "line", ["no", "No.", "none", "nothing else", "no more", "done", "all", "that's all", "finished", "2"]
)
def test_the_usual_ways_to_say_no_end_the_list(line: str) -> None:
    found = read(GROUP_END.id, line)
    assert isinstance(found, Understood)
    assert found.given.value == "that_is_all"


@pytest.mark.parametrize("line", ["yes", "more", "another", "1"])
def test_the_usual_ways_to_say_yes_open_another(line: str) -> None:
    found = read(GROUP_END.id, line)
    assert isinstance(found, Understood)
    assert found.given.value == "another"


@pytest.mark.parametrize("line", ["finish mower", "mower", "grapple", "nothing grapple"])
def test_a_tool_is_no_answer_to_whether_there_is_another(line: str) -> None:
    """The talk then takes the line over to the next question, because nothing about it is unclear."""
    assert not problem(GROUP_END.id, line).unclear


# ------------------------------------------------------------- what sort of implement?


@pytest.mark.parametrize("line", ["all", "no", "the", "it", "and the"])
def test_small_words_name_no_implement(line: str) -> None:
    found = problem("kind", line)
    assert found.kinds == ()
    assert "more for the whole list" in found.sentence


@pytest.mark.parametrize(("line", "kind"), [("carry-all", "carry_all"), ("no-till drill", "no_till_drill")])
def test_names_that_hold_small_words_are_found(line: str, kind: str) -> None:
    found = read("kind", line)
    assert isinstance(found, Understood)
    assert found.given.value == kind


# -------------------------------------------------- one word that is in several answers


@pytest.mark.parametrize(
    ("line", "first", "second"),
    [
        ("grass", "grass while it is dry", "grass while it is wet"),
        ("dry", "firm, dry soil or stubble", "grass while it is dry"),
        ("wet", "soft ground, mud or deep sand", "grass while it is wet"),
        ("turf", "grass while it is dry", "grass while it is wet"),
    ],
)
def test_ground_that_can_be_two_things_is_asked_about(line: str, first: str, second: str) -> None:
    sentence = problem("surface", line).sentence
    assert f'"{first}"' in sentence
    assert f'"{second}"' in sentence


@pytest.mark.parametrize(
    ("line", "ground"),
    [("dry grass", "dry_grass"), ("wet grass", "wet_grass"), ("dry soil", "firm"), ("wet ground", "soft")],
)
def test_ground_named_in_full_is_taken(line: str, ground: str) -> None:
    found = read("surface", line)
    assert isinstance(found, Understood)
    assert found.given.value == ground


@pytest.mark.parametrize("question", [q for q in QUESTIONS.values() if q.type == "choice"], ids=lambda q: q.id)
def test_the_start_of_an_id_that_nobody_sees_decides_nothing(question: Question) -> None:
    """An answer is found by a word only when the word is on the screen, or is a name of its own for it."""
    for choice in question.choices:
        word = plain(choice.id).split()[0]
        shown = [c for c in question.choices if word in plain(c.label).split()]
        found = candidates(question.choices, word)
        if len(found) == 1 and found[0] not in shown and shown:
            assert any(word in (plain(name), plain(name).split()[0]) for name in (*found[0].also, found[0].id)), word


def test_two_numbers_where_one_answer_goes_are_told_so() -> None:
    assert problem("soil", "1 2").sentence == "Only one answer goes here. Type one number from 1 to 3."


def test_a_line_with_no_word_of_the_answers_is_named_whole() -> None:
    assert '"log splitter" is none of the answers' in problem("land_shape", "log splitter").sentence


@pytest.mark.parametrize(("line", "value"), [("yes", "has_brakes"), ("no", "no_brakes")])
def test_yes_and_no_answer_whether_it_has_brakes(line: str, value: str) -> None:
    for question in ("brakes", "tow_brakes"):
        found = read(question, line)
        assert isinstance(found, Understood)
        assert found.given.value == value


# --------------------------------------------------------- words where a number goes


@pytest.mark.parametrize("line", ["no", "hard", "it", "you", "steep"])
@pytest.mark.parametrize("question", ["slope_up", "side_slope"])
def test_a_word_that_only_begins_like_a_suggestion_gives_no_slope(question: str, line: str) -> None:
    """A hard slope is not one that you "hardly notice"."""
    assert f'"{line}" is no number.' in problem(question, line).sentence


def test_a_suggestion_named_by_a_word_of_its_own_is_said_in_full() -> None:
    found = read("side_slope", "must lean")
    assert isinstance(found, Understood)
    assert (found.given.value, found.note) == (25.0, "Taken as one foot turns and you must lean: 25 %.")


@pytest.mark.parametrize(
    ("line", "times"), [("once", 1), ("twice a year", 2), ("two", 2), ("three times", 3), ("about 4", 4)]
)
def test_how_often_may_be_said_in_words(line: str, times: int) -> None:
    found = read("rough_mowing_times", line)
    assert isinstance(found, Understood)
    assert found.given.value == times


@pytest.mark.parametrize(
    ("question", "value"),
    [("stones", "none_seen"), ("road", "never"), ("tow_other", "nothing"), ("tight_more", ("none_of_these",))],
)
def test_no_means_none_and_never_the_start_of_another_word(question: str, value: object) -> None:
    found = read(question, "no")
    assert isinstance(found, Understood)
    assert found.given.value == value
    assert isinstance(read("when", "no"), Problem)  # not "now"


# ------------------------------------------------------------------------- tons


@pytest.mark.parametrize(
    ("line", "kept", "kilograms"),
    [
        ("6 t", "6 tonnes", 6000),
        ("6t", "6 tonnes", 6000),
        ("1 ton", "1 tonne", 1000),
        ("about 2.5 tons", "2.5 tonnes", 2500),
    ],
)
def test_a_ton_of_a_metric_reader_is_a_tonne(line: str, kept: str, kilograms: float) -> None:
    """What is kept names the tonne, so that an answers file can be read without knowing who wrote it."""
    found = read("load", line, "metric")
    assert isinstance(found, Understood)
    assert (found.given.value, found.given.text) == (kilograms, kept)
    assert found.note == f"Taken as {kept} = {kilograms:.0f} kg."


@pytest.mark.parametrize("line", ["6 t", "6 ton", "6 tons", "6t."])
def test_a_us_reader_is_asked_which_ton(line: str) -> None:
    assert "Which ton?" in problem("load", line).sentence
    assert "Which ton?" in problem("size", line, kind="utility_trailer").sentence


def test_named_tons_mean_what_they_say_in_all_units() -> None:
    for units in ("us", "metric"):
        found = read("load", "2 short tons", units)
        assert isinstance(found, Understood)
        assert found.given.value == pytest.approx(2 * 907.18474)


def test_a_size_in_tons_is_the_sold_size() -> None:
    found = read("size", "1.5 t", "metric", "utility_trailer")
    assert isinstance(found, Understood)
    assert found.given.value == "1500 kg"


# ------------------------------------------------------------------ sizes as sold


def test_sizes_sold_in_metric_are_said_in_round_us_numbers() -> None:
    labels = {
        kind: [size_label(BOOK.kinds[kind], size, "us") for size in BOOK.kinds[kind].sizes]
        for kind in ("bale_spear", "utility_trailer", "post_hole_digger", "mouldboard_plough")
    }
    assert labels["bale_spear"] == ["1000 lb (450 kg)", "2000 lb (900 kg)"]
    assert labels["utility_trailer"] == ["1550 lb (700 kg)", "3300 lb (1500 kg)", "6600 lb (3000 kg)"]
    assert labels["post_hole_digger"][0] == "6 in (150 mm)"
    assert labels["mouldboard_plough"][0] == "1 x 12 in (30 cm)"


KINDS_WITH_NUMBERS = [kind for kind in BOOK.kinds.values() if kind.size_is in SIZE_UNIT]


@pytest.mark.parametrize("kind", KINDS_WITH_NUMBERS, ids=lambda kind: kind.kind)
def test_to_type_a_size_as_it_is_shown_gives_that_size(kind: Kind) -> None:
    """Rounded for the reader, exact in the plan: whoever types what stands there gets the sold size."""
    for size in kind.sizes:
        for units in ("us", "metric"):
            shown = size_label(kind, size, units)
            for typed in (shown, shown.split(" (")[0]):
                found = read("size", typed, units, kind.kind)
                assert isinstance(found, Understood), (typed, found)
                assert found.given.value == size.id, typed


@pytest.mark.parametrize("kind", BOOK.kinds.values(), ids=lambda kind: kind.kind)
def test_no_two_sizes_of_a_kind_look_alike(kind: Kind) -> None:
    for units in ("us", "metric"):
        labels = [size_label(kind, size, units) for size in kind.sizes]
        assert len(set(labels)) == len(labels), labels


@pytest.mark.parametrize("number", [0.25, 1.04, 2.95, 9.99, 28.4, 106, 772, 1543.2, 13228, 99999])
def test_a_number_as_said_is_within_what_counts_as_the_same_size(number: float) -> None:
    assert float(as_said(number)) == pytest.approx(number, rel=SAME_SIZE)
    assert len(as_said(number).strip("0").replace(".", "").lstrip("0")) <= 3


def test_a_word_at_a_size_is_answered_with_what_may_be_typed() -> None:
    found = problem("size", "none", kind="utility_trailer")
    assert found.sentence == '"none" is no size. Type a number from 1 to 4, a size with its unit, or unsure.'
    assert not isinstance(read("size", "700 lb", kind="utility_trailer"), Problem)
    assert isinstance(read("size", "7", kind="utility_trailer"), Doubt)


# ---------------------------------------------------------------- tilting with oil


def test_the_links_are_those_of_the_book() -> None:
    assert set(BOOK.links) == LINKS
    assert {choice.id for choice in QUESTIONS["with"].choices} > LINKS


def test_nobody_is_asked_to_tilt_what_is_pulled_or_dragged() -> None:
    cutter = BOOK.kinds["rotary_cutter_medium"]
    ways = {variant.id: variant.way for variant in cutter.variants}
    assert set(ways.values()) == {"three_point", "drawbar"}
    for variant, way in ways.items():
        assert pointless(QUESTIONS["with"], cutter, variant) == (way == "drawbar")
    assert "tilts" not in BOOK.kinds["chain_harrow"].features


# ------------------------------------------------------------- a job that is left out


@pytest.mark.parametrize(
    "job", ["rough_mowing", "lawn_mowing", "hay", "soil_work", "garden_beds", "seeding", "spreading"]
)
def test_nobody_is_asked_for_the_time_of_a_job_whose_area_is_left_out(job: str) -> None:
    after = Interview(BOOK)
    for ref, given in (("land_area", "not sure"), ("land_shape", "not sure"), ("jobs", job)):
        answer = NOT_SURE if given == "not sure" else Given((given,), given)
        after = after.answer(Ref(ref), answer)
    assert after.next() == Ref(f"{job}_area")
    known = after.answer(Ref(f"{job}_area"), Given(1.0, "1 ha")).next()
    left_out = after.answer(Ref(f"{job}_area"), NOT_SURE).next()
    assert known is not None
    assert known.question.startswith(job)
    assert left_out is not None
    assert not left_out.question.startswith(job)
