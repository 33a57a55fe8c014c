"""The walk-around sheet: cautions first, every key of an offer once, room to write, narrow enough to print."""

from __future__ import annotations

import re

import pytest

from firstfurrow.book.model import Book
from firstfurrow.book.walk_around import boxes, unit_of
from firstfurrow.cli import main
from firstfurrow.commands.common import DONE
from firstfurrow.quantities import Units, parse
from firstfurrow.report.sheets.walk_around import walk_around_sheet

NUMBERED = re.compile(r"^ {0,2}(\d+)\. (.+?)(?: {2,}(\[_.*))?$", re.MULTILINE)


@pytest.mark.parametrize("units", ["us", "metric", None])
def test_it_prints_on_any_printer(book: Book, units: Units | None) -> None:
    sheet = walk_around_sheet(book, units)
    assert max(map(len, sheet.splitlines())) <= 80
    assert sheet.isascii()
    assert "\t" not in sheet
    assert all(line == line.rstrip() for line in sheet.splitlines())


def test_cautions_stand_before_the_first_box_and_those_of_a_stop_before_its_boxes(book: Book) -> None:
    assert book.round is not None
    sheet = " ".join(walk_around_sheet(book).split())
    first = sheet.index("1. ")
    for caution in book.round.cautions:
        assert sheet.index(f"Careful: {caution}") < first
    for wanted in ("Engine off, key out", "Never reach or stand under anything"):
        assert wanted in sheet[:first]
    for stop in book.round.stops:
        for caution in stop.cautions:
            place = sheet.index(caution)
            assert sheet.index(f"{stop.title} ---") < place < sheet.index(f"{book.offer_keys[stop.keys[0]].what} Where")


def test_every_key_of_an_offer_stands_on_it_once_with_its_number_and_where_to_look(book: Book) -> None:
    sheet = walk_around_sheet(book)
    found = NUMBERED.findall(sheet)
    assert [(int(number), name) for number, name, _ in found] == [(b.number, b.key.name) for b in boxes(book)]
    assert [b.number for b in boxes(book)] == list(range(1, len(book.offer_keys) + 1))
    assert {b.key.id for b in boxes(book)} == set(book.offer_keys)
    one_line = " ".join(sheet.split())
    for key in book.offer_keys.values():
        assert f"{key.what} Where: {key.where}." in one_line


def test_there_is_room_for_a_measure_with_its_unit_and_words_are_ticked(book: Book) -> None:
    sheet = walk_around_sheet(book)
    assert "[__________] lb or kg" in sheet
    assert "[__________] [__________] [__________] rev/min" in sheet
    room = {name: blank for _, name, blank in NUMBERED.findall(sheet)}
    for key in book.offer_keys.values():
        assert bool(room[key.name]) is not bool(key.words), key.id
        for word in key.words:
            assert f"[ ] {word.label}" in sheet
    assert " or " not in "".join(blank for _, _, blank in NUMBERED.findall(walk_around_sheet(book, "us")))


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_unit_behind_a_box_is_one_that_the_box_takes(book: Book, units: Units) -> None:
    for box in boxes(book):
        unit = unit_of(book, box.key, units)
        if box.key.dimension is None:
            assert unit == ""
        else:
            assert parse(f"12 {unit}".strip(), box.key.dimension).working > 0


def test_the_command_prints_it(capsys: pytest.CaptureFixture[str], book: Book) -> None:
    assert main(["sheet", "walk-around"]) == DONE
    assert capsys.readouterr().out == walk_around_sheet(book)
    assert main(["sheet", "walk-around", "--units", "metric"]) == DONE
    assert capsys.readouterr().out == walk_around_sheet(book, "metric")
