"""Three offers for three buyers: what an adviser signs, held against what the program says now.

The adviser is expert-style judgement: common practice, no source. The numbers by hand are worked out from the tables of
the book and the figures of the offers, with a pencil.
"""

from __future__ import annotations

import ast
import json
import operator
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from firstfurrow.advice.offers.checked import Checked, CheckedOffer, check
from firstfurrow.advice.offers.items import ItemVerdict
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import recordings_folder
from firstfurrow.pages import profile_of
from firstfurrow.talk.recordings import Recording
from test_buyers import with_changes

pytestmark = [pytest.mark.practice, pytest.mark.xdist_group("offers_adviser")]  # one worker keeps what is shared

TABLE = recordings_folder() / "offers_adviser.yaml"
SCHEMA = recordings_folder() / "offers_adviser.schema.json"
SAID: dict[str, Any] = yaml.safe_load(TABLE.read_text(encoding="utf-8"))
PAIRS = [(buyer["buyer"], pair["offer"], pair) for buyer in SAID["buyers"] for pair in buyer["offers"]]
DIGITS = 5  # of the numbers in the table
ONE_PERCENT = 0.01
_SIGNS = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}

by_buyer = pytest.mark.parametrize("said", SAID["buyers"], ids=lambda said: said["buyer"])
by_pair = pytest.mark.parametrize(("buyer", "offer", "pair"), PAIRS, ids=[f"{b}-{o}" for b, o, _ in PAIRS])
by_pencil = pytest.mark.parametrize("line", SAID["pencil"], ids=lambda line: f"{line['requirement']}-{line['by_hand']}")
by_twin = pytest.mark.parametrize("twin", SAID["twins"], ids=lambda twin: f"{twin['offer']}-{twin['item']}")


@cache
def demo_offers() -> dict[str, Offer]:
    """The demo offers by the name of their file."""
    found = {}
    for path in sorted((recordings_folder() / "offers").glob("*.yaml")):
        read = read_offers(load(), path.read_text(encoding="utf-8"), path.name)
        assert not read.problems
        found[path.stem] = read.offers[0]
    return found


@cache
def checked(buyer: str) -> Checked:
    """All demo offers for one recorded buyer."""
    book = load()
    return check(profile_of(book, Recording(recordings_folder() / buyer).answers(book)), demo_offers().values())


def named(found: Checked, offer: str) -> CheckedOffer:
    return next(one for one in found.offers if one.offer is demo_offers()[offer])


def implement(found: CheckedOffer, item: str) -> ItemVerdict:
    return next(one for one in found.items if one.hookup.id == item)


def column(item: ItemVerdict) -> dict[str, Any]:
    """What the program says of one implement, as the table writes it."""
    lists = {"lacks": item.never, "mend": item.if_, "ask": item.ask}
    said = {name: [v.requirement.id for v in verdicts] for name, verdicts in lists.items() if verdicts}
    return {"runs": item.runs, **said}


def worked(line: str) -> float:
    """The value of a line of numbers and signs."""

    def value(node: ast.expr) -> float:
        if isinstance(node, ast.BinOp):
            return float(_SIGNS[type(node.op)](value(node.left), value(node.right)))
        assert isinstance(node, ast.Constant), line
        assert isinstance(node.value, int | float), line
        return float(node.value)

    return value(ast.parse(line, mode="eval").body)


def digits(number: float) -> float:
    return float(f"{number:.{DIGITS}g}")


def same(book: Book, requirement: str, by_hand: float, program: float) -> bool:
    """Within one step of rounding of what is printed, or one percent."""
    step = book.requirements[requirement].round_to or 0.0
    return abs(by_hand - program) <= max(step, ONE_PERCENT * by_hand)


# ------------------------------------------------------------------------ the table itself


def test_the_table_fits_its_schema_and_names_it() -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    assert [error.message for error in Draft202012Validator(schema).iter_errors(SAID)] == []
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    link = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", lines[0])
    assert link is not None
    assert (TABLE.parent / link[1]).resolve() == SCHEMA.resolve()
    assert "Invented" in lines[1]
    assert "no source" in lines[1]


