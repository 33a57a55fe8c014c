"""Loading: every part of the book as frozen objects, read only when somebody looks."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from firstfurrow.book import load as load_module
from firstfurrow.book import shelf, yaml_strict
from firstfurrow.book.check import require
from firstfurrow.book.implements import kind as make_kind
from firstfurrow.book.lazy import LazyFiles, LazyMapping, LazySequence
from firstfurrow.book.load import load
from firstfurrow.book.model import NotSure
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import BookError
from firstfurrow.book.sections import question as make_question
from firstfurrow.book.tables import requirement, source, table


def _yaml(text: str) -> dict[str, object]:
    data = yaml_strict.parse_marked(text, "x.yaml")[0]
    assert isinstance(data, dict)
    return data


QUESTION = """
id: side_slope
type: quantity
dimension: slope
ask: How steep?
when: {all: [{answer: land_shape, includes: slopes}]}
moves: [side_slope]
why: It can roll over.
how: board_and_level
bands: [{label: hardly notice it, value: 5 %}, {label: walk, value: 1:8}]
bare: {us: '%', metric: '%'}
not_sure: {how: planned, planning: 20 %, low: 5 %, high: 30 %}
plausible: [0 %, 40 %]
possible: [0 %, 100 %]
"""


def test_a_question() -> None:
    made = make_question(_yaml(QUESTION))
    assert (made.id, made.type, made.dimension, made.moves) == ("side_slope", "quantity", "slope", ("side_slope",))
    assert made.not_sure == NotSure("planned", 20.0, 5.0, 30.0)
    assert [(b.value, b.text) for b in made.bands] == [(5.0, "5 %"), (12.5, "1:8")]
    assert (made.plausible, made.possible) == ((0.0, 40.0), (0.0, 100.0))
    assert made.when is not None
    assert made.bare_unit == {"us": "%", "metric": "%"}


def test_a_question_with_choices() -> None:
    made = make_question(
        _yaml("{id: jobs, type: several, ask: 'What?', why: So., choices: [{id: hay, label: make hay, also: [no, 5]}],"
              " not_sure: {how: planned, planning: [hay]}}")
    )  # fmt: skip
    assert made.choices[0].also == ("no", "5")
    assert made.not_sure.planning == ("hay",)


KIND = """
kind: cutter
name: rotary cutter
plain: a blade deck
sized_by: area
area_job: rough_mowing
size_is: width
sizes:
  - {size: 5 ft, categories: ['1']}
  - {size: 1.8 m, variants: [trailed], categories: [1, '2'], mass: {value: 500 lb, grade: practice}}
variants:
  - {variant: mounted, name: carried, way: three_point}
  - variant: trailed
    name: pulled
    way: drawbar
    tongue: {low: 120 kg, high: 300 kg, grade: practice}
    oil: [{id: wheels, job: lift the wheels, acting: single, duty: hold, moves: stopped, must: false,
           flow: {low: 8 L/min, high: 25 L/min, grade: practice}}]
shaft:
  speeds: [540]
  engagement: live
  power_per_width: {low: 5 hp/ft, planning: 15 kW/m, high: 20 kW/m, grade: practice}
