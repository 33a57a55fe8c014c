"""The browser that the tests look with: which program, which pages, and what a tab remembers."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from firstfurrow.report.blocks import Part
from firstfurrow.talk.recordings import shipped

NAMES = ("chromium", "chromium-browser", "google-chrome")
NONE_FOUND = (
    "No Chromium is found. Debian and Ubuntu: apt-get install chromium fonts-liberation. Elsewhere: name the program "
    "in the variable CHROMIUM."
)
# Nothing of its own to the network either: no name is looked up.
QUIET = (
    "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-sync",
    "--disable-component-update", "--host-resolver-rules=MAP * ~NOTFOUND",
)  # fmt: skip
MARKS = [pytest.mark.browser, pytest.mark.xdist_group("browser")]  # one browser for all of them

BUYERS = tuple(one for one in shipped() if (one.folder / "adviser.yaml").is_file())

LONGEST = tuple(one for one in BUYERS if one.name in ("build_and_split", "hay_on_hills"))
SHORTEST = next(one for one in BUYERS if one.name == "market_beds")


@dataclass(frozen=True)
class Report:
    """The report of a buyer as a file, and the blocks that it was written from."""

    path: Path
    parts: tuple[Part, ...]
    name: str | None


def chromium() -> str | None:
    """The program, where there is one."""
    named = os.environ.get("CHROMIUM")
    return next(filter(None, map(shutil.which, (named,) if named else NAMES)), None)


@dataclass
class Tab:
    """A page in the browser with all that it asked for and all that the console said."""

    page: Any
    asked: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.route("**/*", self._asked)
        self.page.on("console", lambda message: self.said.append(f"{message.type}: {message.text}"))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))

    def _asked(self, route: Any) -> None:
        self.asked.append(route.request.url)
        if route.request.url.startswith("file:"):
            route.continue_()
        else:
            route.abort()

    def wide(self) -> int:
        """By how many pixels the page is wider than the window."""
        return int(self.page.evaluate("document.scrollingElement.scrollWidth - innerWidth"))
