"""The ledger: each value is rounded before the next step reads it, and the printed line gives the printed value."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfurrow.reasoning import (
    EITHER,
    FORMULAS,
    LOWERS,
    RAISES,
    RECOMPUTED,
    Ledger,
    NoSolutionError,
    Step,
    ancestors,
    ends,
    evaluate,
    formula,
)


@formula("first - second", unit="kg", digits=1, raises="first", lowers="second", grade="derived")
def difference(first: float, second: float) -> float:
    return first - second


@formula("load / left", unit="kg", digits=0, raises="load", lowers="left")
def shared(load: float, left: float) -> float:
    if left <= 0:
        raise NoSolutionError("nothing is left")
    return load / left


@formula("x * (10 - x)", unit="", digits=3, either="x")
def hump(x: float) -> float:
    return x * (10 - x)


@formula("12 / x", unit="", digits=1, either="x")
def narrow(x: float) -> float:
    if x <= 0:
        raise NoSolutionError("too narrow")
    return 12 / x


def table(ledger: Ledger, value: float, low: float | None = None, high: float | None = None, digits: int = 3) -> Step:
    return ledger.leaf("table", "a figure", value, "kg", digits, low=low, high=high, grade="practice")


def recomputed(step: Step) -> float:
    assert step.formula is not None
    assert step.inputs is not None
    return round(evaluate(step.formula, {name: s.value for name, s in step.inputs.items()}), step.digits)


# --------------------------------------------------------------------- writing down


def test_a_leaf_is_rounded_with_its_ends() -> None:
    leaf = Ledger().leaf("table", "a figure", 1 / 3, "m", 2, low=0.1111, high=2 / 3)
    assert (leaf.low, leaf.value, leaf.high) == (0.11, 0.33, 0.67)


def test_the_next_step_reads_the_rounded_value() -> None:
    ledger = Ledger()
    third = ledger.convert("a third", "value / 3", "kg", 2, value=table(ledger, 1))
    back = ledger.convert("three of them", "value * 3", "kg", 4, value=third)
    assert third.value == 0.33
    assert back.value == 0.99


def test_steps_are_numbered_in_order_and_read_only_earlier_ones() -> None:
    ledger = Ledger()
    a, b = table(ledger, 3), table(ledger, 4)
    ledger.work(difference, "difference", first=b, second=a)
    ledger.rounded("up", "up", 1, b, 0)
    assert [step.id for step in ledger.steps] == ["s1", "s2", "s3", "s4"]
    assert [step.index for step in ledger.steps] == [0, 1, 2, 3]
    for step in ledger.steps:
        assert all(other.index < step.index for other in (step.inputs or {}).values())


def test_a_declared_function_gives_its_text_unit_digits_and_grade() -> None:
    ledger = Ledger()
    step = ledger.work(difference, "difference", first=table(ledger, 5.06), second=table(ledger, 1.0))
    assert (step.type, step.formula, step.unit, step.digits) == ("formula", "first - second", "kg", 1)
    assert (step.value, step.grade) == (4.1, "derived")
    assert FORMULAS[difference].directions == {"first": RAISES, "second": LOWERS}
    assert FORMULAS[hump].directions == {"x": EITHER}


@pytest.mark.parametrize(("way", "expected"), [("up", 7.5), ("down", 7.0), ("nearest", 7.0)])
def test_rounding_is_a_step_of_its_own(way: str, expected: float) -> None:
    ledger = Ledger()
    step = ledger.rounded("stated", way, 0.5, table(ledger, 7.2), 1)  # type: ignore[arg-type]
    assert (step.type, step.value, step.unit) == ("round", expected, "kg")
    assert recomputed(step) == expected


@pytest.mark.parametrize("way", ["up", "down", "nearest"])
def test_a_step_of_a_whole_number_gives_a_decimal_number_too(way: str) -> None:
    found = Ledger().rounded("stated", way, 1, table(Ledger(), 7.0), 0)  # type: ignore[arg-type]
    assert isinstance(found.value, float)


def test_the_strictest_and_the_sum() -> None:
    ledger = Ledger()
    parts = {"i1": table(ledger, 3.25, digits=2), "i2": table(ledger, 8.5, digits=1), "i3": table(ledger, 4, digits=0)}
    most, least, all_ = ledger.greatest("most", parts), ledger.least("least", parts), ledger.sum("all", parts)
    assert (most.value, least.value, all_.value) == (8.5, 3.25, 15.75)
    assert [step.formula for step in (most, least, all_)] == ["max(i1, i2, i3)", "min(i1, i2, i3)", "i1 + i2 + i3"]
    assert {step.digits for step in (most, least, all_)} == {2}
    assert all(recomputed(step) == step.value for step in (most, least, all_))


def test_words_have_no_formula() -> None:
    step = Ledger().words("category", ("1", "2"), grade="practice")
    assert (step.type, step.value, step.formula, step.inputs) == ("set", ("1", "2"), None, None)


def test_what_is_said_of_a_leaf_stands_on_its_step() -> None:
    ledger = Ledger()
    leaf = ledger.leaf(
        "assumption", "grip", 0.4, "", 2, grade="derived", source="a", where="Table 1", derived_from="b and c",
        note="low on purpose", question="surface",
    )  # fmt: skip
    assert (leaf.type, leaf.title, leaf.value, leaf.unit, leaf.digits) == ("assumption", "grip", 0.4, "", 2)
    assert (leaf.grade, leaf.source, leaf.where) == ("derived", "a", "Table 1")
    assert (leaf.derived_from, leaf.note, leaf.question) == ("b and c", "low on purpose", "surface")
    assert (leaf.inputs, leaf.formula, leaf.run, leaf.directions, leaf.low, leaf.high) == (None,) * 6
    bare = ledger.leaf("answer", "mass", 100, "kg", 0)
    said = (bare.grade, bare.source, bare.where, bare.derived_from, bare.note, bare.question)
    assert said == (None,) * 6


def test_what_is_said_of_words_stands_on_their_step() -> None:
    ledger = Ledger()
    words = ledger.words("category", "2", note="by power", grade="read", source="iso", where="Table 3")
    assert (words.note, words.grade, words.source, words.where) == ("by power", "read", "iso", "Table 3")
    assert (words.unit, words.digits, words.moves, words.derived_from) == ("", 0, False, None)
    bare = ledger.words("category", "2")
    assert (bare.note, bare.grade, bare.source, bare.where) == (None,) * 4
    assert ledger.steps == [words, bare]


def test_a_formula_says_its_source_and_one_without_a_grade_is_derived_by_us() -> None:
    @formula("x * 2", unit="kg", digits=0, raises="x", grade="read", source="book", where="page 9")
    def doubled(x: float) -> float:
        return x * 2

    ledger = Ledger()
    step = ledger.work(doubled, "doubled", x=table(ledger, 2))
    assert (step.grade, step.source, step.where) == ("read", "book", "page 9")
    assert step.directions == {"x": RAISES}
    assert step.run is doubled
    del FORMULAS[doubled]
    step = ledger.work(shared, "share", load=table(ledger, 10), left=table(ledger, 2))
    assert (step.grade, step.source, step.where) == ("derived", None, None)
    assert FORMULAS[shared].name == "shared"


@pytest.mark.parametrize(
    ("low", "high", "moves"),
    [(None, None, False), (2, 9, True), (5, 5, False), (5.0004, 5.0001, False), (2, None, True), (None, 9, True)],
)
def test_a_leaf_moves_where_its_ends_as_printed_differ(low: float | None, high: float | None, moves: bool) -> None:
    ledger = Ledger()
    leaf = table(ledger, 5, low, high)
    step = ledger.sum("sum", {"a": leaf, "b": table(ledger, 1)})
    after = ledger.sum("sum", {"b": table(ledger, 1), "a": step})
    assert (leaf.moves, step.moves, after.moves) == (moves, moves, moves)
    assert (leaf.ranged, step.ranged) == (moves, False)


def test_the_kind_of_step_and_the_way_of_its_inputs() -> None:
    ledger = Ledger()
    a, b = table(ledger, 3), table(ledger, 4)
    steps = (
        ledger.convert("change", "a * 2", "lb", 1, a=a), ledger.rounded("up", "up", 0.5, a, 1),
        ledger.greatest("most", {"a": a, "b": b}), ledger.least("least", {"a": a, "b": b}),
        ledger.sum("sum", {"a": a, "b": b}),
    )  # fmt: skip
    assert [step.type for step in steps] == ["convert", "round", "greatest", "greatest", "formula"]
    assert {step.type for step in steps} <= RECOMPUTED
    assert [step.unit for step in steps] == ["lb", "kg", "kg", "kg", "kg"]
    assert all(set((step.directions or {}).values()) == {RAISES} for step in steps)
    assert steps[1].formula == "up(value, 0.5)"
    assert [step.index for step in steps] == [2, 3, 4, 5, 6]
    assert not {"answer", "assumption", "table", "constant", "set"} & RECOMPUTED


def test_no_solution_for_the_planned_values_is_said_and_leaves_no_step() -> None:
    ledger = Ledger()
    load, left = table(ledger, 10), table(ledger, 0)
    with pytest.raises(NoSolutionError, match="nothing is left"):
        ledger.work(shared, "share", load=load, left=left)
    assert len(ledger.steps) == 2


# ------------------------------------------------------------------------------ ends


def test_what_raises_goes_high_and_what_lowers_goes_low_in_the_high_case() -> None:
    ledger = Ledger()
    step = ledger.work(difference, "d", first=table(ledger, 10, 8, 13), second=table(ledger, 4, 3, 6))
    reach = ends(step)
    assert (reach.low, reach.planning, reach.high) == (2, 6, 10)


def test_a_lowering_input_of_a_lowering_input_raises() -> None:
    ledger = Ledger()
    inner = ledger.work(difference, "inner", first=table(ledger, 5), second=table(ledger, 2, 1, 4))
    outer = ledger.work(difference, "outer", first=table(ledger, 10), second=inner)
    reach = ends(outer)
    assert (reach.low, reach.planning, reach.high) == (6, 7, 9)


def test_a_leaf_that_both_raises_and_lowers_keeps_one_value_throughout_a_case() -> None:
    ledger = Ledger()
    leaf = table(ledger, 5, 2, 9)
    double = ledger.convert("twice", "value * 2", "kg", 1, value=leaf)
    step = ledger.work(difference, "twice less once", first=double, second=leaf)
    reach = ends(step)
    assert (reach.low, reach.planning, reach.high) == (2, 5, 9)  # naive: 4 - 9 = -5 and 18 - 2 = 16


def test_a_leaf_declared_either_is_tried_at_both_ends() -> None:
    ledger = Ledger()
    reach = ends(ledger.work(hump, "hump", x=table(ledger, 2, 1, 5)))
    assert (reach.low, reach.planning, reach.high) == (9, 16, 25)


def test_the_planned_value_always_lies_between_the_ends() -> None:
    """A hump is highest between its ends: the high case must still not fall below what is planned."""
    ledger = Ledger()
    reach = ends(ledger.work(hump, "hump", x=table(ledger, 5, 2, 9)))
    assert reach.low is not None
    assert reach.high is not None
    assert reach.low <= reach.planning <= reach.high


def test_a_step_without_doubt_has_one_value() -> None:
    ledger = Ledger()
    reach = ends(ledger.work(difference, "d", first=table(ledger, 10, 10, 10), second=table(ledger, 4)))
    assert (reach.low, reach.planning, reach.high) == (6, 6, 6)


def test_a_leaf_has_its_own_ends() -> None:
    ledger = Ledger()
    ranged, exact = ends(table(ledger, 5, 2, 9)), ends(table(ledger, 5))
    assert (ranged.low, ranged.planning, ranged.high) == (2, 5, 9)
    assert (exact.low, exact.planning, exact.high) == (5, 5, 5)


def test_no_solution_at_the_unfavourable_end_is_none_not_a_number() -> None:
    ledger = Ledger()
    reach = ends(ledger.work(shared, "share", load=table(ledger, 10, 8, 12), left=table(ledger, 2, 0, 4)))
    assert (reach.low, reach.planning, reach.high) == (2, 5, None)


def test_one_open_end_without_solution_leaves_the_high_case_without_one() -> None:
    ledger = Ledger()
    reach = ends(ledger.work(narrow, "narrow", x=table(ledger, 3, 0, 4)))
    assert (reach.planning, reach.high) == (4, None)
    assert reach.low == 3


def test_every_case_rounds_at_each_step_as_the_planned_one_does() -> None:
    ledger = Ledger()
    third = ledger.convert("a third", "value / 3", "kg", 1, value=table(ledger, 1, 1, 2))
    back = ledger.convert("three", "value * 3", "kg", 3, value=third)
    assert ends(back).high == pytest.approx(2.1)  # 2 / 3 is printed 0.7, and 0.7 is what is used


# -------------------------------------------------------------------------- at worst


def test_at_worst_is_written_out_as_steps_of_its_own() -> None:
    ledger = Ledger()
    fixed = table(ledger, 4)
    inner = ledger.work(difference, "inner", first=table(ledger, 10, 8, 13), second=table(ledger, 4, 3, 6))
    top = ledger.sum("top", {"inner": inner, "fixed": fixed})
    before = len(ledger.steps)
    worst = ledger.at_worst(top, "{title}, at its worst")
    assert worst is not None
    assert worst.value == ends(top).high == 14
    assert worst.title == "top, at its worst"
    assert top.value == 10  # the planned one stays as it is
    assert fixed in ancestors(worst)  # what has no doubt is not written twice
    new = ledger.steps[before:]
    assert [step.value for step in new] == [13, 3, 10, 14]
    assert all(step.low is None for step in new)
    assert all(recomputed(step) == step.value for step in new if step.formula is not None)


def test_at_worst_keeps_where_a_leaf_came_from() -> None:
    ledger = Ledger()
    leaf = ledger.leaf(
        "table", "grip", 0.4, "", 2, low=0.3, high=0.5, grade="read", source="somewhere", where="Table", question="q"
    )
    worst = ledger.at_worst(ledger.work(shared, "share", load=table(ledger, 12), left=leaf), "{title}")
    assert worst is not None
    assert worst.inputs is not None
    twin = worst.inputs["left"]
    assert (twin.value, twin.grade, twin.source, twin.where, twin.question) == (0.3, "read", "somewhere", "Table", "q")


def test_at_worst_of_what_is_certain_is_itself() -> None:
    ledger = Ledger()
    top = ledger.work(difference, "d", first=table(ledger, 10), second=table(ledger, 4))
    assert ledger.at_worst(top, "{title}") is top
    assert len(ledger.steps) == 3


def test_at_worst_without_solution_is_none_and_writes_nothing() -> None:
    ledger = Ledger()
    top = ledger.work(shared, "share", load=table(ledger, 10), left=table(ledger, 2, 0, 4))
    assert ledger.at_worst(top, "{title}") is None
    assert len(ledger.steps) == 3


def test_ancestors_are_in_order_without_repeats() -> None:
    ledger = Ledger()
    a, b, unused = table(ledger, 3), table(ledger, 4), table(ledger, 5)
    both = ledger.sum("both", {"a": a, "b": b})
    top = ledger.work(difference, "top", first=both, second=a)
    assert ancestors(top) == [a, b, both, top]
    assert unused not in ancestors(top)


# ----------------------------------------------------------- any graph of such steps

RISING = ("a + b", "a * b", "max(a, b)", "a * 1.3410 + b / 3", "min(a, b) + a", "up(a, 0.5) + b", "sqrt(a) * b")
ANY = (*RISING, "a - b", "a / (b + 1)", "a * cos(b)", "a - 2 * b")


def grown(data: st.DataObject, texts: tuple[str, ...]) -> tuple[Ledger, Step]:
    """A small graph: some leaves with ends, then steps that read any earlier ones."""
    ledger = Ledger()
    for _ in range(data.draw(st.integers(1, 4))):
        low, value, high = sorted(data.draw(st.tuples(*[st.floats(0.01, 50)] * 3)))
        table(ledger, value, low, high, data.draw(st.integers(0, 3)))
    step = ledger.steps[0]
    for _ in range(data.draw(st.integers(1, 6))):
        pick = st.sampled_from(list(ledger.steps))
        step = ledger.convert(
            "a step", data.draw(st.sampled_from(texts)), "kg", data.draw(st.integers(0, 3)),
            a=data.draw(pick), b=data.draw(pick),
        )  # fmt: skip
    return ledger, step


@settings(max_examples=150, derandomize=True, deadline=None)
@given(st.data())
def test_every_printed_formula_gives_the_printed_value(data: st.DataObject) -> None:
    ledger, top = grown(data, ANY)
    worst = ledger.at_worst(top, "{title}, at its worst")
    assert worst is not None
    computed = [step for step in ledger.steps if step.formula is not None]
    assert computed
    for step in computed:
        assert recomputed(step) == step.value
        assert math.isfinite(step.value)
        assert round(step.value, step.digits) == step.value


@settings(max_examples=150, derandomize=True, deadline=None)
@given(st.data())
def test_the_ends_of_a_rising_graph_are_its_values_with_all_leaves_at_one_end(data: st.DataObject) -> None:
    ledger, top = grown(data, RISING)
    reach = ends(top)
    steps = ancestors(top)

    def all_at(end: str) -> float:
        values: dict[str, float] = {}
        for step in steps:
            if step.inputs is None:
                values[step.id] = getattr(step, end)
            else:
                assert step.formula is not None
                read = {name: values[s.id] for name, s in step.inputs.items()}
                values[step.id] = round(evaluate(step.formula, read), step.digits)
        return values[top.id]

    assert (reach.low, reach.high) == (all_at("low"), all_at("high"))
    worst = ledger.at_worst(top, "{title}")
    assert worst is not None
    assert worst.value == reach.high