pull: {row: plough, depth: {value: 8 in, grade: practice}}
mass_per_width: {low: 200 kg/m, planning: 240 kg/m, high: 280 kg/m, grade: practice}
centre_behind_pins: {low: 1000 mm, planning: 1150 mm, high: 1350 mm, grade: practice}
"""


def test_a_kind_in_working_units() -> None:
    made = make_kind(_yaml(KIND), "mowing")
    assert made.sizes[0].width == made.sizes[0].value == pytest.approx(1.524)
    assert made.sizes[1].categories == ("1", "2")
    assert made.sizes[1].mass is not None
    assert made.sizes[1].mass.planning == pytest.approx(226.796185)
    assert made.shaft is not None
    assert made.shaft.power_per_width is not None
    assert made.shaft.power_per_width.low == pytest.approx(12.2326, rel=1e-5)
    assert made.centre_behind_pins is not None
    assert (made.centre_behind_pins.planning, made.centre_behind_pins.unit) == (1.15, "m")
    assert made.pull is not None
    assert made.pull.depth is not None
    assert (made.pull.depth.planning, made.pull.depth.unit) == (pytest.approx(20.32), "cm")
    assert made.variants[1].oil[0].flow is not None
    assert made.variants[1].oil[0].flow.planning == 25
    assert made.variants[1].oil[0].supply == "rear_set"
    assert made.features == {
        "three_point",
        "tilts",
        "drawbar",
        "shaft",
        "oil",
        "oil_options",
        "variants",
        "sizes",
        "width",
    }


def test_what_we_say_of_a_kind_by_ourselves() -> None:
    plain = make_kind(_yaml(KIND), "mowing")
    assert (plain.folds, plain.guard, plain.no_quick_coupler) == (False, False, False)
    assert (plain.tread, plain.done_without) == (None, None)
    more = "folds: true\nguard: true\nno_quick_coupler: true\ntread: turf\n"
    limits = "done_without: {what: a riding mower, area: 5 acre, load: 200 lb}\n"
    made = make_kind(_yaml(KIND + more + limits), "mowing")
    assert (made.folds, made.guard, made.no_quick_coupler, made.tread) == (True, True, True, "turf")
    assert made.done_without is not None
    assert made.done_without.what == "a riding mower"
    assert made.done_without.area == pytest.approx(2.0234, rel=1e-4)
    assert made.done_without.load == pytest.approx(90.718, rel=1e-4)


def test_force_per_width_and_for_the_whole() -> None:
    written = "{row: plough, depth: {value: 8 in, grade: practice}}"
    assert written in KIND
    wide = KIND.replace(written, "{per: width, force: {value: 6 kN/m, grade: practice}}")
    per_width = make_kind(_yaml(wide), "x")
    all_of_it = wide.replace("per: width, force: {value: 6 kN/m", "per: whole, force: {value: 1000 lbf")
    whole = make_kind(_yaml(all_of_it), "x")
    assert per_width.pull is not None
    assert per_width.pull.force is not None
    assert per_width.pull.force.unit == "kN/m"
    assert whole.pull is not None
    assert whole.pull.force is not None
    assert whole.pull.force.planning == pytest.approx(4.4482216)


def test_tables_requirements_and_sources() -> None:
    made = table(
        _yaml("{table: t, title: T, rows: [{row: clay, name: Clay, words: {fits: ['1', '2'], n: 3},"
              " figures: {pin: {value: 22 mm, grade: practice}, share: {low: 40 %, high: 45 %, grade: practice}}},"
              " {row: sand}]}")
    )  # fmt: skip
    assert list(made.rows) == ["clay", "sand"]
    assert made["clay"]["pin"].unit == "mm"
    assert made["clay"]["share"].planning == 45
    assert made["clay"].words == {"fits": ("1", "2"), "n": 3}
    assert made["sand"].name == "sand"
    need = requirement(
        _yaml("{id: p, group: g, title: T, what: W., sense: at_least, unit: kW, decides: planning, round_to: 1,"
              " check: Look., later: {can: no, what: Never.}, shown: {us: hp}}")
    )  # fmt: skip
    assert (need.later, need.later_what, need.round_to, need.shown) == ("no", "Never.", 1.0, {"us": "hp"})
    assert need.stand_in is False
    weights = _yaml("{id: w, group: g, title: T, what: W., sense: at_least, unit: kg, decides: planning, round_to: 10,"
                    " check: Look., later: {can: no}, stand_in: true}")  # fmt: skip
    assert requirement(weights).stand_in is True
    assert source(_yaml("{id: s, title: T, publisher: P, year: 2011, edition: 3}")).edition == "3"


@pytest.fixture
def files_read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    seen: list[str] = []

    def spy(path: Path, name: str | None = None) -> object:
        seen.append(name or path.name)
        return yaml_strict.read(path, name)

    monkeypatch.setattr(load_module, "read", spy)
    monkeypatch.setattr(shelf, "read", spy)
    return seen


def test_the_first_question_reads_two_files(files_read: list[str]) -> None:
    first = load().sections[0].questions[0]
    assert first.ask
    assert files_read == ["book.yaml", "sections/land.yaml"]


def test_each_file_is_read_once(files_read: list[str]) -> None:
    shipped = load()
    for _ in range(2):
        assert len(shipped.sections) == len(list(shipped.sections)) > 3
        assert shipped.kinds
        assert shipped.links
        assert len(shipped.families) > 5
        assert [t.id for t in shipped.tables.values()] == list(shipped.tables)
        assert shipped.requirements
        assert shipped.groups
        assert shipped.guides
        assert shipped.sources
    assert len(files_read) == len(set(files_read))


def test_links_are_never_items() -> None:
    shipped = load()
    assert set(shipped.links) == {"hydraulic_top_link", "hydraulic_side_link"}
    assert not set(shipped.links) & set(shipped.kinds)
    assert "links" not in [family.id for family in shipped.families]


def test_one_of_our_own_choices() -> None:
    assert load().choice("reserve_draft").planning == 1.25
    with pytest.raises(KeyError):
        load().choice("no_such_choice")


def test_a_book_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(BookError, match=r"book.yaml: there is no such file\."):
        load(tmp_path)


def test_a_checked_book_is_refused_with_its_places(tmp_path: Path) -> None:
    copy = tmp_path / "book"
    shutil.copytree(book_folder(), copy)
    land = copy / "sections" / "land.yaml"
    land.write_text(land.read_text(encoding="utf-8").replace("dimension: area", "dimension: aera", 1), encoding="utf-8")
    assert load(copy).id == "firstfurrow"
    with pytest.raises(BookError) as refused:
        require(copy)
    assert [(p.file, p.message[:4]) for p in refused.value.problems] == [("sections/land.yaml", "aera")]
    assert refused.value.problems[0].line > 1


def test_lazy_containers_behave_like_the_real_ones() -> None:
    mapping = LazyMapping(lambda: {"a": 1, "b": 2})
    files = LazyFiles(["x", "y"], str.upper)
    sequence = LazySequence(["x", "y", "z"], str.upper)
    assert (dict(mapping), len(mapping), repr(mapping)) == ({"a": 1, "b": 2}, 2, "{'a': 1, 'b': 2}")
    assert (dict(files), len(files)) == ({"x": "X", "y": "Y"}, 2)
    assert ("x" in files, "q" in files, files.get("q")) == (True, False, None)
    assert (sequence[-1], sequence[:2], list(sequence), len(sequence)) == ("Z", ("X", "Y"), ["X", "Y", "Z"], 3)
    assert repr(files) == "{'x': 'X', 'y': 'Y'}"
    assert repr(sequence) == "('X', 'Y', 'Z')"
    with pytest.raises(IndexError):
        sequence[3]
