"""The report as one HTML file and as Markdown: the same blocks, text that stays text, nothing loaded from anywhere."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from firstfurrow.book.model import Book
from firstfurrow.pages import html_report, markdown_report
from firstfurrow.report.blocks import Bullets, Check, Checklist, Heading, Paragraph, Part, StepLine, Table, Working
from firstfurrow.report.html import html_page
from firstfurrow.report.markdown import markdown
from firstfurrow.talk.recordings import shipped

NASTY = "<script>alert('x')</script> & \"quotes\" | `tick` [link](http://a.example) \x1b[31m\u202e"
EVERY = (
    Heading(NASTY, 1), Paragraph(NASTY, "caution"), Bullets((NASTY,)), Table((NASTY, "b"), ((NASTY, NASTY),)),
    Checklist((NASTY,) * 3, (Check(NASTY, NASTY, NASTY),), "{what}"),
    Working((StepLine("s1", NASTY, NASTY, NASTY, NASTY, NASTY),)),
)  # fmt: skip
VOID = {"meta", "br"}


class Balanced(HTMLParser):
    """Notes the tags, and fails where one is closed that is not open."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []
        self.ids: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)
        self.ids += [value or "" for name, value in attrs if name == "id"]
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def parsed(page: str) -> Balanced:
    found = Balanced()
    found.feed(page)
    found.close()
    assert found.open == []
    return found


@pytest.mark.parametrize("recording", shipped()[::4], ids=lambda r: r.name)
def test_every_form_has_the_same_blocks(book: Book, recording: object) -> None:
    answers = recording.answers(book)  # type: ignore[attr-defined]
    page = parsed(html_report(book, answers))
    blocks = [id_ for id_ in page.ids if re.fullmatch(r"[a-z]+-\d+", id_)]
    assert blocks == re.findall(r'<a id="([a-z]+-\d+)"></a>', markdown_report(book, answers))
    assert blocks[0] == "yard-1"  # the sheet comes first
    assert len(page.ids) == len(set(page.ids))
    # The sheet is torn off and the report read at home: each stands by itself, and is titled as in every other form.
    assert page.seen.count("h1") == 2


def test_text_that_looks_like_a_page_stays_text() -> None:
    page = html_page(NASTY, (Part("yard", EVERY),))
    found = parsed(page)
    assert "script" not in found.seen
    assert "\x1b" not in page
    assert "\u202e" not in page
    assert "".join(found.text).count("<script>alert('x')</script>") >= 10
    text = markdown((Part("yard", EVERY),))
    assert "<script>" not in text
    assert "\x1b" not in text
    assert not re.search(r"(?<!\\)\]\(http", text)  # no link


def test_a_long_name_of_a_scenario_is_text_in_every_form(book: Book) -> None:
    answers = replace(shipped()[0].answers(book), name=NASTY * 200, notes=(NASTY,))
    assert "script" not in parsed(html_report(book, answers)).seen
    assert "<script>" not in markdown_report(book, answers)


def test_nothing_is_loaded_from_anywhere(book: Book) -> None:
    page = html_report(book, shipped()[0].answers(book))
    assert "default-src 'none'" in page
    for word in ("<link", "<img", "<script", "@import", 'src="'):
        assert word not in page
    # What is pointed at stands on the page itself: sections, patterns of a drawing, and sentences about it.
    ids = set(parsed(page).ids)
    inside = re.findall(r'(?:href="|url\()([^")]*)', page)
    assert inside
    assert {target[0] for target in inside} == {"#"}
    said = {id_ for ids in re.findall(r'aria-(?:labelledby|describedby)="([^"]*)"', page) for id_ in ids.split()}
    assert {target[1:] for target in inside} | said <= ids


def test_the_sheet_has_a_column_to_write_in_and_the_report_begins_on_a_page_of_its_own(book: Book) -> None:
    page = html_report(book, shipped()[0].answers(book))
    assert ' class="room"></td>' in page
    assert ".sheet + section { break-before: page; }" in page
    assert '<html lang="en">' in page


def test_the_title_and_the_foot_of_each_printed_page_name_the_buyer(book: Book) -> None:
    page = html_report(book, replace(shipped()[0].answers(book), name="Anne & Bo </style>"))
    assert "<title>Invented example: Anne &amp; Bo &lt;/style&gt; - What your tractor must offer</title>" in page
    assert page.count("</style>") == 1
    assert "content: 'Invented\\20 example\\3a \\20 Anne\\20 \\26 \\20 Bo" in page
    nameless = html_report(book, replace(shipped()[0].answers(book), name=None))
    assert "<title>What your tractor must offer</title>" in nameless
