"""A tractor that is there already: name the implement, say what is known of the tractor, see whether it runs."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from firstfurrow.advice.offers.reading import read_offers
from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.pages import owned_page
from firstfurrow.shown import Shown
from firstfurrow.talk import start
from firstfurrow.talk.recordings import shipped
from firstfurrow.talk.script import INTERRUPT, ScriptFront

OFFERS = shipped()[0].folder.parent / "offers"
# Flat ground and one bale spear for 900 lb: from the question about the land to the end of the look-over.
SPEAR = ["flat", "bales", "loam", "firm", "some", "0 ft", "mild", "bale spear", "buy", "plain", "1", "900 lb", "none",
         "all", "by hand", "some", "never", ""]  # fmt: skip


def held(
    book: Book, monkeypatch: pytest.MonkeyPatch, folder: Path, lines: list[str], *, tractor: Path | None = None,
    width: int = 80,
) -> tuple[str, int]:  # fmt: skip
    """One talk from the first question of the program."""
    monkeypatch.chdir(folder)
    monkeypatch.setenv("XDG_STATE_HOME", str(folder))
    front = ScriptFront(lines, width)
    monkeypatch.setattr(start, "choose_front", lambda *_: front)
    text = "" if tractor is None else tractor.read_text(encoding="utf-8")
    code = start.start(
        book, plain=True, units="us", resume=None, setting="home", views=Shown(book, lambda: width), tractor=tractor,
        tractor_text=text,
    )  # fmt: skip
    return front.screen, code


def flat(screen: str) -> str:
    return " ".join(screen.split())


def test_the_first_question_offers_both_roads(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen, code = held(book, monkeypatch, tmp_path, ["zzz", "why", "have", "save"])
    assert code == 0
    assert screen.startswith("What do you want to find out?\n  1  what a tractor must offer")
    assert "Does this tractor run the implement?" in screen
    assert "How much land do you have" not in screen


def test_with_a_file_the_verdict_comes_without_a_question_about_what_is_known(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text((OFFERS / "mid_compact.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    screen, _ = held(book, monkeypatch, tmp_path, [*SPEAR, "save"], tractor=mine)
    assert "What do you want to find out?" not in screen
    assert "Now the tractor. There are" in screen
    boxes = screen.rsplit("Now the tractor.", 1)[1].split("TRACTORS ON OFFER")[0]
    assert "weights in front" in boxes
    assert "lift at the ball ends" not in boxes
    assert "bale spear: runs if this is put right:" in flat(screen)


def test_nothing_more_is_asked_of_a_tractor_that_does_not_run_it_whatever_else_is_known(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text((OFFERS / "subcompact_without_rear_sets.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    screen, _ = held(book, monkeypatch, tmp_path, [*SPEAR, "save"], tractor=mine)
    assert "Now the tractor. There are" not in screen
    assert "Nothing more about the tractor would change what is said here." in flat(screen)
    assert "bale spear: does not run. It lacks:" in flat(screen)


def test_without_a_file_only_what_would_settle_it_is_asked_and_kept(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    boxes = ["The red one", *[""] * 40]
    screen, _ = held(book, monkeypatch, tmp_path, ["2", *SPEAR, *boxes])
    asked = screen.count("\nBox ")
    assert 5 <= asked <= 20  # of all the boxes of the sheet
    typed = ["The old one", "4", *[""] * 40]
    screen, _ = held(book, monkeypatch, tmp_path, ["2", *SPEAR, *typed])
    kept = tmp_path / "firstfurrow-tractor.yaml"
    found = read_offers(book, kept.read_text(encoding="utf-8"), str(kept)).offers[0]
    assert found.name == "The old one"
    assert len(found.said) == 1
    assert "bale spear: unknown. Ask first:" in flat(screen)
    assert f"firstfurrow --resume firstfurrow-answers-2.yaml --tractor {kept.name}" in screen.replace(" \\\n   ", "")
    assert f"firstfurrow check firstfurrow-answers-2.yaml {kept.name}" in screen


def test_what_one_finds_out_later_is_added_and_moves_the_verdict(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text("format: firstfurrow-offer/1\nname: mine\noffer:\n  hitch_category: 1\n", encoding="utf-8")
    screen, _ = held(
        book, monkeypatch, tmp_path, [*SPEAR, "list", "save", "my tractor", "go 1", "four", "save", ""], tractor=mine
    )
    assert screen.count("Now the tractor. There are") == 2
    assert "driven_wheels: four" in mine.read_text(encoding="utf-8")


def test_after_each_answer_it_is_said_whether_the_implement_runs_now(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text((OFFERS / "subcompact_without_rear_sets.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    screen, _ = held(book, monkeypatch, tmp_path, [*SPEAR[:8], "save"], tractor=mine)
    tail = screen.rsplit("> bale spear\n", 1)[1]
    assert "bale spear: does not run. It lacks:" in flat(tail)


def test_ctrl_c_in_the_boxes_keeps_answers_and_boxes(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen, code = held(book, monkeypatch, tmp_path, ["2", *SPEAR, "mine", "four", INTERRUPT])
    assert code == 130
    assert "Nothing is lost" in screen
    assert "four" in (tmp_path / "firstfurrow-tractor.yaml").read_text(encoding="utf-8")
    assert "bale_spear" in (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")


def test_the_page_of_a_tractor_asks_nothing_about_gates(book: Book) -> None:
    answers = next(one for one in shipped() if one.name == "garden_on_clay").answers(book)
    page = owned_page(book, replace(answers, given={**answers.given}), "", 80)
    assert "you have not measured" not in flat(page)
    assert "unknown. Ask first" in flat(page)


def test_nothing_said_is_no_verdict(book: Book) -> None:
    assert "Nothing is asked of a tractor yet" in flat(owned_page(book, Answers(), "", 80))


@pytest.mark.parametrize("width", [40, 80])
def test_it_fits_the_window(book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, width: int) -> None:
    screen, _ = held(book, monkeypatch, tmp_path, ["2", *SPEAR, "mine", *[""] * 40], width=width)
    shown = [line for line in screen.splitlines() if "firstfurrow " not in line]
    assert max(map(len, shown)) <= width
