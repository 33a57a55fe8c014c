"""Every kind of input that the program reads, broken: a number gives the files, the command line, and what is typed."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from breaking import broken, broken_text, word
from watched import the_book

from firstfurrow.book.places import book_folder
from firstfurrow.talk.commands import WORDS
from firstfurrow.talk.recordings import Recording, shipped

# A plan that is worked out at once: one implement on level ground.
PLAN = """\
format: firstfurrow-answers/1
book: {id: firstfurrow, version: 1}
name: A plan to break
units: us
notes:
  - 'Invented. No real person, place or machine is meant.'
answers:
  land_area: 3 acre
  land_shape: [flat]
  jobs: [grading]
  soil: loam
  surface: gravel
  stones: some
  altitude: 400 m
  heat: mild
  implements:
    - {item: i1, kind: box_blade, when: now, size: 5 ft, with: [none_of_these], rank: must, often: not sure}
  implements_complete: that_is_all
  tow_other: nothing
  drive: gears
  quick_coupler: pins
  driver: some
  road: never
  gate_width: 10 ft
  door_width: not sure
  door_height: not sure
  tight_more: not sure
kept:
  - {contradiction: no_such_one, at: soil, answers: [clay]}
aside:
  i1.variant: mounted
"""
OFFER = """\
format: firstfurrow-offer/1
name: A tractor to break
notes: ['Invented. No real tractor, maker or seller is meant.']
offer:
  engine_power: 38 hp
  pto_power: 30.5 hp
  pto_speeds: 540
  shaft_types: type 1
  rear_ports: 4
  pump_flow: 9.5 gpm
  oil_pressure: 2450 psi
  hitch_category: 1
  lift_ball_ends: 2600 lb
  mass_bare: 3150 lb
  driven_wheels: four
  loader_functions: 2
  transmission: hydrostatic
  width: 62 in
  height: 96 in
  roll_bar: roll bar and belt
  road_kit: [lights, emblem]
"""
LIST = """\
name;engine_power;pto_power;rear_ports;hitch_category;lift_ball_ends;mass_bare;road_kit;transmission
Blue one;38 hp;30 hp;4;1;2600 lb;3150 lb;lights, emblem;hydrostatic
"Red; one";25 hp;19 hp;2;1;1400 lb;1900 lb;;gears
Third;28 kW;22 kW;0;1, 2;900 kg;1500 kg;lights;
"""
TITLE = "id: mine\nname: Mine (invented)\nversion: 1\nfor: {id: firstfurrow, version: 1}\n"
TYPED = (
    "1",
    "1",
    "3 acre",
    "flat",
    "grading",
    "unsure",
    "gravel",
    "unsure",
    "",
    "box blade",
    "buy",
    "5 ft",
    "none",
    "must",
    "season",
)
MEASURED = (
    "hitch",
    "1",
    "unsure",
    "3/4 in",
    "26 in",
    "",
    "shaft",
    "1 3/8 in",
    "6",
    "slope",
    "10 %",
    "",
    "answers",
    "how",
    "back",
)
ENDING = (
    "sheet", "print", "plans", "undo", "so far", "answers", "what if 7", "what if add", "what if without",
    "what if without box blade",
    "compare", "compare 1", "keep", "take plan", "take plan 1", "change 1", "c 4", "20 acre", "clay", "finish mower",
    "remove i1",
    "add implement", "steps power", "words PTO", "help", "why", "back", "yes", "no", "keep both", "dry year", "1",
    "2", "",
)  # fmt: skip
WALKED = (
    "A tractor",
    "38 hp",
    "30 hp",
    "540",
    "",
    "go 5",
    "4",
    "back",
    "none",
    "list",
    "why",
    "how",
    "unsure",
    "9.5 gpm",
    "save",
)
STATIONS = (
    "hitch",
    "shaft",
    "couplers",
    "drawbar",
    "ports",
    "slope",
    "area",
    "tongue",
    "tongue load",
    "walk-around",
    "walk around",
)


@dataclass
class Case:
    """One run: its command line, what is typed, and the files that it may write."""

    argv: list[str]
    typed: bytes = b""
    may_change: list[str] = field(default_factory=list)
    also: float = 0.0  # seconds that a good input of this sort takes above others


Make = Callable[[random.Random, Path], Case]


@cache
def recordings() -> tuple[Recording, ...]:
    """Those that come with the program."""
    return shipped()


@cache
def texts() -> Mapping[str, str]:
    """Answers files of the recordings by name, and a small one."""
    return {r.name: (r.folder / "answers.yaml").read_text(encoding="utf-8") for r in recordings()} | {"small": PLAN}


def put(path: Path, content: bytes | str) -> Path:
    """Write it, with its folder."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return path


