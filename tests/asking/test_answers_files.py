"""Answers files: read, written, and every kind of damage in one sentence with file and line."""

from __future__ import annotations

import json

import jsonschema
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from small_book import BOOK

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item, Kept
from firstfurrow.asking.answers_file import AnswersError, read, write
from firstfurrow.book.places import book_folder
from firstfurrow.book.yaml_strict import parse_marked

GOOD = """\
format: firstfurrow-answers/1
book: {id: small, version: 1}
units: us
answers:
  area: 14 acre
  shape: [slopes, trees]
  side_slope: not sure
  jobs: [mowing]
  times: 3
  implements:
    - {item: i1, kind: cutter, when: owned, variant: trailed, size: 6 ft, options: [fold], mass: 600 lb}
    - {item: i3, size: choose, kind: trailer, when: later, load: 1.5 tonne}
  complete: that_is_all
  gate: 9'6"
aside: {i1.load: 200 kg}
"""


KEPT = Answers(kept=(Kept("tool_without_job", "i1.kind", ("cutter", "mowing, snow")),))


def test_a_good_file_is_read() -> None:
    answers = read(GOOD, "a.yaml", BOOK)
    assert answers.units == "us"
    assert answers.given["area"] == Given(14 * 0.40468564224, "14 acre")
    assert answers.given["shape"].value == ("slopes", "trees")
    assert answers.given["side_slope"] == NOT_SURE
    assert answers.given["times"].value == 3
    assert answers.given["gate"].value == pytest.approx(2.8956)
    first, third = answers.items
    assert first.id == "i1"
    assert first.given["size"] == Given("1.8 m", "6 ft")
    assert first.given["options"].value == ("fold",)
    assert third.given["load"].value == 1500.0
    assert answers.items_made == 3
    assert answers.aside["i1.load"].value == 200.0


def test_what_is_written_reads_well_and_comes_back() -> None:
    answers = read(GOOD, "a.yaml", BOOK)
    text = write(answers, BOOK)
    assert "  area: 14 acre\n" in text
    assert "    - {item: i3, kind: trailer, when: later, size: choose, load: 1.5 tonne}\n" in text
    assert "  gate: '9''6\"'\n" in text
    assert read(text, "a.yaml", BOOK) == answers


def test_what_is_written_fits_the_schema() -> None:
    schema = json.loads((book_folder() / "schema" / "answers.schema.json").read_text(encoding="utf-8"))
    named = Answers(name="hill", notes=("invented",), items_made=3)
    for answers in (Answers(), read(GOOD, "a.yaml", BOOK), KEPT, named):
        data, _ = parse_marked(write(answers, BOOK), "a.yaml")
        assert list(jsonschema.Draft202012Validator(schema).iter_errors(data)) == []


def test_what_was_kept_comes_back_even_when_the_book_knows_it_no_more() -> None:
    kept = (Kept("of_another_edition", "i1.kind", ("cutter", "mowing, 'rough'", "3")), Kept("b", "gate", ()))
    answers = Answers(kept=kept)
    assert read(write(answers, BOOK), "a.yaml", BOOK) == answers
    assert read(GOOD, "a.yaml", BOOK).kept == ()


def test_name_and_notes_are_kept() -> None:
    answers = Answers(name="a wet hill: first try", notes=("invented", "'quoted' # not a comment", "no"))
    assert read(write(answers, BOOK), "a.yaml", BOOK) == answers


