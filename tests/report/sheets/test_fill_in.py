"""What is filled in by hand: the same in every form, room for a pen, text that stays text."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from firstfurrow.report.blocks import Blank, FillIn, Heading, Part, Steps, Tick
from firstfurrow.report.fill_in import fill_lines
from firstfurrow.report.html import html_page
from firstfurrow.report.html_style import STYLE
from firstfurrow.report.markdown import markdown
from firstfurrow.report.text import render

NASTY = "<script>alert('x')</script> & \"quotes\" | `tick` [link](http://a.example) =1+1 \x1b[31m\u202e"
BOX = FillIn(
    "7", "How steep is it?", "slope_up", "Only if it is steep.", (Blank(unit="%"),),
    (Tick("flat"), Tick("steep", True)), ("Why: it tips.",), ("How I know it:",),
)  # fmt: skip


def test_it_reads_the_same_in_every_form() -> None:
    parts = (Part("sheet", (BOX,)),)
    text = " ".join(render((BOX,), 80).split())
    for page in (text, markdown(parts), html_page("Sheet", parts)):
        places = [page.index(words) for words in ("How steep is it?", "Only if", "flat", "Why:", "How I know it:")]
        assert places == sorted(places)


def test_a_ticked_box_can_be_told_from_an_empty_one_without_colour() -> None:
    parts = (Part("sheet", (BOX,)),)
    assert "[ ] flat   [x] steep" in render((BOX,), 80)
    assert "- [ ] flat\n- [x] steep" in markdown(parts)
    assert '<span class="box"></span> flat' in html_page("Sheet", parts)
    assert '<span class="box">\N{MULTIPLICATION SIGN}</span> steep' in html_page("Sheet", parts)


@pytest.mark.parametrize("width", [24, 40, 80, 100])
def test_no_line_of_text_is_wider_than_the_paper(width: int) -> None:
    blanks, ticks = (Blank("z" * 90, "kg"),), (Tick("t" * 200),)
    long = FillIn("70", "w" * 500, "x" * 90, "y " * 90, blanks, ticks, ("n" * 99,), ("l " * 60,))
    for box in (BOX, long):
        assert all(len(line) <= width for line in fill_lines(box, width))


def test_a_pen_finds_an_empty_line_above_each_line_to_write_on() -> None:
    blanks = (Blank("More or less:"), Blank("By how much:"))
    lines = fill_lines(FillIn(ask="Why?", blanks=blanks, lines=("", "Because:")), 80)
    ruled = [number for number, line in enumerate(lines) if "____" in line]
    assert len(ruled) == 4
    assert all(lines[number - 1] == "" for number in ruled)
    assert all(len(lines[number]) == 80 for number in ruled[2:])


def test_on_paper_a_line_to_write_on_is_at_least_eight_millimetres_high_and_no_box_is_split() -> None:
    """Eight millimetres: common practice for forms that are filled in by hand, no source."""
    blank = re.search(r"\.blank {[^}]*min-height: (\d+)mm", STYLE)
    line = re.search(r"\.fill \.line {[^}]*padding: (\d+)mm 0 0; min-height: (\d+)mm", STYLE)
    assert blank is not None
    assert line is not None
    assert int(blank[1]) >= 8
    assert int(line[1]) + int(line[2]) >= 8
    assert re.search(r"\.fill[^{}]*{ break-inside: avoid; }", STYLE) is not None


def test_a_card_and_a_key_begin_on_a_page_of_their_own() -> None:
    parts = tuple(Part(name, (Heading("A"),)) for name in ("class", "card-one", "key", "room"))
    page = html_page("Class", parts)
    found = dict(re.findall(r'<section id="([^"]+)" class="([^"]+)"', page))
    assert found == {"class": "report", "card-one": "report apart", "key": "report apart", "room": "report"}
    assert re.search(r"\.apart[^{}]*{ break-before: page; }", STYLE) is not None


def test_steps_keep_their_drawing_and_their_order_in_every_form() -> None:
    steps = Steps(("Lay the board.", "Measure the gap."), ("  ====", "  `-.  "))
    parts = (Part("sheet", (steps,)),)
    text = render((steps,), 80)
    assert "  ====\n  `-.\n" in text
    assert "  1 Lay the board." in text
    assert "      ====" in markdown(parts)  # four signs in front: taken at its face
    assert "2. Measure the gap." in markdown(parts)
    assert '<pre aria-hidden="true">  ====\n  `-.  </pre><ol><li>Lay the board.</li>' in html_page("Sheet", parts)


class Tags(HTMLParser):
    """The tags of a page, and its text."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)

    def handle_data(self, data: str) -> None:
        self.text.append(data)


@pytest.mark.parametrize("bad", [NASTY, NASTY * 200, "=SUM(1)", "{slot}"], ids=["tags", "long", "formula", "slot"])
def test_text_that_looks_like_a_page_or_a_formula_stays_text(bad: str) -> None:
    box = FillIn("1", bad, bad, bad, (Blank(bad, bad, bad),), (Tick(bad, True),), (bad,), (bad,))
    parts = (Part("sheet", (box, Steps((bad,), (bad,)))),)
    page = Tags()
    page.feed(html_page("Sheet", parts))
    assert "script" not in page.seen
    assert "a" not in page.seen
    assert "".join(page.text).count(bad[:5]) >= 10
    text = markdown(parts)
    outside_of_code = "\n".join(line for line in text.splitlines() if not line.startswith("    "))
    assert not re.search(r"(?<!\\)<script", outside_of_code)
    for form in (text, html_page("Sheet", parts)):
        assert "\x1b" not in form
        assert "\u202e" not in form
    assert bad[:5] in render((box,), 80)
