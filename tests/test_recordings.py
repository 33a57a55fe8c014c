"""The recorded conversations: played again they are the same, and every step they print recomputes by hand."""

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from firstfurrow.advice.profile import Profile
from firstfurrow.asking.answers import Units
from firstfurrow.book.model import Book
from firstfurrow.pages import profile_of
from firstfurrow.reasoning import evaluate
from firstfurrow.report.blocks import Document, Working
from firstfurrow.report.document import document
from firstfurrow.report.step_lines import plain
from firstfurrow.report.text import render
from firstfurrow.shown import Shown
from firstfurrow.talk.recordings import WIDTH, Recording, play, shipped

RECORDINGS = shipped()
# All tests of one recording go to one worker, which keeps what they share.
EACH = [pytest.param(r, id=r.name, marks=pytest.mark.xdist_group(f"recording {r.name}")) for r in RECORDINGS]
LINE = re.compile(r"^(?P<left>.+) = (?P<right>-?[0-9.]+)(?: .+)?$")

Page = tuple[Profile, Document]


@pytest.fixture(scope="module")
def page(book: Book) -> Callable[[Recording, Units], Page]:
    """The profile of a recording and its full page in these units; each made once for all tests that look at it."""

    @cache
    def made(recording: Recording, units: Units) -> Page:
        profile = profile_of(book, replace(recording.answers(book), units=units))
        return profile, document(profile, full=True)

    return made


def test_there_are_at_least_nine() -> None:
    assert len(RECORDINGS) >= 9


@pytest.mark.parametrize("recording", EACH)
def test_played_again_it_is_the_same(recording: Recording, book: Book) -> None:
    screen, answers = play(book, recording, Shown(book, lambda: WIDTH))
    assert screen == recording.screen()
    assert answers == (recording.folder / "answers.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("recording", EACH)
def test_it_is_played_to_its_end(recording: Recording, book: Book) -> None:
    last = recording.screen().rstrip().splitlines()[-8:]
    assert "  firstfurrow --resume firstfurrow-answers.yaml" in last
    assert not any(line.startswith("No further input") for line in last)
    assert book.messages["thanks"] in recording.screen()


@pytest.mark.parametrize("recording", EACH)
def test_screen_fits_and_names_no_date_version_or_path(recording: Recording) -> None:
    screen = recording.screen()
    assert max(map(len, screen.splitlines())) <= WIDTH
    assert not re.search(r"\b20\d\d-\d\d|0\.\d+\.\d+|/[a-z]+/", screen)


@pytest.mark.parametrize("recording", EACH)
def test_it_says_that_it_is_invented(recording: Recording, book: Book) -> None:
    answers = recording.answers(book)
    assert answers.name
    assert any("invented" in note.lower() for note in answers.notes)


def test_what_decides_first_differs(book: Book) -> None:
    """Refusals and conflicts aside: power, oil, weight for three reasons, room. What hangs behind is second once."""
    deciding = [profile_of(book, r.answers(book)).deciding for r in RECORDINGS]
    asked = [[entry for entry in entries if ":" not in entry] for entries in deciding]
    assert {
        "pto_power", "rear_sets", "mass", "mass_towing", "mass_most", "width_most", "height_most",
    } <= {entries[0] for entries in asked}  # fmt: skip
    assert {"lift_610", "mass_balance"} & {entry for entries in asked for entry in entries[:2]}
    assert {entries[0].partition(":")[0] for entries in deciding} > {"refusal", "conflict"}


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("recording", EACH)
def test_every_printed_line_recomputes(
    recording: Recording, units: Units, page: Callable[[Recording, Units], Page]
) -> None:
    """The line with numbers, as printed, evaluates to its printed result to the printed digit."""
    profile, blocks = page(recording, units)
    lines = [line for b in blocks if isinstance(b, Working) for line in b.lines if line.numbers is not None]
    assert len(lines) > 20
    for line in lines:
        assert line.numbers is not None
        found = LINE.match(line.numbers)
        assert found is not None, line.numbers
        digits = profile.step(line.id).digits
        assert round(evaluate(plain(found["left"]), {}), digits) == pytest.approx(float(found["right"]), abs=1e-9), line


@pytest.mark.parametrize("recording", EACH)
def test_every_figure_has_steps_and_every_table_figure_a_grade(recording: Recording, book: Book) -> None:
    profile = profile_of(book, recording.answers(book))
    for outcome in profile.outcomes.values():
        for strictest in (outcome.sure, outcome.with_later):
            if strictest is not None:
                assert strictest.top_step is not None
                assert profile.step(strictest.top_step).id == strictest.top_step
    for step in profile.steps:
        if step.type == "table":
            assert step.grade is not None, step
        if step.grade in ("read", "secondary", "memory"):
            assert step.source in book.sources, step


@pytest.mark.parametrize("recording", EACH)
def test_the_page_fits_its_width(recording: Recording, page: Callable[[Recording, Units], Page], book: Book) -> None:
    _, blocks = page(recording, recording.answers(book).units)
    for width in (40, 80):
        assert max(map(len, render(blocks, width).splitlines())) <= width
