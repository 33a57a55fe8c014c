"""Checking an edited book: each rule finds its mistake, says it in a sentence, and says where it stands."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from firstfurrow.book.check import Checked, check, examine, require
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.load import load
from firstfurrow.book.places import book_folder
from firstfurrow.book.problems import BookError, Problem, abridged, did_you_mean
from firstfurrow.book.rules import sentences
from firstfurrow.book.yaml_strict import parse_marked
from firstfurrow.commands.book_check import lines

FILES = {
    "book.yaml": """\
id: small
version: 1
sections: [land, tools, after]
families: [mowing, links]
tables: [field_rates, draft, rotary_power, hitch_categories, size_classes, soils]
""",
    "sections/land.yaml": """\
id: land
title: Your land
intro: First the land.
questions:
  - id: jobs
    type: several
    ask: Which jobs?
    why: Jobs decide.
    moves: [power]
    choices:
      - {id: mow, label: mow grass, also: [cut]}
      - {id: hay, label: make hay}
    not_sure: {how: left_out}
  - id: mow_area
    type: quantity
    dimension: area
    ask: How much?
    why: It gives the width.
    how: pace
    when: {all: [{answer: jobs, includes: mow}]}
    bands: [{label: a garden, value: 0.2 ha}, {label: a field, value: 2 ha}]
    bare: {us: acre, metric: ha}
    not_sure: {how: planned, planning: 2 ha, low: 1 ha, high: 3 ha}
    plausible: [0.1 ha, 50 ha]
    possible: [0 ha, 500 ha]
  - id: soil
    type: choice
    ask: Which soil?
    why: Soil decides.
    choices: [{id: sand, label: sand}, {id: clay, label: clay}]
    not_sure: {how: planned, planning: clay, low: sand, high: clay}
""",
    "sections/tools.yaml": """\
id: tools
title: Tools
intro: Then the tools.
group:
  id: tools
  title: Tool
  most: 40
  questions:
    - id: kind
      type: kind
      ask: What is it?
      why: It decides.
      not_sure: {how: refused, say: Name one.}
    - id: variant
      type: variant
      ask: How is it built?
      why: It decides.
      when: {all: [{item: kind, has: variants}]}
      not_sure: {how: from_book}
    - id: size
      type: size
      ask: What size?
      why: It decides.
      when: {all: [{item: kind, has: sizes}]}
      not_sure: {how: from_book}
  closes:
    id: complete
    type: choice
    ask: Another?
    why: The list counts.
    choices: [{id: another, label: another one}, {id: that_is_all, label: that is all}]
    not_sure: {how: refused, say: Say it.}
""",
    "sections/after.yaml": """\
id: after
title: After
intro: At last.
questions:
  - id: gate
    type: quantity
    dimension: length
    ask: How wide is the gate?
    why: It is a ceiling.
    when: {all: [{any_item: kind, has: width}]}
    not_sure: {how: not_determined}
""",
    "implements/mowing.yaml": """\
family: mowing
title: Mowing
kinds:
  - kind: cutter
    name: rotary cutter
    plain: a blade deck
    jobs: [mow]
    sized_by: area
    area_job: mow
    size_is: width
    sizes:
      - {size: 1.2 m, categories: ['1']}
      - {size: 1.5 m, categories: ['1']}
    variants:
      - {variant: mounted, name: carried, way: three_point}
      - {variant: trailed, name: pulled, way: drawbar}
    shaft: {speeds: [540], engagement: live, power_per_width: {low: 8 kW/m, high: 16 kW/m, grade: practice}}
    mass_per_width: {low: 140 kg/m, high: 190 kg/m, grade: read, source: book_a, where: page}
    centre_behind_pins: {low: 850 mm, planning: 1000 mm, high: 1150 mm, grade: practice}
    speed: {low: 3 km/h, high: 8 km/h, grade: practice}
    field_rate: mower
    needs: [a slip clutch]
