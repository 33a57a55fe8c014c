"""What an edition left out or mistyped, and what then hurt: the check names each, with its place and what to write.

Each mistake was made by somebody who edited a local edition and whose book was called clean. They stand here in one
edition together, so that the check runs once; the shipped book makes none of them (`test_shipped_book.py`).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from firstfurrow.book.check import Checked, check, examine
from firstfurrow.book.load import load
from firstfurrow.book.problems import Problem

TITLE = "id: mine\nname: Mine (invented)\nversion: 1\nfor: {id: firstfurrow, version: 1}\n"
P = "grade: practice"
TONGUE = f"tongue_share: {{low: 10 %, planning: 12 %, high: 15 %, {P}}}"
SPEED = f"speed: {{low: 3 km/h, planning: 8 km/h, high: 15 km/h, {P}}}"
MASS = f"mass: {{low: 350 kg, planning: 420 kg, high: 500 kg, {P}}}"
LOAD = f"load: {{value: 800 kg, {P}}}"
CART = (SPEED, "rolls: true", TONGUE, "sized_by: none", "size_is: label", f"sizes: [{{size: one, {MASS}, {LOAD}}}]")
BRUSH = (
    SPEED, "sized_by: none", "size_is: width", "sizes: [{size: 1.5 m, categories: ['1']}]",
    f"mass_per_width: {{low: 120 kg/m, high: 200 kg/m, {P}}}",
    f"centre_behind_pins: {{low: 500 mm, high: 900 mm, {P}}}",
    f"shaft: {{speeds: [540], engagement: live, power: {{value: 9 kW, {P}}}}}",
)  # fmt: skip


def kind(name: str, lines: tuple[str, ...], *changes: str, way: str = "drawbar", without: str = "") -> str:
    """A kind of implement in YAML; a change takes the place of the line with the same key."""
    keys = {line.partition(":")[0] for line in changes} | {without}
    kept = [line for line in lines if line.partition(":")[0] not in keys]
    head = [f"- kind: {name}", f"  name: {name}", "  plain: A tool.", "  cautions: [Keep people away.]"]
    head.append(f"  variants: [{{variant: plain, name: plain, way: {way}}}]")
    return "\n".join([*head, *(f"  {line}" for line in (*kept, *changes))])


def tool(name: str, *changes: str, without: str = "") -> str:
    return kind(name, BRUSH, *changes, way="three_point", without=without)


NO_LOAD = f"sizes: [{{size: 800 kg, {MASS}}}]"
SHAFT = "shaft: {{speeds: [{}], engagement: live, power: {{value: 9 kW, grade: practice}}{}}}"
KINDS = [
    kind("right_cart", CART),
    tool("right_brush"),
    kind("cart_by_load", CART, "sized_by: load", "size_is: load", NO_LOAD),
    kind("cart_asked", CART, "asks_load: true", f"sizes: [{{size: one, {MASS}}}]"),
    kind("cart_no_rolls", CART, without="rolls"),
    kind("cart_no_speed", CART, without="speed"),
    kind("cart_no_tongue", CART, without="tongue_share"),
    tool("brush_no_speed", without="speed"),
    tool("brush_slow", SHAFT.format("540, 450", "")),
    tool("brush_middle", SHAFT.format("540", ", place: mid")),
    tool("brush_row", "shaft: {speeds: [540], engagement: live, rotary_row: baler_small_rectangular}"),
    tool("brush_area", "sized_by: area", "area_job: hay"),
    kind("cart_tools", CART, f"pull: {{per: tool, force: {{value: 2 kN, {P}}}}}"),
    kind("cart_wide", CART, f"pull: {{per: width, force: {{value: 2 kN/m, {P}}}}}"),
    kind("cart_heavy", CART, f"sizes: [{{size: one, mass: {{low: 35 tonne, high: 50 tonne, {P}}}}}]"),
    tool("brush_heavy", f"mass_per_width: {{low: 12000 kg/m, high: 20000 kg/m, {P}}}"),
    kind("bare", CART).replace("  cautions: [Keep people away.]\n", ""),
]
FILES = {
    "edition.yaml": TITLE,
    "implements/wrong.yaml": "\n".join(["family: wrong", "title: Wrong", "kinds:", *KINDS, ""]),
    "messages.yaml": "messages:\n  thanks: Thanks.\n  taken: null\n",
    "sections/ground.yaml": """\
