"""What is unusual is doubted when it is typed, kept when it is given again, and marked wherever it came from."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from odd_book import ODD
from small_book import BOOK, CUTTER, TRAILER

from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item, Units
from firstfurrow.asking.answers_file import read
from firstfurrow.asking.interview import Interview
from firstfurrow.asking.refs import Ref
from firstfurrow.asking.typed import Doubt, Problem, understand
from firstfurrow.asking.usual import REACH, Unusual, unusual, weighs
from firstfurrow.book.load import load
from firstfurrow.book.model import Figure, Question

SHIPPED = load()
ALWAYS = [q for s in SHIPPED.sections for q in s.questions if q.when is None and q.type in ("quantity", "count")]


def of(**said: str) -> tuple[Unusual, ...]:
    """The unusual ones of answers about the land, written by hand."""
    body = "".join(f"  {key}: {value}\n" for key, value in said.items())
    head = "format: firstfurrow-answers/1\nbook: {id: small, version: 1}\nunits: us\nanswers:\n"
    return unusual(BOOK, read(head + body, "a.yaml", BOOK))


def test_a_number_outside_the_plausible_is_marked_with_what_is_usual() -> None:
    [found] = of(area="900 acre")
    assert found == Unusual(
        "area",
        None,
        "900 acre",
        "0.12 acre to 500 acre",
        "How much land is there? You said 900 acre. Usual is 0.12 acre to 500 acre.",
    )
    assert of(area="14 acre") == ()
    assert of(area="not sure") == ()


def test_a_count_outside_the_plausible_is_marked() -> None:
    [found] = of(jobs="[mowing]", times="100")
    assert (found.question, found.text, found.usual) == ("times", "100", "1 to 30")


def test_a_slope_in_degrees_is_marked_with_its_percent() -> None:
    [found] = of(shape="[slopes]", side_slope="35 deg")
    assert (found.text, found.usual) == ("35 deg, which is 70 %", "0 % to 40 %")
    [percent] = of(shape="[slopes]", side_slope="50 %")
    assert percent.text == "50 %"
    assert of(shape="[slopes]", side_slope="20 deg") == ()


def test_what_does_not_apply_is_not_marked() -> None:
    flat = "  shape: [trees]\naside: {side_slope: 50 %}\n"
    head = "format: firstfurrow-answers/1\nbook: {id: small, version: 1}\nanswers:\n"
    assert unusual(BOOK, read(head + flat, "a.yaml", BOOK)) == ()


def test_a_size_far_from_those_sold_is_marked_in_its_build() -> None:
    def cutter(size: str, variant: str = "mounted") -> tuple[Unusual, ...]:
        items = f"  implements: [{{item: i2, kind: cutter, when: now, variant: {variant}, size: {size}}}]\n"
        head = "format: firstfurrow-answers/1\nbook: {id: small, version: 1}\nunits: metric\nanswers:\n"
        return unusual(BOOK, read(head + items, "a.yaml", BOOK))

    [found] = cutter("4 m")
    assert (found.question, found.item, found.text, found.usual) == ("size", "i2", "4 m", "1.5 m to 1.8 m")
    assert found.sentence == "rotary cutter: What size? You said 4 m. Usual is 1.5 m to 1.8 m."
    assert cutter("2.5 m") == ()
    assert [f.usual for f in cutter("1.0 m", "trailed")] == ["1.8 m to 2.1 m"]
    assert cutter("choose") == cutter("1.8 m") == cutter("not sure") == ()


HEAVY = replace(CUTTER, mass_per_width=Figure(100, 150, 150, "kg/m", "practice"))
WEIGHED = replace(BOOK, kinds={**BOOK.kinds, "cutter": HEAVY})


def test_a_mass_is_held_against_all_that_the_book_has_of_the_implement() -> None:
    usual = weighs(HEAVY)
    assert usual is not None
    assert (usual.low, usual.high) == (150.0, pytest.approx(315.0))  # of the narrowest and of the widest one sold
    assert weighs(TRAILER) is None
    mass = next(q for s in WEIGHED.sections if s.group for q in s.group.questions if q.id == "mass")
    for text, doubted in (("89 kg", True), ("91 kg", False), ("500 kg", False), ("510 kg", True)):
        found = understand(mass, text, "metric", HEAVY, WEIGHED)
        assert isinstance(found, Doubt) == doubted, text
        if isinstance(found, Doubt):
            assert "rotary cutter" in found.sentence
            assert "150 kg to 315 kg" in found.sentence
            assert "keep" in found.sentence
        item = Item("i1", {"kind": Given("cutter", "cutter"), "when": Given("owned", "owned"), "mass": given_of(found)})
        marked = unusual(WEIGHED, Answers(units="metric", items=(item,), items_made=1))
        assert [m.question for m in marked] == (["mass"] if doubted else [])


def given_of(found: object) -> Given:
    given_ = getattr(found, "given", NOT_SURE)
    assert isinstance(given_, Given)
    return given_


def test_no_sold_implement_of_the_shipped_book_has_an_unusual_mass() -> None:
    weighed = 0
    for kind in SHIPPED.kinds.values():
        usual = weighs(kind)
        assert usual is not None, kind.kind
        assert usual.let_pass == (REACH[0] * usual.low, REACH[1] * usual.high)
        for build in kind.variants:
            per_width = build.mass_per_width or kind.mass_per_width
            for size in kind.sizes:
                figure = size.mass or build.mass or (None if per_width else kind.mass)
                if figure is not None and (not size.variants or build.id in size.variants):
                    assert usual.low <= figure.low <= figure.high <= usual.high
                    weighed += 1
    assert weighed > 100


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(ALWAYS), st.floats(0, 1e5), st.sampled_from(["us", "metric"]))
def test_what_is_doubted_when_typed_is_what_is_marked(question: Question, number: float, units: Units) -> None:
    line = str(int(number)) if question.type == "count" else f"{number:.3f}"
    found = understand(question, line, units, None, SHIPPED)
    if isinstance(found, Problem):
        return
    marked = unusual(SHIPPED, Answers(units=units, given={question.id: found.given}))
    assert bool(marked) == isinstance(found, Doubt)


def test_an_owned_tool_is_asked_for_its_size_in_words_of_its_own_and_nothing_is_chosen_for_it() -> None:
    def asked(when: str) -> tuple[str, bool]:
        kind = {"kind": Given("blade", "blade"), "when": Given(when, when)}
        interview = Interview(ODD, Answers(items=(Item("i1", kind),), items_made=1))
        question = interview.question(Ref("size", "i1"))
        return question.ask, any(choice.id == "choose" for choice in question.choices)

    assert asked("owned") == ("What size does its plate say?", False)
    assert asked("now") == ("What size?", True)