""",
    "implements/links.yaml": """\
family: links
title: Links
kinds:
  - kind: top_link
    name: hydraulic top link
    plain: an oil cylinder
    sized_by: none
    size_is: label
    sizes: [{size: usual}]
    variants: [{variant: usual, name: usual, way: link}]
""",
    "tables/field_rates.yaml": """\
table: field_rates
title: Field rates
rows:
  - {row: mower, figures: {speed: {value: 5 km/h, grade: practice}}}
  - {row: rake, figures: {speed: {value: 8 km/h, grade: derived, from: the mower}}}
""",
    "tables/draft.yaml": "{table: draft, title: Draft, rows: [{row: plough}]}\n",
    "tables/rotary_power.yaml": "{table: rotary_power, title: Power, rows: [{row: tedder}]}\n",
    "tables/hitch_categories.yaml": "{table: hitch_categories, title: Hitch, rows: [{row: '1'}, {row: limited_1}]}\n",
    "tables/size_classes.yaml": (
        "{table: size_classes, title: Classes,"
        " rows: [{row: compact, figures: {power: {value: 20 kW, grade: practice}}}]}\n"
    ),
    "tables/soils.yaml": "{table: soils, title: Soils, rows: [{row: sand}, {row: clay}]}\n",
    "requirements.yaml": """\
groups: {shaft: Shaft}
requirements:
  - id: power
    group: shaft
    title: Power
    what: Power at the shaft.
    sense: at_least
    unit: kW
    decides: planning
    round_to: 1
    check: Look at the plate.
    later: {can: no, what: It cannot be added.}
    class_column: power
