"""The README: its first two code blocks are one command each, and what it names exists."""

import re
from pathlib import Path

from firstfurrow.cli import _parser

README = (Path(__file__).resolve().parents[1] / "README.md").read_text(encoding="utf-8")


def test_first_two_blocks_are_the_two_commands() -> None:
    blocks = re.findall(r"^```\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
    assert blocks[0].splitlines() == [
        "python3 -m venv .venv && .venv/bin/python -m pip install . && .venv/bin/firstfurrow demo"
    ]
    assert blocks[1].splitlines() == [
        "python3 -m venv .venv-test && .venv-test/bin/python -m pip install -e '.[test]' "
        "&& .venv-test/bin/python -m pytest"
    ]


def test_every_command_is_named() -> None:
    actions = [a for a in _parser()._actions if a.choices and a.metavar == "COMMAND"]
    assert actions
    for name in actions[0].choices or ():
        assert f"`firstfurrow {name}" in README


def test_every_work_on_the_book_is_named_with_its_options() -> None:
    book = next(a for a in _parser()._actions if a.choices and a.metavar == "COMMAND").choices["book"]
    works = next(a for a in book._actions if a.choices).choices
    for name, work in works.items():
        row = next(line for line in README.splitlines() if line.startswith(f"| `firstfurrow book {name}"))
        for action in work._actions:
            for option in action.option_strings:
                if option.startswith("--") and option not in ("--help", "--force"):
                    assert option in row, f"{name} {option}"


def test_every_option_of_the_conversation_is_named() -> None:
    for action in _parser()._actions:
        for option in action.option_strings:
            if option.startswith("--") and option not in ("--help", "--version"):
                assert option in README, option


def test_linked_files_exist() -> None:
    root = Path(__file__).resolve().parents[1]
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (root / target).is_file(), target
