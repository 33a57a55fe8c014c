"""What to ask the seller: every key of an offer once, or only what a plan asks for with how much; cautions, traps."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstfurrow.advice.offers.traps import traps_about
from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.quantities import Units
from firstfurrow.report.blocks import Block, Bullets, FillIn, Heading, Paragraph
from firstfurrow.report.sheets.forms import in_form
from firstfurrow.report.sheets.seller import seller_parts
from firstfurrow.talk.recordings import shipped
from making import Maker

BUYERS = ("two_horses", "hay_on_hills", "steep_wet_bank")


@pytest.fixture(scope="module")
def profiles(book: Book) -> dict[str, Profile]:
    return {r.name: profile_of(book, r.answers(book)) for r in shipped() if r.name in BUYERS}


def document(book: Book, profile: Profile | None = None, units: Units | None = None) -> tuple[Block, ...]:
    return seller_parts(book, units, profile)[0].document


def boxes(found: tuple[Block, ...]) -> list[FillIn]:
    return [block for block in found if isinstance(block, FillIn) and block.number]


def titles(found: tuple[Block, ...], level: int) -> list[str]:
    return [block.text for block in found if isinstance(block, Heading) and block.level == level]


def listed(found: tuple[Block, ...]) -> list[str]:
    return [item for block in found if isinstance(block, Bullets) for item in block.items]


def test_every_key_of_an_offer_is_asked_once_and_every_requirement_stands_there(book: Book) -> None:
    found = document(book)
    assert sorted(box.ask for box in boxes(found)) == sorted(key.name for key in book.offer_keys.values())
    assert [box.number for box in boxes(found)] == [str(n) for n in range(1, len(book.offer_keys) + 1)]
    assert titles(found, 3) == [requirement.title for requirement in book.requirements.values()]
    groups = dict.fromkeys(requirement.group for requirement in book.requirements.values())
    assert titles(found, 2)[: len(groups)] == [book.groups[group] for group in groups]


def test_each_says_what_it_is_where_to_look_how_to_check_it_and_what_if_it_is_short(book: Book) -> None:
    found = document(book)
    notes = {box.ask: " ".join(box.notes) for box in boxes(found)}
    for key in book.offer_keys.values():
        assert key.what in notes[key.name]
        assert key.where in notes[key.name]
    said = " ".join(listed(found))
    for requirement in book.requirements.values():
        assert requirement.check in said
        assert requirement.later_what in said


def test_every_caution_and_every_trap_stands_on_it(book: Book) -> None:
    assert book.round is not None
    said = listed(document(book))
    for caution in (*book.round.cautions, *(c for r in book.requirements.values() for c in r.cautions)):
        assert f"Careful: {caution}" in said
    traps = {trap.id for requirement in book.requirements for trap in traps_about(requirement)}
    assert {f"trap.{trap}" for trap in traps} == {
        id_.removeprefix("report.") for id_ in book.messages if id_.startswith("report.trap.")
    }
    for trap in traps:
        assert sum(book.messages[f"report.trap.{trap}"] in line for line in said) == 1  # each is told once


@pytest.mark.parametrize("name", BUYERS)
def test_of_a_plan_only_what_it_asks_for_with_how_much(book: Book, profiles: dict[str, Profile], name: str) -> None:
    profile = profiles[name]
    found = document(book, profile, profile.units)
    wanted = [o for o in profile.outcomes.values() if o.status != "not_needed"]
    assert titles(found, 3) == [o.requirement.title for o in wanted]
    needs = [block.text for block in found if isinstance(block, Paragraph) and block.tone == "strong"][1:]
    for outcome, need in zip(wanted, needs, strict=True):
        for strictest in (outcome.sure, outcome.with_later):
            assert strictest is None or strictest.shown in need
    keys = {key for o in wanted for key in o.requirement.offer_keys}
    assert {box.ask for box in boxes(found)} == {book.offer_keys[key].name for key in keys}


def test_what_is_refused_stands_before_everything_that_is_asked(book: Book, profiles: dict[str, Profile]) -> None:
    found = document(book, profiles["steep_wet_bank"])
    first = next(number for number, block in enumerate(found) if isinstance(block, Heading) and block.level == 3)
    refused = [block.text for block in found[:first] if isinstance(block, Paragraph) and block.tone == "caution"]
    assert len(refused) == len(profiles["steep_wet_bank"].refusals)
    for refusal, text in zip(profiles["steep_wet_bank"].refusals, refused, strict=True):
        assert refusal.title in text


def test_what_may_come_later_is_told_apart(book: Book, maker: Maker) -> None:
    profile = maker.profile([{"kind": "box_blade_hydraulic", "size": "1.8 m"},
                             {"kind": "rotary_tiller", "size": "1.5 m", "when": "later"}])  # fmt: skip
    assert any(
        isinstance(block, Paragraph) and "with what may come later: at least" in block.text
        for block in document(book, profile)
    )


def test_a_plan_without_implements_asks_nothing(book: Book) -> None:
    found = document(book, profile_of(book, Answers()))
    assert not [block for block in found if isinstance(block, FillIn) and block.number and block.ask == "PTO power"]


def test_a_name_that_looks_like_a_page_stays_text(book: Book) -> None:
    answers = replace(shipped()[0].answers(book), name="<script>alert('x')</script>=1+1|" * 300)
    parts = seller_parts(book, "us", profile_of(book, answers))
    assert "<script>" not in in_form(parts, "html")
    assert "<script>" not in in_form(parts, "markdown")
    assert "=1+1" in in_form(parts, "text")


def test_it_prints_on_any_printer(book: Book) -> None:
    text = in_form(seller_parts(book), "text", encoding="ascii")
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80
