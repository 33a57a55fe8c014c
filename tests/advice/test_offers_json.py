"""The output of a check as data: it fits its schema for every buyer and offer, and says what the grip rests on."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, get_args

import pytest
from jsonschema import Draft202012Validator
from offering import read_one

from firstfurrow.advice.offers.grip import NotWorked
from firstfurrow.advice.offers.items import Runs
from firstfurrow.advice.offers.seller import Why
from firstfurrow.advice.offers.verdicts import How, Loader, Status
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder
from firstfurrow.pages import checked_offers, offers_json
from firstfurrow.talk.store import read_answers

DEMO = Path(__file__).parents[2] / "transcripts_demo"
OFFERS = {path.name: path.read_text(encoding="utf-8") for path in sorted((DEMO / "offers").glob("*.yaml"))}
TYRES = {
    "front_axle_mass": "1400 lb", "rear_axle_mass": "1900 lb", "driven_wheels": "four", "tyre_tread": "lug",
    "rear_tyre_size": "13.6-24", "front_tyre_size": "8-16", "mass": "3800 lb", "loader_mass": "700 lb",
    "wheelbase": "67 in", "hitch_overhang": "29 in", "loader_on": "stays on",
}  # fmt: skip


@pytest.fixture(scope="module")
def schema() -> dict[str, Any]:
    found: dict[str, Any] = json.loads((book_folder() / "schema" / "check.schema.json").read_text(encoding="utf-8"))
    return found


def checked(book: Book, buyer: str, texts: dict[str, str]) -> dict[str, Any]:
    """As another program reads it."""
    answers = read_answers(DEMO / buyer / "answers.yaml", book)
    found, problems = checked_offers(book, answers, texts)
    data: dict[str, Any] = json.loads(json.dumps(offers_json(found, problems)))
    return data


def with_tyres(**said: str) -> dict[str, str]:
    lines = "".join(f"  {key}: '{value}'\n" for key, value in {**TYRES, **said}.items())
    return {"mine.yaml": f"format: firstfurrow-offer/1\nname: mine\noffer:\n{lines}"}


@pytest.mark.parametrize("buyer", ["two_horses", "market_beds", "steep_wet_bank", "lawn_and_leaves"])
def test_every_demo_offer_fits_the_schema(book: Book, schema: dict[str, Any], buyer: str) -> None:
    assert len(OFFERS) == 3
    data = checked(book, buyer, {**OFFERS, **with_tyres(), "bad.yaml": "name: nothing"})
    assert len(data["offers"]) == 4
    assert len(data["problems"]) == 1
    Draft202012Validator(schema).validate(data)


def test_the_schema_knows_every_word_that_the_program_may_say(schema: dict[str, Any]) -> None:
    offer = schema["properties"]["offers"]["items"]["properties"]
    verdict = offer["requirements"]["items"]["properties"]
    assert set(verdict["how"]["enum"]) == set(get_args(How))
    assert set(verdict["status"]["enum"]) == set(get_args(Status))
    assert set(offer["implements"]["items"]["properties"]["runs"]["enum"]) == set(get_args(Runs))
    assert set(offer["ask"]["items"]["properties"]["why"]["enum"]) == set(get_args(Why))
    assert set(offer["loader"]["enum"]) == {None, *get_args(Loader)}
    assert set(offer["tyres_not_worked"]["enum"]) == {None, *get_args(NotWorked)}


def test_the_schema_refuses_what_is_missing_or_strange(book: Book, schema: dict[str, Any]) -> None:
    data = checked(book, "two_horses", OFFERS)
    validator = Draft202012Validator(schema)
    assert validator.is_valid(data)
    for wrong in (
        {**data, "format": "firstfurrow-check/2"}, {**data, "more": 1}, {k: v for k, v in data.items() if k != "book"},
        {**data, "offers": [{**data["offers"][0], "grip": {"ratio": 0.4}}]},
        {**data, "offers": [{**data["offers"][0], "loader": "perhaps"}]},
    ):  # fmt: skip
        assert not validator.is_valid(wrong)


def test_the_grip_is_there_with_every_ratio_it_came_from(book: Book) -> None:
    (offer,) = checked(book, "market_beds", with_tyres())["offers"]
    grip = offer["grip"]
    assert [wheel["end"] for wheel in grip["wheels"]] == ["front", "rear"]
    for wheel in grip["wheels"]:
        assert wheel["net"] == pytest.approx(wheel["gross"] - wheel["resistance"], abs=0.0006)
    front, rear = (wheel["load"] for wheel in grip["wheels"])
    assert 2000 * (front + rear) / 9.80665 == pytest.approx(grip["weight"], abs=5)
    mass = next(r for r in offer["requirements"] if r["id"] == "mass")
    assert (mass["how"], mass["need"]) == ("by_tyres", grip["weight"])
    assert (offer["tyres_not_worked"], offer["loader"]) == (None, "on")


def test_where_tyres_are_not_worked_out_the_data_says_why(book: Book) -> None:
    (offer,) = checked(book, "two_horses", with_tyres())["offers"]  # on grass no source gives a cone index
    assert (offer["grip"], offer["tyres_not_worked"]) == (None, "surface")
    assert read_one(book, **TYRES).get("rear_tyre_size").width == pytest.approx(0.345, abs=0.001)
