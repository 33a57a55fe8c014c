"""Low and high of a step against all mixtures of its leaves, worked out one by one from the printed lines."""

from __future__ import annotations

import importlib
import itertools
import random
from collections.abc import Iterator

import pytest

from firstfurrow.reasoning import Ends, Ledger, Memo, NoSolutionError, Step, ends, evaluate, formula, highest
from firstfurrow.reasoning.ends import Reach, ends_by_trying, worst_leaves

MODULE = importlib.import_module("firstfurrow.reasoning.ends")  # the package gives the function of the same name


@formula("first - second", unit="kg", digits=1, raises="first", lowers="second")
def less(first: float, second: float) -> float:
    return first - second


@formula("x * (10 - x)", unit="kg", digits=2, either="x")
def hump(x: float) -> float:
    return x * (10 - x)


@formula("(second - first) * 2", unit="kg", digits=0, raises="second", lowers="first")
def twice_less(first: float, second: float) -> float:
    return (second - first) * 2


@formula("load / left", unit="kg", digits=1, raises="load", lowers="left")
def shared(load: float, left: float) -> float:
    if left <= 0:
        raise NoSolutionError("nothing is left")
    return load / left


@formula("12 / x", unit="kg", digits=1, either="x")
def narrow(x: float) -> float:
    if x <= 0:
        raise NoSolutionError("too narrow")
    return 12 / x


def table(ledger: Ledger, value: float, low: float | None = None, high: float | None = None) -> Step:
    return ledger.leaf("table", "a figure", value, "kg", 1, low=low, high=high, grade="practice")


def grown(seed: int) -> Ledger:
    """A graph of three leaves with ends, one without, and seven steps that read any earlier ones."""
    rng = random.Random(seed)
    ledger = Ledger()
    table(ledger, round(rng.uniform(-9, 9), 1))
    for _ in range(3):
        low, value, high = sorted(round(rng.uniform(-9, 9), 1) for _ in range(3))
        table(ledger, value, low, high)
    for _ in range(7):
        a, b = rng.choice(ledger.steps), rng.choice(ledger.steps)
        match rng.randrange(8):
            case 0 | 1:
                ledger.work(less, "less", first=a, second=b)
            case 2:
                ledger.work(twice_less, "twice less", first=a, second=b)
            case 3:
                ledger.work(hump, "hump", x=a)
            case 4:
                ledger.sum("sum", {"a": a, "b": b})
            case 5:
                ledger.greatest("greatest", {"a": a, "b": b})
            case 6:
                ledger.least("least", {"a": a, "b": b})
            case _:
                ledger.rounded("up", "up", 0.5, a, 1)
    return ledger


def mixtures(ledger: Ledger) -> Iterator[list[float]]:
    """The values of all steps for each mixture of low, planned and high leaves."""
    leaves = [step for step in ledger.steps if step.inputs is None]
    ends_of = [(leaf.value, *(end for end in (leaf.low, leaf.high) if end is not None)) for leaf in leaves]
    for picked in itertools.product(*ends_of):
        values = list(picked)
        for step in ledger.steps[len(leaves) :]:
            assert step.formula is not None
            assert step.inputs is not None
            read = {name: values[other.index] for name, other in step.inputs.items()}
            values.append(round(evaluate(step.formula, read), step.digits))
        yield values


GRAPHS = range(60)


@pytest.mark.parametrize("seed", GRAPHS)
def test_low_and_high_are_the_least_and_the_greatest_of_all_mixtures(seed: int) -> None:
    ledger = grown(seed)
    seen = list(mixtures(ledger))
    memo: Memo = {}
    for step in ledger.steps:
        values = [mixture[step.index] for mixture in seen]
        expected = Ends(min(values), step.value, max(values))
        assert ends(step) == expected
        assert ends(step, memo) == expected
        assert ends_by_trying(step) == expected
        assert highest(step) == highest(step, memo) == expected.high


@pytest.mark.parametrize("seed", GRAPHS)
def test_at_its_worst_a_step_has_its_high_end_and_a_line_for_each_leaf_that_moved(seed: int) -> None:
    ledger = grown(seed)
    memo: Memo = {}
    for step in list(ledger.steps):
        before = len(ledger.steps)
        worst = ledger.at_worst(step, "worst", memo)
        assert worst is not None
        assert worst.value == ends(step).high
        moved = [new for new in ledger.steps[before:] if new.inputs is None]
        assert len({new.index for new in moved}) == len(moved) <= 3
        assert not any(new.moves for new in moved)


def test_both_ways_and_one_way_are_seen_among_the_graphs() -> None:
    """So that the two tests above say something about both."""
    kinds = set()
    for seed in GRAPHS:
        memo: Memo = {}
        for step in grown(seed).steps:
            if step.moves:
                ends(step, memo)
                kinds.add(memo[step.index].both_ways)
    assert kinds == {True, False}


def test_what_goes_one_way_is_never_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """Trying doubles or triples the work with each leaf; a long plan has a hundred of them."""

    def refused(*_: object) -> None:
        raise AssertionError("tried")

    ledger = Ledger()
    exact = table(ledger, 3)  # the first leaf: its place among the bits is the lowest
    first, second = table(ledger, 5, 2, 9), table(ledger, 4, 3, 6)
    third = ledger.work(less, "third", first=first, second=exact)
    fourth = ledger.work(less, "fourth", first=exact, second=second)
    top = ledger.sum("top", {"a": third, "b": fourth, "c": first, "d": exact})
    certain = ledger.sum("certain", {"a": exact, "b": exact})
    last = ledger.work(less, "last", first=top, second=ledger.work(hump, "hump", x=certain))
    monkeypatch.setattr(MODULE, "_tries", refused)
    assert ends(third) == Ends(-1, 2, 6)
    assert ends(top) == Ends(-1 - 3 + 2 + 3, 2 - 1 + 5 + 3, 6 + 0 + 9 + 3)
    assert ends(last) == Ends(1 - 24, 9 - 24, 18 - 24)
    assert highest(top) == 18
    assert worst_leaves(top) == {first.index: 9, second.index: 3}
    assert worst_leaves(certain) == {}
    with pytest.raises(AssertionError, match="tried"):
        ends(ledger.work(hump, "hump", x=first))