DAMAGE = [
    ("", 1, "must begin with format"),
    ("just text", 1, "must begin with format"),
    ("- a\n- b\n", 1, "must begin with format"),
    (GOOD.replace("area: 14 acre", "area: [14"), None, ""),  # not YAML
    (GOOD.replace("units: us", "units:\tus\t:"), None, ""),
    (GOOD.replace("  times: 3", "  area: 3 ha"), 9, "area"),  # a key twice
    (GOOD.replace("answers/1", "answers/2"), 1, "version 2"),
    (GOOD.replace("firstfurrow-answers/1", "something-else/1"), 1, "format"),
    (GOOD.replace("format: firstfurrow-answers/1\n", ""), 1, "format"),
    (GOOD.replace("id: small", "id: other"), 2, "other"),
    (GOOD.replace("book: {id: small, version: 1}", "book: small"), 2, "small"),
    (GOOD.replace("version: 1}", "version: 9}"), 2, "edition 9"),
    (GOOD.replace("units: us", "units: imperial"), 3, "us or metric"),
    (GOOD.replace("  area:", "  aera:"), 5, 'Did you mean "area"'),
    (GOOD.replace("aside:", "asides:"), 15, 'Did you mean "aside"'),
    (GOOD.replace("14 acre", "14"), 5, "14 acre"),
    (GOOD.replace("14 acre", "14 furlongs"), 5, "furlongs"),
    (GOOD.replace("14 acre", "14 kg"), 5, "mass"),
    (GOOD.replace("14 acre", "99999 ha"), 5, "cannot be"),
    (GOOD.replace("14 acre", ""), 5, "no usable value"),
    (GOOD.replace("14 acre", "true"), 5, "no usable value"),
    (GOOD.replace("14 acre", "{a: 1}"), 5, "no usable value"),
    (GOOD.replace("[slopes, trees]", "[slopes, tree]"), 6, 'Did you mean "trees"'),
    (GOOD.replace("[slopes, trees]", "[]"), 6, "no usable value"),
    (GOOD.replace("[slopes, trees]", "[slopes, none_of_these]"), 6, "beside"),
    (GOOD.replace("times: 3", "times: 3.5"), 9, "whole number"),
    (GOOD.replace("times: 3", "times: -3"), 9, "whole number"),
    (GOOD.replace("times: 3", "times: 999"), 9, "cannot be"),
    (GOOD.replace("kind: cutter", "kind: cuter"), 11, 'Did you mean "cutter"'),
    (GOOD.replace("kind: cutter", "kind: not sure"), 11, "not sure"),
    (GOOD.replace("kind: cutter, ", ""), 11, "without a kind"),
    (GOOD.replace("when: owned", "when: mine"), 11, "owned, now or later"),
    (GOOD.replace("variant: trailed", "variant: trailing"), 11, 'Did you mean "trailed"'),
    (GOOD.replace("size: 6 ft", "size: 6"), 11, "6 ft"),
    (GOOD.replace("size: 6 ft", "size: 6 kg"), 11, "mass"),
    (GOOD.replace("size: 6 ft", "sise: 6 ft"), 11, 'Did you mean "size"'),
    (GOOD.replace("item: i3", "item: i1"), 12, "line 11"),
    (GOOD.replace("item: i3, ", ""), 12, "item id"),
    (GOOD.replace("item: i3", "item: [i3]"), 12, "item id"),
    (GOOD.replace("i1.load", "i1.laod"), 15, 'Did you mean "load"'),
    (GOOD.replace("aside: {i1.load: 200 kg}", "aside: 3"), 15, "aside"),
    (GOOD + "kept: yes\n", 16, "kept"),
    (GOOD + "kept: [gate]\n", 16, "contradiction, at, and a list"),
    (GOOD + "kept: [{contradiction: a, at: gate}]\n", 16, "contradiction, at, and a list"),
    (GOOD + "kept: [{contradiction: 3, at: gate, answers: [a]}]\n", 16, "contradiction, at, and a list"),
    (GOOD + "kept: [{contradiction: a, att: gate, answers: [a]}]\n", 16, 'Did you mean "at"'),
    (GOOD + "items_made: many\n", 16, "items_made"),
    (GOOD + "notes: 3\n", 16, "notes"),
]


@pytest.mark.parametrize(("text", "line", "about"), DAMAGE)
def test_damage_is_one_sentence_with_file_and_line(text: str, line: int | None, about: str) -> None:
    with pytest.raises(AnswersError) as caught:
        read(text, "my answers.yaml", BOOK)
    message = str(caught.value)
    assert message.startswith("my answers.yaml:")
    assert "\n" not in message
    assert "{" not in message.replace("{a: 1}", "")
    assert message[-1] in ".?"
    assert about in message
    if line is not None:
        assert message.startswith(f"my answers.yaml:{line}: ")


def test_too_many_items() -> None:
    rows = "".join(f"    - {{item: i{n}, kind: blade}}\n" for n in range(1, 6))
    text = f"format: firstfurrow-answers/1\nbook: {{id: small, version: 1}}\nanswers:\n  implements:\n{rows}"
    with pytest.raises(AnswersError, match=r"a\.yaml:9: .*no more than 4"):
        read(text, "a.yaml", BOOK)


def test_items_must_be_a_list() -> None:
    text = "format: firstfurrow-answers/1\nbook: {id: small, version: 1}\nanswers:\n  implements: {a: 1}\n"
    with pytest.raises(AnswersError, match="a list"):
        read(text, "a.yaml", BOOK)


def outcome(text: str) -> Answers | str:
    """The answers, or what the error says."""
    try:
        return read(text, "a.yaml", BOOK)
    except AnswersError as error:
        return str(error)


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_any_damage_is_a_sentence_or_still_a_file(data: st.DataObject) -> None:
    """Cut, doubled or overwritten text: never anything but answers or one sentence."""
    start = data.draw(st.integers(0, len(GOOD)))
    end = data.draw(st.integers(start, min(len(GOOD), start + 30)))
    put = data.draw(
        st.one_of(st.just(""), st.text(max_size=8), st.sampled_from([": ", "{", "]", "- ", "\t", "&a ", "!!x "]))
    )
    said = outcome(GOOD[:start] + put + GOOD[end:])
    assert isinstance(said, Answers) or (said.startswith("a.yaml:") and "\n" not in said)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=60))
@example("0E0")
@example("1.5e3")
@example("0x1f")
@example("12 e3")
def test_free_text_survives_the_file(text: str) -> None:
    kept = " ".join("".join(c for c in " ".join(text.split()) if c.isprintable()).split())
    if not kept or kept == "not sure":
        return
    answers = Answers(
        given={"words": Given(kept, kept)}, items=(Item("i1", {"kind": Given("blade", "blade")}),), items_made=1
    )
    assert read(write(answers, BOOK), "a.yaml", BOOK) == answers