""",
    "sources.yaml": "sources: [{id: book_a, title: A, publisher: P}]\n",
    "guides.yaml": "guides: [{id: pace, title: Pacing, steps: [Walk 10 steps.]}]\n",
    "glossary.yaml": "words: {PTO: the turning shaft}\n",
    "messages.yaml": "messages: {thanks: Type 1 or 2.}\n",
    "settings.yaml": "{home: {title: H, intro: I}, floor: {title: F, intro: I}, class: {title: C, intro: I},\n"
    " owned: {title: O, intro: I, skips: []}, sizes: {title: S, intro: I, ground: {}}}\n",
}

Change = Callable[[str, str, str], None]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def change(folder: Path) -> Change:
    def apply(name: str, old: str, new: str) -> None:
        path = folder / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) >= 1
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    return apply


def test_the_small_book_is_right(folder: Path) -> None:
    checked = examine(folder)
    assert checked.problems == ()
    notes = [(n.title, [f"{p.place}: {p.what}" for p in n.found]) for n in checked.notes]
    assert notes[:2] == [
        ("Implements, jobs, guides and words that nothing leads to", [
            "sections/land.yaml:12:14: no implement does the job hay.",
            'glossary.yaml:1:9: the word "PTO" stands in no text.',
        ]),
        ("Questions that name no guide", [
            "sections/tools.yaml:14:11: variant names no guide.", "sections/tools.yaml:20:11: size names no guide.",
            "sections/after.yaml:5:9: gate names no guide.",
        ]),
    ]  # fmt: skip
    assert checked.proof is not None
    assert checked.proof.holds
    require(folder)


LAND, TOOLS, AFTER = "sections/land.yaml", "sections/tools.yaml", "sections/after.yaml"
MOW, RATES = "implements/mowing.yaml", "tables/field_rates.yaml"
NEEDS = "    needs:"

MISTAKES = [
    # shape
    (LAND, "why: Jobs decide", "wyh: Jobs decide", '8:5: "wyh" is not known here. Did you mean "why"?'),
    (LAND, "    why: Jobs decide.\n", "", '5:5: "why" is missing in jobs.'),
    (LAND, "label: make hay}", "lable: make hay}", '12:19: "lable" is not known here. Did you mean "label"?'),
    (LAND, "type: several", "type: severl", "6:11: severl is not allowed for type; allowed: choice, several"),
    (LAND, "how: left_out", "how: yes", "13:21: yes is not allowed for how"),
    (LAND, "moves: [power]", "moves: power", '9:12: moves must be a list, not "power".'),
    (LAND, "id: mow,", "id: Mow,", '11:14: "Mow" is not an id; use lower case'),
    (LAND, "[{label: a garden, value: 0.2 ha}, {label: a field, value: 2 ha}]", "[]", "21:12: bands is empty."),
    (TOOLS, "most: 40", "most: 41", "7:9: most must be at most 40."),
    (TOOLS, "most: 40", "most: lots", '7:9: most must be a whole number, not "lots".'),
    ("book.yaml", "[mowing, links]", "[mowing, links, links]", "4:11: families has the same entry twice."),
    ("book.yaml", "[mowing, links]", "[mowing, links, snow]", "snow.yaml: there is no such file."),
    ("settings.yaml", "class:", "clas:", '"clas" is not known here. Did you mean "class"?'),
    (MOW, "grade: read", "grade: guess", "18:60: guess is not allowed for grade"),
    # names
    (LAND, "id: land\n", "id: lnd\n", '1:5: the id is "lnd", but the file is land.yaml.'),
    (LAND, "id: soil\n", "id: jobs\n",
     '26:9: the question "jobs" is there twice; the first one is in sections/land.yaml:5.'),
    (LAND, "id: hay", "id: mow", '12:14: the choice "mow" is there twice'),
    (MOW, "size: 1.5 m", "size: 1.2 m", '13:16: the size "1.2 m" is there twice'),
    (MOW, "variant: trailed", "variant: mounted", 'the variant "mounted" is there twice'),
    (LAND, "how: pace", "how: pase", '19:10: there is no guide "pase". Did you mean "pace"?'),
    (LAND, "moves: [power]", "moves: [powr]", '9:13: there is no requirement "powr". Did you mean "power"?'),
    (LAND, "id: clay", "id: loam", 'there is no row of the table soils "loam".'),
    (MOW, "jobs: [mow]", "jobs: [moww]", 'there is no job "moww". Did you mean "mow"?'),
    (MOW, "area_job: mow", "area_job: hay", "no question asks for the area of the job hay."),
    (MOW, "field_rate: mower", "field_rate: mowr", 'there is no row of the table of field rates "mowr".'),
    (MOW, "categories: ['1']", "categories: ['4']", '12:36: there is no hitch category "4".'),
    (MOW, "{size: 1.5 m,", "{size: 1.5 m, variants: [towed],", 'there is no variant "towed".'),
    (MOW, "    needs:", "    pull: {row: plow}\n    needs:", 'there is no row of the draft table "plow".'),
    (MOW, "engagement: live,", "engagement: live, rotary_row: tedd,",
     'there is no row of the table of rotary power "tedd".'),
    ("implements/links.yaml", "way: link", "way: drawbar", "a kind of the family links has only the way link."),
    ("requirements.yaml", "group: shaft", "group: shft", 'there is no group "shft". Did you mean "shaft"?'),
    ("requirements.yaml", "class_column: power", "class_column: mass",
     "there is no column of the table of size classes"),
    ("requirements.yaml", "sense: at_least", "sense: level", "levels are for the sense level, and needed there."),
    # questions
    (LAND, "why: Jobs decide.", "why: Jobs decide", "8:10: why must end with a period or a question mark."),
    (LAND, "    dimension: area\n", "", "a quantity needs a dimension, and nothing else has one."),
    (LAND, "id: hay,", "id: off,", '12:14: "off" cannot be a choice id'),
    (LAND, "also: [cut]", "also: [Hay]", '"hay" stands for mow and for hay.'),
    (LAND, ", {id: clay, label: clay}", "", "a choice question needs at least two choices."),
    (LAND, "value: 0.2 ha", "value: 3 ha", "21:45: bands stand in order, the smallest first."),
    (LAND, "value: 2 ha", "value: 2000 ha", "this band is outside possible and could never be taken."),
    (LAND, "value: 2 ha", "value: 2 kg", "21:71: That is a mass; an area is asked for."),
    (LAND, "us: acre", "us: ft", '"ft" is not a unit here; allowed: ha, m2, acre, sq ft.'),
    (LAND, "possible: [0 ha, 500 ha]", "possible: [0 ha, 40 ha]", "plausible reaches outside possible."),
    (LAND, "possible: [0 ha, 500 ha]", "possible: [500 ha, 0 ha]", "possible begins above its end."),
    (LAND, "low: 1 ha", "low: 4 ha", "low, planning and high are not in order."),
    (LAND, "high: 3 ha}", "high: 600 ha}", "the range for not sure reaches outside possible."),
    (LAND, "low: 1 ha, ", "", "planned needs low, planning and high; low is missing."),
    (LAND, "planning: clay", "planning: cley", 'there is no choice "cley" in soil.'),
    (LAND, "how: left_out}", "how: left_out, low: mow}", "low is for planned."),
    (LAND, "how: left_out}", "how: from_book}", "from_book is for questions about one implement."),
    (TOOLS, "{how: refused, say: Name one.}", "{how: refused}", "refused needs say: what to do instead."),
    (TOOLS, "id: that_is_all", "id: all_done", "needs the choices another and that_is_all."),
    # conditions
    (LAND, "answer: jobs, includes: mow}", "answer: job, includes: mow}",
     'there is no question "job". Did you mean "jobs"?'),
    (LAND, "includes: mow}", "includes: mov}", 'jobs has no choice "mov". Did you mean "mow"?'),
    (LAND, "includes: mow}", "is: mow}", "is does not suit jobs, which is of the type several."),
    (LAND, "answer: jobs, includes: mow}", "answer: soil, is: clay}", "soil is asked after mow_area"),
    (LAND, "{answer: jobs, includes: mow}", "{answer: jobs}", "a part of a condition is either all, any or not"),
    (LAND, "{answer: jobs, includes: mow}", "{all: [{any: [{not: [{answer: jobs, includes: mow}]}]}]}",
     "three levels deep"),
    (LAND, "{answer: jobs, includes: mow}", "{item: jobs, includes: mow}", "write answer before it."),
    (AFTER, "any_item: kind", "item: kind", "item is for questions inside the group; outside it write any_item."),
    (AFTER, "any_item: kind", "answer: kind", "write any_item before it."),
    (TOOLS, "item: kind, has: variants", "any_item: kind, has: variants", "any_item is for questions after the group."),
    (AFTER, "any_item: kind, has: width", "answer: mow_area, at_least: 3 kg", "That is a mass; an area is asked for."),
    # figures
    (MOW, "low: 8 kW/m", "low: 18 kW/m", "low is greater than high."),
    (MOW, "low: 8 kW/m", "low: 8 kg", "That is a mass; a power for each width is asked for."),
    (MOW, "low: 8 kW/m", "low: 8", "8 has no unit; write it like 15 kW/m or 6 hp/ft."),
    (MOW, "low: 8 kW/m, ", "", "a figure is written as value alone, or as low and high"),
    (MOW, ", where: page", "", 'a figure of the grade read needs "where".'),
    (MOW, "source: book_a", "source: book_b", 'there is no source "book_b". Did you mean "book_a"?'),
    (MOW, "16 kW/m, grade: practice", "16 kW/m, grade: practice, source: book_a", "common practice has no source"),
    (MOW, "16 kW/m, grade: practice", "16 kW/m, grade: derived", 'the grade derived needs "from"'),
    (MOW, "16 kW/m, grade: practice", "16 kW/m, grade: practice, from: it", '"from" is for the grade derived.'),
    (RATES, "value: 8 km/h", "value: 8 kg", "the column speed of field_rates has km/h above and kg here."),
    (MOW, "size: 1.2 m", "size: 1.8 m", "13:16: sizes stand in order, the smallest first."),
    (MOW, "size: 1.2 m", "size: small", '"small" does not begin with a number I can read.'),
    # figures that can hardly be meant
    (MOW, "high: 16 kW/m", "high: 160 kW/m", "power_per_width is 160 kW/m: hardly any tool has so much."),
    (MOW, "low: 140 kg/m", "low: 1.4 kg/m", "mass_per_width is 1.4 kg/m: hardly any tool has so little."),
    (MOW, "low: 3 km/h", "low: 0.03 km/h", "speed is 0.03 km/h: hardly any tool has so little."),
    (MOW, "size: 1.5 m, categories: ['1']", "size: 1.5 m, categories: ['1'], mass: {value: 4400 kg, grade: practice}",
     "13:48: the mass of this size (4400 kg) does not go with the size: 2933.33 for each unit of its size"),
    (MOW, "size: 1.5 m, categories: ['1']", "size: 1.5 m, categories: ['1'], mass: {value: 1140 kg, grade: practice}",
     "for each unit of its size it is 4 times more than for the size above."),
    ("tables/size_classes.yaml", "grade: practice}}}]", "grade: practice}}},"
     " {row: large, figures: {power: {value: 2 kW, grade: practice}}}]", "power of large is less than that of compact"),
    # what a name in a table, an implement or a setting leads to
    (MOW, "engagement: live,", "engagement: live, hard_by: growth,", 'there is no question "growth".'),
    (MOW, NEEDS, "    leads: [wagon]\n    needs:", '22:13: there is no kind of implement "wagon".'),
    ("settings.yaml", "floor: {title: F, intro: I}", "floor: {title: F, intro: I, against_the_ranking: {soill: said}}",
     '1:80: there is no question "soill". Did you mean "soil"?'),
    ("tables/size_classes.yaml", "{row: compact,", "{row: compact, words: {hitch_category: '9'},",
     'there is no hitch category "9".'),
    # kinds
    (MOW, "    area_job: mow\n", "", "a kind that is sized by area needs area_job."),
    (MOW, "    speed: {low: 3 km/h, high: 8 km/h, grade: practice}\n", "", "needs its working speed."),
    (MOW, ", power_per_width: {low: 8 kW/m, high: 16 kW/m, grade: practice}", "", "the shaft names no power"),
    (MOW, "size: 1.5 m, categories: ['1']", "size: 1.5 m", "a size that hangs on the three arms needs categories."),
    (MOW, "    centre_behind_pins:", "    load:", "That is a length; a mass is asked for."),
    (MOW, "    mass_per_width: {low: 140 kg/m, high: 190 kg/m, grade: read, source: book_a, where: page}\n", "",
     "the mass of this size as mounted is not known."),
    (MOW, "way: drawbar", "way: loader", "a loader tool needs load_centre_ahead."),
    (MOW, "    needs:", "    pull: {per: width}\n    needs:", "per and force belong together."),
    (MOW, "    needs:", "    pull: {row: plough}\n    asks_depth: true\n    needs:", "needs the usual depth here."),
    (MOW, NEEDS, "    done_without: {what: a scythe}\n    needs:", "done_without needs area or load"),
    (MOW, NEEDS, "    done_without: {what: a cart, load: 9 kg}\n    needs:", "a load is for a kind that is sized"),
    (MOW, NEEDS, "    done_without: {what: a scythe, area: 9 kg}\n    needs:", "That is a mass; an area is asked for."),
    (MOW, NEEDS, "    tread: soft\n    needs:", "soft is not allowed for tread; allowed: turf, lug."),
    ("implements/links.yaml", "    size_is", "    done_without: {what: a rod, area: 1 ha}\n    size_is",
     "an area is for a kind with area_job."),
    # prose
    (MOW, NEEDS, "    done_without: {what: 2 goats, area: 1 ha}\n    needs:", "a figure stands in a sentence"),
    (LAND, "ask: Which jobs?", "ask: Which 3 jobs?", '7:10: a figure stands in a sentence ("3")'),
    (LAND, "label: a garden", "label: 10 paces", "a figure stands in a sentence"),
    (MOW, "needs: [a slip clutch]", "needs: [a 40 mm pin]", '22:13: a figure stands in a sentence ("40")'),
    ("glossary.yaml", "the turning shaft", "turns 540 times", 'a figure stands in a sentence ("540")'),
    ("requirements.yaml", "what: It cannot", "what: Within 2 years it cannot", "a figure stands in a sentence"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new", "said"), MISTAKES)
def test_each_mistake_is_found_at_its_place(
    folder: Path, change: Change, name: str, old: str, new: str, said: str
) -> None:
    change(name, old, new)
    problems = check(folder)
    found = [str(problem) for problem in problems]
    assert [line for line in found if said in line], found
    for problem, line in zip(problems, found, strict=True):
        assert re.match(r"[a-z_/]+\.yaml(:\d+:\d+)?: .*[.?]$", line), line
        assert_says_why_and_what_to_write(problem)


def assert_says_why_and_what_to_write(problem: Problem) -> None:
    assert problem.what.endswith((".", "?")), problem
    assert problem.why.endswith("."), problem
    assert problem.write.endswith("."), problem
    for text in (problem.what, problem.why, problem.write):
        assert not re.search(r"\b(please|simply|sorry|invalid|null|dict|str)\b", text), text


def test_a_mistake_in_yaml_is_said_with_its_line(folder: Path, change: Change) -> None:
    change(LAND, "type: several", "type: several\n    type: choice")
    (problem,) = check(folder)
    assert (problem.place, problem.what) == (
        "sections/land.yaml:7:5", '"type" is written twice; the first one is in line 6.'
    )  # fmt: skip


def test_a_file_that_nobody_lists_is_said(folder: Path) -> None:
    (folder / "tables" / "extra.yaml").write_text("{table: extra, title: E, rows: [{row: a}]}\n", encoding="utf-8")
    assert [(p.place, p.what) for p in check(folder)] == [
        ("book.yaml:5:9", "tables/extra.yaml is there but not listed under tables.")
    ]


def test_an_empty_file_and_a_missing_one_are_said(folder: Path) -> None:
    (folder / "guides.yaml").write_text("# nothing\n", encoding="utf-8")
    (folder / "sources.yaml").unlink()
    assert {f"{p.place}: {p.what}" for p in check(folder)} == {
        "guides.yaml: the file is empty.",
        "sources.yaml: there is no such file.",
    }


def test_a_source_that_nobody_names_is_a_note(folder: Path, change: Change) -> None:
    change("sources.yaml", "publisher: P}", "publisher: P}, {id: book_c, title: C, publisher: P}")
    checked = examine(folder)
    assert checked.problems == ()
    first = checked.notes[0]
    assert first.title == "Sources that stand behind no figure"
    assert [f"{p.place}: {p.what}" for p in first.found] == ['sources.yaml:1:54: no figure names the source "book_c".']


def test_the_proof_speaks_with_file_and_line(folder: Path, change: Change) -> None:
    change(AFTER, "{any_item: kind, has: width}", "{answer: mow_area, at_least: 3 ha}")
    (problem,) = examine(folder).problems
    assert str(problem).startswith(
        "sections/after.yaml:5:9: the condition of gate reads mow_area, which may not have been asked."
        " Answers that lead there: jobs=hay."
    )
    assert problem.leads == ("jobs=hay",)
    assert_says_why_and_what_to_write(problem)


def test_nothing_is_proven_while_the_rest_is_wrong(folder: Path, change: Change) -> None:
    change(LAND, "how: pace", "how: pase")
    checked = examine(folder)
    assert isinstance(checked, Checked)
    assert len(checked.problems) == 1
    assert checked.proof is None
    with pytest.raises(BookError, match="Did you mean"):
        require(folder)


def test_of_many_problems_with_the_same_words_three_are_shown_and_the_rest_counted(folder: Path) -> None:
    same = [Problem("a", line, 1, "it is odd.") for line in range(1, 24)]
    other = Problem("b", 1, 1, "it is empty.")
    shown = abridged([*same, other])
    assert [(p.line, more) for p, more in shown] == [(1, 0), (2, 0), (3, 20), (1, 0)]
    assert str(BookError(same)).splitlines()[-1] == "and at 20 more places the same."
    assert len(abridged(same[:20])) == 20
    printed = list(lines(Checked((*same, other)), every_note=False))
    assert "  and at 20 more places the same." in printed
    assert "24 things are wrong." in printed


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("label: make hay}", "label: make hay, dry}", '12:36: a comma ends the text before "dry"'),
        ("label: make hay}", "label: make hay, or not}", '12:36: a comma ends the text before "or not".'),
        ("label: make hay}", "label:hay}", "12:19: a space is missing after the colon."),
        ("label: make hay}", "label: \u201cmake hay, dry\u201d}", "12:37: curly quotes stand round this text"),
        ("why: Soil decides.", "why: \u201cSoil decides.\u201d", "29:10: curly quotes stand round this text"),
        ("ask: Which soil?", "aks: Which soil?", '28:5: "aks" is not known here. Did you mean "ask"?'),
    ],
)
def test_a_slip_that_still_is_yaml_is_named_by_its_cause(
    folder: Path, change: Change, old: str, new: str, says: str
) -> None:
    change(LAND, old, new)
    first = check(folder)[0]
    assert f"{first.place}: {first.what}".startswith(f"{LAND}:{says}")


def test_a_question_that_is_there_twice_brings_no_other_problem(folder: Path, change: Change) -> None:
    change(AFTER, "any_item: kind, has: width", "answer: soil, is: clay")
    change(LAND, "id: mow_area\n", "id: soil\n")
    change(MOW, "    area_job: mow\n", "")
    change(MOW, "sized_by: area", "sized_by: none")
    assert [p.what for p in check(folder)] == [
        'the question "soil" is there twice; the first one is in sections/land.yaml:14.'
    ]


def test_problems_sort_by_file_and_line() -> None:
    mixed = [Problem("b", 1, 1, "x."), Problem("a", 10, 1, "x."), Problem("a", 9, 3, "x."), Problem("a", 0, 0, "x.")]
    assert [str(p) for p in sorted(mixed)] == ["a: x.", "a:9:3: x.", "a:10:1: x.", "b:1:1: x."]
    assert did_you_mean("soill", ["soil", "stones"]) == ' Did you mean "soil"?'


def test_an_edited_sentence_may_only_use_slots_that_are_filled(tmp_path: Path) -> None:
    text = (book_folder() / "reasons.yaml").read_text(encoding="utf-8")
    files = Files(book_folder())

    def found(old: str, new: str) -> list[Problem]:
        assert old in text
        files.read["reasons.yaml"] = Placed(*parse_marked(text.replace(old, new), "reasons.yaml"), ())
        return list(sentences.problems(files))

    assert found("", "") == []
    [problem] = found('moved: "mass that climbs: tractor and {item}"', "moved: one heavy {thing}")
    assert "reasons.yaml:" in str(problem)
    assert "{thing} is not filled in here; there is item" in str(problem)
    [problem] = found("  your_land: your land\n", "  your_lnad: my land\n")
    assert 'Did you mean "your_land"?' in str(problem)
    shutil.copytree(book_folder(), tmp_path / "book")
    (tmp_path / "book" / "reasons.yaml").unlink()
    assert load(tmp_path / "book").messages["reason.your_land"] == "your land"  # the shipped sentence stands in
