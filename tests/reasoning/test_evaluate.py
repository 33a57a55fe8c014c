"""The grammar of a formula text: what it means, and what it refuses."""

from __future__ import annotations

import pytest

from firstfurrow.reasoning import evaluate

VALUES = {"a": 6.0, "b": 4.0, "c": 0.5, "n": -3.0}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("7", 7),
        ("a", 6),
        ("a + b * c", 8),
        ("(a + b) * c", 5),
        ("a - b - c", 1.5),
        ("a / b / c", 3),
        ("a * b**2", 96),
        ("2**3**2", 512),
        ("-a + b", -2),
        ("+a", 6),
        ("-b**2", -16),
        ("min(a, b, c)", 0.5),
        ("max(a, b * 2)", 8),
        ("sqrt(b)", 2),
        ("up(a + 0.1, 0.5)", 6.5),
        ("down(a - 0.1, 0.5)", 5.5),
        ("nearest(a + 0.2, 0.5)", 6),
        ("nearest(a + 0.3, 0.5)", 6.5),
        ("max(n, 0) + min(n, 0)", -3),
    ],
)
def test_it_means_what_a_reader_with_a_pencil_takes_it_to_mean(text: str, expected: float) -> None:
    assert evaluate(text, VALUES) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "expected"), [("sin(30)", 0.5), ("cos(60)", 0.5), ("tan(45)", 1), ("atan(1)", 45), ("atan(0)", 0)]
)
def test_angles_are_in_degrees(text: str, expected: float) -> None:
    assert evaluate(text, {}) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("up(24, 1)", 24), ("up(0.3, 0.1)", 0.3), ("down(0.3, 0.1)", 0.3), ("up(-0.2, 1)", 0),
        ("down(2.44, 0.05)", 2.4),
        # 10 000 001 tenths, multiplied out in a computer: 1000000.1000000001
        ("up(1000000.1, 0.1)", 1000000.1), ("down(1000000.1, 0.1)", 1000000.1), ("nearest(1000000.1, 0.1)", 1000000.1),
    ],
)  # fmt: skip
def test_a_value_already_on_a_step_stays_there(text: str, expected: float) -> None:
    assert evaluate(text, {}) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("up(24.0000000004, 1)", 24), ("up(24.000000001, 1)", 25),
        ("down(23.9999999996, 1)", 24), ("down(23.999999999, 1)", 23),
        ("up(7.1, 0.05)", 7.1), ("down(7.14, 0.05)", 7.1), ("nearest(7.12, 0.05)", 7.1),
        ("up(0.000000003, 0.000000002)", 4e-9), ("down(0.000000003, 0.000000002)", 2e-9),
        ("nearest(0.000000005, 0.000000004)", 4e-9),
    ],
)  # fmt: skip
def test_what_differs_by_less_than_a_billionth_is_on_the_step(text: str, expected: float) -> None:
    """Nine decimals: what a sum of decimal numbers is wrong by in a computer is less, what anybody measures more."""
    assert evaluate(text, {}) == expected


@pytest.mark.parametrize(
    ("text", "expected"), [("nearest(6.25, 0.5)", 6.5), ("nearest(6.2475, 0.5)", 6), ("nearest(-6.25, 0.5)", -6)]
)
def test_half_way_goes_up(text: str, expected: float) -> None:
    assert evaluate(text, {}) == expected


@pytest.mark.parametrize("text", ["7", "up(7, 1)", "down(7, 1)", "nearest(7, 1)", "up(-0.2, 1)"])
def test_a_result_is_a_decimal_number_and_never_minus_nought(text: str) -> None:
    found = evaluate(text, {})
    assert isinstance(found, float)
    assert str(found) in ("7.0", "0.0")


@pytest.mark.parametrize(
    "text",
    [
        "a.real", "a[0]", "[a, b]", "(a, b)", "{a}", "{a: b}", "'six'", "1j", "None", "True",
        "a < b", "a == b", "a and b", "not a", "a if b else c", "lambda: a", "(x := a)", "[x for x in a]",
        "a // b", "a % b", "a @ b", "a & b", "a << b", "~a",
        "abs(a)", "pow(a, b)", "open(a)", "print(a)", "exec(a)", "__import__(a)",
        "max(*a)", "max(a, b, key=a)", "a.max(b)", "(max)(a, b)(c)", "f'{a}'", "...",
    ],
)  # fmt: skip
def test_anything_else_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(ValueError, match="not allowed in a formula"):
        evaluate(text, VALUES)


@pytest.mark.parametrize("text", ["", "a +", "a b", "a = 1", "import os", "a; b", "for"])
def test_what_is_no_expression_is_refused(text: str) -> None:
    with pytest.raises((SyntaxError, ValueError)):
        evaluate(text, VALUES)


def test_a_name_without_a_value_is_never_taken_as_nought() -> None:
    with pytest.raises((KeyError, ValueError)):
        evaluate("a + missing", VALUES)


def test_a_division_by_nought_is_never_a_number() -> None:
    with pytest.raises(ZeroDivisionError):
        evaluate("a / (b - 4)", VALUES)
