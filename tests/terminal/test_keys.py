"""Keys in a terminal: a refused line is mended, arrow keys and Tab help, pasted text and foreign letters do no harm."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import window as windows
from window import Window

pytestmark = windows.MARKS
open_window = windows.open_window

Open = Callable[..., Window]
UP, DOWN, LEFT, RIGHT, END = "\x1b[A", "\x1b[B", "\x1b[D", "\x1b[C", "\x1b[F"
BACKSPACE, TAB, ESCAPE, CLEAR = "\x7f", "\t", "\x1b", "\x15"
PASTE, PASTED = "\x1b[200~", "\x1b[201~"  # how a terminal says that text is pasted, not typed


def at_land(open_window: Open) -> Window:
    """A window in which the first question of the book waits for its answer."""
    window = open_window(80, 24, "--units", "us")
    window.see("What do you want to find out?")
    window.line("1")
    window.see("How much land do you have in all?")
    return window


def typed(window: Window, text: str) -> None:
    window.until(lambda: window.typing == text and window.asks, f'"{text}" to be sent')


def test_what_was_refused_is_mended_or_typed_over(open_window: Open) -> None:
    window = at_land(open_window)
    window.line("14 akers")
    window.see("is not a unit I know")
    typed(window, "14 akers")
    assert window.foot.startswith("type over it, or mend it with the arrow keys  ?".replace("  ", " "))
    window.send(LEFT * 2 + BACKSPACE * 2 + "cr" + END + BACKSPACE * 2 + "es\r")
    window.until(lambda: "> 14 acres" in window.lines, "the line that was mended")
    window.see("What is the land like")
    window.line("b")
    window.see("You said before: 14 acres")
    typed(window, "")  # an answer that was taken is no line to mend
    window.line("nonsense")
    window.see('"nonsense" is no number')
    typed(window, "nonsense")
    window.send(BACKSPACE)
    typed(window, "nonsens")
    window.line(CLEAR + "nonsense")
    window.until(lambda: window.lines.count("> nonsense") >= 3, "what was refused twice, and stands there to be mended")
    window.send("2")
    typed(window, "2")
    window.line(" acres")
    window.see("What is the land like")
    assert "> 2 acres" in window.lines
    window.line("x" * 70)
    window.see("is none of the answers")
    typed(window, "")  # longer than anybody mends


def test_arrow_keys_bring_back_what_was_typed_at_the_same_question(open_window: Open) -> None:
    window = at_land(open_window)
    window.line("w")
    window.see("It moves no requirement")
    window.line("14 acres")
    window.see("What is the land like")
    window.send(UP + DOWN)
    window.line("hills")
    window.see("Which jobs should the tractor do?")
    window.send(UP)
    window.line("b")
    window.see("You said before: slopes")
    window.send(UP)
    typed(window, "hills")
    window.send(UP)
    typed(window, "hills")  # nothing of the question before
    window.line(CLEAR + "b")
    window.see("You said before: 14 acres")
    window.send(UP)
    typed(window, "14 acres")
    window.send(UP)
    typed(window, "w")


def test_tab_completes_answers_and_commands(open_window: Open) -> None:
    window = at_land(open_window)
    window.send("uns" + TAB)
    typed(window, "unsure")
    window.line(CLEAR + "14 acres")
    window.see("What is the land like")
    window.send("fl" + TAB)
    typed(window, "flat or nearly flat in most places")
    window.line(CLEAR + "trees, we" + TAB)
    window.until(lambda: "Taken: wet or soft places; trees" in window.text, "two answers")
    window.see("Which jobs should the tractor do?")
    window.send("lo" + TAB)
    window.until(lambda: window.foot.startswith("logs loader work loader"), "what begins so")
    window.line(CLEAR + "a lawn" + TAB)
    window.see("Taken: mow a lawn")
    window.line("b")
    window.see("You said before: mow a lawn")
    window.send(TAB)
    window.until(lambda: "cut rough grass" in window.foot, "everything that may be typed")
    window.send(TAB)
    window.until(lambda: window.typing.startswith("cut rough grass"), "the first of them")
    window.line("")
    window.see("Taken: cut rough grass")


def test_pasted_text_is_one_line_that_waits_to_be_sent(open_window: Open, tmp_path: Path) -> None:
    window = at_land(open_window)
    window.send(PASTE + "14\r\nacres\n" + PASTED)
    typed(window, "14 acres")
    window.send(CLEAR + PASTE + "\n".join(f"line {n}" for n in range(50)) + PASTED)
    window.until(lambda: window.typing.endswith("line 49") and "line 0 line 1" in window.text, "50 lines")
    window.line("")
    window.see("too long for an answer")
    window.send(PASTE + "a" * 10_000 + PASTED)
    window.until(lambda: "a" * 18 in window.typing and window.asks, "as much of it as anybody needs")
    assert sum(line.count("a" * 78) for line in window.lines) == 6
    window.line("")
    window.until(lambda: window.text.count("too long for an answer") == 2, "the second refusal")
    window.line("14 acres")
    window.see("What is the land like")
    window.line("save")
    assert window.end() == 0
    assert "land_area: 14 acres" in (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("letters", [2_000, pytest.param(10_000, marks=pytest.mark.long)])
def test_text_that_rushes_in_is_typed_line_by_line(open_window: Open, letters: int) -> None:
    """As from a terminal that does not say what is pasted."""
    window = at_land(open_window)
    window.send("\r".join(f"line {n} of a poem" for n in range(50)) + "\r")
    window.until(lambda: '"line 49 of a poem" does not' in window.text and window.asks, "the last of 50 lines")
    window.send(CLEAR)
    for _ in range(letters // 500):  # a terminal takes no more at once
        window.send("a" * 500)
    window.until(lambda: set(window.typing) == {"a"}, "letter after letter")
    window.send("\r")
    window.until(lambda: "too long for an answer" in window.text and window.asks, "one sentence")
    window.line("14 acres")
    window.see("What is the land like")


@pytest.mark.parametrize("plain", [(), ("--plain",)], ids=["edited", "plain"])
def test_foreign_letters_are_taken_or_refused_with_one_sentence(
    open_window: Open, tmp_path: Path, plain: tuple[str, ...]
) -> None:
    window = open_window(40, 24, "--units", "us", *plain)
    window.see("What do you want to find out?")
    for line in ("große Wiese", "🚜🚜", "日本の田んぼはとても広いので答えられない", "١"):
        prompts = window.all.count(">")
        window.line(line)
        window.until(lambda count=prompts: window.all.count(">") > count and window.asks, f"a prompt after {line!r}")
    assert '"große Wiese" is none of' in " ".join(window.all.split())
    window.line("\x00\x01\x02 nothing to see")
    window.see("see")
    window.line(f"{CLEAR}1")
    window.see("How much land do you have in all?")
    window.line("½ acre")
    window.see("What is the land like")
    window.line("save")
    assert window.end() == 0
    assert "Traceback" not in window.all
    assert "land_area: '½ acre'" in (tmp_path / "firstfurrow-answers.yaml").read_text(encoding="utf-8")
