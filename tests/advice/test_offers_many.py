"""Long lists: what is kept from one offer to the next, and let go again, never changes what is found."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
from offering import offer_of, read_one, stated_values

from firstfurrow.advice.offers import checked as checking
from firstfurrow.advice.offers import reading, verdicts
from firstfurrow.advice.offers.asked import asked
from firstfurrow.advice.offers.checked import check
from firstfurrow.advice.offers.items import item_verdicts
from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.advice.offers.verdicts import Judge
from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.report.json_offers import offers_data
from firstfurrow.report.offers import offers_document
from firstfurrow.report.text import render
from firstfurrow.talk.store import read_answers
from making import Maker

DEMO = Path(__file__).parents[2] / "transcripts_demo"
EXACT: dict[str, Any] = {
    "front_axle_mass": 700.0, "rear_axle_mass": 1000.0, "wheelbase": 1.8, "hitch_overhang": 0.8,
    "loader_mass": 350.0, "loader_on": "stays_on",
}  # fmt: skip
TYRES = {"rear_tyre_size": "13.6-24", "front_tyre_size": "8-16"}


@pytest.fixture(scope="module", params=["two_horses", "market_beds", "bales_on_a_hill"])
def profile(request: pytest.FixtureRequest, book: Book) -> Profile:
    return profile_of(book, read_answers(DEMO / request.param / "answers.yaml", book))


def yard(book: Book, profile: Profile, how_many: int) -> list[Offer]:
    """Offers around what is stated: some more, some less, with parts left out; a third of them known exactly."""
    draw = random.Random(11)
    stated = stated_values(profile)
    tyres = {key: read_one(book, **{key: text}).get(key) for key, text in TYRES.items()}
    found = []
    for number in range(how_many):
        said = {
            key: value * draw.choice((0.5, 0.9, 1, 1.2)) if isinstance(value, float) else value
            for key, value in stated.items()
            if draw.random() < 0.85
        }
        if number % 3 == 0:
            said |= {**EXACT, **tyres, "rear_axle_mass": draw.uniform(500, 2500)}
        said["driven_wheels"] = draw.choice(("two", "four"))
        found.append(Offer(f"offer {number}", f"row {number}", offer_of(said).said))
    return found


def test_verdicts_that_offers_share_are_the_ones_each_would_get_alone(book: Book, profile: Profile) -> None:
    ready = asked(profile)
    together = Judge(ready)
    offers = yard(book, profile, 60)
    for offer in (*offers, *reversed(offers)):  # everything that is kept is met again
        one, alone = together.judge(offer), Judge(ready).judge(offer)
        assert one.verdicts == alone.verdicts
        assert list(one.verdicts) == list(alone.verdicts)
        assert item_verdicts(book, ready, one) == item_verdicts(book, ready, alone)


def test_nothing_changes_when_no_more_can_be_kept(
    book: Book, profile: Profile, monkeypatch: pytest.MonkeyPatch
) -> None:
    offers = yard(book, profile, 30)
    before = [Judge(asked(profile)).judge(offer).verdicts for offer in offers]
    monkeypatch.setattr(verdicts, "MOST_KEPT", 2)
    judge = Judge(asked(profile))
    assert [judge.judge(offer).verdicts for offer in offers] == before


def test_a_long_list_is_judged_as_a_short_one(
    book: Book, profile: Profile, monkeypatch: pytest.MonkeyPatch
) -> None:
    offers = yard(book, profile, 40)
    kept = check(profile, offers)
    monkeypatch.setattr(checking, "KEPT", 5)
    let_go = check(profile, offers)
    assert [one.keep for one in kept.offers] != [one.keep for one in let_go.offers]
    assert [one.standing for one in let_go.offers] == [one.standing for one in kept.offers]
    assert not any("judged" in vars(one) for one in let_go.offers)
    assert render(offers_document(let_go), 80) == render(offers_document(kept), 80)
    assert offers_data(let_go) == offers_data(kept)


def test_how_an_offer_stands_counts_what_its_page_lists(book: Book, profile: Profile) -> None:
    for one in check(profile, yard(book, profile, 12)).offers:
        runs = [item.runs for item in one.items]
        assert one.standing[:4] == (len(runs), *(runs.count(r) for r in ("runs", "runs_if", "does_not")))  # type: ignore[arg-type]
        assert (one.standing.short, one.standing.unknown) == (len(one.ids("short")), len(one.ids("unknown")))


@pytest.mark.parametrize("most", [3, 5_000])
def test_a_cell_means_the_same_in_every_row_and_by_itself(
    book: Book, monkeypatch: pytest.MonkeyPatch, most: int
) -> None:
    monkeypatch.setattr(reading, "MOST_KEPT", most)
    draw = random.Random(5)
    cells = {
        "mass": [f"{draw.randint(500, 4000)} {unit}" for unit in ("kg", "lb", "lbs", "kgs") for _ in range(5)],
        "wheelbase": ["1.7 m", "5 ft 6", "66 in", "5'6\"", "unknown", "?"], "pto_speeds": ["540", "540/1000", "none"],
        "roll_bar": ["ROPS", "no bar", "rops and belt"], "rear_tyre_size": ["14.9-28", "320/85R24", "n/a"],
    }  # fmt: skip
    rows = [{key: draw.choice(texts) for key, texts in cells.items()} for _ in range(200)]
    text = "\n".join(["\t".join(["name", *cells]), *("\t".join([f"t{n}", *r.values()]) for n, r in enumerate(rows))])
    found = read_offers(book, text, "yard.tsv")
    assert not found.problems
    for row, offer in zip(rows, found.offers, strict=True):
        alone = read_one(book, **{key: text.replace("'", "''") for key, text in row.items()})
        assert {k: (s.value, s.text) for k, s in offer.said.items()} == {
            k: (s.value, s.text) for k, s in alone.said.items()
        }


def test_a_bad_cell_is_said_for_every_row_that_has_it(book: Book) -> None:
    rows = ("name,mass,front_axle_mass,rear_axle_mass", "a,-1 kg,,", "b,-1 kg,,", "c,900 kg,600 kg,700 kg")
    found = read_offers(book, "\n".join(rows), "yard.csv")
    assert [problem.split(": ")[1] for problem in found.problems] == ["row 2", "row 3", "row 4"]
    assert not found.offers


def test_a_profile_without_what_is_only_read_gives_the_same_verdicts(maker: Maker) -> None:
    """The figures of an offer take the place of leaves by what these are called; so that must be there in every run."""
    items = [{"kind": "bale_spear"}, {"kind": "box_blade", "size": "1.5 m"}, {"kind": "loader_bucket"}]
    said = {**EXACT, "rear_tyre_width": 0.35, "rear_tyre_diameter": 1.2, "front_tyre_width": 0.2,
            "front_tyre_diameter": 0.8, "driven_wheels": "four", "tyre_tread": "lug", "mass": 1900.0}  # fmt: skip
    whole, lean = (Judge(asked(maker.profile(items, strict=False, lean=lean))).judge(offer_of(said)).verdicts
                   for lean in (False, True))  # fmt: skip
    assert {i: (v.status, v.need, v.gap, v.how) for i, v in lean.items()} == {
        i: (v.status, v.need, v.gap, v.how) for i, v in whole.items()
    }
    assert {v.how for v in whole.values()} >= {"exact", "by_tyres"}
