"""A local edition: it lies over the shipped book, says what it changes, and is read as strictly. The guide's is run."""

from __future__ import annotations

import io
import json
import re
import shlex
from pathlib import Path
from textwrap import dedent

import pytest

from firstfurrow.advice.profile import advise
from firstfurrow.asking.answers import Answers
from firstfurrow.asking.answers_file import AnswersError, read, write
from firstfurrow.asking.complete import complete
from firstfurrow.asking.setting import with_answers
from firstfurrow.book.check import check, examine
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.book.places import book_folder, recordings_folder
from firstfurrow.book.shelf import SHIPPED, Shelf
from firstfurrow.cli import main
from firstfurrow.commands.common import BAD_INPUT, DONE
from firstfurrow.pages import page_data, parts_of, whole_page
from firstfurrow.report.yard import yard_document
from firstfurrow.talk.recordings import Recording, shipped

BLOCK = re.compile(r"^```yaml\n# (\S+\.yaml)\n(.*?)^```", re.MULTILINE | re.DOTALL)
GUIDE = book_folder() / "README.md"
TITLE = "id: mine\nname: Mine\nversion: 1\nfor: {id: firstfurrow, version: 1}\n"


@pytest.fixture(scope="module")
def guide(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The edition of the guide for editors, as it stands there."""
    folder = tmp_path_factory.mktemp("edition")
    blocks = BLOCK.findall(GUIDE.read_text(encoding="utf-8"))
    assert len(blocks) == len({name for name, _ in blocks}) == 9
    for name, text in blocks:
        put(folder, name, text)
    return folder


def put(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    put(tmp_path, "edition.yaml", TITLE)
    return tmp_path


# ------------------------------------------------------------------- the guide's example


def test_the_edition_of_the_guide_is_clean(guide: Path) -> None:
    found = examine(guide)
    assert [str(problem) for problem in found.problems] == []
    assert found.proof is not None


def test_the_pair_of_the_guide_moves_as_it_claims(guide: Path) -> None:
    local = load(guide)
    pair = next(pair for pair in local.teaching.pairs if pair.id == "hill_sand")
    recorded = Recording(recordings_folder() / pair.recording).answers(local)
    before = advise(local, recorded)
    after = advise(local, with_answers(local, recorded, [f"{pair.question}={pair.other}"]))
    assert pair.falls
    for requirement in pair.falls:
        was, now = before.outcomes[requirement].sure, after.outcomes[requirement].sure
        assert was is not None
        assert now is not None
        assert now.stated < was.stated, requirement


def test_the_message_in_the_guide_is_what_the_check_says(
    mine: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text = GUIDE.read_text(encoding="utf-8")
    printed = re.search(r"^    sections/ground.*?\n\n", text, re.MULTILINE | re.DOTALL)
    assert printed is not None
    put(mine, "sections/ground.yaml", "questions:\n  - id: floods\n    after: soyl\n    ask: Does it flood?\n")
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["book", "check", str(mine)]) != DONE
    assert dedent(printed[0]).rstrip() in capsys.readouterr().out


@pytest.mark.parametrize(
    ("file", "part"),
    [("family", part) for part in ("kind", "oil", "shaft", "pull", "figure")]
    + [("section", part) for part in ("question", "condition", "choice", "not_sure")],
)
def test_the_guide_names_every_key_of_an_implement_and_of_a_question(file: str, part: str) -> None:
    schema = json.loads((book_folder() / "schema" / f"{file}.schema.json").read_text(encoding="utf-8"))
    named = set(re.findall(r"[`{\s(](\w+)[`:]", GUIDE.read_text(encoding="utf-8")))
    assert set(schema["definitions"][part]["properties"]) <= named


def test_it_changes_what_it_says_and_nothing_else(guide: Path, book: Book) -> None:
    local = load(guide)
    assert (book.choice("operator_mass").planning, local.choice("operator_mass").planning) == (90, 110)
    assert [k for k in local.kinds if k not in book.kinds] == ["hill_rake"]
    assert [k for k in book.kinds if k not in local.kinds] == []
    soil = local.question("soil")
    assert soil is not None
    assert soil.ask.startswith("Is your soil red clay")
    assert [choice.id for choice in soil.choices] == ["sand", "loam", "clay"]  # not said again, so as they were
    ground = next(s for s in local.sections if s.id == "ground")
    order = [q.id for q in ground.questions]
    assert order.index("floods") == order.index("soil") + 1
    assert local.retired == {"heat"}
    assert {t: table.rows for t, table in local.tables.items() if t != "our_choices"} == {
        t: table.rows for t, table in book.tables.items() if t != "our_choices"
    }


def test_what_it_changes_is_listed_with_what_stood_there(guide: Path) -> None:
    lines = {o.what: (o.file, o.line > 0, o.before, o.after) for o in Shelf(guide).overrides()}
    assert lines["rows, operator_mass, figures, value, value"] == ("tables/our_choices.yaml", True, "90 kg", "110 kg")
    assert lines["questions, heat"][3] is None
    assert lines["questions, floods"][2] is None
    assert lines["messages, manuals"][2].startswith("The manuals of tractor and implement")
    assert not any("soil, choices" in what for what in lines)


def test_the_check_prints_them(guide: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["book", "check", str(guide)]) == DONE
    lines = capsys.readouterr().out.splitlines()
    begin = next(i for i, line in enumerate(lines) if line.startswith("The local edition Hill County"))
    assert "  tables/our_choices.yaml:3: rows, operator_mass, figures, value, value: 90 kg becomes 110 kg" in lines
    assert not any(line.strip().startswith(SHIPPED) for line in lines)  # what is noted of the shipped book is not mine
    assert any(line.endswith("questions, heat: taken out") for line in lines[begin:])
    assert any(line.endswith("questions, floods: new") for line in lines[begin:])


def test_an_edition_is_named_in_the_report_and_in_the_answers(guide: Path, book: Book) -> None:
    local = load(guide)
    answers = shipped()[0].answers(book)
    page = " ".join(whole_page(local, answers, 80).split())
    assert "local edition Hill County extension office (invented), version 1" in page
    assert "the Hill County office come before every figure" in page
    sheet = next(part for part in parts_of(local, answers) if part.name == "yard")
    assert "local edition Hill County" in str(sheet.document[-1])
    assert not any("made with" in str(block).lower() for block in yard_document(advise(book, answers)))
    assert page_data(local, answers)["editions"] == [
        {"id": "hill_county", "name": "Hill County extension office (invented)", "version": 1}
    ]
    text = write(answers, local)
    assert "edition: hill_county/1" in text
    assert read(text, "a.yaml", local).carried == ()
    without = read(text, "a.yaml", book)
    assert "the local edition hill_county/1, and are read with the shipped book alone" in without.carried[0]
    assert without.given == answers.given


def test_a_title_page_beside_a_whole_book_is_told_apart(mine: Path) -> None:
    put(mine, "book.yaml", (book_folder() / "book.yaml").read_text(encoding="utf-8"))
    (problem,) = check(mine)
    assert "holds both edition.yaml" in problem.what
    assert "Take book.yaml out" in problem.write


def test_a_talk_with_an_edition_is_gone_on_with_by_the_command_that_it_prints(
    guide: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("sys.stdin", io.StringIO("1\n3 acre\nflat\ngrading\nloam\nnever\nsave\n"))
    assert main(["--book", str(guide), "--plain", "--keep", "a.yaml"]) == DONE
    shown = capsys.readouterr().out.replace("\\\n", "")  # a long command goes on in the next line
    last = [line for line in shown.splitlines() if "--resume" in line][-1]
    assert shlex.split(last) == ["firstfurrow", "--book", str(guide), "--resume", "a.yaml"]
    kept = (tmp_path / "a.yaml").read_text(encoding="utf-8")
    assert "floods: floods_never" in kept
    assert main(["--plain", "--resume", "a.yaml"]) == BAD_INPUT  # with the shipped book it would lose that answer
    assert "the local edition hill_county/1" in capsys.readouterr().err
    monkeypatch.setattr("sys.stdin", io.StringIO("save\n"))
    assert main([*shlex.split(last)[1:], "--plain"]) == DONE
    assert (tmp_path / "a.yaml").read_text(encoding="utf-8") == kept


def test_the_book_may_be_named_before_the_command_or_behind_it(
    guide: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    recording = str(recordings_folder() / "garden_on_clay")
    said = []
    for argv in (["--book", str(guide), "advise", recording], ["advise", recording, "--book", str(guide)]):
        assert main([*argv, "--short"]) == DONE
        said.append(capsys.readouterr().out)
    assert said[0] == said[1]
    assert main(["advise", recording, "--sheet", "--book", str(guide)]) == DONE
    assert "Hill County" in capsys.readouterr().out
    assert main(["--book", str(guide), "demo", "garden_on_clay"]) == BAD_INPUT
    assert "leave --book out" in capsys.readouterr().err


def test_an_implement_that_only_the_edition_has_is_left_out_without_it(guide: Path, book: Book) -> None:
    text = write(Answers(), load(guide)).replace(
        "answers: {}", "answers:\n  implements:\n    - {item: i1, kind: hill_rake, when: now}"
    )
    assert len(read(text, "a.yaml", load(guide)).items) == 1
    found = read(text, "a.yaml", book)
    assert found.items == ()
    assert any("hill_rake" in line for line in found.carried)


def test_a_new_implement_is_worked_out_as_any_other(guide: Path) -> None:
    local = load(guide)
    text = write(Answers(), local).replace(
        "answers: {}", "answers:\n  implements:\n    - {item: i1, kind: hill_rake, when: now}"
    )
    profile = advise(local, complete(local, read(text, "a.yaml", local)))
    lift = profile.outcomes["lift_at_load"].sure
    assert lift is not None
    assert lift.stated >= 1.5 * 110


# --------------------------------------------------------------------------- mistakes


@pytest.mark.parametrize(
    ("name", "text", "place", "says"),
    [
        ("tables/soil.yaml", "rows: []\n", "tables/soil.yaml", 'Did you mean "tables/soils.yaml"?'),
        ("sections/ground.yaml", "questions:\n  - {id: sol, retire: true}\n", "sections/ground.yaml:2", '"soil"?'),
        ("sections/ground.yaml", "questions:\n  - {id: new_one, after: sol}\n", "sections/ground.yaml:2", '"soil"?'),
        ("sections/ground.yaml", "questions:\n  - {id: soil, asc: Why}\n", "sections/ground.yaml:2", "asc"),
        ("sections/implements.yaml", "group:\n  questions:\n    - {id: kind, retire: true}\n",
         "sections/implements.yaml:3", "kind"),
        ("implements/tillage.yaml", "kinds:\n  - {kind: mouldboard_plough, speed: {low: 9 km/h}}\n",
         "implements/tillage.yaml:2", "low is greater than planning"),
        ("report.yaml", "messages: {manualls: x}\n", "report.yaml:1", "manuals"),
        ("report.yaml", "messages: {manuals: \"x {y}\"}\n", "report.yaml:1", "{y}"),
        ("edition.yaml", TITLE.replace("version: 1}", "version: 9}"), "edition.yaml:4", "version 9"),
        ("edition.yaml", TITLE.replace("id: mine", "id: Mine Own"), "edition.yaml:1", "id"),
    ],
)  # fmt: skip
def test_a_mistake_is_named_where_it_stands(mine: Path, name: str, text: str, place: str, says: str) -> None:
    put(mine, name, text)
    found = [str(problem) for problem in check(mine)]
    assert any(line.startswith(place) and says in line for line in found), found


NEITHER = "neither edition.yaml, the title page of a local edition, nor a whole book."


@pytest.mark.parametrize(
    ("there", "says", "write"),
    [
        (None, "there is no such folder.", "Look how its name is spelled."),
        ("", NEITHER, "For a local edition write edition.yaml"),
        ("report.yaml", NEITHER, "For a local edition write edition.yaml"),
        ("edition.yml", NEITHER, "Rename edition.yml to edition.yaml."),
        ("a file", "this is a file; a book is a folder.", "Name the folder in which it stands."),
    ],
)
def test_what_holds_no_book_is_said_in_one_problem(tmp_path: Path, there: str | None, says: str, write: str) -> None:
    folder = tmp_path / "here"
    if there == "a file":
        folder.write_text("", encoding="utf-8")
    elif there is not None:
        folder.mkdir()
        if there:
            put(folder, there, TITLE)
    (problem,) = examine(folder).problems
    assert problem.place == str(folder)
    assert problem.what.endswith(says)
    assert problem.write.startswith(write)


GROUND = "questions:\n  - {id: soil, ask: Is it clay?}\n"
FAMILY = "family: mine\ntitle: Mine\nkinds: []\n"


@pytest.mark.parametrize(
    ("name", "text", "says", "write"),
    [
        ("sections/ground.yml", GROUND, "must end in .yaml.", "Rename it to sections/ground.yaml."),
        ("sections/ground.yaml.txt", GROUND, "must end in .yaml.", "Rename it to sections/ground.yaml."),
        ("sections/ground.docx", GROUND, "must end in .yaml.", "Save its text as plain text under the name sections/g"),
        ("implements/mine.yml", FAMILY, "must end in .yaml.", "Rename it to implements/mine.yaml."),
        ("notes.txt", "Ask Ann.\n", "must end in .yaml.", "Name it like a file of the shipped book"),
        ("ground.yaml", GROUND, "it belongs in sections/.", "Move it to sections/ground.yaml."),
        ("section/ground.yaml", GROUND, "it belongs in sections/.", "Move it to sections/ground.yaml."),
        ("implements/ground.yaml", GROUND, "it belongs in sections/.", "Move it to sections/ground.yaml."),
        ("sections/mine.yaml", FAMILY, "it belongs in implements/.", "Move it to implements/mine.yaml."),
        ("tables/report.yaml", "{}\n", "it belongs in the folder of the edition itself.", "Move it to report.yaml."),
        ("sections/grounds.yaml", GROUND, 'Did you mean "sections/ground.yaml"?', "Rename it to sections/ground.yaml"),
    ],
)
def test_a_file_that_nobody_reads_is_named_alone(mine: Path, name: str, text: str, says: str, write: str) -> None:
    put(mine, name, text)
    (problem,) = check(mine)
    assert problem.place == name
    assert problem.what.endswith(says)
    assert problem.write.startswith(write)


@pytest.mark.parametrize("name", ["sections/Copy of ground.yaml", "sections/ground.yml", "ground.yaml"])
def test_no_name_is_offered_that_would_write_over_another_file(mine: Path, name: str) -> None:
    put(mine, "sections/ground.yaml", GROUND)
    put(mine, name, GROUND)
    (problem,) = check(mine)
    assert problem.place == name
    assert problem.write.startswith("sections/ground.yaml is there already: write what belongs to it into that file")


@pytest.mark.parametrize("name", ["README.txt", "x.md", ".DS_Store", "Thumbs.db", ".git/x.yaml", "sections/x.yaml~"])
def test_what_others_leave_in_the_folder_is_left_alone(mine: Path, name: str) -> None:
    put(mine, name, "x")
    assert Shelf(mine).strays == {}
    assert Shelf(mine).names == ()


def retired(section: str, what: str) -> tuple[str, str]:
    return f"sections/{section}.yaml", f"questions:\n  - {{{what}}}\n"


READS_HEAT = (
    "questions:\n  - {id: wet, after: heat, type: choice, when: {answer: heat, is: hot}, ask: Is it wet?,"
    " why: It counts., choices: [{id: wet_yes, label: it is}, {id: wet_no, label: it is not}],"
    " not_sure: {how: left_out}}\n"
    "  - {id: heat, retire: true}\n"
)


@pytest.mark.parametrize(
    ("name", "text", "place", "says", "write"),
    [
        (*retired("jobs", "id: jobs, choices:  "), "sections/jobs.yaml:2:16", "takes every choice of jobs out.",
         "Write under it the choices that differ"),
        (*retired("ground", "id: wood, retire: yes"), "sections/ground.yaml:2:16",
         'retire must be followed by true, not by "yes".', "Write retire: true"),
        (*retired("ground", "id: wet, after: jobs"), "sections/ground.yaml:2:22",
         "the question jobs stands in sections/jobs.yaml, not here.", "Move this question to sections/jobs.yaml, or"),
        (*retired("jobs", "id: soil, ask: Is it clay?"), "sections/jobs.yaml:2:10",
         "the question soil stands in sections/ground.yaml, not here.", "Move this record to sections/ground.yaml"),
        (*retired("implements", "id: brakes, retire: true"), "sections/implements.yaml:2:10",
         "under group: {questions: [...]}, not here.",
         "In its place write group: {questions: [{id: brakes, retire: true}]}."),
        ("sections/ground.yaml", GROUND + "  - {id: soil, retire: true}\n", "sections/ground.yaml:3:10",
         'the question "soil" is there twice; the first one is in sections/ground.yaml:2.', "Give one of them another"),
        ("sources.yaml", "sources:\n  - {id: d497, retire: true}\n", "sources.yaml:2:1",
         "more places.", "Take this line out, or give each of those figures another source first."),
        ("sections/ground.yaml", READS_HEAT, "sections/ground.yaml:2:57",
         "the condition of wet reads heat, which is taken out in sections/ground.yaml:3.", "Take this test out, or"),
    ],
)  # fmt: skip
def test_one_mistake_is_one_problem(mine: Path, name: str, text: str, place: str, says: str, write: str) -> None:
    """However many figures and conditions follow from it."""
    put(mine, name, text)
    (problem,) = check(mine)
    assert problem.place == place
    assert problem.what.endswith(says)
    assert problem.write.startswith(write)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("id: mine", "id: Mine Own", 'use lower case letters, digits and underscores. Write "mine_own".'),
        ("version: 1\nfor", "version: about 2023\nfor", "Write digits only, such as 2023."),
    ],
)
def test_a_title_page_is_told_what_to_write(mine: Path, old: str, new: str, says: str) -> None:
    put(mine, "edition.yaml", TITLE.replace(old, new))
    (problem,) = check(mine)
    assert says in problem.message


def test_a_mistake_that_shows_in_the_shipped_part_says_which_file(mine: Path) -> None:
    put(mine, "guides.yaml", "guides:\n  - {id: soil_by_hand, retire: true}\n")
    found = [str(problem) for problem in check(mine)]
    assert any(line.startswith(f"{SHIPPED}sections/ground.yaml:") and "soil_by_hand" in line for line in found), found


def test_an_empty_edition_is_the_shipped_book(mine: Path, book: Book) -> None:
    assert examine(mine).problems == ()
    local = load(mine)
    assert dict(local.kinds) == dict(book.kinds)
    assert [s.questions for s in local.sections] == [s.questions for s in book.sections]
    assert dict(local.messages) == dict(book.messages)


def test_a_later_version_of_the_book_is_refused_in_one_sentence(book: Book) -> None:
    text = write(Answers(), book).replace("version: 1", "version: 7")
    with pytest.raises(AnswersError, match="belong to edition 7 of the book; this program has edition 1"):
        read(text, "a.yaml", book)
