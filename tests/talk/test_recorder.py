"""A talk that is recorded: the folder plays again, whatever was typed, in each setting."""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfurrow.book.model import Book
from firstfurrow.shown import Shown
from firstfurrow.talk import start
from firstfurrow.talk.recordings import Recording, RecordingError, differences, play
from firstfurrow.talk.script import INTERRUPT, ScriptFront

ENDED = ["unsure", "", "flat", "grading", "unsure", "gravel", "unsure", "unsure", "", "unsure", "none", "nothing",
         "unsure", "unsure", "never", "unsure", "", "unsure", "", "unsure", "", "none", "", ""]  # fmt: skip


def held(
    book: Book, monkeypatch: pytest.MonkeyPatch, folder: Path, lines: list[str], setting: str, units: str | None
) -> int:
    """One talk with `--record`, at a width other than that of a recording."""
    monkeypatch.chdir(folder.parent)
    monkeypatch.setenv("XDG_STATE_HOME", str(folder.parent))
    monkeypatch.setattr(start, "choose_front", lambda *_: ScriptFront(lines, 55))
    views = Shown(book, lambda: 80)
    return start.start(
        book, plain=True, units=units, resume=None, setting=setting, views=views, record=folder
    )  # fmt: skip


@pytest.mark.parametrize(
    ("setting", "units", "lines"),
    [
        ("home", None, ["1", "1", *ENDED]),
        ("home", "metric", ["1", "3 ha", "why", "zzz", "back", "", "save"]),
        ("floor", None, ["1", "flat", "grading", "gravel", "box blade", "save"]),
        ("class", "us", ["3 acre", "flat", "save"]),
        ("home", None, ["2", "1", "flat", "grading", INTERRUPT]),
    ],
)
def test_a_recorded_talk_plays_again(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, setting: str, units: str | None, lines: list[str]
) -> None:
    folder = tmp_path / "a talk"
    held(book, monkeypatch, folder, lines, setting, units)
    recording = Recording(folder)
    screen, answers = play(book, recording, Shown(book, lambda: 80))
    assert not differences(recording.screen(), screen, "screen")
    assert (folder / "answers.yaml").read_text(encoding="utf-8") == answers
    assert max(map(len, screen.splitlines())) <= 80
    if lines[-1] == "save":
        assert "> save" in screen


def test_a_folder_with_something_in_it_is_left_alone(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "talk"
    folder.mkdir()
    (folder / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(RecordingError, match="There is something in this folder already"):
        held(book, monkeypatch, folder, ["1", "save"], "home", None)
    assert [path.name for path in folder.iterdir()] == ["mine.txt"]


def test_a_file_where_the_folder_should_be_is_said(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "talk").write_text("", encoding="utf-8")
    with pytest.raises(RecordingError, match="cannot be made"):
        held(book, monkeypatch, tmp_path / "talk", ["1", "save"], "home", None)
