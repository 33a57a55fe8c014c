"""`firstfurrow sheet`: every sheet in every form, bad input in one sentence, nothing written over by accident."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from firstfurrow.book.places import recordings_folder
from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT, DONE
from firstfurrow.commands.sheet import SHEETS
from firstfurrow.report import sheets

BUYER = recordings_folder() / "two_horses"
QUICK = (["walk-around"], ["questions"], ["seller"], ["seller", "--answers", str(BUYER)], ["model", "two_horses"])


@pytest.mark.parametrize("form", ["text", "html", "markdown"])
@pytest.mark.parametrize("words", QUICK, ids=lambda w: w[0] + str(len(w)))
def test_every_sheet_comes_in_every_form(tmp_path: Path, words: list[str], form: str) -> None:
    out = tmp_path / "sheet.out"
    assert main(["sheet", *words, "--format", form, "--out", str(out)]) == DONE
    text = out.read_text(encoding="utf-8")
    assert text.startswith({"text": "\n", "html": "<!doctype html>", "markdown": "<a id="}[form])
    assert len(text) > 5000


def test_an_offer_is_a_file_to_fill_in(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "offer"]) == DONE
    assert capsys.readouterr().out.startswith("# ")
    assert main(["sheet", "offer", "--format", "html"]) == BAD_INPUT
    assert "text only" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["sellr"], "Did you mean seller?"),
        (["<b>&"], "There are: offer, walk-around, questions, seller, model, class."),
        (["x" * 10_000], "there is no such sheet"),
        (["model"], "two_horses"),
        (["model", "two_horse"], "Did you mean two_horses?"),
        (["model", "../two_horses"], "there is no such recorded conversation"),
        (["seller", "two_horses"], "only the sheet model"),
        (["class", "--answers", "x.yaml"], "only the sheet seller"),
        (["seller", "--answers", "missing.yaml"], "missing.yaml"),
    ],
    ids=lambda value: str(value)[:24],
)
def test_bad_input_gets_one_sentence(capsys: pytest.CaptureFixture[str], words: list[str], said: str) -> None:
    assert main(["sheet", *words]) == BAD_INPUT
    captured = capsys.readouterr()
    assert captured.out == ""
    assert said in captured.err
    assert captured.err.count("\n") == 1


def test_a_file_that_exists_is_written_over_only_when_that_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "mine.html"
    out.write_text("mine", encoding="utf-8")
    assert main(["sheet", "walk-around", "--out", str(out)]) == BAD_INPUT
    assert "--force" in capsys.readouterr().err
    assert out.read_text(encoding="utf-8") == "mine"
    assert main(["sheet", "walk-around", "--out", str(out), "--force"]) == DONE
    assert out.read_text(encoding="utf-8") != "mine"


def test_the_measures_may_be_named_before_or_behind_the_sheet(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "questions", "--units", "metric"]) == DONE
    behind = capsys.readouterr().out
    assert main(["--units", "metric", "sheet", "questions"]) == DONE
    assert capsys.readouterr().out == behind
    assert "acre or ha" not in behind


def test_the_seller_is_asked_in_the_measures_of_the_plan(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "seller", "--answers", str(BUYER)]) == DONE
    assert "lb or kg" not in capsys.readouterr().out
    assert main(["sheet", "seller", "--answers", str(BUYER), "--units", "metric"]) == DONE
    assert "[__________] kg" in capsys.readouterr().out


def test_every_sheet_is_named_in_the_help(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["sheet", "--help"])
    said = capsys.readouterr().out
    assert all(name in said for name in SHEETS)


@pytest.mark.parametrize("path", sorted(Path(sheets.__file__).parent.glob("*.py")), ids=lambda p: p.name)
def test_no_sentence_stands_in_the_modules_that_make_sheets(path: Path) -> None:
    """Every text comes from the book: a literal of three words and more is a docstring or it is wrong."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)) and node.body
        and isinstance(node.body[0], ast.Expr)
    }  # fmt: skip
    literals = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    assert [node.value for node in literals if id(node) not in docs and len(node.value.split()) > 2] == []
