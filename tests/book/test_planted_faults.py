"""Faults planted into the shipped book, one at a time and together: each is named with file and line, says why it
matters and what to write instead.
"""

from __future__ import annotations

import copy
import shutil
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import pytest
import yaml

from firstfurrow.book.check import MEANING, examine, require
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.load import load
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import BookError, Problem
from firstfurrow.book.proof import prove
from firstfurrow.book.rules.shape import misshapen
from firstfurrow.book.yaml_strict import parse_marked


@dataclass(frozen=True)
class Fault:
    """What is written in place of what, the text in whose line it is looked for, and what is said of it."""

    name: str
    file: str
    old: str
    new: str
    at: str
    says: str

    def planted(self, text: str) -> str:
        assert text.count(self.old) >= 1, self.name
        return text.replace(self.old, self.new, 1)

    def line(self, text: str) -> int:
        assert text.count(self.at) >= 1, self.name
        return text[: text.index(self.at)].count("\n") + 1


FAULTS = {
    sort: [Fault(**fault) for fault in faults]
    for sort, faults in yaml.safe_load(Path(__file__).with_name("planted_faults.yaml").read_text("utf-8")).items()
}
ALL = [fault for faults in FAULTS.values() for fault in faults]
IDS = {"ids": lambda fault: fault.name}


@pytest.fixture(scope="module")
def shipped() -> Files:
    return Files(book_folder())


def edited(shipped: Files, fault: Fault) -> tuple[str, list[Problem]]:
    """The file with the fault, and what is wrong: only what changed is read again."""
    text = fault.planted((book_folder() / fault.file).read_text(encoding="utf-8"))
    files = copy.copy(shipped)
    for name, value in vars(Files).items():
        if type(value).__name__ == "cached_property":
            files.__dict__.pop(name, None)
    try:
        placed = Placed(*parse_marked(text, fault.file), ())
    except BookError as error:
        return text, list(error.problems)
    files.read = {**shipped.read, fault.file: placed}
    found = misshapen(placed, shipped.schema_of[fault.file])
    return text, found or [problem for rule in MEANING for problem in rule.problems(files)]


def named(fault: Fault, problems: Iterable[Problem], text: str) -> Problem:
    """The problem that names this fault, with its file and line."""
    found = [p for p in problems if fault.says in p.what]
    assert found, (fault.name, [str(p) for p in problems])
    problem = found[0]
    assert (problem.file, problem.line) == (fault.file, fault.line(text)), str(problem)
    assert problem.why.endswith("."), problem
    assert problem.write.endswith("."), problem
    return problem


def test_there_are_more_than_twenty_different_ones() -> None:
    assert len({fault.name for fault in ALL}) == len(ALL) > 20


@pytest.mark.parametrize("fault", [*FAULTS["shape"], *FAULTS["meaning"]], **IDS)
def test_one_fault_is_named(shipped: Files, fault: Fault) -> None:
    text, problems = edited(shipped, fault)
    named(fault, problems, text)


def planted(folder: Path, faults: Iterable[Fault]) -> dict[str, str]:
    """A copy of the book with these faults in it; the files with faults."""
    shutil.copytree(book_folder(), folder)
    texts: dict[str, str] = {}
    for fault in faults:
        path = folder / fault.file
        texts[fault.file] = fault.planted(path.read_text(encoding="utf-8"))
        path.write_text(texts[fault.file], encoding="utf-8")
    return texts


@pytest.mark.parametrize("fault", FAULTS["graph"], **IDS)
def test_one_fault_of_the_graph_is_named(tmp_path: Path, fault: Fault) -> None:
    planted(tmp_path / "book", [fault])
    findings = prove(load(tmp_path / "book")).findings
    assert any(fault.says in finding.message for finding in findings), findings
    assert len({finding.message for finding in findings}) <= 3  # and little besides, which follows from it


@pytest.mark.parametrize("sort", FAULTS)
def test_all_of_one_sort_are_named_together(tmp_path: Path, sort: str) -> None:
    texts = planted(tmp_path / "book", FAULTS[sort])
    problems = examine(tmp_path / "book").problems
    for fault in FAULTS[sort]:
        named(fault, problems, texts[fault.file])


def test_the_witness_of_an_unguarded_read_leads_there(tmp_path: Path) -> None:
    """The lines that are shown are answers: whoever gives them comes to a question whose condition reads nothing."""
    from firstfurrow.asking.answers import Answers
    from firstfurrow.asking.interview import Interview
    from firstfurrow.asking.setting import with_answers

    planted(tmp_path / "book", FAULTS["graph"][:1])
    with pytest.raises(BookError) as refused:
        require(tmp_path / "book")
    (problem,) = refused.value.problems
    assert problem.leads == ("land_shape=flat",)
    book = load(tmp_path / "book")
    asked = {step.ref.question for step in Interview(book, with_answers(book, Answers(), problem.leads)).waiting()}
    assert "slope_up" not in asked
    assert "altitude" in asked  # the walk goes past the place
