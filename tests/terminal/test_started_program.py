"""The started program without a terminal: pipes, odd bytes, a closed pipe, what is not imported at the start."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest


def run(folder: Path, typed: bytes, *arguments: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "firstfurrow", *arguments],
        input=typed,
        capture_output=True,
        cwd=folder,
        env=os.environ | {"XDG_STATE_HOME": str(folder)} | environment,
        timeout=60,
        check=False,
    )


def test_lines_from_a_pipe_are_answers_and_are_shown(tmp_path: Path) -> None:
    done = run(tmp_path, b"1\n1\n14 acre\nslopes\n")
    assert done.returncode == 0
    assert done.stderr == b""
    assert b"> 14 acre\n" in done.stdout
    assert b"\x1b" not in done.stdout
    assert "  land_area: 14 acre\n" in (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("encoding", ["utf-8", "ascii", "latin-1"])
def test_odd_bytes_are_one_sentence_in_any_encoding(tmp_path: Path, encoding: str) -> None:
    done = run(tmp_path, b"1\n1\n\xff\xfe\x00\x07\n14 \xc2\xbd\n14 acre\nsave\n", PYTHONIOENCODING=encoding)
    assert done.returncode == 0
    assert done.stderr == b""
    assert b"Saved in" in done.stdout


def test_no_input_at_all(tmp_path: Path) -> None:
    done = run(tmp_path, b"")
    assert done.returncode == 0
    assert b"nothing was kept" in done.stdout
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform == "win32", reason="a shell of another sort")
def test_closed_input_and_closed_output_are_no_traceback(tmp_path: Path) -> None:
    for closed in ("<&-", "<&- >&-"):
        command = f"{sys.executable} -m firstfurrow {closed}"
        done = subprocess.run(["sh", "-c", command], capture_output=True, cwd=tmp_path, timeout=60, check=False)
        assert done.stderr == b"", closed
        assert done.returncode == 0, closed
    assert list(tmp_path.iterdir()) == []


def test_one_line_without_end_and_many_lines_at_once(tmp_path: Path) -> None:
    lines = b"1\n1\n" + b"a" * 10_000 + b"\n" + b"".join(b"line %d\n" % n for n in range(50)) + b"14 acre\n"
    done = run(tmp_path, lines)
    assert done.returncode == 0
    assert done.stderr == b""
    assert done.stdout.count(b"too long for an answer") == 1
    assert b'"line 49" does not begin with a number' in done.stdout
    assert "land_area: 14 acre" in (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="no folder that is closed to everybody")
def test_nowhere_to_write_is_said_and_the_answers_are_printed(tmp_path: Path) -> None:
    """A folder in which nobody can make a file, and a file where the folder of the user should be."""
    state = tmp_path / "a file"
    state.write_text("", encoding="utf-8")
    lines = b"1\n1\n14 acre\nslopes\nsave\n"
    done = run(Path("/proc"), lines, XDG_STATE_HOME=str(state))
    assert done.returncode == 0
    assert done.stderr == b""
    said = done.stdout.decode()
    assert "No folder here can be written to" in " ".join(said.split())
    printed = tmp_path / "a.yaml"
    printed.write_text(said[said.index("format: firstfurrow-answers/1") :], encoding="utf-8")
    again = run(tmp_path, b"save\n", "--resume", "a.yaml")
    assert again.returncode == 0
    assert b"2 so far" in again.stdout


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no disk that is always full")
def test_output_that_cannot_be_written_is_one_sentence(tmp_path: Path) -> None:
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "firstfurrow", "demo", "--list"],
            stdout=full, stderr=subprocess.PIPE, cwd=tmp_path, timeout=60, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr.count(b"\n") == 1


def test_a_damaged_file_to_resume_is_one_sentence_and_exit_code_two(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("format: firstfurrow-answers/1\nbook: {id: other}\n", encoding="utf-8")
    for name, about in (("a.yaml", b"a.yaml:2: "), ("b.yaml", b"no such file"), (".", b"folder")):
        done = run(tmp_path, b"", "--resume", name)
        assert done.returncode == 2
        assert about in done.stderr
        assert done.stderr.count(b"\n") == 1


def test_a_reader_that_goes_away_is_no_traceback(tmp_path: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "firstfurrow", "--units", "us"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=tmp_path,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        process.stdin.write(b"1\n" + b"14 acre\nhelp\nwords\n" * 200)
        process.stdin.close()
        assert process.stderr.read() == b""
        assert process.wait(60) == 0


def test_the_start_does_not_load_what_it_does_not_need() -> None:
    code = (
        "import sys, firstfurrow.talk.start, firstfurrow.talk.terminal, firstfurrow.talk.recordings\n"
        "print([m for m in ('prompt_toolkit', 'rich', 'jsonschema') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.strip() == "[]"
