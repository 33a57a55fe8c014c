"""The commands: exit status, one plain sentence for bad input, no traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT, DONE

ANSWERS = """format: firstfurrow-answers/1
book: {id: firstfurrow, version: 1}
units: us
answers:
  implements:
    - {item: i1, kind: rotary_tiller, size: 5 ft, when: now}
"""


@pytest.fixture
def answers(tmp_path: Path) -> Path:
    path = tmp_path / "answers.yaml"
    path.write_text(ANSWERS, encoding="utf-8")
    return path


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["--version"])
    assert left.value.code == 0
    assert capsys.readouterr().out.startswith("firstfurrow ")


def test_advise_text(answers: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["advise", str(answers)]) == DONE
    shown = capsys.readouterr().out
    assert "WHAT YOUR TRACTOR MUST OFFER" in shown
    assert "rotary tiller, 5 ft" in shown


def test_advise_json(answers: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["advise", str(answers), "--format", "json"]) == DONE
    assert json.loads(capsys.readouterr().out)["format"] == "firstfurrow-profile/1"


def test_advise_in_other_units(answers: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["advise", str(answers), "--units", "metric", "--short"]) == DONE
    shown = capsys.readouterr().out
    assert " kW" in shown
    assert " hp" not in shown


def test_advise_to_a_file(answers: Path, tmp_path: Path) -> None:
    assert main(["advise", str(answers), "--out", str(tmp_path / "page.txt")]) == DONE
    assert "WHAT YOUR TRACTOR MUST OFFER" in (tmp_path / "page.txt").read_text(encoding="utf-8")


def test_a_page_is_never_written_over_a_file_unless_forced(
    answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mine = tmp_path / "mine.txt"
    mine.write_text("mine", encoding="utf-8")
    assert main(["advise", str(answers), "--short", "--out", str(mine)]) == BAD_INPUT
    said = capsys.readouterr()
    assert (said.out, said.err.count("\n")) == ("", 1)
    assert f"{mine}: this file exists." in said.err
    assert "--force" in said.err
    assert mine.read_text(encoding="utf-8") == "mine"
    assert main(["advise", str(answers), "--out", str(answers)]) == BAD_INPUT  # nor over the answers themselves
    assert answers.read_text(encoding="utf-8") == ANSWERS
    assert main(["advise", str(answers), "--short", "--out", str(mine), "--force"]) == DONE
    assert "WHAT YOUR TRACTOR MUST OFFER" in mine.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "answers"),
        ("{", "answers.yaml:"),
        (ANSWERS.replace("answers/1", "answers/9"), "answers.yaml:1"),
        (ANSWERS.replace("rotary_tiller", "rotary_tillr"), "rotary_tiller"),
        (ANSWERS.replace("5 ft", "5 kg"), "answers.yaml:6"),
        (ANSWERS.replace("answers:\n", "answers:\n  soyl: clay\n"), "soil"),
        (ANSWERS.replace("units: us", "units: us\nunits: us"), "answers.yaml:4"),
    ],
)
def test_damaged_answers_get_one_sentence(
    text: str, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "answers.yaml"
    path.write_text(text, encoding="utf-8")
    assert main(["advise", str(path)]) == BAD_INPUT
    shown = capsys.readouterr()
    assert shown.out == ""
    assert says in shown.err
    assert "Traceback" not in shown.err
    assert path.read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    "arguments", [["advise", "missing.yaml"], ["advise", "."], ["demo", "nobody"], ["replay", "."]]
)
def test_what_is_not_there(
    arguments: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(arguments) == BAD_INPUT
    assert capsys.readouterr().err.count("\n") == 1


def test_wrong_command_says_what_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["frobnicate"])
    assert left.value.code == BAD_INPUT
    assert "advise" in capsys.readouterr().err


def test_demo_lists_and_plays(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["demo", "--list"]) == DONE
    names = capsys.readouterr().out.split()
    assert len(names) >= 3
    for name in names[:1]:  # all of them are played again in test_recordings
        assert main(["demo", name]) == DONE
        assert "WHAT YOUR TRACTOR MUST OFFER" in capsys.readouterr().out


def test_replay_shows_a_difference(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from firstfurrow.talk.recordings import shipped

    source = shipped()[0].folder
    copy = tmp_path / "copy"
    copy.mkdir()
    for name in ("answers.yaml", "typed.txt", "screen.txt"):
        (copy / name).write_text((source / name).read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["replay", str(copy)]) == DONE
    screen = (copy / "screen.txt").read_text(encoding="utf-8")
    (copy / "screen.txt").write_text(screen.replace("Taken", "Took", 1), encoding="utf-8")
    assert main(["replay", str(copy)]) == 1
    assert "+Taken" in capsys.readouterr().out


def test_an_edited_book_is_checked_first(tmp_path: Path, capsys: pytest.CaptureFixture[str], answers: Path) -> None:
    import shutil

    from firstfurrow.book.places import book_folder

    copy = tmp_path / "book"
    shutil.copytree(book_folder(), copy)
    assert main(["--book", str(copy), "advise", str(answers), "--short"]) == DONE
    path = copy / "sections" / "ground.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("  - id: soil", "  - idd: soil", 1), encoding="utf-8")
    capsys.readouterr()
    assert main(["--book", str(copy), "advise", str(answers)]) == BAD_INPUT
    assert "ground.yaml:" in capsys.readouterr().err
    assert main(["book", "check", str(copy)]) == 1


def test_a_closed_pipe_is_no_error(answers: Path) -> None:
    command = f"{sys.executable} -m firstfurrow advise {answers} | head -n 1"
    done = subprocess.run(["bash", "-c", f"set -o pipefail; {command}"], capture_output=True, text=True, check=False)
    assert done.returncode == 0
    assert done.stderr == ""


def test_a_terminal_without_other_letters_is_served(answers: Path) -> None:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "LC_ALL": "C"}
    done = subprocess.run(
        [sys.executable, "-m", "firstfurrow", "advise", str(answers)], env=environment, capture_output=True, check=False
    )
    assert done.returncode == 0
    assert done.stdout.isascii()


# -------------------------------------------------------------------------- offers

OFFER = """format: firstfurrow-offer/1
name: mine
offer:
  pto_power: 60 hp
