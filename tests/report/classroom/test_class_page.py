"""The educator's page: counts with their cautions beside them, lists that end, every sentence from the book."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from firstfurrow.advice.classroom import Count, Crossing, Seen, Spread, class_of, seen
from firstfurrow.asking.complete import complete
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.report.blocks import Bullets, Document, Heading, Paragraph, Part, Picture, Table, Terms, texts_of
from firstfurrow.report.classroom.bars import WIDTH, bars
from firstfurrow.report.classroom.class_page import (
    LONGEST_FILE,
    MOST_BROKEN,
    MOST_FILES,
    MOST_HANDOUTS,
    MOST_UNKNOWN,
    Problem,
    Written,
    class_document,
)  # fmt: skip
from firstfurrow.report.drawing import Area, Label
from firstfurrow.report.html import html_page
from firstfurrow.report.markdown import markdown
from firstfurrow.report.text import render
from firstfurrow.talk.recordings import shipped


@pytest.fixture(scope="module")
def people(book: Book) -> list[Seen]:
    """The invented buyers of the recordings as a class."""
    found = []
    for recording in shipped():
        answers = recording.answers(book)
        found.append(seen(profile_of(book, answers), complete(book, answers), f"{recording.name}/answers.yaml"))
    return found


def one(file: str, **more: Any) -> Seen:
    return replace(Seen(file, "us", (), {}, (), (), (), None), **more)


def page(book: Book, people: list[Seen], *, units: Any = "us", **more: Any) -> Document:
    return class_document(book, class_of(book, people), units, **more)


def text_of(document: Document) -> str:
    return "\n".join(text for block in document for text in texts_of(block))


def below(document: Document, title: str) -> Document:
    """The blocks under a heading of level 2."""
    at = next(n for n, b in enumerate(document) if isinstance(b, Heading) and b.text == title)
    rest = document[at + 1 :]
    end = next((n for n, b in enumerate(rest) if isinstance(b, Heading) and b.level == 2), len(rest))
    return rest[:end]


def test_counts_of_what_decides_stand_in_the_table_and_in_the_bars(book: Book, people: list[Seen]) -> None:
    counts = class_of(book, people)
    shown = below(class_document(book, counts, "us"), "What decides")
    (table,) = (b for b in shown if isinstance(b, Table))
    (picture,) = (b for b in shown if isinstance(b, Picture))
    assert table.rows[0][1:] == (str(counts.deciding[0].first), str(counts.deciding[0].count))
    labels = [s.text for s in picture.drawing.shapes if isinstance(s, Label)]
    assert labels == [f"{what}: {among}" for what, _, among in table.rows]


def test_a_bar_is_as_long_as_its_count() -> None:
    drawing = bars((("a", 4, 1), ("b", 2, 0)), 4)
    areas = [s for s in drawing.shapes if isinstance(s, Area)]
    lengths = [max(x for x, _ in a.points) - min(x for x, _ in a.points) for a in areas]
    assert lengths == pytest.approx([lengths[0], lengths[0] / 4, lengths[0] / 2])
    assert lengths[0] <= WIDTH


def test_the_caution_stands_right_behind_a_refusal(book: Book, people: list[Seen]) -> None:
    crossed = [c for c in class_of(book, people).crossed if c.sort == "refusal"]
    assert crossed
    blocks = below(page(book, people), "Refused")
    heads = [n for n, b in enumerate(blocks) if isinstance(b, Paragraph) and b.tone == "strong"]
    for number, found in zip(heads, crossed, strict=True):
        caution = blocks[number + 2]
        assert isinstance(caution, Paragraph)
        assert caution.tone == "caution"
        assert found.caution in caution.text
        for _, files in found.titles:
            assert files[0] in " ".join(texts_of(blocks[number + 1]))


def test_every_kind_of_refusal_and_conflict_has_a_short_name(book: Book) -> None:
    for kind in book.tables["way_figures"].rows:
        assert f"classroom.kind.{kind}" in book.messages


def test_numbers_are_in_the_units_of_the_educator(book: Book) -> None:
    people = [one(f, stated={"pto_power": power}) for f, power in zip("abcd", (10.0, 20.0, 30.0, 40.0), strict=True)]
    assert class_of(book, people).spreads == (Spread("pto_power", 4, 10, 10, 20, 30, 40),)
    for units, row in (
        ("metric", ("4", "10 kW", "10 kW", "20 kW", "30 kW", "40 kW")),
        # 10 kW are 13.4 hp, 20: 26.8, 30: 40.2, 40: 53.6; up to whole ones, because it is a minimum
        ("us", ("4", "14 hp", "14 hp", "27 hp", "41 hp", "54 hp")),
    ):
        (table,) = (b for b in below(page(book, people, units=units), "How far the needs lie apart")
                    if isinstance(b, Table))  # fmt: skip
        assert table.rows[0][1:] == row


def test_what_nobody_knows_has_its_guide_and_what_it_moves(book: Book) -> None:
    people = [one("a", unknown=("slope_up", "side_slope")), one("b", unknown=("side_slope",))]
    (terms,) = (b for b in below(page(book, people), "What your class does not know yet") if isinstance(b, Terms))
    question = book.question("side_slope")
    assert question is not None
    asked, said = terms.items[0]
    assert asked == question.ask
    assert "2 of 2" in said
    assert question.how is not None
    assert book.guides[question.how].title in said
    for id_ in question.moves:
        assert book.messages[f"reason.brief.{id_}"] in said


def test_notes_and_pairs_are_about_what_most_do_not_know(book: Book) -> None:
    pair = next(pair for pair in book.teaching.pairs if pair.question == "slope_up")
    text = text_of(below(page(book, [one("a", unknown=("slope_up",))]), "What to talk about next"))
    assert book.teaching.notes["slope_up"].room in text
    assert f"pairs {pair.id}" in text
    assert all(f"pairs {p.id}" not in text for p in book.teaching.pairs if p.question.split(".")[-1] != "slope_up")


def test_pairs_fit_what_decides_where_everything_is_known(book: Book) -> None:
    pair = next(pair for pair in book.teaching.pairs if "pto_power" in pair.look_at)
    shown = below(page(book, [one("a", deciding=("pto_power",))]), "What to talk about next")
    assert f"pairs {pair.id}" in text_of(shown)


def test_long_lists_end_and_say_how_many_more(book: Book) -> None:
    crossing = Crossing("refusal", "side_slope", "Not across that slope", "It tips.")
    questions = [q.id for s in book.sections for q in s.questions]
    people = [one(f"{n:03}.yaml", crossings=(crossing,), deciding=("refusal:side_slope",), unknown=tuple(questions))
              for n in range(200)]  # fmt: skip
    document = page(
        book, people, broken=[Problem(f"b{n}.yaml", ": it is broken.") for n in range(60)],
        handouts=[Written(f"Ann {n}", f"{n:03}.yaml", f"handout-{n}.html") for n in range(200)],
    )  # fmt: skip
    (broken,) = (b for b in below(document, "Files that could not be used") if isinstance(b, Bullets))
    assert len(broken.items) == MOST_BROKEN + 1
    assert broken.items[-1] == f"And {60 - MOST_BROKEN} more."
    assert f"{MOST_FILES - 1:03}.yaml; and {200 - MOST_FILES} more" in text_of(below(document, "Refused"))
    assert f"And {len(questions) - MOST_UNKNOWN} more." in text_of(document)
    (handouts,) = (b for b in below(document, "The handouts") if isinstance(b, Table))
    assert len(handouts.rows) == MOST_HANDOUTS
    assert len(render(document, 80).splitlines()) < 400  # on paper some pages, whatever the class


def test_handouts_stand_in_the_order_of_the_files_and_long_names_are_short(book: Book) -> None:
    handouts = [Written("Zo", "a.yaml", "handout-zo.html"), Written("A" * 10_000, "b" * 300, "handout-a.html")]
    shown = below(page(book, [one("a.yaml")], handouts=handouts), "The handouts")
    (table,) = (b for b in shown if isinstance(b, Table))
    assert [row[2] for row in table.rows] == ["handout-zo.html", "handout-a.html"]
    assert max(len(cell) for row in table.rows for cell in row) <= LONGEST_FILE


def test_nothing_decides_is_said(book: Book) -> None:
    assert "For 1 of 1 nothing decides" in text_of(page(book, [one("a")]))


def test_every_form_has_the_same_blocks(book: Book, people: list[Seen]) -> None:
    part = Part("class", page(book, people, broken=[Problem("<b>.yaml", ":3: \x1b[1m & | it is broken.")]))
    in_html = html_page("x", (part,))
    assert tuple(re.findall(r'\bid="(class-\d+)"', in_html)) == part.ids
    assert tuple(re.findall(r'<a id="(class-\d+)"></a>', markdown((part,)))) == part.ids
    assert "<b>.yaml" not in in_html
    assert "\x1b" not in in_html + markdown((part,)) + render(part.document, 80)
    text = " ".join(render(part.document, 80).split()).casefold()
    assert all(b.text.casefold() in text for b in part.document if isinstance(b, Heading))


def test_every_sentence_is_from_the_book(book: Book, people: list[Seen]) -> None:
    """With another text for each sentence none of ours is left; slots are what the page puts in."""
    other = {id_: "Q" + "".join(re.findall(r"\{[a-z_]+\}", text)) for id_, text in book.messages.items()
             if id_.startswith(("classroom.", "report."))}  # fmt: skip
    strange = replace(book, messages={**book.messages, **other})
    document = page(strange, people, broken=[Problem("b.yaml", ":1: x")], carried=[Problem("c.yaml", ": y")])
    for block in document:
        if isinstance(block, Heading | Paragraph):
            assert block.text.startswith("Q") or block.text in {q.ask for s in book.sections for q in s.questions} or (
                all(part.endswith(".yaml") for part in block.text.split("; "))
            ), block.text
        elif isinstance(block, Table):
            assert all(header.startswith("Q") for header in block.headers)


def test_no_person_is_counted_above_another(book: Book, people: list[Seen]) -> None:
    """Files are named only where something is refused or crosses."""
    document = page(book, people)
    named = set(below(document, "Refused")) | set(below(document, "Wishes that cross"))
    for block in document:
        if block not in named:
            assert "answers.yaml" not in " ".join(texts_of(block))


def test_counts_are_of_participants(book: Book, people: list[Seen]) -> None:
    twice = class_of(book, [*people, *people])
    assert twice.deciding[0] == Count(twice.deciding[0].id, 2 * class_of(book, people).deciding[0].count,
                                      2 * class_of(book, people).deciding[0].first)  # fmt: skip
    assert f"Participants: {2 * len(people)}." in text_of(class_document(book, twice, "us"))
