"""On a sales floor nothing stays: the file is private during the talk, and gone at its end, also after a crash."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from small_book import BOOK
from talking import Plain, talk

from firstfurrow.asking.answers import Answers
from firstfurrow.talk import start
from firstfurrow.talk.script import INTERRUPT, ScriptFront
from firstfurrow.talk.store import open_private_store


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.rglob("*.yaml"))


@pytest.mark.parametrize("last", ["save", INTERRUPT, "trees"])
def test_nothing_stays_however_it_ends(tmp_path: Path, last: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    store = open_private_store()
    assert store.path is not None
    assert store.path.stat().st_mode & 0o077 == 0
    assert store.save(Answers(), BOOK)
    assert store.path.stat().st_mode & 0o077 == 0
    held = talk(["14 acre", last], store=store)
    assert "Nothing is kept after this talk." in held.screen
    assert "Nothing of this talk is kept here." in held.screen
    assert "--resume" not in held.screen
    assert files(tmp_path) == []


def test_what_a_crash_left_is_swept_and_what_is_in_use_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    folder = tmp_path / "firstfurrow"
    folder.mkdir()
    for name in (f"floor-{os.getpid()}.yaml", "floor-999999999.yaml", "floor-x.yaml", "firstfurrow-answers.yaml"):
        (folder / name).write_text("", encoding="utf-8")
    half = folder / ".floor-999999999.yaml.999999999.new"
    half.write_text("half of an answer", encoding="utf-8")
    store = open_private_store()
    assert not half.exists()
    assert store.path == folder / f"floor-{os.getpid()}-2.yaml"
    assert files(folder) == ["firstfurrow-answers.yaml", f"floor-{os.getpid()}-2.yaml", f"floor-{os.getpid()}.yaml"]


def test_the_next_customer_starts_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    front = ScriptFront(["14 acre", "trees", "next customer", "3 acre", "save"])
    monkeypatch.setattr(start, "choose_front", lambda *_: front)
    code = start.start(BOOK, plain=True, units="us", resume=None, setting="floor", views=Plain())
    assert code == 0
    assert front.screen.count("How much land is there?") == 2
    assert front.screen.count("Nothing of this talk is kept here.") == 2
    assert files(tmp_path) == []


def test_elsewhere_there_is_no_next_customer() -> None:
    held = talk(["14 acre", "next customer", "save"])
    assert "That is for a sales floor" in held.screen
    assert "Saved in" in held.screen
