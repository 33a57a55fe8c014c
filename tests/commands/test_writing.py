"""Writing a file from a command: whole or not at all, never over what is there unless somebody says so."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT, DONE, UsageError, may_write, write
from firstfurrow.talk.recordings import shipped

RECORDING = str(shipped()[0].folder)


def test_a_path_with_spaces_and_quotes(tmp_path: Path) -> None:
    path = tmp_path / "what I'd \"need\" <here>" / "my page.html"
    path.parent.mkdir()
    write(path, "text\n")
    assert path.read_text(encoding="utf-8") == "text\n"
    assert [p.name for p in path.parent.iterdir()] == ["my page.html"]  # nothing beside it


@pytest.mark.parametrize("name", ["missing/page.txt", "x" * 300, "file/inside", "nul\0"])
def test_what_cannot_be_written_is_one_sentence(tmp_path: Path, name: str) -> None:
    (tmp_path / "file").write_text("a file, not a folder", encoding="utf-8")
    with pytest.raises(UsageError, match="cannot be written"):
        write(tmp_path / name, "text")
    assert [p.name for p in tmp_path.iterdir()] == ["file"]


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    for force in (False, True):
        with pytest.raises(UsageError, match="this is a folder"):
            may_write(tmp_path, force=force)


@pytest.mark.skipif(sys.platform == "win32", reason="the size of files is limited through a call of POSIX")
@pytest.mark.parametrize("there", [True, False])
def test_a_full_disk_leaves_no_half_file(tmp_path: Path, there: bool) -> None:
    """The disk is full in the middle of the file: what stood there stands there still, and nothing lies beside it."""
    path = tmp_path / "page.html"
    if there:
        path.write_text("what was there", encoding="utf-8")
    code = (
        "import resource, signal, sys\n"
        "from firstfurrow.cli import main\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (3000, 3000))\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "advise", RECORDING, "--format", "html", "--force", "--out", str(path)],
        capture_output=True, text=True, check=False, env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )  # fmt: skip
    assert done.returncode == BAD_INPUT, done.stderr
    assert "Traceback" not in done.stderr
    assert done.stderr.count("\n") == 1
    assert f"{path}: it cannot be written" in done.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == (["page.html"] if there else [])
    if there:
        assert path.read_text(encoding="utf-8") == "what was there"


def test_pictures_are_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "my pictures"
    out = ["advise", RECORDING, "--sheet", "--out", str(tmp_path / "page.txt")]
    everything = ["advise", RECORDING, "--pictures", str(folder), "--out", str(tmp_path / "all.txt")]
    assert main(out) == DONE
    assert main(everything) == DONE
    drawn = sorted(folder.iterdir())
    assert drawn
    assert all(p.suffix == ".svg" for p in drawn)
    capsys.readouterr()
    (tmp_path / "all.txt").unlink()
    drawn[0].write_text("mine", encoding="utf-8")
    assert main(everything) == BAD_INPUT
    assert "this file exists" in capsys.readouterr().err
    assert drawn[0].read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "all.txt").exists()
