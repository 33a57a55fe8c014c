"""Where the answers lie: the name in the folder, the state folder, nowhere; and what survives a failing disk."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from small_book import BOOK
from talking import WHOLE, talk

from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError, read
from firstfurrow.talk.store import Store, open_store, read_answers

as_root = pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="nothing is closed to this user")


def test_the_first_free_name_in_the_folder_is_taken(tmp_path: Path) -> None:
    first = open_store(None, tmp_path)
    second = open_store(None, tmp_path)
    assert first.path == tmp_path / "firstfurrow-answers.yaml"
    assert second.path == tmp_path / "firstfurrow-answers-2.yaml"
    second.leave()
    assert not (tmp_path / "firstfurrow-answers-2.yaml").exists()


def test_an_existing_answers_file_is_never_written_over(tmp_path: Path) -> None:
    mine = tmp_path / "firstfurrow-answers.yaml"
    mine.write_text("mine", encoding="utf-8")
    store = open_store(None, tmp_path)
    assert store.save(Answers(), BOOK)
    assert mine.read_text(encoding="utf-8") == "mine"


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have other folders")
@pytest.mark.parametrize("variable", ["XDG_STATE_HOME", "HOME"])
def test_else_the_state_folder_of_the_user(tmp_path: Path, variable: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The folders of Linux: XDG Base Directory Specification, 0.8, XDG_STATE_HOME."""
    monkeypatch.delenv("XDG_STATE_HOME", raising=False)
    monkeypatch.setenv(variable, str(tmp_path / "state"))
    missing = tmp_path / "a file"
    missing.write_text("", encoding="utf-8")
    store = open_store(None, missing)
    inside = Path() if variable == "XDG_STATE_HOME" else Path(".local") / "state"
    assert store.path == tmp_path / "state" / inside / "firstfurrow" / "firstfurrow-answers.yaml"


def test_nowhere_writable_is_said_and_the_answers_are_printed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "a file"
    blocked.write_text("", encoding="utf-8")
    monkeypatch.setenv("XDG_STATE_HOME", str(blocked))
    store = open_store(None, blocked)
    assert store.path is None
    held = talk(["14 acre", "trees"], store=store)
    assert "nothing is kept while we talk" in held.screen
    printed = held.screen[held.screen.index("format: firstfurrow-answers/1") :]
    assert read(printed, "a.yaml", BOOK) == held.answers


def test_a_disk_that_fails_in_the_middle_is_said_once_and_the_answers_are_printed(tmp_path: Path) -> None:
    folder = tmp_path / "gone"
    held = talk(["14 acre", "trees", "snow"], path=folder / "a.yaml")
    assert held.screen.count("cannot be written now") == 1
    assert "  area: 14 acre" in held.screen
    assert held.code == 0


def test_answers_are_on_disk_before_the_next_question(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"

    class Watching(Store):
        seen: tuple[str, ...] = ()

        def save(self, answers: Answers, book: object) -> bool:
            done = super().save(answers, BOOK)
            self.seen = (*self.seen, path.read_text(encoding="utf-8"))
            return done

    store = Watching(path)
    talk(WHOLE, store=store)
    assert "area: 14 acre" in store.seen[0]
    assert "shape" not in store.seen[0]
    assert "shape: [trees]" in store.seen[1]
    assert list(tmp_path.iterdir()) == [path]  # nothing half written lies beside


def test_resuming_goes_on_where_it_stopped_and_reading_alone_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    talk(["14 acre", "slopes", "30 %", "back"], path=path)
    text = path.read_text(encoding="utf-8")
    again = read_answers(path, BOOK)
    path.write_text("# a comment of mine\n" + text, encoding="utf-8")
    looked = talk(["save"], path=path, answers=again)
    assert "2 so far" in looked.flat
    assert path.read_text(encoding="utf-8").startswith("# a comment of mine\n")
    resumed = talk(["", "must", "snow"], path=path, answers=again)
    assert "You said before: 30 %. Enter keeps it." in resumed.screen
    assert resumed.answers.given["side_slope"].text == "30 %"


def test_a_finished_file_can_be_looked_at_and_changed_again(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    talk([*WHOLE, ""], path=path)
    again = talk(["change 1", "20 acre", ""], path=path, answers=read_answers(path, BOOK))
    assert again.code == 0
    assert "PROFILE" in again.screen
    assert "area: 20 acre" in path.read_text(encoding="utf-8")


def test_files_that_cannot_be_read_give_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "latin.yaml").write_bytes(b"format: \xff\xfe")
    (tmp_path / "zero.yaml").write_bytes(b"format: a\x00b")
    for name, about in (
        (".", "folder"),
        ("missing.yaml", "no such file"),
        ("latin.yaml", "UTF-8"),
        ("zero.yaml", "zero.yaml"),
        ("bad\x00name", "cannot be read"),
    ):
        with pytest.raises(AnswersError, match=about) as caught:
            read_answers(tmp_path / name, BOOK)
        assert "\n" not in str(caught.value)


def test_the_rights_of_a_resumed_file_and_a_link_to_it_stay(tmp_path: Path) -> None:
    real, link = tmp_path / "real.yaml", tmp_path / "link.yaml"
    real.write_text("", encoding="utf-8")
    real.chmod(0o600)
    link.symlink_to(real)
    assert Store(link).save(Answers(), BOOK)
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8").startswith("format: firstfurrow-answers/1")
    assert real.stat().st_mode & 0o777 == 0o600


def test_the_resume_command_can_be_pasted_into_a_shell() -> None:
    store = Store(Path("my answers.yaml"))
    assert store.resume_command() == "firstfurrow --resume 'my answers.yaml'"
    assert store.resume_command(Path("t.yaml")) == "firstfurrow --resume 'my answers.yaml' --tractor t.yaml"
    assert store.working_command(Path("t.yaml")) == "firstfurrow check 'my answers.yaml' t.yaml"
    store.book_folder = Path("our county")
    assert store.resume_command() == "firstfurrow --book 'our county' --resume 'my answers.yaml'"
    assert store.working_command() == "firstfurrow --book 'our county' advise 'my answers.yaml'"


@as_root
def test_a_folder_closed_to_the_user_is_passed_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o500)
    store = open_store(None, closed)
    assert store.path == tmp_path / "firstfurrow" / "firstfurrow-answers.yaml"


def test_what_a_killed_program_had_begun_to_write_is_taken_away_at_the_next_start(tmp_path: Path) -> None:
    mine = tmp_path / "firstfurrow-answers.yaml"
    mine.write_text("mine", encoding="utf-8")
    ended, running = f".{mine.name}.4194999.new", f".{mine.name}.{os.getpid()}.new"  # a number that no process has
    other = ".somebody-else.yaml.4194999.new"
    for resume in (None, mine):
        for name in (ended, running, other):
            (tmp_path / name).write_text("half", encoding="utf-8")
        open_store(resume, tmp_path).leave()
        assert sorted(path.name for path in tmp_path.iterdir()) == sorted([mine.name, running, other])


def test_a_save_that_is_interrupted_leaves_the_old_file_and_is_done_again_at_the_end(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.yaml"
    real, calls = os.replace, []

    def replace(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) == 2:  # the key is pressed while the second answer is written
            raise KeyboardInterrupt
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    held = talk(["14 acre", "trees"], path=path)
    assert held.code == 130
    assert "shape: [trees]" in path.read_text(encoding="utf-8")
    assert list(tmp_path.iterdir()) == [path]
