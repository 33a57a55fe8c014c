"""The command for a class: what is read, what is written, and that nothing else is touched. All people are invented."""

from __future__ import annotations

import errno
import os
import re
import sys
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest

from firstfurrow.book.model import Book
from firstfurrow.book.places import recordings_folder
from firstfurrow.book.yaml_strict import LARGEST, bytes_of
from firstfurrow.cli import main
from firstfurrow.commands import class_work, classroom, common
from firstfurrow.commands.class_files import answers_files
from firstfurrow.commands.class_work import FEW, handout_of, handouts
from firstfurrow.commands.common import BAD_INPUT, DONE, INTERRUPTED
from firstfurrow.talk import store

HEAD = "format: firstfurrow-answers/1\nbook: {id: firstfurrow, version: 1}\n"
PLAN = """units: us
answers:
  soil: not sure
  implements:
    - {item: i1, kind: rotary_tiller, size: 5 ft, when: now}
"""
GOOD = HEAD + PLAN
posix = pytest.mark.skipif(os.name != "posix", reason="links and pipes of posix systems")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    found = tmp_path / "class"
    found.mkdir()
    return found


@pytest.fixture(autouse=True)
def _book_read_once(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(classroom, "book_of", lambda parsed: book)


def put(folder: Path, **files: str) -> Path:
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


Seen = pytest.CaptureFixture[str]


# --------------------------------------------------------------------- what comes out


def test_a_handout_for_each_and_a_page_of_counts(
    folder: Path, capsys: Seen, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.undo()  # the whole command, with the book that it reads
    put(folder, ann=HEAD + "name: Ann Lee\n" + PLAN, bob=GOOD)
    assert main(["class", str(folder)]) == DONE
    out = folder / "handouts"
    assert sorted(p.name for p in out.iterdir()) == ["class-page.html", "handout-ann-lee.html", "handout-bob.html"]
    assert "For: Ann Lee" in (out / "handout-ann-lee.html").read_text(encoding="utf-8")
    page = (out / "class-page.html").read_text(encoding="utf-8")
    assert "Participants: 2." in page
    assert "handout-bob.html" in page
    seen = capsys.readouterr()
    assert seen.out == f"Handouts: 2, and the page for the educator, class-page.html. They are in {out}.\n"
    assert seen.err == ""


@pytest.mark.parametrize(("format_", "ending"), [("html", ".html"), ("markdown", ".md"), ("text", ".txt")])
def test_every_format_has_its_ending(folder: Path, tmp_path: Path, format_: str, ending: str) -> None:
    out = tmp_path / "new" / "out"
    assert main(["class", str(put(folder, bob=GOOD)), "--out", str(out), "--format", format_]) == DONE
    assert sorted(p.name for p in out.iterdir()) == [f"class-page{ending}", f"handout-bob{ending}"]
    assert not (folder / "handouts").exists()


def test_the_units_that_are_wanted(folder: Path) -> None:
    assert main(["class", str(put(folder, bob=GOOD)), "--units", "metric", "--format", "text"]) == DONE
    for path in (folder / "handouts").iterdir():
        assert not re.search(r"\d hp\b", path.read_text(encoding="utf-8"))


def test_recordings_are_read_one_level_deep(folder: Path) -> None:
    for name in ("two_horses", "hay_on_hills"):
        (folder / name).mkdir()
        text = (recordings_folder() / name / "answers.yaml").read_text(encoding="utf-8")
        (folder / name / "answers.yaml").write_text(text, encoding="utf-8")
    (folder / "deep" / "deeper").mkdir(parents=True)
    (folder / "deep" / "deeper" / "answers.yaml").write_text(GOOD, encoding="utf-8")
    assert main(["class", str(folder), "--format", "text"]) == DONE
    assert len(list((folder / "handouts").iterdir())) == 3


def test_without_a_name_the_file_or_the_folder_gives_one(book: Book, folder: Path) -> None:
    (folder / "cleo").mkdir()
    (folder / "cleo" / "answers.yaml").write_text(GOOD, encoding="utf-8")
    put(folder, bob=GOOD, dora=HEAD + "name: '  '\n" + PLAN)
    made = handouts(book, None, None, "text", answers_files(book, folder))
    assert [one.name for one in made] == ["bob", "cleo", "dora"]


def test_two_of_one_name_get_two_handouts_in_the_order_of_their_files(folder: Path) -> None:
    named = [HEAD + f"name: {name}\n" + PLAN for name in ("Ann", "ann", '"../../<ann>"')]
    put(folder, c=named[0], a=named[1], b=named[2])
    assert main(["class", str(folder), "--format", "text"]) == DONE
    out = folder / "handouts"
    assert sorted(p.name for p in out.iterdir()) == [
        "class-page.txt", "handout-ann-2.txt", "handout-ann-3.txt", "handout-ann.txt",
    ]  # fmt: skip
    assert "a.yaml" in (out / "handout-ann.txt").read_text(encoding="utf-8")
    assert sorted(p.name for p in folder.iterdir()) == ["a.yaml", "b.yaml", "c.yaml", "handouts"]


def test_hidden_files_and_others_are_nobodys_answers(folder: Path) -> None:
    put(folder, bob=GOOD)
    (folder / "._bob.yaml").write_bytes(b"\x00\x05\x16\x07")
    (folder / "notes.txt").write_text("x", encoding="utf-8")
    (folder / "CLEO.YML").write_text(GOOD, encoding="utf-8")
    assert main(["class", str(folder), "--format", "text"]) == DONE
    assert sorted(p.name for p in (folder / "handouts").iterdir())[1:] == ["handout-bob.txt", "handout-cleo.txt"]


# ----------------------------------------------------------------------- what is broken


def test_broken_files_are_named_and_the_rest_comes_out(folder: Path, capsys: Seen) -> None:
    put(
        folder, good=GOOD, tab="a:\n\t- b\n", format="format: other/1\n",
        kind=HEAD + PLAN.replace("rotary_t", "rotari_t"), empty="",
    )  # fmt: skip
    (folder / "binary.yaml").write_bytes(b"\x00\xff\xfe\x80 x")
    with (folder / "huge.yaml").open("wb") as file:
        file.truncate(LARGEST + 1)
    (folder / "older.yaml").write_text(GOOD.replace("version: 1", "version: 999"), encoding="utf-8")
    assert main(["class", str(folder)]) == BAD_INPUT
    error = capsys.readouterr().err.splitlines()
    assert len(error) == 7
    by_file = {re.split(r"[/\\]", line.split(".yaml")[0])[-1]: line for line in error}
    assert f"{folder / 'tab.yaml'}:2: " in by_file["tab"]
    assert f"{folder / 'format.yaml'}:1: " in by_file["format"]
    assert f"{folder / 'kind.yaml'}:7: " in by_file["kind"]
    assert "rotary_tiller" in by_file["kind"]  # what was probably meant
    assert "far too large" in by_file["huge"]
    assert {"binary", "empty", "older"} < by_file.keys()
    page = (folder / "handouts" / "class-page.html").read_text(encoding="utf-8")
    assert "Participants: 1. Files that could not be used: 7." in page
    for name in by_file:
        assert f"<li>{name}.yaml:" in page
    assert (folder / "handouts" / "handout-good.html").is_file()


def test_it_says_of_a_broken_file_what_advise_says(folder: Path, capsys: Seen) -> None:
    put(folder, bad=HEAD + "answers: {soil: clai}\n", good=GOOD)
    assert main(["advise", str(folder / "bad.yaml")]) == BAD_INPUT
    said = capsys.readouterr().err
    assert main(["class", str(folder)]) == BAD_INPUT
    assert capsys.readouterr().err == said


@posix
def test_what_is_no_file_of_the_folder_is_not_read(folder: Path, tmp_path: Path, capsys: Seen) -> None:
    put(folder, bob=GOOD)
    put(tmp_path, outside=GOOD)
    (tmp_path / "away").mkdir()
    (tmp_path / "away" / "answers.yaml").write_text(GOOD, encoding="utf-8")
    (folder / "link.yaml").symlink_to(tmp_path / "outside.yaml")
    (folder / "linked").symlink_to(tmp_path / "away")
    (folder / "again.yaml").symlink_to("bob.yaml")
    (folder / "loop.yaml").symlink_to("loop.yaml")
    (folder / "gone.yaml").symlink_to("nowhere.yaml")
    os.mkfifo(folder / "pipe.yaml")
    assert main(["class", str(folder), "--format", "text"]) == BAD_INPUT
    error = capsys.readouterr().err
    assert error.count("leads out of the folder") == 2
    assert "again.yaml: this is the same file as bob.yaml" in error
    assert "pipe.yaml: this is not a file that can be read" in error
    assert len(error.splitlines()) == 6
    assert sorted(p.name for p in (folder / "handouts").iterdir()) == ["class-page.txt", "handout-bob.txt"]


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere every name of a file is text")
def test_the_name_of_a_file_need_not_be_text(folder: Path, capsys: Seen) -> None:
    for name, text in ((b"\xff\x1b[1m.yaml", GOOD), (b"\xfe.yaml", "[")):
        with open(os.path.join(os.fsencode(folder), name), "w", encoding="utf-8") as file:
            file.write(text)
    assert main(["class", str(folder)]) == BAD_INPUT
    assert sorted(p.name for p in (folder / "handouts").iterdir()) == ["class-page.html", "handout-1m.html"]
    assert "\x1b" not in capsys.readouterr().err


@posix
@pytest.mark.skipif(os.name == "posix" and os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_folder_without_permission_is_named(folder: Path, capsys: Seen) -> None:
    put(folder, bob=GOOD)
    (folder / "closed").mkdir(mode=0)
    try:
        assert main(["class", str(folder), "--format", "text"]) == BAD_INPUT
    finally:
        (folder / "closed").chmod(0o700)
    assert "closed" in capsys.readouterr().err


def test_a_file_that_the_system_does_not_give_is_named(
    book: Book, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put(folder, bob=GOOD, cleo=GOOD)
    found = answers_files(book, folder)

    def closed(path: Path) -> bytes:
        if path.name == "bob.yaml":
            raise PermissionError(errno.EACCES, "Permission denied")
        return bytes_of(path)

    monkeypatch.setattr(store, "bytes_of", closed)
    bob, cleo = (handout_of(book, None, "text", file) for file in found)
    assert bob.problem is not None
    assert bob.problem.startswith(f"{folder / 'bob.yaml'}: ")
    assert cleo.problem is None


@pytest.mark.parametrize("files", [{}, {"bad": "x"}, {"bad": "[", "worse": ""}])
def test_without_a_usable_file_nothing_is_written(folder: Path, files: dict[str, str], capsys: Seen) -> None:
    put(folder, **files)
    before = everything(folder)
    assert main(["class", str(folder)]) == BAD_INPUT
    assert everything(folder) == before
    assert not (folder / "handouts").exists()
    assert len(capsys.readouterr().err.splitlines()) == len(files) + 1


@pytest.mark.parametrize("name", ["missing", "file.yaml"])
def test_what_is_no_folder_is_said_in_one_sentence(tmp_path: Path, name: str, capsys: Seen) -> None:
    put(tmp_path, file=GOOD)
    assert main(["class", str(tmp_path / name)]) == BAD_INPUT
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_name_of_ten_thousand_signs_or_of_none(folder: Path) -> None:
    put(folder, long=HEAD + f"name: {'x' * 10_000}\n" + PLAN, signs=HEAD + 'name: "\\e[31m<b>\\0 \\u202E"\n' + PLAN)
    assert main(["class", str(folder)]) == DONE
    out = folder / "handouts"
    assert len(list(out.iterdir())) == 3
    assert all(len(p.stem) <= 60 for p in out.iterdir())
    for path in out.iterdir():
        text = path.read_text(encoding="utf-8")
        assert "<b>" not in text
        assert not re.search("[\x00\x1b\u202e]", text)
        assert "x" * 200 not in text


# --------------------------------------------------------------- what is not touched


def test_a_folder_that_is_not_empty_is_left_alone(folder: Path, capsys: Seen) -> None:
    put(folder, bob=GOOD)
    out = folder / "handouts"
    out.mkdir()
    (out / "mine.txt").write_text("mine", encoding="utf-8")
    before = everything(folder)
    assert main(["class", str(folder)]) == BAD_INPUT
    (line,) = capsys.readouterr().err.splitlines()
    assert "--force" in line
    assert everything(folder) == before


def test_with_force_only_files_of_our_own_names_are_replaced(folder: Path) -> None:
    put(folder, bob=GOOD)
    out = folder / "handouts"
    out.mkdir()
    for name in ("mine.txt", "bob.html", "handout-cleo.html", "handout-bob.html", "class-page.html"):
        (out / name).write_text("old", encoding="utf-8")
    assert main(["class", str(folder), "--force"]) == DONE
    left = {p.name for p in out.iterdir() if p.read_text(encoding="utf-8") == "old"}
    assert left == {"mine.txt", "bob.html", "handout-cleo.html"}
    assert (folder / "bob.yaml").read_text(encoding="utf-8") == GOOD


@posix
def test_a_link_in_the_folder_is_replaced_and_not_followed(folder: Path, tmp_path: Path) -> None:
    put(folder, bob=GOOD)
    target = tmp_path / "precious.txt"
    target.write_text("precious", encoding="utf-8")
    out = folder / "handouts"
    out.mkdir()
    (out / "handout-bob.html").symlink_to(target)
    assert main(["class", str(folder), "--force"]) == DONE
    assert target.read_text(encoding="utf-8") == "precious"
    assert not (out / "handout-bob.html").is_symlink()


def test_the_answers_may_lie_where_the_handouts_go(folder: Path) -> None:
    put(folder, bob=GOOD)
    assert main(["class", str(folder), "--out", str(folder), "--force"]) == DONE
    assert (folder / "bob.yaml").read_text(encoding="utf-8") == GOOD
    assert sorted(p.name for p in folder.iterdir()) == ["bob.yaml", "class-page.html", "handout-bob.html"]


def test_an_out_folder_that_is_a_file_is_said_in_one_sentence(folder: Path, tmp_path: Path, capsys: Seen) -> None:
    put(folder, bob=GOOD)
    put(tmp_path, file="x")
    for out in (tmp_path / "file.yaml", tmp_path / "file.yaml" / "below"):
        assert main(["class", str(folder), "--out", str(out), "--force"]) == BAD_INPUT
        assert len(capsys.readouterr().err.splitlines()) == 1
    assert (tmp_path / "file.yaml").read_text(encoding="utf-8") == "x"


def test_a_full_disk_leaves_no_half_file(folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: Seen) -> None:
    put(folder, ann=GOOD, bob=GOOD, cleo=GOOD)
    written: list[int] = []

    def full(number: int) -> None:
        written.append(number)
        if len(written) > 1:
            raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(common.os, "fsync", full)
    assert main(["class", str(folder), "--format", "text"]) == BAD_INPUT
    (line,) = capsys.readouterr().err.splitlines()
    assert "No space left on device" in line
    assert [p.name for p in (folder / "handouts").iterdir()] == ["handout-ann.txt"]
    assert "For: ann" in (folder / "handouts" / "handout-ann.txt").read_text(encoding="utf-8")


def test_ctrl_c_while_it_writes_leaves_whole_files(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(folder, ann=GOOD, bob=GOOD, cleo=GOOD)
    replaced = os.replace

    def interrupted(before: str, after: Path) -> None:
        if after.name == "handout-bob.txt":
            raise KeyboardInterrupt
        replaced(before, after)

    monkeypatch.setattr(common.os, "replace", interrupted)
    assert main(["class", str(folder), "--format", "text"]) == INTERRUPTED
    assert [p.name for p in (folder / "handouts").iterdir()] == ["handout-ann.txt"]


def test_ctrl_c_while_it_works_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(folder, ann=GOOD)

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(class_work, "handout_of", interrupted)
    assert main(["class", str(folder)]) == INTERRUPTED
    assert not (folder / "handouts").exists()


# ------------------------------------------------------------- one process or several


def test_several_processes_give_the_same_bytes_in_the_same_order(book: Book, folder: Path) -> None:
    for name in ("two_horses", "hay_on_hills", "market_beds", "too_much_at_once", "garden_on_clay"):
        text = (recordings_folder() / name / "answers.yaml").read_text(encoding="utf-8")
        put(folder, **{name: text})
    put(folder, broken="[")
    files = answers_files(book, folder)
    done: list[None] = []
    alone = handouts(book, None, None, "html", files, processes=1)
    together = handouts(book, None, None, "html", files, lambda: done.append(None), processes=2)
    assert together == alone
    assert [one.file for one in together] == list(files)
    assert len(done) == len(files)


def test_where_no_process_can_begin_the_work_is_done_all_the_same(
    book: Book, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = answers_files(book, put(folder, ann=GOOD, bob=GOOD))
    alone = handouts(book, None, None, "text", files, processes=1)

    class NoPool:
        def __init__(self, *_: object) -> None:
            raise OSError(errno.ENOSYS, "Function not implemented")

    monkeypatch.setattr("concurrent.futures.ProcessPoolExecutor", NoPool)
    assert handouts(book, None, None, "text", files, processes=2) == alone

    class DyingPool:
        def __init__(self, *_: object) -> None:
            pass

        def map(self, work: object, files: list[object]) -> object:
            yield alone[0]
            raise BrokenProcessPool("A process in the process pool was terminated abruptly")

        def shutdown(self, **_: object) -> None:
            pass

    monkeypatch.setattr("concurrent.futures.ProcessPoolExecutor", DyingPool)
    assert handouts(book, None, None, "text", files, processes=2) == alone


def test_few_files_are_worked_on_in_one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(class_work, "_processors", lambda: 8)
    assert class_work._processes(FEW - 1) == 1
    assert 2 <= class_work._processes(FEW) <= 8
    monkeypatch.setattr(class_work, "_processors", lambda: 1)
    assert class_work._processes(1000) == 1


def test_no_progress_is_shown_where_nobody_looks(folder: Path, capsys: Seen) -> None:
    assert not sys.stderr.isatty()
    assert main(["class", str(put(folder, ann=GOOD, bob=GOOD)), "--format", "text"]) == DONE
    assert capsys.readouterr().err == ""


def test_our_own_names_begin_as_they_are_documented() -> None:
    assert (classroom.EACH, classroom.PAGE) == ("handout-", "class-page")