def odd_file(rng: random.Random, path: Path) -> None:
    """Something else in place of a file: nothing, a folder, a link that goes round, leads nowhere or has no end."""
    if path.is_dir():
        return
    path.unlink(missing_ok=True)
    way = rng.randrange(7)
    if way == 0:
        path.mkdir(parents=True)
    elif way == 1:
        path.symlink_to(path.name)
    elif way == 2:
        path.symlink_to("nowhere")
    elif way == 3:
        path.symlink_to(".")
    elif way == 4:
        path.symlink_to("/dev/zero")
    elif way == 5:
        put(path, b"").chmod(0)


def broken_or_odd(rng: random.Random, path: Path, good: str, odd: float = 0.04) -> None:
    """The broken text at that place, or something that is no text at all."""
    put(path, broken(rng, good))
    if rng.random() < odd:
        odd_file(rng, path)


# ------------------------------------------------------------------------------------ what is typed


@cache
def _vocabulary() -> tuple[str, ...]:
    """What a reader might type at some question: labels, ids, kinds, commands."""
    book = the_book()
    words = list(WORDS)
    for section in book.sections:
        group = section.group
        for question in (*section.questions, *(group.questions if group is not None else ())):
            words += [choice.id for choice in question.choices] + [choice.label for choice in question.choices]
    words += [kind.name for kind in book.kinds.values()]
    return tuple(words)


def typed_line(rng: random.Random) -> str:
    """One line: a number, a word, a quantity, a command, or something odd."""
    chance = rng.random()
    if chance < 0.2:
        return str(rng.choice((0, 1, 2, 3, 4, 5, 7, 12, 99, -1, 10**30)))
    if chance < 0.45:
        return rng.choice(_vocabulary())
    if chance < 0.6:
        unit = rng.choice(("ft", "acre", "%", "lb", "in", "hp", "deg", "kg", "mph", "m", "gpm", "psi", "h", "min"))
        return f"{rng.choice((0, 1, 2.5, 6, 10, 40, 500, 1e6))} {unit}"
    if chance < 0.75:
        about = rng.choice(
            (
                "change",
                "remove",
                "what if",
                "words",
                "steps",
                "compare",
                "take plan",
                "pairs",
                "examples",
                "c",
                "t",
                "g",
            )
        )
        rest = rng.choice(
            ("1", "7", "0", "-1", "99", "i1", "add", "without", "without i1", "without box blade", "PTO", "power")
        )
        return f"{about} {rest if rng.random() < 0.8 else word(rng)}"
    return word(rng)


