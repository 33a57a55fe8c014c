"""One Chromium for all browser tests, in which nothing reaches the network, and the reports that they look at."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from browsing import NONE_FOUND, QUIET, Report, Tab, chromium
from firstfurrow.asking.answers import Units
from firstfurrow.book.model import Book
from firstfurrow.pages import parts_of, written
from firstfurrow.talk.recordings import Recording


# Closed before the tests of another file begin: it keeps the event loop of the thread for itself.
@pytest.fixture(scope="module")
def tab() -> Iterator[Tab]:
    program = chromium()
    if program is None:
        pytest.skip(NONE_FOUND)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=list(QUIET))
        yield Tab(browser.new_page())
        browser.close()


@pytest.fixture(scope="session")
def report_of(book: Book, tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Report]:
    """The report of a buyer, written once."""
    folder = tmp_path_factory.mktemp("reports")

    @cache
    def write(buyer: Recording, units: Units = "us") -> Report:
        answers = replace(buyer.answers(book), units=units)
        parts = parts_of(book, answers)
        path = folder / f"{buyer.name}-{units}.html"
        path.write_text(written(book, parts, "html"), encoding="utf-8")
        return Report(path, parts, answers.name)

    return write


@pytest.fixture
def opened(tab: Tab) -> Callable[..., Tab]:
    """Opens a file in a window of this size, with what the reader wishes: media, color_scheme, forced_colors."""

    def open_(path: Path, width: int = 900, height: int = 1200, **wishes: str) -> Tab:
        no_wish: dict[str, Any] = {"media": "null", "color_scheme": "null", "forced_colors": "null"}
        tab.page.emulate_media(**no_wish | wishes)
        tab.page.set_viewport_size({"width": width, "height": height})
        tab.asked.clear()
        tab.said.clear()
        tab.page.goto(path.as_uri())
        return tab

    return open_
