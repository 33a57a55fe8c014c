"""Six buyers: what an adviser says decides, held against what the program says now; and their twins."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from firstfurrow.advice.profile import Profile
from firstfurrow.book.model import Book
from firstfurrow.book.places import recordings_folder
from firstfurrow.book.yaml_strict import read
from firstfurrow.pages import profile_of
from firstfurrow.talk.commands import command
from firstfurrow.talk.recordings import ANSWERS, Recording, shipped
from firstfurrow.talk.store import read_answers

pytestmark = pytest.mark.xdist_group("buyers")  # one worker keeps what the tests share

ADVISER = "adviser.yaml"
SCHEMA = recordings_folder() / "adviser.schema.json"
FIRST = 5  # how many of the program's entries a table accounts for
BUYERS = tuple(r for r in shipped() if (r.folder / ADVISER).is_file())
by_name = pytest.mark.parametrize("buyer", BUYERS, ids=lambda r: r.name)


@dataclass(frozen=True)
class Entry:
    """One entry of what decides: its name, what is asked for, and the item that sets it."""

    name: str
    says: str | None = None
    item: str | None = None

    def means(self, meant: str) -> bool:
        """True when this is what is meant: the name, its beginning up to a colon, or name and item."""
        return self.name == meant or self.name.startswith(f"{meant}:") or f"{self.name}:{self.item}" == meant


def decided(profile: Profile) -> list[Entry]:
    """What the program says decides, in its order."""
    found = []
    for entry in profile.deciding:
        sort, _, index = entry.partition(":")
        if sort == "refusal":
            refusal = profile.refusals[int(index)]
            found.append(Entry(":".join(("refusal", refusal.kind, *refusal.about))))
        elif sort == "conflict":
            found.append(Entry(f"conflict:{profile.conflicts[int(index)].kind}"))
        else:
            widest = profile.outcomes[entry].widest
            assert widest is not None
            assert widest.governed_by is not None
            found.append(Entry(entry, widest.shown, widest.governed_by.hookup))
    return found


def places(meant: Sequence[Sequence[str]], entries: Sequence[Entry]) -> list[int | None]:
    """For each row the place of the first entry that says the same."""
    return [
        next((at for at, entry in enumerate(entries, 1) if any(entry.means(m) for m in row)), None) for row in meant
    ]


def agreements(at: Sequence[int | None]) -> list[str]:
    """Whether the program says each row, and whether it says no later row before it."""
    found = []
    for index, place in enumerate(at):
        if place is None:
            found.append("missing")
        else:
            earlier = any(other is not None and other < place for other in at[index + 1 :])
            found.append("other order" if earlier else "same")
    return found


def unmeant(meant: Sequence[Sequence[str]], entries: Sequence[Entry]) -> list[str]:
    """The first entries of the program that no row means."""
    flat = [m for row in meant for m in row]
    return [entry.name for entry in entries[:FIRST] if not any(entry.means(m) for m in flat)]


def said_by(buyer: Recording) -> dict[str, Any]:
    found = read(buyer.folder / ADVISER)
    assert isinstance(found, dict)
    return found


def with_changes(buyer: Recording, change: Mapping[str, Any], book: Book, folder: Path) -> Profile:
    """The profile of the recorded answers with some changed, through a file as a reader would change it."""
    whole = yaml.safe_load((buyer.folder / ANSWERS).read_text(encoding="utf-8"))
    answers = whole["answers"]
    items = {item["item"]: item for item in answers["implements"]}
    whole["aside"] = {}
    for place, value in change.items():
        item, dot, question = place.partition(".")
        if dot:
            held, key = items[item], question
        elif item in items or isinstance(value, dict):
            items.pop(item, None)
            held, key, value = items, item, None if value is None else {"item": item, **value}
        else:
            held, key = answers, item
        held.pop(key, None)
        if value is not None:
            held[key] = value
    answers["implements"] = list(items.values())
    changed = folder / ANSWERS
    changed.write_text(yaml.safe_dump(whole, sort_keys=False), encoding="utf-8")
    return profile_of(book, read_answers(changed, book))


def holds(table: Mapping[str, Any], profile: Profile) -> None:
    """Every column of the program in one table, against the program as it is."""
    entries, rows = decided(profile), table["table"]
    meant = [row["means"] for row in rows]
    at = places(meant, entries)
    for row, place, agreement in zip(rows, at, agreements(at), strict=True):
        assert (row.get("place"), row["agreement"]) == (place, agreement), row["adviser"]
        said = None if place is None else entries[place - 1]
        wanted = (None, None) if said is None else (said.name, said.says)
        assert (row.get("entry"), text(row.get("says"))) == wanted, row["adviser"]
        if agreement != "same":
            assert {"right", "why"} <= row.keys(), row["adviser"]
    listed = [(entry["entry"], text(entry.get("says"))) for entry in table["program"]]
    assert listed == [(entry.name, entry.says) for entry in entries[:FIRST]]
    assert [entry["entry"] for entry in table.get("also", ())] == unmeant(meant, entries)


def text(says: object) -> str | None:
    return None if says is None else str(says)


def known(book: Book, table: Mapping[str, Any]) -> Iterator[str]:
    """Names in a table that are no requirement of the book, and no refusal or conflict."""
    for row in table["table"]:
        for meant in row["means"]:
            head = meant.partition(":")[0]
            if head not in book.requirements and head not in ("refusal", "conflict"):
                yield meant


# ------------------------------------------------------------------------------- the six


def test_they_are_six_and_cover_what_people_come_with() -> None:
    assert {buyer.name for buyer in BUYERS} == {
        "lawn_and_leaves", "two_horses", "hay_on_hills", "market_beds", "firewood_and_logs", "build_and_split",
    }  # fmt: skip


@by_name
def test_a_table_fits_its_schema_and_names_it(buyer: Recording, book: Book) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    said = said_by(buyer)
    assert [error.message for error in Draft202012Validator(schema).iter_errors(said)] == []
    lines = (buyer.folder / ADVISER).read_text(encoding="utf-8").splitlines()
    named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", lines[0])
    assert named is not None
    assert (buyer.folder / named[1]).resolve() == SCHEMA.resolve()
    assert "Invented" in lines[1]
    assert "no source" in lines[1]
    assert list(known(book, said)) == []


@by_name
def test_they_type_as_a_beginner_does(buyer: Recording) -> None:
    """Some things are not known, one is asked after, and the page is looked at on the way."""
    commands = [said.name for line in buyer.typed() if (said := command(line)) is not None]
    assert {"unsure", "why", "so_far"} <= set(commands)
    assert commands.count("unsure") > 1


@by_name
def test_the_table_says_what_the_program_says_now(buyer: Recording, book: Book) -> None:
    holds(said_by(buyer), profile_of(book, buyer.answers(book)))


TWINS = [(buyer, number) for buyer in BUYERS for number, _ in enumerate(said_by(buyer).get("twins", ()))]


@pytest.mark.parametrize(("buyer", "number"), TWINS, ids=lambda value: getattr(value, "name", str(value)))
def test_a_twin_says_what_the_program_says_now_and_what_moves(
    buyer: Recording, number: int, book: Book, tmp_path: Path
) -> None:
    twin = said_by(buyer)["twins"][number]
    before, after = profile_of(book, buyer.answers(book)), with_changes(buyer, twin["change"], book, tmp_path)
    holds(twin, after)
    assert list(known(book, twin)) == []
    for name, move in twin["moves"].items():
        assert (text(move["from"]), text(move["to"])) == (shown(before, name), shown(after, name)), name
        assert move["from"] != move["to"], name


def shown(profile: Profile, name: str) -> str | None:
    """What is asked for; of a refusal or conflict whether it is said."""
    if ":" in name:
        return "said" if any(entry.means(name) for entry in decided(profile)) else None
    widest = profile.outcomes[name].widest
    return None if widest is None else widest.shown


def test_stacking_and_braking_have_their_twins() -> None:
    changed = {buyer.name: set(said_by(buyer)["twins"][number]["change"]) for buyer, number in reversed(TWINS)}
    assert "i1.kind" in changed["two_horses"]
    assert changed["hay_on_hills"] == {"i2.brakes"}


@pytest.mark.parametrize(("hired", "left"), [("i3", "i1"), ("i1", "i3")], ids=["digger", "auger"])
def test_digger_and_auger_are_each_for_hire_once_the_other_is_and_the_splitter_has_its_own_pump(
    hired: str, left: str, book: Book, tmp_path: Path
) -> None:
    """Why the table of that buyer has both as missing: by themselves neither spares a size of tractor."""
    buyer = next(b for b in BUYERS if b.name == "build_and_split")
    for change in ({}, {hired: None}, {"i2.variant": "own_pump"}):
        named = {entry.name for entry in decided(with_changes(buyer, change, book, tmp_path))}
        assert f"refusal:hire:{left}" not in named
    both = decided(with_changes(buyer, {hired: None, "i2.variant": "own_pump"}, book, tmp_path))
    assert f"refusal:hire:{left}" in {entry.name for entry in both}


def test_no_change_at_all_is_the_recording_itself(book: Book, tmp_path: Path) -> None:
    for buyer in BUYERS:
        assert decided(with_changes(buyer, {}, book, tmp_path)) == decided(profile_of(book, buyer.answers(book)))


# ------------------------------------------------------------- the comparison itself


def test_agreement_compares_order_and_presence() -> None:
    entries = [Entry("refusal:hire:i3"), Entry("mass", "1 kg", "i1"), Entry("lift_610", "2 kg", "i2")]
    rows = [["lift_610"], ["mass", "mass_towing"], ["conflict:time"]]
    assert places(rows, entries) == [3, 2, None]
    assert agreements(places(rows, entries)) == ["other order", "same", "missing"]
    assert unmeant(rows, entries) == ["refusal:hire:i3"]
    assert places([["refusal:hire"], ["refusal:hire:i1"], ["mass:i1"], ["mass:i2"]], entries) == [1, None, 2, None]


@pytest.mark.parametrize("key", ["says", "entry", "place", "agreement"])
def test_a_table_that_is_not_true_is_caught(key: str, book: Book) -> None:
    said = said_by(BUYERS[0])
    wrong = {"says": "9 %", "entry": "side_slope", "place": 9, "agreement": "missing"}[key]
    row = next(row for row in said["table"] if "says" in row)
    row[key] = wrong
    profile = profile_of(book, BUYERS[0].answers(book))
    with pytest.raises(AssertionError):
        holds(said, profile)
