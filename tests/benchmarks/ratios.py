"""Prints a table of ratios: start, first question, one profile, doubts, memory: `python tests/benchmarks/ratios.py`.

Not part of the test suite: a slow or busy machine is not a defect. Ratios are taken in pairs, A B A B, so that a
machine whose speed drifts does not decide; the median counts. What only computes is measured in seconds of the
processor, of which the least counts: whatever else runs can only add to them. Programs are started as from an installed
wheel, with their modules compiled, also where the source is run and Python is told to write no compiled files.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import pexpect

from firstfurrow.advice.plan import make_plan
from firstfurrow.advice.profile import advise, advise_plan
from firstfurrow.advice.study import study
from firstfurrow.advice.study.candidates import unknowns
from firstfurrow.advice.study.doubt import doubts
from firstfurrow.advice.study.felt import scale_of
from firstfurrow.advice.study.words import Words
from firstfurrow.asking.answers import NOT_SURE, Answers, Given, Item
from firstfurrow.asking.answers_file import write
from firstfurrow.asking.complete import complete
from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from firstfurrow.talk.commands import command as command_in
from firstfurrow.talk.recordings import shipped

RUNS = 15
COMPILED = tempfile.TemporaryDirectory(prefix="compiled-")
ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
ENVIRONMENT |= {"PYTHONPYCACHEPREFIX": COMPILED.name, "PROMPT_TOOLKIT_NO_CPR": "1", "TERM": "xterm"}
PROMPT = r">(?:\x08| )"  # whether printed or drawn
EDITED = r"\x1b\[\?2004h[^>]*>"  # the prompt of a line that may be edited
READING = 2.0  # seconds that anybody looks at the first question, in which the program gets ready
BARE = "while True: print('A question, and what may be answered.\\n' * 8); input('> ')"
TALKS = ("two_horses", "hay_on_hills", "market_beds")
KINDS = (
    "rotary_cutter_medium", "finish_mower", "rotary_tiller", "box_blade_hydraulic", "round_baler", "tedder",
    "rotary_rake", "bale_spear", "manure_spreader_end_gate", "mouldboard_plough", "dump_trailer", "loader_grapple",
)  # fmt: skip


def twelve(book: Book, later: int = 0) -> Answers:
    """A plan with twelve implements on a slope, of which the last few come later."""
    said = {
        "land_shape": ("slopes",),
        "jobs": ("rough_mowing", "lawn_mowing", "hay", "soil_work", "garden_beds", "spreading"),
        "soil": "clay", "surface": "firm",
    }  # fmt: skip
    typed = {"slope_up": Given(15.0, "15 %"), "altitude": Given(600.0, "600 m")}
    items = tuple(
        Item(f"i{n}", {"kind": Given(kind, kind), "when": Given("later" if n > len(KINDS) - later else "now", "now")})
        for n, kind in enumerate(KINDS, 1)
    )
    given = {id_: Given(value, str(value)) for id_, value in said.items()} | typed
    return complete(book, Answers(units="us", given=given, items=items, items_made=len(items)))


def unsure(book: Book) -> Answers:
    """The same twelve, every one of them settled, and twenty answers of the rest open."""
    whole = twelve(book)
    open_ = (
        "soil", "surface", "slope_up", "altitude", "heat", "growth", "drive", "quick_coupler", "driver", "road",
        "tow_mass", "tow_axles", "tow_brakes", "tow_place", "front_load",
    )  # fmt: skip
    settled = {"with": ("none_of_these",), "options": ("none_of_these",), "often": "weekly", "brakes": "no_brakes"}
    items = []
    for item, kind in zip(whole.items, map(book.kinds.__getitem__, KINDS), strict=True):
        build = kind.variants[0]
        sold = [s.id for s in kind.sizes if not s.variants or build.id in s.variants]
        said = {**settled, "variant": build.id, "size": sold[len(sold) // 2]}
        items.append(Item(item.id, {**item.given, **{id_: Given(value, str(value)) for id_, value in said.items()}}))
    for number in (0, 1, 2, 3, 4):  # and five answers about implements
        question = "with" if "tilts" in book.kinds[KINDS[number]].features else "often"
        items[number] = Item(items[number].id, {**items[number].given, question: NOT_SURE})
    given = {**whole.given, "tow_other": Given("often", "often"), **dict.fromkeys(open_, NOT_SURE)}
    usual = {"area": 2.0, "hours": 20.0, "times": 1, "days": 5, "hours_a_day": 6.0}
    jobs = given["jobs"].value
    times = {f"{job}_{what}": Given(value, str(value)) for job in jobs for what, value in usual.items()}
    asked = {question.id for section in book.sections for question in section.questions}
    given |= {id_: value for id_, value in times.items() if id_ in asked}
    return complete(book, Answers(units="us", given=given, items=tuple(items), items_made=len(items)))


def process(*command: str) -> Callable[[], float]:
    """Seconds of one whole process."""

    def run() -> float:
        begun = time.perf_counter()
        subprocess.run([sys.executable, *command], check=True, stdout=subprocess.DEVNULL, env=ENVIRONMENT)
        return time.perf_counter() - begun

    return run


def until_shown(pattern: str, *command: str) -> Callable[[], float]:
    """Seconds until a program on a terminal shows this."""

    def run() -> float:
        with tempfile.TemporaryDirectory() as folder:
            begun = time.perf_counter()
            child = pexpect.spawn(sys.executable, list(command), cwd=folder, env=ENVIRONMENT, dimensions=(24, 80))
            child.expect(pattern)
            taken = time.perf_counter() - begun
            child.close(force=True)
            return taken

    return run


def until_answered(lines: Sequence[str], pattern: str, *command: str) -> list[float]:
    """Seconds from each typed line to the next prompt on a terminal."""
    taken = []
    with tempfile.TemporaryDirectory() as folder:
        child = pexpect.spawn(sys.executable, list(command), cwd=folder, env=ENVIRONMENT, dimensions=(24, 80))
        child.delaybeforesend = None
        child.expect(pattern)
        time.sleep(READING)
        for line in lines:
            begun = time.perf_counter()
            child.send(f"{line}\r")
            child.expect([pattern, pexpect.EOF])
            taken.append(time.perf_counter() - begun)
        child.close(force=True)
    return taken


def answers_against_a_bare_loop() -> list[tuple[str, str, str, str]]:
    """Rows: the middle and the 95th of 100 answers, each to the next question, beside a loop that only asks."""
    ours: list[float] = []
    bare: list[float] = []
    for recording in shipped():
        if recording.name in TALKS:
            lines = ["1", *recording.typed()]
            shown = until_answered(lines, EDITED, "-m", "firstfurrow")[:-2]
            # Where a page is shown, as after the last lines, nobody waits for the next question.
            ours += [seconds for line, seconds in zip(lines[:-2], shown, strict=True) if not _asks_for_a_page(line)]
            bare += until_answered(lines, "> ", "-c", BARE)
    rows = []
    for name, part, reach in (("middle", 0.5, ""), ("95 of 100", 0.95, "50 ms")):
        one, other = (sorted(taken)[int(part * len(taken))] * 1e3 for taken in (ours, bare))
        rows.append((f"answer to question, {name}", f"{one:.0f} / {other:.1f} ms", f"{one / other:.0f}", reach))
    return rows


def _asks_for_a_page(line: str) -> bool:
    said = command_in(line)
    return said is not None and said.name in ("so_far", "answers", "what_if", "compare")


def pairs(ours: Callable[[], float], bare: Callable[[], float]) -> tuple[float, float, float]:
    """Median of ours, of the other, and of their ratio."""
    ours(), bare()
    taken = [(ours(), bare()) for _ in range(RUNS)]
    return (
        statistics.median(a for a, _ in taken),
        statistics.median(b for _, b in taken),
        statistics.median(a / b for a, b in taken),
    )


def least(work: Callable[[], object], times: int) -> float:
    """The least seconds of the processor that a piece of work took."""
    work()
    taken = []
    for _ in range(times):
        begun = time.process_time()
        work()
        taken.append(time.process_time() - begun)
    return min(taken)


def doubt_seconds(book: Book, answers: Answers) -> tuple[float, int, int]:
    """Seconds of ranking the doubts of one profile; how many unknowns it has, and how many runs it took."""
    profile = advise(book, answers)
    scale, words = scale_of(book), Words(book, profile.units)
    runs = doubts(profile, scale, words).runs
    return least(lambda: doubts(profile, scale, words), 11), len(unknowns(profile, words)), runs


def study_seconds(book: Book, answers: Answers) -> float:
    """Seconds of everything that runs the road again."""
    profile = advise(book, answers)
    return least(lambda: study(profile), 5)


def profile_seconds(book: Book, answers: Answers, *, lean: bool = False) -> float:
    """Seconds of one profile."""
    plan = make_plan(book, answers)
    return least(lambda: advise_plan(book, plan, lean=lean), 101)


def peak_megabytes(answers: str) -> float:
    """Peak memory of `firstfurrow advise` on these answers."""
    watch = (
        "import resource, subprocess, sys\n"
        "subprocess.run([sys.executable, '-m', 'firstfurrow', 'advise', sys.argv[1]], check=True,"
        " stdout=subprocess.DEVNULL)\n"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)\n"
    )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "answers.yaml"
        path.write_text(answers, encoding="utf-8")
        done = subprocess.run([sys.executable, "-c", watch, str(path)], check=True, capture_output=True, text=True)
    return int(done.stdout) / (1024 if sys.platform != "darwin" else 1024 * 1024)


def main() -> None:
    """Measure and print."""
    book = load()
    answers = twelve(book)
    rows: list[tuple[str, str, str, str]] = []
    ours, bare, ratio = pairs(process("-m", "firstfurrow", "--version"), process("-c", "pass"))
    rows.append(("--version against python -c pass", f"{ours * 1e3:.0f} / {bare * 1e3:.0f} ms", f"{ratio:.2f}", "3"))
    bare_imports = until_shown(PROMPT, "-c", "import prompt_toolkit, yaml; print('> ', end='', flush=True); input()")
    for name, pattern in (("first question", "find out"), ("its prompt", ">")):
        ours, bare, ratio = pairs(until_shown(pattern, "-m", "firstfurrow"), bare_imports)
        rows.append((f"{name} against bare imports", f"{ours * 1e3:.0f} / {bare * 1e3:.0f} ms", f"{ratio:.2f}", "1.4"))
    rows += answers_against_a_bare_loop()
    for name, plan, lean in (
        ("twelve implements", answers, False), ("lean", answers, True), ("two of them later", twelve(book, 2), False),
    ):  # fmt: skip
        seconds = profile_seconds(book, plan, lean=lean) * 1e3
        rows.append((f"one profile, {name}", f"{seconds:.2f} ms", f"{seconds / 10:.2f}", "1 (10 ms)"))
    taken, open_, runs = doubt_seconds(book, unsure(book))
    rows.append((f"doubts, {open_} unknowns, {runs} runs", f"{taken * 1e3:.0f} ms", f"{taken / 0.5:.2f}", "1 (0.5 s)"))
    taken = study_seconds(book, unsure(book))
    rows.append(("the whole study of the same", f"{taken * 1e3:.0f} ms", f"{taken:.2f}", "1 (1 s)"))
    megabytes = peak_megabytes(write(answers, book))
    rows.append(("peak memory of advise", f"{megabytes:.0f} MB", f"{megabytes / 80:.2f}", "1 (80 MB)"))
    print(f"{'what':38}{'measured':>20}{'ratio':>8}  reach")
    for what, measured, ratio_text, reach in rows:
        print(f"{what:38}{measured:>20}{ratio_text:>8}  {reach}")


if __name__ == "__main__":
    main()
