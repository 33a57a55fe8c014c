"""The house: imports point one way, the core does no input or output, every module says what it is."""

import ast
from pathlib import Path

import pytest

import firstfurrow

ROOT = Path(firstfurrow.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))

# What each room may import from the others. A room may always import itself.
MAY: dict[str, set[str]] = {
    "quantities": set(),
    "reasoning": set(),
    "mechanics": {"reasoning"},
    "book": {"quantities", "reasoning"},
    "asking": {"book", "quantities"},
    "advice": {"asking", "book", "mechanics", "quantities", "reasoning"},
    "report": {"advice", "asking", "book", "quantities", "reasoning", "__init__"},
    "pages": {"advice", "asking", "book", "report"},
    "talk": {"asking", "book", "quantities"},
    "shown": {"pages", "advice", "asking", "book", "talk"},  # only where it is used, but for the types
    "commands": {"pages", "shown", "advice", "asking", "book", "quantities", "report", "talk"},
    "cli": {"commands", "asking", "book", "quantities", "talk", "__init__"},
    "__main__": {"cli"},
    "__init__": set(),
}
NO_INPUT_OR_OUTPUT = ("quantities", "reasoning", "mechanics", "asking", "advice")


def room(path: Path) -> str:
    return path.relative_to(ROOT).with_suffix("").parts[0]


def imported(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] == "firstfurrow":
            found.add(node.module.split(".")[1] if "." in node.module else "__init__")
        elif isinstance(node, ast.Import):
            for name in node.names:
                if name.name.split(".")[0] == "firstfurrow":
                    found.add(name.name.split(".")[1] if "." in name.name else "__init__")
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_arrows_point_one_way(path: Path) -> None:
    assert imported(path) - {room(path)} <= MAY[room(path)]


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_every_module_says_what_it_is(path: Path) -> None:
    docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    assert docstring is not None
    assert docstring.splitlines()[0].endswith((".", ":", ","))


@pytest.mark.parametrize(
    "path", [p for p in MODULES if room(p) in NO_INPUT_OR_OUTPUT], ids=lambda p: str(p.relative_to(ROOT))
)
def test_the_core_does_no_input_or_output(path: Path) -> None:
    called = {
        node.func.id
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not called & {"open", "print", "input", "exec", "eval"}


def test_heavy_libraries_are_not_loaded_at_the_start() -> None:
    import subprocess
    import sys

    code = (
        "import sys, firstfurrow.cli, firstfurrow.talk.start, firstfurrow.pages\n"
        "from firstfurrow.book.load import load\n"
        "next(iter(load().sections[0].questions)).ask\n"
        "heavy = {'rich', 'jsonschema', 'prompt_toolkit', 'pint'} & set(sys.modules)\n"
        "sys.exit(', '.join(heavy) or 0)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
