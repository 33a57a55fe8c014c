"""The commands for those who edit a book: what they print and write, and their exit codes."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
import yaml

from firstfurrow.advice import moves_tested
from firstfurrow.advice import walked as walking
from firstfurrow.advice.moves_tested import Pair, Tried
from firstfurrow.asking.answers import Given
from firstfurrow.asking.answers_file import read
from firstfurrow.asking.refs import Ref
from firstfurrow.book.check import Checked, Notes
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import Problem
from firstfurrow.cli import main
from firstfurrow.commands.book_check import lines
from firstfurrow.commands.common import BAD_INPUT, DIFFERS, DONE
from making import Maker

WRONG = (
    ("sections/ground.yaml", "how: soil_by_hand", "how: soil_by_hnd"),
    ("sections/people.yaml", "    ask: How do you want to change speed?", "    ask: How do you want to change speed"),
)


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    shutil.copytree(book_folder(), tmp_path / "book")
    return tmp_path / "book"


def spoil(folder: Path, name: str, old: str, new: str) -> None:
    text = (folder / name).read_text(encoding="utf-8")
    assert old in text
    (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")


# ------------------------------------------------------------------------- check


def test_check_says_what_was_proven_and_what_was_not_tried(capsys: pytest.CaptureFixture[str], book: Book) -> None:
    assert main(["book", "check"]) == DONE
    said = capsys.readouterr().out
    assert "The book is clean" in said
    assert f"each of {len(book.requirements)} requirements is named by a question that is asked" in said
    assert "nobody gets stuck, and every walk ends" in said
    assert "Not tried: whether an answer moves what its question says" in said
    assert "--deep" in said
    assert "Sources that stand behind no figure" in said
    assert re.search(r"and \d+ more: --notes shows all of them", said)


def test_check_shows_each_problem_with_its_reason_and_its_remedy(
    copy: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for wrong in WRONG:
        spoil(copy, *wrong)
    assert main(["book", "check", str(copy)]) == DIFFERS
    said = capsys.readouterr().out
    first, second = re.findall(r"^sections/\S+:\d+:\d+: .*\n(?: +.*\n)+", said, re.MULTILINE)
    assert 'there is no guide "soil_by_hnd". Did you mean "soil_by_hand"?' in first
    assert 'What to do: Write "soil_by_hand" if you mean that' in " ".join(first.split())
    assert "    Why it matters: " in first
    assert "    Why it matters: " in second
    assert said.endswith("2 things are wrong.\nThe questions are proven once this is put right.\n")
    assert "The book is clean" not in said


def test_check_shows_answers_that_lead_to_a_fault_of_the_graph(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spoil(copy, "sections/towing.yaml", "    when: {all: [{any_item: kind, has: loader}]}",
          "    when: {all: [{answer: tow_axles, is: one_axle}]}")  # fmt: skip
    assert main(["book", "check", str(copy)]) == DIFFERS
    said = capsys.readouterr().out
    assert "front_load reads tow_axles, which may not have been asked.\n    Answers that lead there:\n" in said
    assert "\n      tow_other=nothing\n" in said
    assert said.count("Answers that lead there") == 1
    assert "One thing is wrong.\n" in said


def test_check_shows_every_note_when_asked() -> None:
    note = Problem("sources.yaml", 3, 5, "no figure names it.", "It stands behind nothing.", "Name it.")
    checked = Checked((), (Notes("Sources", (note,) * 7),))
    short = list(lines(checked, every_note=False))
    assert short[0] == "Note. Sources: 7."
    assert short[1:6] == ["  sources.yaml:3:5: no figure names it."] * 5
    assert short[6] == "  and 2 more: --notes shows all of them, and what to do."
    whole = list(lines(checked, every_note=True))
    assert whole[1:8] == ["  sources.yaml:3:5: no figure names it."] * 7
    said_once = ["      Why it matters: It stands behind nothing.", "      What to do: Name it."]
    assert whole[8:] == said_once


def test_a_folder_that_is_not_there_gets_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for what in ("check", "draw", "walk"):
        assert main(["book", what, str(tmp_path / "gone")]) == BAD_INPUT
        said = capsys.readouterr()
        assert said.out == ""
        assert said.err == f"firstfurrow: {tmp_path / 'gone'}: there is no folder of that name.\n"


@pytest.mark.parametrize("count", ["0", "-3", "many", "1.5"])
def test_a_count_must_be_a_number_from_one_on(count: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["book", "walk", "--count", count])
    assert left.value.code == BAD_INPUT
    assert capsys.readouterr().err.count("\n") == 1


def test_deep_says_what_was_seen_and_writes_the_pairs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pairs = tmp_path / "pairs.yaml"
    assert main(["book", "check", "--deep", "--count", "25", "--seed", "3", "--pairs", str(pairs)]) == DONE
    said = capsys.readouterr().out
    assert "Tried on 25 pairs of random plans that differ in one answer (seed 3):" in said
    assert "Not tried" not in said
    claims, seen = map(int, re.findall(r"of (\d+) claims .*, (\d+) were seen", said)[0])
    assert 20 < seen < claims
    assert f"Not seen, which may be chance: {claims - seen}." in said
    written = yaml.safe_load(pairs.read_text(encoding="utf-8"))
    assert sum(len(pair["moves"]) for pair in written) == seen
    for pair in written:
        read(pair["answers"], "one.yaml", load())  # they are answers files
    assert main(["book", "check", "--deep", "--count", "25", "--pairs", str(pairs)]) == BAD_INPUT
    assert "this file exists" in capsys.readouterr().err
    assert main(["book", "check", "--pairs", str(tmp_path / "other.yaml")]) == BAD_INPUT
    assert "--deep" in capsys.readouterr().err


def test_deep_names_what_a_question_does_not_claim(
    maker: Maker, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """That the soil moves the stated width of the gate: it does not, and the pair is only made to look like it."""
    answers = maker.answers([{"kind": "rotary_tiller", "size": "1.5 m"}], soil="clay")
    pair = Pair(answers, Ref("soil"), Given("sand", "sand"), frozenset({"width_most"}))
    tried = Tried(9, 1, {}, (("soil", "mass"),), {("soil", "width_most"): pair})
    monkeypatch.setattr(moves_tested, "try_moves", lambda *_: tried)
    assert main(["book", "check", "--deep"]) == DIFFERS
    said = capsys.readouterr().out
    assert re.search(r"sections/ground.yaml:\d+:\d+: soil moves width_most, and does not say so under moves\.", said)
    assert "Add width_most to its moves" in said
    assert "\n      soil=clay, then sand\n" in said
    assert "\n      i1.kind=rotary_tiller\n" in said
    assert "  1 times an answer moved what its question does not claim, see above.\n" in said


# ------------------------------------------------------------------------- draw


def test_draw_writes_markdown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["book", "draw"]) == DONE
    said = capsys.readouterr().out
    titles = ["The sections", *(section.title for section in load().sections)]
    assert re.findall(r"^## (.*)$", said, re.MULTILINE) == titles
    assert len(re.findall(r"```mermaid\nflowchart TD\n(?:  .*\n)+```\n", said)) == len(titles)


def test_draw_draws_one_section_and_knows_the_others(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["book", "draw", "--section", "towing"]) == DONE
    assert capsys.readouterr().out.count("```mermaid") == 1
    assert main(["book", "draw", "--section", "towin"]) == BAD_INPUT
    said = capsys.readouterr()
    assert said.out == ""
    assert 'There is no section "towin". Did you mean "towing"?' in said.err
    assert "sections, land, jobs" in said.err


def test_draw_writes_a_file_for_each_chart_and_none_over_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "new" / "charts"
    assert main(["book", "draw", "--out", str(out)]) == DONE
    files = sorted(path.name for path in out.iterdir())
    assert files == sorted(f"{name}.mmd" for name in ["sections", *(s.id for s in load().sections)])
    assert (out / "land.mmd").read_text(encoding="utf-8").startswith("flowchart TD\n")
    (out / "land.mmd").write_text("mine", encoding="utf-8")
    (out / "jobs.mmd").unlink()
    capsys.readouterr()
    assert main(["book", "draw", "--out", str(out)]) == BAD_INPUT
    assert "this file exists" in capsys.readouterr().err
    assert not (out / "jobs.mmd").exists()  # none was written
    assert (out / "land.mmd").read_text(encoding="utf-8") == "mine"
    assert main(["book", "draw", "--out", str(out), "--force"]) == DONE
    assert (out / "land.mmd").read_text(encoding="utf-8") != "mine"


def test_a_book_that_fails_its_proof_is_drawn_all_the_same(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spoil(copy, "sections/towing.yaml", "    when: {all: [{any_item: kind, has: loader}]}",
          "    when: {all: [{answer: tow_axles, is: one_axle}]}")  # fmt: skip
    assert main(["book", "draw", str(copy), "--section", "towing"]) == DONE
    assert "tow_axles is" in capsys.readouterr().out
    for wrong in WRONG:
        spoil(copy, *wrong)
    assert main(["book", "draw", str(copy)]) == BAD_INPUT
    assert "soil_by_hnd" in capsys.readouterr().err


# ------------------------------------------------------------------------- walk


def test_walk_counts_what_came_of_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(walking, "nonsense", lambda *_: [])
    assert main(["book", "walk", "--count", "8", "--seed", "4"]) == DONE
    said = capsys.readouterr().out
    assert said.startswith("8 random conversations (seed 4), each to its result.\n")
    for line in (r"Questions in one: least \d+, middle \d+, most \d+\.", r"Answered with not sure: least 0, middle",
                 r"Milliseconds of the processor for one: least \d+, middle \d+, most \d+\.",
                 r"With a refusal: \d+, \d+ in all\.", r"With a conflict: \d+, \d+ in all\."):  # fmt: skip
        assert re.search(line, said), line
    assert sum(map(int, re.findall(r"^ +(\d+)  ", said, re.MULTILINE))) == 8
    assert "No error, and no number that cannot be meant: none is negative, endless or beyond all figures.\n" in said
    assert list(tmp_path.iterdir()) == []


def test_answers_that_led_to_nonsense_are_kept_for_replay(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(walking, "nonsense", lambda profile, _: ["mass: it flies"] if profile.refusals else [])
    assert main(["book", "walk", "--count", "8", "--seed", "4"]) == DIFFERS
    said = capsys.readouterr().out
    kept = sorted((tmp_path / "firstfurrow-walks").iterdir())
    assert f"{len(kept)} conversations led to nonsense or to an error:" in said
    assert all(re.fullmatch(r"walk-4-\d+\.yaml", path.name) for path in kept)
    for path in kept:
        assert f"firstfurrow-walks/{path.name}: mass: it flies" in said
        assert "mass: it flies" in path.read_text(encoding="utf-8")
    first = re.findall(r"To see one again: firstfurrow (advise \S+)\n", said)[0]
    capsys.readouterr()
    assert main(first.split()) == DONE
    assert main(["book", "walk", "--count", "8", "--seed", "4"]) == DIFFERS  # the same files once more
    kept[0].write_text("mine", encoding="utf-8")
    capsys.readouterr()
    assert main(["book", "walk", "--count", "8", "--seed", "4"]) == BAD_INPUT
    assert "another file stands here" in capsys.readouterr().err
    assert kept[0].read_text(encoding="utf-8") == "mine"


def test_an_error_is_kept_like_nonsense(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError("a plough without width")

    monkeypatch.setattr(walking, "advise", fails)
    assert main(["book", "walk", "--count", "2", "--out", str(tmp_path / "mine")]) == DIFFERS
    said = capsys.readouterr().out
    assert "2 conversations led to nonsense or to an error:" in said
    assert said.count("ZeroDivisionError: a plough without width") == 2
    assert "Traceback" not in said
    assert len(list((tmp_path / "mine").iterdir())) == 2


def test_an_edited_book_is_checked_before_the_walk(copy: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for wrong in WRONG:
        spoil(copy, *wrong)
    assert main(["book", "walk", str(copy)]) == BAD_INPUT
    said = capsys.readouterr()
    assert said.out == ""
    assert "soil_by_hnd" in said.err