def typed(rng: random.Random, good: tuple[str, ...], most: int = 14) -> bytes:
    """Good lines with odd ones between them."""
    begun = rng.choice((0, 2, len(good) // 2, len(good)))
    lines = [line for line in good[:begun] if rng.random() < 0.95]
    for _ in range(rng.randint(0, most)):
        lines.insert(rng.randint(len(lines) * 2 // 3, len(lines)), typed_line(rng))
    raw = "\n".join(lines).encode("utf-8", "surrogatepass") + rng.choice((b"\n", b"\n", b"", b"\nsave\n", b"\n\n\n\n"))
    if rng.random() < 0.05:
        raw = broken_text(rng, raw.decode("utf-8", "replace"))
    return raw


# --------------------------------------------------------------------------------------- the kinds


def answers(rng: random.Random, here: Path) -> Case:
    """A broken answers file: gone on with, or advised on."""
    chance = rng.random()
    if chance < 0.8:
        good = texts()[rng.choice(list(texts()))]
        broken_or_odd(rng, here / "a.yaml", good)
        return Case(["--plain", "--resume", "a.yaml"], rng.choice((b"", b"save\n", b"answers\nsave\n")), ["a.yaml"])
    broken_or_odd(rng, here / "a.yaml", PLAN)
    form = rng.choice((["--sheet"], ["--sheet"], ["--short"], ["--format", "json"]))
    if chance < 0.95:
        return Case(["advise", "a.yaml", *form])
    return Case(["sheet", "seller", "--answers", "a.yaml"])


def offer(rng: random.Random, here: Path) -> Case:
    """A broken offer in YAML: checked, walked around, sized, talked about."""
    broken_or_odd(rng, here / "o.yaml", OFFER)
    chance = rng.random()
    if chance < 0.3:
        put(here / "a.yaml", PLAN)
        return Case(["check", "a.yaml", "o.yaml", *rng.choice(([], ["--strict"], ["--format", "json"]))])
    if chance < 0.5:
        return Case(["sizes", "o.yaml", "box blade"])
    if chance < 0.7:
        return Case(["--plain", "--tractor", "o.yaml"], b"1\nsave\n", ["firstfurrow-answers*.yaml"])
    return Case(["measure", "walk-around", "--plain", "--out", "o.yaml"], b"list\n30 hp\nsave\n", ["o.yaml", "nowhere"])


def offer_list(rng: random.Random, here: Path) -> Case:
    """A broken list of offers with separators."""
    good = LIST.replace(";", rng.choice((";", ",", "\t"))) if rng.random() < 0.5 else LIST
    name = rng.choice(("l.csv", "l.csv", "l.tsv", "l.txt"))
    put(here / name, broken_text(rng, good))
    if rng.random() < 0.04:
        odd_file(rng, here / name)
    chance = rng.random()
    if chance < 0.5:
        return Case(["--plain", "--tractor", name], b"1\nsave\n", ["firstfurrow-answers*.yaml"])
    if chance < 0.7:
        return Case(["sizes", name, "box blade"], also=2)
    put(here / "a.yaml", PLAN)
    return Case(["check", "a.yaml", name, *rng.choice(([], ["--strict"], ["--format", "json"]))], also=2)


def recording(rng: random.Random, here: Path) -> Case:
    """A broken recording, played again."""
    folder = here / "talk"
    setting = rng.choice(("home", "home", "floor", "class", "owned"))
    good = {
        "typed.txt": "\n".join(("1", *TYPED[1:7]) if setting == "home" else TYPED[1:7]) + "\nsave\n",
        "answers.yaml": PLAN, "screen.txt": "What do you want to find out?\n", "talk.yaml": f"setting: {setting}\n",
        "tractor.yaml": OFFER,
    }  # fmt: skip
    for name, text in good.items():
        put(folder / name, text)
    name = rng.choice(list(good))
    if name.endswith(".txt"):
        put(folder / name, broken_text(rng, good[name]) if rng.random() < 0.5 else typed(rng, TYPED[:7], 6))
    else:
        put(folder / name, broken(rng, good[name]))
    if rng.random() < 0.06:
        odd_file(rng, folder / name)
    if rng.random() < 0.9:
        return Case(["replay", "talk"])
    return Case(["advise", "talk", "--sheet"])


def class_folder(rng: random.Random, here: Path) -> Case:
    """A class with broken files among its answers."""
    folder = here / "class"
    put(folder / "good.yaml", PLAN)
    for number in range(rng.randint(1, 2)):
        name = rng.choice(
            (
                f"p{number}.yaml",
                f"p {number}.yml",
                f"\u202e{number}.yaml",
                f"-{number}.yaml",
                f"{number}" * 200 + ".yaml",
            )
        )
        broken_or_odd(rng, folder / name, PLAN, 0.2)
    out = rng.choice(([], ["--out", "made"], ["--out", "class"], ["--out", "class/good.yaml"]))
    return Case(
        ["class", "class", *out, "--format", "text"], b"", ["made", "made/*", "class/handouts", "class/handouts/*"], 1
    )


_FORMATS = ("text", "html", "markdown", "json", "xml", "")
_OPTIONS: Mapping[str, tuple[str, ...] | None] = {
    "--plain": None, "--units": ("us", "metric", "si"), "--resume": ("a.yaml", "none.yaml"), "--keep": ("k.yaml",
    "a.yaml"),
    "--tractor": ("o.yaml", "a.yaml"), "--record": ("rec", "a.yaml", "."), "--setting": ("home", "floor", "class",
    "owned"),
    "--book": ("small", "nowhere", "a.yaml", "."), "--format": _FORMATS, "--set": ("soil=clay", "soil=", "=",
    "zzz=1", "slope_up=10 %"),
    "--sheet": None, "--short": None, "--only": ("towing", "shaft", "zzz"), "--what-if": ("soil=clay", "without=i1",
    "i1.size=6 ft", "="),
    "--pictures": ("pics", "a.yaml"), "--out": ("out.txt", "a.yaml", "nowhere/x", ".", "round", "a.yaml/x"),
    "--force": None, "--strict": None,
    "--area": ("5 acres", "x", "-1 ha"), "--answers": ("a.yaml", "o.yaml"), "--list": None, "--help": None,
    "--version": None, "--": None,
}  # fmt: skip
_COMMANDS: tuple[tuple[str, ...], ...] = (
    (), ("advise", "a.yaml"), ("check", "a.yaml", "o.yaml"), ("sizes", "o.yaml", "box blade"), ("measure", "slope"),
    ("sheet", "offer"), ("sheet", "seller"), ("replay", "nowhere"), ("demo", "--list"), ("book", "check", "small"),
    ("book", "draw", "small"), ("book", "walk", "small", "--count", "1"), ("class", "nowhere"), ("class", "small"),
    ("zzz",),
)  # fmt: skip


def command_line(rng: random.Random, here: Path) -> Case:
    """Words of a command line that do not go together, or are no words."""
    put(here / "a.yaml", PLAN)
    put(here / "o.yaml", OFFER)
    small_files(here / "small")
    (here / "round").symlink_to("round")
    words = list(rng.choice(_COMMANDS))
    for _ in range(rng.randint(0, 4)):
        name = rng.choice(list(_OPTIONS))
        values = _OPTIONS[name]
        one = [name] if values is None else [name, rng.choice(values)]
        if rng.random() < 0.15 and values is not None:
            one = [f"{name}={word(rng)}"]
        at = rng.choice((0, len(words), len(words)))
        words[at:at] = one
    if rng.random() < 0.4 and words:
        at = rng.randrange(len(words))
        words[at : at + 1] = rng.choice(
            ([], [word(rng)], [words[at], words[at]], [words[at][:-1]], ["-" + words[at]], ["\udcff" + words[at]])
        )
    words = [one.replace("\x00", "\x01") for one in words]  # no system lets a zero byte into a command line
    made = [
        "out.txt",
        "k.yaml",
        "rec",
        "rec/*",
        "pics",
        "pics/*",
        "firstfurrow-*",
        "small/handouts",
        "small/handouts/*",
        "state",
        "state/firstfurrow",
        "handouts",
        "handouts/*",
    ]
    if "--force" in words or any(one.startswith("--forc") for one in words):
        made.append("a.yaml")
    if "--resume" in words or any(one.startswith("--r") for one in words):
        made.append("a.yaml")
    return Case(words, rng.choice((b"", b"1\n1\n3 acre\nsave\n", b"save\n")), [*made, *_named(words)], 2)


def _named(words: list[str]) -> list[str]:
    """Files that a command line names for writing in a way that a list does not foresee."""
    found = []
    for before, one in zip(["", *words], [*words, ""], strict=True):
        for option in ("--out", "--keep", "--pictures", "--record"):
            for name in (
                one.removeprefix(f"{option}=") if one.startswith(f"{option}=") else "",
                one if before == option else "",
            ):
                if name:
                    found += [_pattern(os.path.normpath(name)), _pattern(os.path.normpath(name)) + "/*"]
    return found


def _pattern(name: str) -> str:
    return "".join(f"[{c}]" if c in "*?[" else c for c in name)


def typed_plain(rng: random.Random, here: Path) -> Case:
    """A talk in plain lines, with odd lines typed."""
    setting = rng.choice(("home", "home", "floor", "class"))
    good = TYPED if setting == "home" else TYPED[1:]
    return Case(["--plain", "--setting", setting], typed(rng, good), ["firstfurrow-*", "state", "state/*"], 2)


def typed_whole(rng: random.Random, here: Path) -> Case:
    """A talk that has come to its end, with odd lines typed there."""
    put(here / "a.yaml", PLAN)
    lines = [*(rng.choice(ENDING) if rng.random() < 0.8 else typed_line(rng) for _ in range(rng.randint(2, 12)))]
    setting = rng.choice(("home", "home", "floor", "class"))
    raw = "\n".join((*lines, rng.choice(("", "save", "")))).encode("utf-8", "surrogatepass")
    return Case(["--plain", "--resume", "a.yaml", "--setting", setting], raw, ["a*.yaml", "a*.html"], 6)


def measured(rng: random.Random, here: Path) -> Case:
    """Measuring, with odd lines typed."""
    what = rng.choice((*STATIONS[:8], *STATIONS[:8], "", word(rng))).replace("\x00", "")
    units = rng.choice(([], ["--units", "us"], ["--units", "metric"]))
    lines = typed(rng, MEASURED if not what else MEASURED[1:], 10)
    return Case(["measure", "--plain", *units, *([what] if what else [])], lines, ["firstfurrow-tractor*"])


def walked(rng: random.Random, here: Path) -> Case:
    """The walk around a tractor, with odd lines typed, into a file that may be broken."""
    if rng.random() < 0.3:
        broken_or_odd(rng, here / "t.yaml", OFFER, 0.2)
    units = rng.choice(([], ["--units", "us"], ["--units", "metric"]))
    return Case(
        ["measure", "walk-around", "--plain", *units, "--out", "t.yaml"], typed(rng, WALKED, 10), ["t.yaml", "nowhere"]
    )


# ---------------------------------------------------------------------------------------- books


@cache
def small_book() -> Mapping[str, str]:
    """The files of a small book that is right, and that the talk can be held with."""
    import sys

    beside = str(Path(__file__).resolve().parents[1] / "book")
    sys.path.insert(0, beside)
    try:
        from test_check import FILES
    finally:
        sys.path.remove(beside)
    return FILES


def small_files(folder: Path) -> None:
    """The small book in this folder."""
    for name, text in small_book().items():
        put(folder / name, text)


def _use(rng: random.Random, name: str) -> list[str]:
    return rng.choice(
        (
            ["book", "check", name],
            ["book", "check", name, "--notes"],
            ["book", "draw", name],
            ["--book", name, "--plain"],
        )
    )


def small(rng: random.Random, here: Path) -> Case:
    """A small book with one broken file."""
    small_files(here / "small")
    name = rng.choice(list(small_book()))
    broken_or_odd(rng, here / "small" / name, small_book()[name])
    use = ["book", "walk", "small", "--count", "1"] if rng.random() < 0.1 else _use(rng, "small")
    return Case(use, b"save\n", ["firstfurrow-answers*", "firstfurrow-walks", "firstfurrow-walks/*"])


@cache
def _shipped_files() -> Mapping[str, str]:
    return {
        path.relative_to(book_folder()).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(book_folder().rglob("*.yaml"))
    }


@cache
def _edition_parts() -> tuple[tuple[str, str], ...]:
    """Files of an edition: those of the guide for editors, and a record or two of other files."""
    import re

    block = re.compile(r"^```yaml\n# (\S+\.yaml)\n(.*?)^```", re.MULTILINE | re.DOTALL)
    found = block.findall((book_folder() / "README.md").read_text(encoding="utf-8"))
    return (
        *found,
        ("glossary.yaml", "words: {stubble: The short stalks that stand after a harvest.}\n"),
        ("messages.yaml", "messages: {thanks: Thank you for coming.}\n"),
        ("requirements.yaml", "requirements:\n  - {id: pto_power, title: Power at the turning shaft}\n"),
        ("implements/tillage.yaml", "kinds:\n  - {kind: mouldboard_plough, speed: {low: 4 km/h}}\n"),
    )


def edition(rng: random.Random, here: Path) -> Case:
    """A local edition with a broken file, or with a part of the shipped book that is broken."""
    folder = here / "mine"
    put(folder / "edition.yaml", TITLE)
    if rng.random() < 0.7:
        name, text = rng.choice(_edition_parts())
    else:
        name, text = rng.choice(list(_shipped_files().items()))
    broken_or_odd(rng, folder / name, text)
    return Case(_use(rng, "mine"), b"save\n", ["firstfurrow-answers*"], 6)


def whole(rng: random.Random, here: Path) -> Case:
    """A copy of the shipped book with one broken file."""
    folder = here / "whole"
    shutil.copytree(book_folder(), folder)
    name = rng.choice(list(_shipped_files()))
    broken_or_odd(rng, folder / name, _shipped_files()[name])
    return Case(_use(rng, "whole"), b"save\n", ["firstfurrow-answers*"], 6)


KINDS: Mapping[str, tuple[Make, int]] = {  # and how many of a thousand
    "answers": (answers, 170),
    "offer": (offer, 110),
    "offer list": (offer_list, 90),
    "recording": (recording, 110),
    "class": (class_folder, 10),
    "command line": (command_line, 120),
    "typed": (typed_plain, 60),
    "typed at the end": (typed_whole, 10),
    "measure": (measured, 110),
    "walk-around": (walked, 80),
    "small book": (small, 124),
    "edition": (edition, 4),
    "whole book": (whole, 2),
}
assert sum(count for _, count in KINDS.values()) == 1_000
