"""Which front a talk gets by itself, and what the fronts do where the place is not what it seems."""

from __future__ import annotations

import sys
from io import StringIO

import pytest

from firstfurrow.talk.front import EndOfInputError, Front, Hints
from firstfurrow.talk.plain import PlainFront
from firstfurrow.talk.start import choose_front
from firstfurrow.talk.terminal import TerminalFront


class Console(StringIO):
    """A terminal, as far as anybody asks."""

    def isatty(self) -> bool:
        return True


def front(monkeypatch: pytest.MonkeyPatch, stdin: object, stdout: object, term: str, plain: bool = False) -> type:
    monkeypatch.setattr(sys, "stdin", stdin)
    monkeypatch.setattr(sys, "stdout", stdout)
    monkeypatch.setenv("TERM", term)
    chosen: Front = choose_front(plain)
    return type(chosen)


def test_a_real_terminal_gets_line_editing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert front(monkeypatch, Console(), Console(), "xterm") is TerminalFront


@pytest.mark.parametrize(
    ("stdin", "stdout", "term", "plain"),
    [
        (Console(), Console(), "xterm", True),
        (StringIO(), Console(), "xterm", False),
        (Console(), StringIO(), "xterm", False),
        (None, Console(), "xterm", False),
        (Console(), None, "xterm", False),
        pytest.param(
            Console(), Console(), "dumb", False, marks=pytest.mark.skipif(sys.platform == "win32", reason="no TERM")
        ),
        pytest.param(
            Console(), Console(), "", False, marks=pytest.mark.skipif(sys.platform == "win32", reason="no TERM")
        ),
    ],
    ids=["wanted", "pipe in", "pipe out", "no input", "no output", "dumb", "nameless"],
)
def test_everything_else_gets_plain_lines(
    monkeypatch: pytest.MonkeyPatch, stdin: object, stdout: object, term: str, plain: bool
) -> None:
    assert front(monkeypatch, stdin, stdout, term, plain) is PlainFront


def test_a_closed_input_is_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    gone = StringIO("14 acre\n")
    plain = PlainFront()
    monkeypatch.setattr(sys, "stdin", gone)
    assert plain.ask("> ") == "14 acre"
    with pytest.raises(EndOfInputError):
        plain.ask("> ")
    gone.close()
    monkeypatch.setattr(sys, "stdin", Closed())
    with pytest.raises(EndOfInputError):
        plain.ask("> ")


class Closed(Console):
    """A terminal whose window is gone."""

    def readline(self, size: int | None = -1, /) -> str:
        raise OSError(5, "Input/output error")


def test_a_terminal_that_turns_out_to_be_none_is_served_with_plain_lines(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    import firstfurrow.talk.editing as editing

    def no_console(*_: object) -> None:
        raise RuntimeError("no console")

    monkeypatch.setattr(editing, "create_output", no_console)
    monkeypatch.setattr(sys, "stdin", StringIO("14 acre\nslopes\n"))
    terminal = TerminalFront()
    assert terminal.ask("> ", Hints(default="14", bottom="? help")) == "14 acre"
    assert terminal.ask("> ") == "slopes"
    assert "\x1b" not in capsys.readouterr().out
