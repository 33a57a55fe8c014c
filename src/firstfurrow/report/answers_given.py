"""What was answered, question by question, so that the reader of a report sees what it rests on."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.asking.said import Line
from firstfurrow.report.blocks import Block, Heading, Table
from firstfurrow.report.page import Page


def answers_given(page: Page) -> Iterator[Block]:
    """One table for each section of the conversation; nothing where nothing was said."""
    if not page.said.answers:
        return
    yield Heading(page.say("answers_given"))
    headers = (page.say("column_question"), page.say("column_answer"))
    by_section: dict[str, list[Line]] = {}
    for line in page.said.answers:
        by_section.setdefault(line.section, []).append(line)
    for section, lines in by_section.items():
        yield Heading(section, 3)
        yield Table(headers, tuple((_asked(page, line), line.answer) for line in lines))


def _asked(page: Page, line: Line) -> str:
    return line.ask if line.item is None else page.say("asked_of", item=line.item, ask=line.ask)