"""


def offer_file(folder: Path, text: str = OFFER, name: str = "mine.yaml") -> str:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_check_says_what_is_met_and_what_to_ask(
    answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(answers), offer_file(tmp_path)]) == DONE
    shown = capsys.readouterr().out
    assert "TRACTORS ON OFFER" in shown
    assert "Meets: shaft power" in shown
    assert "Before you sign" in shown


def test_check_json(answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(answers), offer_file(tmp_path), "--format", "json"]) == DONE
    data = json.loads(capsys.readouterr().out)
    assert data["format"] == "firstfurrow-check/1"
    status = {r["id"]: r["status"] for r in data["offers"][0]["requirements"]}
    assert (status["pto_power"], status["pto_speed"]) == ("meets", "unknown")
    assert data["offers"][0]["implements"][0]["runs"] == "unknown"


def test_strict_tells_short_from_unknown_and_enough(
    answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    unknown = offer_file(tmp_path)
    short = offer_file(tmp_path, OFFER.replace("60 hp", "6 hp"), "weak.yaml")
    assert main(["check", str(answers), unknown, "--strict"]) == 3
    assert main(["check", str(answers), short, "--strict"]) == 1
    assert main(["check", str(answers), short]) == DONE
    capsys.readouterr()


def test_good_offers_are_checked_beside_bad_ones(
    answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = offer_file(tmp_path)
    bad = offer_file(tmp_path, OFFER.replace("60 hp", "2 ton").replace("mine", "bad"), "bad.yaml")
    rows = offer_file(tmp_path, "\ufeffname;pto_power\nrow one;50 hp\nrow two;-5 hp\n", "yard.csv")
    assert main(["check", str(answers), good, bad, rows]) == BAD_INPUT
    said = capsys.readouterr()
    assert "mine" in said.out
    assert "row one" in said.out
    assert f"{bad}:4: " in said.err
    assert f"{rows}: row 3: " in said.err
    assert said.err.count("\n") == 2


@pytest.mark.parametrize("raw", [b"\xff\x00\x80", b"\x00\x01\x02", b"name;mass\n\xe9;1 kg\n"])
def test_an_offer_that_is_no_text_gets_one_sentence(
    answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], raw: bytes
) -> None:
    path = tmp_path / "mine.yaml"
    path.write_bytes(raw)
    assert main(["check", str(answers), str(path)]) == BAD_INPUT
    said = capsys.readouterr()
    assert said.err.startswith("firstfurrow: ")
    assert "mine.yaml" in said.err
    assert "Traceback" not in said.err


@pytest.mark.parametrize("offer", ["missing.yaml", "."])
def test_an_offer_that_is_not_there(answers: Path, capsys: pytest.CaptureFixture[str], offer: str) -> None:
    assert main(["check", str(answers), offer]) == BAD_INPUT
    assert capsys.readouterr().err.count("\n") == 1


def test_the_template_of_an_offer_reads_back_empty(
    answers: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["sheet", "offer"]) == DONE
    template = capsys.readouterr().out
    assert max(map(len, template.splitlines())) <= 100
    path = offer_file(tmp_path, template)
    assert main(["check", str(answers), path]) == DONE
    said = capsys.readouterr()
    assert said.err == ""
    assert "Meets:" not in said.out
    filled = offer_file(tmp_path, template.replace("  pto_power:", "  pto_power: 60 hp"), "filled.yaml")
    assert main(["check", str(answers), filled]) == DONE
    assert "Meets: shaft power" in capsys.readouterr().out


def test_demo_offers_are_held_against_three_buyers(capsys: pytest.CaptureFixture[str]) -> None:
    from firstfurrow.talk.recordings import recordings_folder

    offers = sorted((recordings_folder() / "offers").glob("*.yaml"))
    assert len(offers) == 3
    for buyer in ("garden_on_clay", "two_horses", "hay_on_hills"):
        assert main(["check", str(recordings_folder() / buyer), *map(str, offers)]) == DONE
        said = capsys.readouterr()
        assert said.err == ""
        assert "Side by side" in said.out
        assert "nan" not in said.out.split()
        assert "inf" not in said.out.split()
