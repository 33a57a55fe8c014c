"""Every write of the program, killed at each step and met by a full disk: the old file or the new one, and no rest.

What is asked of a talk, of one that is stopped by keys and of `advise --out` stands in tests/talk, tests/terminal and
tests/commands too; here each write is taken apart step by step.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from inputs import OFFER, PLAN, put, small_files

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="a process cannot be taken apart on this system")

NOTHING = ""  # of a file that holds a name until the first answer
Files = Mapping[str, str]


@dataclass(frozen=True)
class Writing:
    """One thing that the program writes."""

    argv: Sequence[str]
    typed: Sequence[str] = ()
    old: Mapping[str, str] = field(default_factory=dict)  # what is written over
    held: Sequence[str] = ()  # names that an empty file holds while nothing is written there
    stays: bool = False  # a full disk is said on the screen, and the run goes on
    says: str = "cannot be written"
    steps: int = 3  # at least so many


ENDED = ("print", "what if 4", "clay", "3", "dry", "print", "")
SHORT = ("3 acre", "flat", "grading", "save")
SPEECH = ("1", "1", *SHORT)
WRITES = {
    "answers of a new talk": Writing(["--plain"], SPEECH, held=["firstfurrow-answers.yaml"], stays=True, steps=12),
    "answers in a named file": Writing(["--plain", "--keep", "k.yaml"], SPEECH, held=["k.yaml"], stays=True),
    "answers gone on with": Writing(
        ["--plain", "--resume", "a.yaml"], ["change 1", "20 acre", "save"], old={"a.yaml": PLAN}, stays=True
    ),
    "the page and a named plan": Writing(
        ["--plain", "--resume", "a.yaml"], ENDED, old={"a.yaml": PLAN}, held=["a.html", "a-dry.yaml"], stays=True
    ),
    "answers on a sales floor": Writing(
        ["--plain", "--setting", "floor"], SPEECH[1:], held=["state/*"],
        stays=True, says="Nothing of this talk is kept",
    ),
    "a recording": Writing(["--plain", "--record", "r"], SPEECH, held=["firstfurrow-answers.yaml"], steps=15),
    "a walk-around": Writing(
        ["measure", "walk-around", "--plain", "--out", "t.yaml"], ["Blue one", "four", "", "save"], stays=True
    ),
    "a walk-around gone on with": Writing(
        ["measure", "walk-around", "--plain", "--out", "t.yaml"], ["go 1", "two", "save"], old={"t.yaml": OFFER},
        stays=True
    ),
    "a profile": Writing(
        ["advise", "a.yaml", "--out", "p.html", "--format", "html", "--force"], old={"p.html": "old\n"}
    ),
    "pictures": Writing(
        ["advise", "a.yaml", "--pictures", "pics", "--force"], old={"pics/02-power.svg": "old\n"}, steps=6
    ),
    "verdicts": Writing(
        ["check", "a.yaml", "o.yaml", "--out", "v.md", "--format", "markdown", "--force"], old={"v.md": "old\n"}
    ),
    "a sheet": Writing(["sheet", "walk-around", "--out", "s.txt", "--force"], old={"s.txt": "old\n"}),
    "a class": Writing(
        ["class", "class", "--format", "text", "--force"], old={"class/handouts/class-page.txt": "old\n"}, steps=6
    ),
    "charts of a book": Writing(
        ["book", "draw", "small", "--out", "charts", "--force"], old={"charts/land.mmd": "old\n"}, steps=6
    ),
}  # fmt: skip


class Dying:
    """The process that has loaded the program."""

    def __init__(self) -> None:
        self._undisturbed: dict[tuple[str, ...], dict[str, Any]] = {}
        self._process = subprocess.Popen(
            [sys.executable, str(Path(__file__).with_name("dying.py"))], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
            text=True, env=os.environ | {"PYTHONDONTWRITEBYTECODE": "1", "PYTHONIOENCODING": "utf-8"},
        )  # fmt: skip

    def __call__(
        self, folder: Path, argv: Sequence[str], typed: Sequence[str], how: str, at: int = 0
    ) -> dict[str, Any]:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        job = {
            "folder": str(folder),
            "argv": list(argv),
            "typed": "".join(f"{line}\n" for line in typed),
            "how": how,
            "at": at,
        }
        self._process.stdin.write(json.dumps(job) + "\n")
        self._process.stdin.flush()
        found: dict[str, Any] = json.loads(self._process.stdout.readline())
        return found

    def undisturbed(self, writing: Writing, folder: Path) -> dict[str, Any]:
        """What a run to its end leaves, and what lay in the folder at each of its steps; run once."""
        key = (*writing.argv, *writing.typed)
        if key not in self._undisturbed:
            self._undisturbed[key] = self(laid_out(writing, folder), writing.argv, writing.typed, "count")
        return self._undisturbed[key]

    def end(self) -> None:
        self._process.communicate(timeout=30)


@pytest.fixture(scope="module")
def dying() -> Iterator[Dying]:
    made = Dying()
    yield made
    made.end()


def laid_out(writing: Writing, folder: Path) -> Path:
    """A folder with everything that the run reads, and what it writes over."""
    shutil.rmtree(folder, ignore_errors=True)
    for name, text in {"a.yaml": PLAN, "o.yaml": OFFER, "class/b.yaml": PLAN, **writing.old}.items():
        put(folder / name, text)
    if "small" in writing.argv:
        small_files(folder / "small")
    return folder


def rests(files: Files) -> list[str]:
    """What a write had begun and left lying."""
    return [name for name in files if name.endswith(".new")]


def not_whole(writing: Writing, files: Files, seen: Mapping[str, Sequence[str]]) -> list[str]:
    """Files that are neither as before nor as some write of an undisturbed run leaves them."""
    return [
        name for name, text in files.items()
        if not name.startswith("state/")  # a file of a sales floor is called after its process
        and text not in seen.get(name, ()) and not name.endswith(".new")
        and not (text == NOTHING and _held(writing, name))
    ]  # fmt: skip


def _held(writing: Writing, name: str) -> bool:
    return any(name == one or (one.endswith("*") and name.startswith(one[:-1])) for one in writing.held)


def some(steps: int, most: int) -> list[int]:
    """So many of the steps, spread over all: each costs a run of the program."""
    return sorted({round((number + 0.5) * steps / most) for number in range(most)} & {*range(steps)})


FEW_OR_ALL = pytest.mark.parametrize("most", [2, pytest.param(10_000, marks=pytest.mark.long)], ids=["few", "all"])

# The tests of one writing go to one worker, which then runs it once undisturbed.
EACH_WRITING = pytest.mark.parametrize(
    "writing", [pytest.param(one, id=name, marks=pytest.mark.xdist_group(name)) for name, one in WRITES.items()]
)


@FEW_OR_ALL
@EACH_WRITING
def test_killed_at_any_step_a_file_is_the_old_one_or_the_new_one(
    dying: Dying, writing: Writing, most: int, tmp_path: Path
) -> None:
    folder = tmp_path / "here"
    whole = dying.undisturbed(writing, folder)
    assert whole["code"] == 0, whole["err"]
    assert rests(whole["files"]) == []
    assert whole["steps"] >= writing.steps
    for step in some(whole["steps"] - 1, most):
        done = dying(laid_out(writing, folder), writing.argv, writing.typed, "kill", step)
        assert done["signal"] == signal.SIGKILL, f"step {step}"
        assert not_whole(writing, done["files"], whole["seen"]) == [], f"step {step}"
        left = [name for name in done["files"] if name.endswith(".new") or name.startswith("state/")]
        if left:
            after = dying(folder, writing.argv, writing.typed, "run")["files"]
            assert not [name for name in left if name in after], f"step {step}"


@FEW_OR_ALL
@EACH_WRITING
def test_killed_in_the_middle_of_a_file_it_is_the_old_one_or_the_new_one(
    dying: Dying, writing: Writing, most: int, tmp_path: Path
) -> None:
    folder = tmp_path / "here"
    seen = dying.undisturbed(writing, folder)["seen"]
    ended = []
    for size in (60, 700, 1, 5, 250, 2_000, 6_000, 20_000)[: most // 2]:
        done = dying(laid_out(writing, folder), writing.argv, writing.typed, "cut", size)
        ended.append(done["signal"])
        assert not_whole(writing, done["files"], seen) == [], f"after {size} bytes"
    assert signal.SIGXFSZ in ended


@FEW_OR_ALL
@EACH_WRITING
def test_a_full_disk_is_said_and_leaves_no_half_file(dying: Dying, writing: Writing, most: int, tmp_path: Path) -> None:
    folder = tmp_path / "here"
    seen = dying.undisturbed(writing, folder)["seen"]
    for size in (1, 300, 0, 40, 900, 3_000, 10_000)[: most // 2]:
        done = dying(laid_out(writing, folder), writing.argv, writing.typed, "full", size)
        assert done["signal"] == 0
        assert "Traceback" not in done["err"]
        assert rests(done["files"]) == []
        assert not_whole(writing, done["files"], seen) == [], f"{size} bytes"
        if size == 1:
            _nothing_new(writing, folder, done)


def _nothing_new(writing: Writing, folder: Path, done: Mapping[str, Any]) -> None:
    for name, text in {"a.yaml": PLAN, **writing.old}.items():
        assert (folder / name).read_text(encoding="utf-8") == text
    assert not [name for name, text in done["files"].items() if text == NOTHING]
    assert writing.says in " ".join((done["out"] + done["err"]).split())
    if writing.stays:
        assert done["code"] == 0, done["err"]
    else:
        assert done["code"] == 2
        assert done["err"].count("\n") == 1, done["err"]


@pytest.mark.parametrize(
    "argv",
    [
        ["advise", "a.yaml", "--sheet", "--out", "file/p.txt"], ["advise", "a.yaml", "--pictures", "file"],
        ["advise", "a.yaml", "--pictures", "file/pics"], ["advise", "a.yaml", "--sheet", "--out", "class"],
        ["advise", "a.yaml", "--sheet", "--out", "round"], ["check", "a.yaml", "o.yaml", "--out", "file/v.txt"],
        ["sheet", "offer", "--out", "nowhere/s.txt"], ["class", "class", "--out", "file"],
        ["class", "class", "--out", "file/x"], ["class", "class", "--out", "round"],
        ["book", "draw", "small", "--out", "file"], ["--plain", "--keep", "file/k.yaml"],
        ["--plain", "--record", "file/r"], ["--plain", "--record", "round"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_a_place_where_nothing_can_be_written_is_one_sentence(dying: Dying, argv: list[str], tmp_path: Path) -> None:
    folder = laid_out(Writing(argv), tmp_path / "here")
    put(folder / "file", "a file, not a folder")
    (folder / "round").symlink_to("round")
    before = sorted(path.relative_to(folder) for path in folder.rglob("*"))
    done = dying(
        folder,
        [*argv, *(["--force"] if argv[0] in ("advise", "check", "sheet", "class", "book") else [])],
        SPEECH,
        "count",
    )
    assert done["code"] == 2, done["out"]
    assert done["err"].count("\n") == 1
    assert argv[-1].split("/")[0] in done["err"]
    assert sorted(path.relative_to(folder) for path in folder.rglob("*")) == before
    assert (folder / "file").read_text(encoding="utf-8") == "a file, not a folder"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="no folder is closed to this user")
@pytest.mark.parametrize(
    "argv", [["advise", "a.yaml", "--sheet", "--out", "closed/p.txt"], ["class", "class", "--out", "closed/x"]]
)
def test_a_folder_closed_to_the_user_is_one_sentence(dying: Dying, argv: list[str], tmp_path: Path) -> None:
    folder = laid_out(Writing(argv), tmp_path / "here")
    (folder / "closed").mkdir(mode=0o500)
    done = dying(folder, argv, (), "count")
    assert done["code"] == 2
    assert done["err"].count("\n") == 1
    assert list((folder / "closed").iterdir()) == []


def test_a_pipe_that_is_named_is_written_to_and_stays_a_pipe(dying: Dying, tmp_path: Path) -> None:
    """Such as what a shell makes of >(less), and a device: nothing takes its place."""
    folder = laid_out(Writing([]), tmp_path / "here")
    pipe = folder / "pipe"
    os.mkfifo(pipe)
    reading = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    done = dying(folder, ["sheet", "offer", "--out", "pipe"], (), "run")
    assert done["code"] == 0, done["err"]
    assert pipe.is_fifo()
    assert os.read(reading, 100_000).startswith(b"#")
    os.close(reading)
