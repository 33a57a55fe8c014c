"""The screen: lines fit whatever the signs are, and a command can be pasted from a window of any width."""

from __future__ import annotations

import os
import shlex
import subprocess
from unicodedata import east_asian_width

import pytest

from firstfurrow.talk.screen import Screen
from firstfurrow.talk.script import ScriptFront

COMMAND = "firstfurrow --resume 'my own answers.yaml' --tractor firstfurrow-tractor.yaml"


def shown(width: int, text: str) -> list[str]:
    front = ScriptFront([], width)
    Screen(front, {}).para(text)
    return front.screen.splitlines()


def columns(line: str) -> int:
    """Columns that a terminal takes for it; Unicode Standard Annex 11: W and F are two wide."""
    return sum(2 if east_asian_width(sign) in "WF" else 1 for sign in line)


@pytest.mark.parametrize("width", [24, 40, 80, 200])
@pytest.mark.parametrize("sign", ["田", "🚜", "ü", "a"])
def test_no_line_is_wider_than_the_window(width: int, sign: str) -> None:
    text = " ".join([sign * n for n in range(1, 12)] + [sign * 60] + ["end."])
    lines = shown(width, text)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert max(map(columns, lines)) <= min(width, 77)


@pytest.mark.skipif(os.name != "posix", reason="a shell of another sort")
@pytest.mark.parametrize("width", [24, 40, 60, 80, 200])
def test_a_command_from_a_narrow_window_is_the_same_command_to_a_shell(width: int) -> None:
    front = ScriptFront([], width)
    Screen(front, {}).pasted(COMMAND)
    said = front.screen
    longest = max(len(word) for word in ("'my own answers.yaml'", "firstfurrow-tractor.yaml"))
    assert max(map(len, said.splitlines())) <= max(width - 1, 4 + longest + 2)
    pasted = subprocess.run(
        ["sh", "-c", f"firstfurrow() {{ printf '%s\\n' \"$@\"; }}\n{said}"], capture_output=True, text=True, check=True
    )
    assert pasted.stdout.splitlines() == shlex.split(COMMAND)[1:]
