"""Windows for the tests of the terminal; where the system has no pseudo-terminals they are left out."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

if sys.platform == "win32":
    collect_ignore_glob = ["test_*window*.py", "test_keys.py", "test_stopping.py"]
else:
    from window import Window

    Open = Callable[..., Window]

    @pytest.fixture
    def open_window(tmp_path: Path) -> Iterator[Open]:
        """Opens windows on the program in an empty folder, and closes them after the test."""
        opened: list[Window] = []

        def open_one(columns: int = 80, rows: int = 24, *arguments: str, **around: Any) -> Window:
            opened.append(Window(tmp_path, columns, rows, *arguments, **around))
            return opened[-1]

        yield open_one
        for window in opened:
            window.close()
