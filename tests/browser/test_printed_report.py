"""The report on paper, A4 and Letter: page one is the sheet to take along, whole, legible, with room to write."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from browsing import BUYERS, LONGEST, MARKS, SHORTEST, Report, Tab
from firstfurrow.asking.answers import Units
from firstfurrow.report.blocks import (
    Block,
    Bullets,
    Checklist,
    Document,
    Heading,
    Paragraph,
    Part,
    Picture,
    Table,
    Terms,
)
from firstfurrow.report.html import html_page
from firstfurrow.report.yard import yard_document
from firstfurrow.talk.recordings import Recording
from making import Maker
from printed import MARGIN, MM, PAPERS, Printed, on_paper, squeezed

pytestmark = MARKS

LEAST_LETTER = 8.0  # points
LEAST_ROOM, LEAST_ROW = 25.0, 7.0  # mm, to write in by hand
MEASURES = """() => {
    const box = (what) => [...document.querySelectorAll(what)].map((one) => one.getBoundingClientRect());
    return [box('#yard td.room').map((one) => one.width), box('#yard tbody tr').map((one) => one.height)];
}"""
# Ten implements that ask a tractor for nearly all that can be asked of one, on land and roads that ask for the rest.
TEN = (
    "rotary_tiller", "box_blade_hydraulic", "backhoe", "mid_mount_mower", "post_hole_digger", "round_baler",
    "log_splitter", "dump_trailer", "loader_grapple", "mulch_layer",
)  # fmt: skip
LAND = {
    "land_shape": ("slopes",), "side_slope": "10 %", "slope_up": "15 %", "gate_width": "3 m", "door_height": "2.5 m",
    "road": "along", "tight_more": ("shed_length", "turning"), "shed_length": "6 m", "turn_room": "8 m",
}  # fmt: skip
# Letter is the shorter paper. Figures of another length stand in metric units: the two longest sheets are printed with
# both. What has more room is printed when there is time.
PAGES = (
    *((buyer, "us", "Letter") for buyer in BUYERS),
    *((buyer, "metric", "Letter") for buyer in LONGEST),
    (LONGEST[0], "us", "A4"),
    *(pytest.param(buyer, "us", "A4", marks=pytest.mark.long) for buyer in BUYERS if buyer != LONGEST[0]),
)  # fmt: skip
TITLE = "What your tractor must offer"


def words(document: Document) -> Iterator[str]:
    """Every text of these blocks that is printed in one go; what stands in a drawing is looked at elsewhere."""
    for block in document:
        yield from _words(block)


def _words(block: Block) -> Iterator[str]:
    match block:
        case Heading(text=text) | Paragraph(text=text):
            yield text
        case Bullets(items=items):
            yield from items
        case Checklist(headers=headers, rows=rows):
            yield from headers
            yield from (text for row in rows for text in (row.what, row.need, row.check))
        case Table(headers=headers, rows=rows):
            yield from (text for row in (headers, *rows) for text in row)
        case Terms(items=items):
            yield from (text for pair in items for text in pair)
        case Picture(title=title, says=says):
            yield from (title, *says)


def pages_of(printed: Printed, name: str | None) -> list[str]:
    """The words of each page without its foot: whose page it is, its number, and how many there are."""
    foot = squeezed(f"Invented example: {name} - {TITLE}" if name else TITLE)
    pages = []
    for number, text in enumerate(map(squeezed, printed.texts), 1):
        below = re.match(rf"{re.escape(foot)}{number}/(\d\d?)(?=\D)", text)
        assert below is not None, text[:200]
        assert int(below[1]) >= len(printed.texts)
        pages.append(text.removeprefix(below[0]))
    return pages


def room_to_write(tab: Tab, paper: str) -> None:
    tab.page.emulate_media(media="print")
    tab.page.set_viewport_size({"width": int((PAPERS[paper][0] - 2 * MARGIN) * MM), "height": 1000})
    rooms, rows = tab.page.evaluate(MEASURES)
    assert rooms
    assert min(rooms) >= LEAST_ROOM * MM
    assert min(rows) >= LEAST_ROW * MM - 0.1


@pytest.mark.parametrize(("buyer", "units", "paper"), PAGES, ids=lambda value: getattr(value, "name", value))
def test_page_one_is_the_whole_sheet_and_page_two_begins_the_report(
    buyer: Recording, units: Units, paper: str, report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    report = report_of(buyer, units)
    tab = opened(report.path)
    printed = on_paper(tab.page, paper, "1-2")
    first, second, *_ = pages_of(printed, report.name)
    sheet, *_ = report.parts
    for text in words(sheet.document):
        assert squeezed(text) in first, text
    assert second.startswith(squeezed(TITLE))
    assert squeezed("How to check it") not in second
    assert min(printed.sizes) >= LEAST_LETTER
    room_to_write(tab, paper)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_longer_sheet_flows_on_with_its_header_row_and_loses_nothing(
    maker: Maker, paper: str, tmp_path: Path, opened: Callable[..., Tab]
) -> None:
    sheet = yard_document(maker.profile([{"kind": kind} for kind in TEN], strict=False, **LAND))
    path = tmp_path / "ten.html"
    path.write_text(html_page(TITLE, (Part("yard", sheet), Part("report", (Heading(TITLE, 1),)))), encoding="utf-8")
    tab = opened(path)
    pages = pages_of(on_paper(tab.page, paper), None)
    *of_sheet, last = pages
    assert len(of_sheet) == 2
    assert last == squeezed(TITLE)
    for text in words(sheet):
        assert squeezed(text) in "".join(of_sheet), text
    for page in of_sheet:
        assert squeezed("How to check it") in page
    room_to_write(tab, paper)


def test_everything_that_is_said_comes_out_of_the_printer(
    report_of: Callable[..., Report], opened: Callable[..., Tab]
) -> None:
    report = report_of(SHORTEST)
    whole = "".join(pages_of(on_paper(opened(report.path).page, "A4"), report.name))
    texts = {text for part in report.parts for text in words(part.document)}
    missing = [text for text in texts if squeezed(text) not in whole]
    assert len(texts) > 300
    # A cell or a sentence that goes on over the end of a page is not in one piece.
    assert [text for text in missing if not _in_two_pieces(squeezed(text), whole)] == []


def _in_two_pieces(text: str, whole: str) -> bool:
    return any(text[:cut] in whole and text[cut:] in whole for cut in range(10, len(text) - 10))
