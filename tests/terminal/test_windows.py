"""Windows of any size: everything fits, no word is broken, what is shown is the same; a window may change its size."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import window as windows
from window import Window

from firstfurrow.asking.answers import Answers
from firstfurrow.book.model import Book
from firstfurrow.shown import Shown
from firstfurrow.talk.conversation import Conversation
from firstfurrow.talk.script import ScriptFront
from firstfurrow.talk.store import RehearsalStore

pytestmark = windows.MARKS
open_window = windows.open_window

TYPED = ("1", "14 acres", "hils", "2", "help", "2 4", "why", "words brush", "mow, plough", "answers", "how", "save")
TYPED_TEXT = "> hils"


def words_of(book: Book, width: int) -> list[str]:
    """What the same talk shows without a terminal, as words."""
    front = ScriptFront(TYPED, width)
    Conversation(book, front, RehearsalStore(), Answers(), Shown(book, lambda: width), "home").run()
    return front.screen.split()


@pytest.mark.parametrize(("columns", "rows"), [(40, 15), (80, 24), (200, 50)])
def test_nothing_is_wider_than_the_window_and_no_word_is_broken(
    open_window: Callable[..., Window], book: Book, columns: int, rows: int
) -> None:
    window = open_window(columns, rows)
    window.see("What do you want to find out?")
    window.line("1")
    window.see("Which measures do you think in?")
    for line in TYPED:
        prompts = window.raw.count("\x1b[?2004h")
        window.line(line)
        if line != "save":
            window.until(lambda count=prompts: window.raw.count("\x1b[?2004h") > count and window.asks, f"after {line}")
    assert window.end() == 0
    said = window.all[window.all.index("What must your tractor") :].split()
    assert [word for word in said if word != "\\"] == words_of(book, 200)
    for line in window.raw.replace("\x1b[1m", "").replace("\x1b[0m", "").split("\r\n"):
        if "\x1b" not in line and "\r" not in line:  # not a line that was typed, which the terminal wraps
            assert len(line) < columns, line


def test_a_page_fits_a_narrow_window(open_window: Callable[..., Window], book: Book, tmp_path: Path) -> None:
    from firstfurrow.talk.recordings import shipped

    recording = next(one for one in shipped() if one.name == "two_horses")
    (tmp_path / "a.yaml").write_bytes((recording.folder / "answers.yaml").read_bytes())
    window = open_window(40, 15, "--resume", "a.yaml")
    window.until(lambda: "Enter to finish" in window.text and window.asks, "the end of the page")
    shown = [line for line in re.sub(r"\x1b\[[01]m", "", window.raw).split("\r\n") if "\x1b" not in line]
    assert len(shown) > 100
    assert max(map(len, shown)) <= 40
    window.line("")
    assert window.end() == 0


def test_odd_windows_serve_as_well(open_window: Callable[..., Window]) -> None:
    window = open_window(24, 6)
    window.see("implement")
    assert window.foot == ""  # too low for a line at its foot
    window.line("1")
    window.see("hectares")
    window.send("fe\t")
    window.until(lambda: window.typing == "feet, pounds and acres", "the word that goes on so")
    window.send("\r")
    window.see("Type help, unsure,")
    window.resize(12, 3)
    window.line("b")
    window.resize(3, 2)
    window.line("14 acres")
    window.resize(70, 20)
    window.see("What is the land like")
    assert window.foot.startswith("? help")
    window.line("save")
    assert window.end() == 0


def test_a_window_that_changes_its_size_while_somebody_types(
    open_window: Callable[..., Window], tmp_path: Path
) -> None:
    window = open_window(100, 24, "--units", "us")
    window.see("What do you want to find out?")
    window.line("1")
    window.see("How much land do you have in all?")
    window.send("14 ac")
    window.until(lambda: window.typing == "14 ac", "what is typed")
    window.resize(50, 18)
    window.send("res")
    window.until(lambda: window.typing == "14 acres", "what is typed after the change")
    window.send("\r")
    window.see("What is the land like")
    window.line("help")
    window.see("save (q): save and stop")
    assert max(map(len, window.lines)) < 50
    window.line("save")
    assert window.end() == 0
    assert "  land_area: 14 acre" in (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")


def test_without_colour_no_colour_and_nothing_behind_the_last_line(open_window: Callable[..., Window]) -> None:
    window = open_window(80, 24, NO_COLOR="1")
    window.see("What do you want to find out?")
    window.line("nonsense")
    window.see("is none of the answers")
    assert window.foot.startswith("type over it")
    window.send("wha\t")
    window.line("\x15save")
    assert window.end() == 0
    used = {part for code in re.findall(r"\x1b\[([\d;]*)m", window.raw) for part in code.split(";")}
    assert used <= {"", "0", "7"}  # none, back to usual, turned round: what is marked
    assert window.raw.endswith("so nothing was kept.\r\n")


@pytest.mark.parametrize("around", [{"TERM": "dumb"}, {"TERM": ""}, {"arguments": ("--plain",)}], ids=str)
def test_a_terminal_that_can_do_nothing_and_a_screen_reader_get_plain_lines(
    open_window: Callable[..., Window], around: dict[str, str | tuple[str, ...]]
) -> None:
    window = open_window(80, 24, *around.pop("arguments", ()), **around)
    window.see("What do you want to find out?")
    window.line("nonsense")
    window.see("is none of the answers")
    window.line("1")
    window.see("Which measures do you think in?")
    window.line("save")
    assert window.end() == 0
    assert "\x1b" not in window.raw