def test_every_demo_offer_is_there_for_each_of_three_buyers() -> None:
    buyers = [said["buyer"] for said in SAID["buyers"]]
    assert len(set(buyers)) == 3
    assert [(b, o) for b, o, _ in PAIRS] == [(b, o) for b in buyers for o in (pair[1] for pair in PAIRS[:3])]
    assert {o for _, o, _ in PAIRS} == set(demo_offers())


def test_every_requirement_named_is_in_the_book(book: Book) -> None:
    for _, _, pair in PAIRS:
        assert set(pair["before_signing"]["adviser"]) <= set(book.requirements)
        assert len(set(pair["before_signing"]["adviser"])) == len(pair["before_signing"]["adviser"])


# ------------------------------------------------------------------- both columns, and who is right


@by_pair
def test_each_implement_has_the_verdict_that_the_program_gives_now(buyer: str, offer: str, pair: Any) -> None:
    found = named(checked(buyer), offer)
    assert [(row["item"], row["name"]) for row in pair["implements"]] == [
        (one.hookup.id, one.hookup.name) for one in found.items
    ]
    for row in pair["implements"]:
        assert row["program"] == column(implement(found, row["item"])), (buyer, offer, row["item"])
        assert row["agree"] == (row["adviser"] == row["program"]["runs"]), (buyer, offer, row["item"])


@by_pair
def test_the_program_asks_before_signing_what_the_table_says(buyer: str, offer: str, pair: Any) -> None:
    found = named(checked(buyer), offer)
    assert pair["before_signing"]["program"] == [q.verdict.requirement.id for q in found.questions]


@by_buyer
def test_the_order_is_the_one_that_the_program_gives_now(said: Any) -> None:
    order = said["best_first"]
    stems = {offer.name: stem for stem, offer in demo_offers().items()}
    assert order["program"] == [stems[one.offer.name] for one in checked(said["buyer"]).best_first]
    assert sorted(order["adviser"]) == sorted(stems.values())
    assert order["agree"] == (order["adviser"] == order["program"])


@by_twin
def test_a_twin_has_the_verdict_that_the_program_gives_now(twin: Any, book: Book, tmp_path: Path) -> None:
    buyer = Recording(recordings_folder() / twin["buyer"])
    found = check(with_changes(buyer, twin["change"], book, tmp_path), demo_offers().values())
    assert twin["program"] == column(implement(named(found, twin["offer"]), twin["item"]))
    assert twin["agree"] == (twin["adviser"] == twin["program"]["runs"])
    assert column(implement(named(checked(twin["buyer"]), twin["offer"]), twin["item"])) != twin["program"]


@by_pencil
def test_a_number_by_hand_stands_beside_the_program_s(line: Any, book: Book) -> None:
    found = named(checked(line["buyer"]), line["offer"]).judged
    verdicts = found.by_hookup[line["item"]] if "item" in line else found.verdicts
    value = getattr(verdicts[line["requirement"]], line["figure"])
    most = value[-1] if isinstance(value, tuple) else value
    assert line["by_hand"] == digits(worked(line["working"]))
    assert line["program"] == digits(most)
    assert line["agree"] == same(book, line["requirement"], line["by_hand"], line["program"])


# ------------------------------------------------------------------------ the comparison itself


def test_a_line_of_signs_is_worked_out_as_a_pencil_does() -> None:
    assert worked("2 + 3 * (4 - 1) / 2") == 6.5
    with pytest.raises(AssertionError):
        worked("max(1, 2)")


def test_two_numbers_are_the_same_within_one_step_of_rounding(book: Book) -> None:
    step = book.requirements["lift_610"].round_to
    assert step == 10
    assert same(book, "lift_610", 705.2, 710)
    assert not same(book, "lift_610", 705.2, 720)


def test_a_verdict_that_differs_must_say_who_is_right_and_why() -> None:
    schema = Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
    for name in ("right", "why"):
        wrong = json.loads(json.dumps(SAID))
        rows = [row for buyer in wrong["buyers"] for pair in buyer["offers"] for row in pair["implements"]]
        del next(row for row in rows if not row["agree"])[name]
        assert list(schema.iter_errors(wrong))
    wrong = json.loads(json.dumps(SAID))
    wrong["buyers"][0]["offers"][0]["implements"][0]["agree"] = False
    assert list(schema.iter_errors(wrong))
