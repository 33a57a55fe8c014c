"""The file that the reader names for a new talk: exactly that one, never one that is there, never an empty one."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import pytest

from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT, DONE

ROAD, UNITS = "1", "1"


class Talked:
    """Talks in an empty folder."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        monkeypatch.chdir(folder)
        monkeypatch.setenv("XDG_STATE_HOME", str(folder / "state"))
        self._patch, self._captured = monkeypatch, capsys
        self.code, self.out, self.err = DONE, "", ""

    def __call__(self, *arguments: str, typed: tuple[str, ...] = (ROAD, UNITS, "14 acre")) -> Talked:
        self._patch.setattr("sys.stdin", StringIO("".join(f"{line}\n" for line in typed)))
        self.code = main(arguments)
        self.out, self.err = self._captured.readouterr()
        return self


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Talked:
    return Talked(tmp_path, monkeypatch, capsys)


def test_the_named_file_is_said_at_once_and_written(talk: Talked, tmp_path: Path) -> None:
    talk("--keep", "mine.yaml")
    assert talk.code == DONE
    assert "Your answers are kept in mine.yaml as you go." in talk.out
    assert "firstfurrow --resume mine.yaml" in talk.out
    assert "land_area: 14 acre" in (tmp_path / "mine.yaml").read_text(encoding="utf-8")
    assert [path.name for path in tmp_path.iterdir()] == ["mine.yaml"]


@pytest.mark.parametrize(
    ("arguments", "about"),
    [
        (("--keep", "mine.yaml"), "mine.yaml: this file exists."),
        (("--keep", "nowhere/mine.yaml"), "no file can be written there"),
        (("--keep", "."), "this file exists"),
        (("--keep", "bad\0name"), "no file can be written there"),
        (("--keep", "new.yaml", "--resume", "mine.yaml"), "Use one of the two"),
    ],
)
def test_what_cannot_be_kept_is_refused_before_the_first_question(
    talk: Talked, tmp_path: Path, arguments: tuple[str, ...], about: str
) -> None:
    text = talk("--keep", "mine.yaml") and (tmp_path / "mine.yaml").read_text(encoding="utf-8")
    talk(*arguments, typed=(ROAD, UNITS, "20 acre"))
    assert talk.code == BAD_INPUT
    assert about in talk.err
    assert talk.err.count("\n") == 1
    assert talk.out == ""
    assert (tmp_path / "mine.yaml").read_text(encoding="utf-8") == text
    assert [path.name for path in tmp_path.iterdir()] == ["mine.yaml"]


@pytest.mark.parametrize("typed", [(), ("save",), (ROAD,), (ROAD, "save")])
def test_nothing_answered_leaves_no_file(talk: Talked, tmp_path: Path, typed: tuple[str, ...]) -> None:
    assert talk("--keep", "mine.yaml", typed=typed).code == DONE
    assert "nothing was kept" in talk.out
    assert list(tmp_path.iterdir()) == []


def test_a_named_file_is_kept_on_a_sales_floor_too(talk: Talked, tmp_path: Path) -> None:
    talk("--keep", "mine.yaml", "--setting", "floor", typed=(UNITS, "slopes"))
    assert "land_shape: [slopes]" in (tmp_path / "mine.yaml").read_text(encoding="utf-8")
