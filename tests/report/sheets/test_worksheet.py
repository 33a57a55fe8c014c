"""The worksheet: every question of the book once, in order, with its condition in words, all choices, room to write."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfurrow.asking.answers import Given
from firstfurrow.asking.answers_file import read
from firstfurrow.asking.resolve import size_label, wished_functions
from firstfurrow.asking.walk import Walk
from firstfurrow.book.conditions import build
from firstfurrow.book.model import Book, Question
from firstfurrow.quantities import Units, parse
from firstfurrow.report.blocks import FillIn, Heading, Paragraph, Steps, Terms
from firstfurrow.report.sheets.conditions import Conditions, may_hold
from firstfurrow.report.sheets.forms import in_form
from firstfurrow.report.sheets.questions import Worksheet, every_question, question_parts
from firstfurrow.report.sheets.wording import saying

AREAS = ("rough_mowing", "lawn_mowing", "hay", "soil_work", "garden_beds", "seeding", "spreading")
BLOCKS = dict[Units | None, tuple[object, ...]]


@pytest.fixture(scope="module")
def blocks(book: Book) -> BLOCKS:
    return {
        units: tuple(block for part in question_parts(book, units) for block in part.document)
        for units in ("us", "metric", None)
    }


@pytest.fixture(scope="module")
def boxes(blocks: BLOCKS) -> dict[str, FillIn]:
    return asked(blocks[None])


def asked(found: tuple[object, ...]) -> dict[str, FillIn]:
    """The questions by id; one that stands there twice is an error."""
    named = [block for block in found if isinstance(block, FillIn) and block.id]
    assert len({block.id for block in named}) == len(named)
    return {block.id: block for block in named}


def test_every_question_stands_there_once_in_the_order_of_the_book(book: Book, boxes: dict[str, FillIn]) -> None:
    everything: list[Question] = []
    for section in book.sections:
        everything += section.questions
        everything += (*section.group.questions, section.group.closes) if section.group is not None else ()
    assert list(boxes) == [question.id for question in everything]
    assert [box.number for box in boxes.values()] == [str(n) for n in range(1, len(everything) + 1)]
    assert all(box.ask == q.ask for box, q in zip(boxes.values(), everything, strict=True))


def test_the_walk_of_the_conversation_meets_them_in_the_same_order(book: Book, boxes: dict[str, FillIn]) -> None:
    everything_ticked = {
        "land_shape": ("slopes", "wet", "trees"), "jobs": tuple(c.id for c in question(book, "jobs").choices),
        "tow_other": "often", "tight_more": tuple(c.id for c in question(book, "tight_more").choices),
        "i1.kind": "tipping_trailer", "i1.when": "now", **{f"{job}_area": 1.0 for job in AREAS},
    }  # fmt: skip
    walk = Walk(
        book, ["i1"], 1,
        lambda key: Given(everything_ticked[key], "") if key in everything_ticked else None, past_gaps=True,
    )  # fmt: skip
    met = [step.ref.question for step in walk.steps()]
    assert len(met) > 50
    assert met == [id_ for id_ in boxes if id_ in met]


def question(book: Book, id_: str) -> Question:
    found = book.question(id_)
    assert found is not None
    return found


def test_a_condition_stands_in_words_at_every_question_that_is_asked_only_sometimes(
    book: Book, boxes: dict[str, FillIn]
) -> None:
    for id_, box in boxes.items():
        asked_always = question(book, id_).when is None
        assert box.lead.startswith("Only if ") is not asked_always, id_


@pytest.mark.parametrize(
    ("id_", "words"),
    [
        ("slope_up", 'Only if you ticked "slopes, banks or a steep lane" at question 2 (or are not sure there).'),
        ("hay_hours", 'Only if you ticked "make hay" at question 3 and you could answer question 10.'),
        ("tow_mass", 'Only if you answered "now and then" or "often" at question 50.'),
        ("front_load", "Only if one of your implements is carried by the front loader."),
        ("stated_power", 'Only if you answered "I own it already" at question 37 and the implement is driven by the '
                         "turning shaft."),
    ],
)  # fmt: skip
def test_conditions_read_as_a_person_would_say_them(boxes: dict[str, FillIn], id_: str, words: str) -> None:
    assert boxes[id_].lead == words


@pytest.mark.parametrize(
    ("when", "words"),
    [
        ({"any": [{"answer": "soil", "is": "clay"}, {"answer": "stones", "is": "many"}]},
         'either you answered "clay" at question 26 (or are not sure there) or you answered "many, or we find new ones '
         'every year" at question 30'),
        ({"answer": "soil", "in": ["sand", "loam"]}, 'you answered "sand" or "loam" at question 26'),
        ({"not": [{"answer": "soil", "is": "sand"}]}, 'it is not so that you answered "sand" at question 26'),
        ({"answer": "slope_up", "at_least": "15 %"}, "you wrote 15 % or more at question 28"),
        ({"answer": "altitude", "below": "1000 m"},
         "you wrote less than 3300 ft or 1000 m at question 34 (or are not sure there)"),
        ({"answer": "soil", "not_sure": True}, "you are not sure at question 26"),
        ({"not": [{"answer": "soil", "not_sure": False}]}, "you are not sure at question 26"),
    ],
)  # fmt: skip
def test_every_sort_of_condition_has_words(book: Book, when: dict[str, object], words: str) -> None:
    sheet = Worksheet(book, None)
    assert sheet.conditions.words(build(when)) == words


def test_every_feature_of_an_implement_has_words(book: Book) -> None:
    say = saying(book)
    for feature in {feature for kind in book.kinds.values() for feature in kind.features}:
        assert say(f"has.{feature}")


def test_every_choice_and_every_rough_answer_is_there_to_tick(book: Book, boxes: dict[str, FillIn]) -> None:
    for id_, box in boxes.items():
        labels = [tick.label for tick in box.ticks]
        for choice in question(book, id_).choices:
            assert choice.label in labels
        for band in question(book, id_).bands:
            assert any(label.endswith(f": {band.label}") for label in labels)
        assert not any(tick.on for tick in box.ticks)


def test_not_sure_can_be_ticked_wherever_the_book_takes_it_and_says_what_then(
    book: Book, boxes: dict[str, FillIn]
) -> None:
    for id_, box in boxes.items():
        unsure = [tick.label for tick in box.ticks if tick.label.startswith("not sure")]
        assert len(unsure) == (0 if question(book, id_).not_sure.how == "refused" else 1), id_
        assert all(len(label) > len("not sure: ") for label in unsure)
    label = next(t.label for t in boxes["side_slope"].ticks if t.label.startswith("not sure"))
    assert "do not drive across that slope" in label


def kinds_listed(book: Book) -> dict[str, str]:
    """The list of implements behind the questions."""
    listed = next(part for part in question_parts(book, "us") if part.name == "card-kinds").document
    return dict(item for block in listed if isinstance(block, Terms) for item in block.items)


def test_every_implement_stands_in_the_list_with_all_its_builds_sizes_and_oil(book: Book) -> None:
    listed = kinds_listed(book)
    assert list(listed) == [kind.name for kind in book.kinds.values()]
    for kind in book.kinds.values():
        text = listed[kind.name]
        assert kind.plain in text
        for words in (
            *(v.name for v in kind.variants if len(kind.variants) > 1),
            *(size_label(kind, s, "us") for s in kind.sizes if len(kind.sizes) > 1),
            *(f.job for f in wished_functions(kind, None)),
        ):
            assert words in text


def test_the_list_names_the_questions_that_an_implement_has_of_its_own(book: Book) -> None:
    sheet = Worksheet(book, "us")
    listed = kinds_listed(book)
    group = next(s.group for s in book.sections if s.group is not None)
    for kind in book.kinds.values():
        for id_ in ("load", "depth", "brakes", "size"):
            asks = next(q for q in group.questions if q.id == id_)
            named = listed[kind.name].partition("Questions of its own: ")[2].partition(".")[0].split(", ")
            assert (str(sheet.numbers[id_]) in named) is may_hold(asks.when, kind) is (
                {"load": "load", "depth": "depth", "brakes": "wheels", "size": "sizes"}[id_] in kind.features
            )


def test_blanks_take_the_measures_of_the_reader(book: Book, blocks: BLOCKS) -> None:
    for units in ("us", "metric"):
        for id_, box in asked(blocks[units]).items():
            dimension = question(book, id_).dimension
            if dimension is not None:
                (blank,) = box.blanks
                assert parse(f"2 {blank.unit}", dimension).working > 0
    both = asked(blocks[None])
    assert both["land_area"].blanks[0].unit == "acre or ha"
    assert both["slope_up"].blanks[0].unit == "%"  # one and the same


def test_what_is_written_by_hand_has_room(book: Book, boxes: dict[str, FillIn]) -> None:
    for id_, box in boxes.items():
        sort = question(book, id_).type
        assert bool(box.blanks) is (sort in ("quantity", "count", "kind", "variant", "size") or id_ == "options"), id_


def test_how_it_was_measured_has_a_line_and_every_guide_stands_there_once(
    book: Book, blocks: BLOCKS, boxes: dict[str, FillIn]
) -> None:
    wanted = dict.fromkeys(q.how for q in every_question(book) if q.how is not None)
    guides = [block for block in blocks[None] if isinstance(block, Steps)]
    known = [book.guides[id_] for id_ in wanted]
    assert [(g.items, g.drawing) for g in guides] == [(g.steps, g.drawing) for g in known]
    assert any(guide.drawing for guide in guides)
    for id_, box in boxes.items():
        how = question(book, id_).how
        assert len(box.lines) == (0 if how is None else 1)
        if how is not None:
            place = list(wanted).index(how) + 1
            assert box.lines == (f"How I know it (guide {place}: {book.guides[how].title}):",)
            assert Heading(f"Guide {place}: {book.guides[how].title}", 3) in blocks[None]


def test_the_pages_of_an_implement_stand_apart_to_be_copied(book: Book) -> None:
    parts = {part.name: part for part in question_parts(book)}
    own = [block.id for block in parts["card-implement"].document if isinstance(block, FillIn) and block.id]
    group = next(s.group for s in book.sections if s.group is not None)
    assert own == [q.id for q in (*group.questions, group.closes)]
    page = in_form(tuple(parts.values()), "html")
    assert '<section id="card-implement" class="report apart"' in page
    assert ".apart" in page


def test_the_words_in_brackets_are_the_names_in_an_answers_file(book: Book, boxes: dict[str, FillIn]) -> None:
    """What is written behind them, written into a file under these names, is read back as the answers meant."""
    written = {"land_area": "3 acre", "soil": "clay", "altitude": "not sure", "driver": "novice", "gate_width": "9 ft"}
    assert set(written) <= set(boxes)
    lines = [f"  {boxes[id_].id}: {text}" for id_, text in written.items()]
    head = "format: firstfurrow-answers/1\nbook: {id: firstfurrow, version: 1}\nunits: us\nanswers:\n"
    answers = read("\n".join([head.rstrip(), *lines, ""]), "mine.yaml", book)
    assert {id_: given.text for id_, given in answers.given.items()} == written


def test_a_question_that_a_local_edition_takes_out_is_on_no_sheet(book: Book) -> None:
    without = replace(book, retired=frozenset({"land_shape", "tow_other"}))
    found = asked(tuple(block for part in question_parts(without) for block in part.document))
    assert "land_shape" not in found
    assert "tow_mass" not in found  # only tow_other opens it
    assert found["slope_up"].lead == ""  # slopes are planned where nobody is asked
    assert [int(box.number) for box in found.values()] == list(range(1, len(found) + 1))


@pytest.mark.parametrize("units", ["us", "metric", None])
def test_it_prints_on_any_printer(book: Book, units: Units | None) -> None:
    text = in_form(question_parts(book, units), "text", encoding="ascii")
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80


def test_who_made_it_from_which_book_stands_on_it(book: Book, blocks: BLOCKS) -> None:
    from firstfurrow import __version__

    made = [b.text for b in blocks[None] if isinstance(b, Paragraph) and __version__ in b.text]
    assert len(made) == 1
    assert f"{book.id}, version {book.version}" in made[0]


def test_conditions_are_said_for_the_measures_of_the_reader(book: Book) -> None:
    numbers = {"altitude": 1}
    when = build({"answer": "altitude", "below": "1000 m"})
    assert "1000 m" in Conditions(book, saying(book), numbers, "metric").words(when)
    assert "3300 ft" in Conditions(book, saying(book), numbers, "us").words(when)
