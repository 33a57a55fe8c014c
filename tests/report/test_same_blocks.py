"""Every form of the report holds the same content blocks under the same ids; the sheet is a part with a name."""

from __future__ import annotations

import json
import re
from functools import cache
from typing import Any

import pytest

from firstfurrow.asking.tried import tried
from firstfurrow.book.load import load
from firstfurrow.pages import page_data, parts_of, written
from firstfurrow.report.blocks import Heading, Part, Picture, texts_of
from firstfurrow.report.text import render
from firstfurrow.talk.recordings import shipped

NAMES = ["hay_on_hills", "too_much_at_once", "lawn_and_leaves"]


@cache
def parts(name: str) -> tuple[Part, ...]:
    book = load()
    answers = next(r for r in shipped() if r.name == name).answers(book)
    what_if = (tried(book, answers, "without=i1"),)
    return parts_of(book, answers, what_if=what_if)


@cache
def data(name: str) -> dict[str, Any]:
    book = load()
    answers = next(r for r in shipped() if r.name == name).answers(book)
    found: dict[str, Any] = json.loads(json.dumps(page_data(book, answers, (tried(book, answers, "without=i1"),))))
    return found


def ids(name: str) -> list[str]:
    return [id_ for part in parts(name) for id_ in part.ids]


@pytest.mark.parametrize("name", NAMES)
def test_html_markdown_and_json_have_the_same_ids_in_the_same_order(name: str) -> None:
    wanted = ids(name)
    assert len(wanted) == len(set(wanted))
    html = written(load(), parts(name), "html")
    assert [id_ for id_ in re.findall(r' id="([a-z]+-\d+)"', html) if id_ in wanted] == wanted
    markdown = written(load(), parts(name), "markdown")
    assert re.findall(r'<a id="([a-z]+-\d+)"></a>', markdown) == wanted
    assert [block["id"] for block in data(name)["blocks"]] == wanted


@pytest.mark.parametrize("name", NAMES)
def test_the_text_has_every_block_in_order(name: str) -> None:
    page = written(load(), parts(name), "text", 80)
    at = 0
    for block in (block for part in parts(name) for block in part.document):
        mine = render((block,), 80).strip("\n")
        assert mine in page[at:], block
        at = page.index(mine, at)


@pytest.mark.parametrize("name", NAMES)
def test_the_sheet_is_the_first_part_and_stands_by_itself(name: str) -> None:
    book = load()
    answers = next(r for r in shipped() if r.name == name).answers(book)
    alone = parts_of(book, answers, sheet=True)
    assert [part.name for part in parts(name)] == ["yard", "whatif", "report"]
    assert alone == parts(name)[:1]
    for form in ("html", "markdown"):
        found = re.findall(r'id="([a-z]+-\d+)"', written(book, alone, form))
        assert [id_ for id_ in found if id_ in alone[0].ids] == list(alone[0].ids)


@pytest.mark.parametrize("name", NAMES)
def test_every_text_of_a_block_is_in_the_data(name: str) -> None:
    blocks = {block["id"]: json.dumps(block, ensure_ascii=False) for block in data(name)["blocks"]}
    for part in parts(name):
        for id_, block in zip(part.ids, part.document, strict=True):
            for text in texts_of(block):
                assert json.dumps(text, ensure_ascii=False)[1:-1] in blocks[id_]


@pytest.mark.parametrize("name", NAMES)
def test_the_report_has_what_a_reader_takes_home(name: str) -> None:
    """Page one, reasoning, pictures, what is unknown, cautions, answers, words, sources: each under a heading."""
    report = parts(name)[-1].document
    say = load().messages
    titles = [block.text for block in report if isinstance(block, Heading) and block.level == 2]
    wanted = ["short", "profile", "pictures", "hookups", "one_by_one", "cautions", "answers_given"]
    for id_ in [*wanted, "glossary", "sources"]:
        assert say[f"report.{id_}"] in titles, id_
    assert {block.name for block in report if isinstance(block, Picture)} >= {"rear", "power", "lift"}