def test_what_was_found_is_kept_and_used_again(monkeypatch: pytest.MonkeyPatch) -> None:
    ledger = Ledger()
    leaf = table(ledger, 5, 2, 9)
    step = ledger.work(less, "it less its hump", first=leaf, second=ledger.work(hump, "hump", x=leaf))
    memo: Memo = {}
    assert highest(step, memo) == max(2 - 16, 5 - 25, 9 - 9)
    assert set(memo) == {0, 1, 2}
    monkeypatch.setattr(MODULE, "_greatest", lambda _: pytest.fail("tried twice"))
    assert highest(step, memo) == 0
    assert worst_leaves(step, memo) == {leaf.index: 9}


# ----------------------------------------------------------------------- no solution


def test_no_solution_at_one_end_of_one_way_leaves_the_other_end() -> None:
    ledger = Ledger()
    left = table(ledger, 2, 0, 4)
    top = ledger.work(shared, "share", load=table(ledger, 10, 8, 12), left=left)
    after = ledger.work(less, "after", first=top, second=table(ledger, 1))
    for step, low in ((top, 2), (after, 1)):
        assert ends(step) == Ends(low, step.value, None)
        assert ends_by_trying(step) == Ends(low, step.value, None)
        assert highest(step) is None
        assert worst_leaves(step) is None
    turned = ledger.work(less, "turned", first=table(ledger, 9), second=top)
    assert ends(turned) == ends_by_trying(turned) == Ends(None, 4, 7)


def test_no_solution_in_any_mixture_of_both_ways_leaves_no_high_end_but_a_low_one() -> None:
    ledger = Ledger()
    leaf = table(ledger, 3, 0, 4)
    step = ledger.work(narrow, "narrow", x=leaf)
    memo: Memo = {}
    for _ in range(2):  # what was tried and not found is kept as well
        assert ends(step, memo) == ends_by_trying(step) == Ends(3, 4, None)
        assert highest(step, memo) is None
        assert worst_leaves(step, memo) is None
        assert ledger.at_worst(step, "worst", memo) is None
    assert memo[step.index].tried == "never"


def test_no_solution_below_what_is_tried_is_none_too() -> None:
    """What no open leaf moves is worked out first, once; without solution there every mixture is without."""
    ledger = Ledger()
    share = ledger.work(shared, "share", load=table(ledger, 10, 10, 10), left=table(ledger, 2, 0, 4))
    open_ = ledger.work(hump, "hump", x=table(ledger, 3, 1, 5))
    top = ledger.sum("top", {"a": share, "b": open_})
    assert ends(top) == Ends(10 / 4 + 9, 5 + 21, None)


# ----------------------------------------------------------------------------- leaves


def test_a_leaf_with_one_end_has_its_planned_value_for_the_other() -> None:
    ledger = Ledger()
    lower, higher = table(ledger, 5, low=2), table(ledger, 5, high=9)
    assert (ends(lower), ends(higher)) == (Ends(2, 5, 5), Ends(5, 5, 9))
    for leaf, low, high in ((lower, 1, 4), (higher, 4, 8)):
        step = ledger.work(less, "less", first=leaf, second=table(ledger, 1))
        assert ends(step) == ends_by_trying(step) == Ends(low, 4, high)


def test_of_two_mixtures_alike_the_first_is_written_down() -> None:
    """Low, planned, high is the order of trying: of 1 and 9, which give the same hump, the low one is shown."""
    ledger = Ledger()
    step = ledger.work(less, "less", first=table(ledger, 0), second=ledger.work(hump, "hump", x=table(ledger, 4, 1, 9)))
    assert ends(step).high == -9
    assert worst_leaves(step) == {1: 1}


def test_ends_are_decimal_numbers() -> None:
    """A whole number as typed becomes a decimal one, as all results are."""
    ledger = Ledger()
    leaf = ledger.leaf("answer", "a number", 5, "kg", 0, low=2, high=9)
    exact = ledger.leaf("answer", "a number", 5, "kg", 0)
    found = ends(leaf)
    assert isinstance(found.low, float)
    assert isinstance(found.high, float)
    assert isinstance(highest(exact), float)


def test_ends_that_were_found_by_trying_are_decimal_numbers_too() -> None:
    """The greatest of a whole 30 and of a hump of at most 25 is 30 at both ends."""
    ledger = Ledger()
    exact = ledger.leaf("answer", "a number", 30, "kg", 0)
    top = ledger.greatest("most", {"a": exact, "b": ledger.work(hump, "hump", x=table(ledger, 2, 1, 5))})
    found = ends(top)
    assert (found.low, found.high) == (30, 30)
    assert isinstance(found.low, float)
    assert isinstance(found.high, float)


def test_a_reach_goes_both_ways_where_one_leaf_is_in_both_sets() -> None:
    assert Reach(0b0110, 0b0011, None, None).both_ways
    assert not Reach(0b0110, 0b1001, 1, 2).both_ways
