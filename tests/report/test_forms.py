"""The report as one HTML file and as Markdown: the same blocks, text that stays text, nothing loaded from anywhere."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from firstfurrow.book.model import Book
from firstfurrow.pages import html_report, markdown_report
from firstfurrow.report.blocks import Bullets, Check, Checklist, Heading, Paragraph, StepLine, Table, Working
from firstfurrow.report.html import html_page
from firstfurrow.report.markdown import markdown
from firstfurrow.talk.recordings import shipped

NASTY = "<script>alert('x')</script> & \"quotes\" | `tick` [link](http://a.example) \x1b[31m\u202e"
EVERY = (
    Heading(NASTY, 1), Paragraph(NASTY, "caution"), Bullets((NASTY,)), Table((NASTY, "b"), ((NASTY, NASTY),)),
    Checklist((NASTY,) * 4, (Check(NASTY, NASTY, NASTY),), "{what}"),
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
    blocks = [id_ for id_ in page.ids if "-" in id_]
    assert blocks == re.findall(r'<a id="([a-z]+-\d+)"></a>', markdown_report(book, answers))
    assert blocks[0] == "yard-1"  # the sheet comes first
    assert len(page.ids) == len(set(page.ids))
    assert page.seen.count("h1") == 2  # one for the sheet, one for the report


def test_text_that_looks_like_a_page_stays_text() -> None:
    page = html_page(NASTY, (("yard", EVERY),))
    found = parsed(page)
    assert "script" not in found.seen
    assert "\x1b" not in page
    assert "\u202e" not in page
    assert "".join(found.text).count("<script>alert('x')</script>") >= 10
    text = markdown((("yard", EVERY),))
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
    for word in ("<link", "<img", "<script", "@import", "url(", 'src="', 'href="'):
        assert word not in page


def test_the_sheet_has_a_column_to_write_in_and_breaks_the_page_after_it(book: Book) -> None:
    page = html_report(book, shipped()[0].answers(book))
    assert '<td class="room"></td>' in page
    assert "break-after: page" in page
    assert '<html lang="en">' in page