questions:
  - id: frost
    type: choice
    ask: Does cold air stay there?
    why: It moves no figure here.
    choices: [{id: frost_often, label: in most years}, {id: frost_never, label: In most years }]
    not_sure: {how: left_out}
""",
    "tables/our_choices.yaml": """\
rows:
  - {row: operator_mass, figures: {value: {value: 95 km, grade: practice}}}
  - {row: turn_seconds, figures: {value: {value: 15 kg, grade: practice}}}
  - {row: gate_margin, figures: {value: {value: 600 mm, grade: practice}}}
  - {row: door_margin, figures: {value: {value: 0.4, grade: practice}}}
  - {row: reserve_draft, figures: {value: {value: 125, grade: practice}}}
  - {row: operator_weight, figures: {value: {value: 95 kg, grade: practice}}}
  - {row: workable_share, figures: {value: {low: 4 %, planning: 60 %, high: 85 %, grade: practice}}}
  - {row: reserve_rotary, retire: true}
""",
    "tables/surfaces.yaml": """\
rows:
  - {row: dry_grass, figures: {grip: null}}
  - {row: paved, retire: true}
""",
    "tables/size_classes.yaml": (
        "rows: [{row: subcompact, figures: {mass: {low: 500 km, planning: 700 km, high: 900 km, grade: practice}}}]\n"
    ),
    "tables/soils.yaml": "rows: [{row: clay, words: {draft_factor: corse}}]\n",
    "tables/drawbar_classes.yaml": (
        "rows: [{row: light, figures: {power_most: {value: 5 kW, grade: practice},"
        " pin: {value: 20 mm, grade: practice}}}]\n"
    ),
}  # fmt: skip


def put(folder: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> tuple[Problem, ...]:
    return check(put(tmp_path_factory.mktemp("edition"), FILES))


def whose(problem: Problem) -> str:
    """The kind in whose record a problem of the family stands."""
    lines = FILES["implements/wrong.yaml"].splitlines()[: problem.line]
    return [line for line in lines if line.startswith("- kind:")][-1].removeprefix("- kind: ")


MISTAKES = [
    ("cart_by_load", "a kind that carries a load needs the load of every size."),
    ("cart_asked", "a kind that carries a load needs the load of every size."),
    ("cart_no_rolls", "rolls on wheels and must say so."),
    ("cart_no_speed", "needs its working speed."),
    ("brush_no_speed", "needs its working speed."),
    ("brush_slow", "no shaft at the rear turns at 450."),
    ("brush_middle", "no shaft under the middle turns at 540."),
    ("brush_row", "grows with what is fed in, so the shaft needs feed."),
    ("brush_area", "a kind that is sized by area needs field_rate."),
    ("cart_tools", "a pull of so much for each tool needs the number of tools of every size."),
    ("cart_wide", "a pull that grows with the width needs the width of every size."),
    ("cart_heavy", "mass is 35000 to 50000 kg: hardly any tool has so much."),
    ("brush_heavy", "mass_per_width is 12000 to 20000 kg/m: hardly any tool has so much."),
]  # fmt: skip


@pytest.mark.parametrize(("name", "says"), MISTAKES)
def test_each_mistake_of_a_kind_is_said_once_and_nothing_else_of_it(
    found: tuple[Problem, ...], name: str, says: str
) -> None:
    mine = [problem for problem in found if problem.file == "implements/wrong.yaml" and whose(problem) == name]
    assert len(mine) == 1, [str(problem) for problem in mine]
    assert says in mine[0].what
    assert mine[0].why.endswith(".")
    assert mine[0].write.endswith(".")


def test_what_is_right_is_left_alone(found: tuple[Problem, ...]) -> None:
    said = {whose(problem) for problem in found if problem.file == "implements/wrong.yaml"}
    assert said == {name for name, _ in MISTAKES}


def test_an_unknown_shaft_speed_is_answered_with_those_that_there_are(found: tuple[Problem, ...]) -> None:
    """Rear shafts turn at 540, 1000 or 1300 (the table of shafts names its standard)."""
    [slow] = [problem for problem in found if "turns at 450" in problem.what]
    assert slow.write == "Write one of these: 540, 1000, 1300; they stand in tables/shaft_types.yaml."


OTHERS = [
    ("messages.yaml:3", "a sentence that is said cannot be taken out: taken."),
    ("sections/ground.yaml:6", '"In most years" is the label of frost_often and of frost_never.'),
    ("tables/our_choices.yaml:2", "operator_mass is 95 km, where the shipped book has 90 kg: not the same unit."),
    ("tables/our_choices.yaml:3", "turn_seconds is 15 kg, where the shipped book has 15: not the same unit."),
    ("tables/our_choices.yaml:4", "gate_margin is 600 mm, where the shipped book has 0.6 m: not the same unit."),
    ("tables/our_choices.yaml:5", "door_margin is 0.4, where the shipped book has"),
    ("tables/our_choices.yaml:6", "reserve_draft is 125, where the shipped book has 1.25: has a digit slipped?"),
    ("tables/our_choices.yaml:7",
     'nothing reads a row "operator_weight" of our_choices. Did you mean "operator_mass"?'),
    ("tables/our_choices.yaml:8", "workable_share is 4 %, where the shipped book has 50 %: has a digit slipped?"),
    ("tables/our_choices.yaml:9", 'the row "reserve_rotary" of our_choices is missing.'),
    ("tables/surfaces.yaml:2", "dry_grass has no grip, which every row of this table has in the shipped book."),
    ("tables/surfaces.yaml:3", 'the row "paved" of surfaces is missing.'),
    ("tables/size_classes.yaml:1", "mass of subcompact is 700 km, where the shipped book has"),
    ("tables/soils.yaml:1", 'there is no column of the draft table "corse". Did you mean "coarse"?'),
    ("tables/drawbar_classes.yaml:1", 'a class of drawbars is a number, not "light".'),
]  # fmt: skip


@pytest.mark.parametrize(("place", "says"), OTHERS)
def test_each_mistake_of_a_table_or_a_sentence_is_said_at_its_line(
    found: tuple[Problem, ...], place: str, says: str
) -> None:
    there = [p for p in found if says in p.what]
    assert len(there) == 1, [str(problem) for problem in found if problem.file == place.partition(":")[0]]
    assert f"{there[0].file}:{there[0].line}" == place
    assert there[0].why.endswith(".")
    assert there[0].write.endswith(".")


def test_a_figure_of_another_sort_is_said_once(found: tuple[Problem, ...]) -> None:
    assert len([problem for problem in found if problem.file == "tables/size_classes.yaml"]) == 1


# ------------------------------------------------------------------------- notes


@pytest.fixture(scope="module")
def noted(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    kinds = [one for one in KINDS if one.startswith(("- kind: bare", "- kind: cart_no_tongue", "- kind: right"))]
    text = "\n".join(["family: right", "title: Right", "kinds:", *kinds, ""])
    return examine(put(tmp_path_factory.mktemp("edition"), {"edition.yaml": TITLE, "implements/right.yaml": text}))


def test_what_has_no_cautions_or_no_load_on_the_drawbar_is_noted(noted: Checked) -> None:
    """The shipped book has cautions at every kind; of its towed builds seven leave the drawbar to the usual share."""
    assert noted.problems == ()
    notes = next(notes for notes in noted.notes if notes.title.startswith("Implements without cautions"))
    assert [note.what for note in notes.found] == [
        "nothing says what of cart_no_tongue as plain rests on the drawbar.",
        "bare has no cautions.",
    ]
    book = load()
    assert all(kind.cautions for kind in (*book.kinds.values(), *book.links.values()))
