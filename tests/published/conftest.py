"""The shipped book for the tests against the outside world, and the marker for our own regression cases."""

from __future__ import annotations

import pytest

from firstfurrow.book.load import load
from firstfurrow.book.model import Book


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "derived(reason): our own regression case, worked out from a source's figures")


@pytest.fixture(scope="session")
def book() -> Book:
    return load()
