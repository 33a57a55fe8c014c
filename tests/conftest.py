"""Shared by all tests: the shipped book, and the maker of answers and profiles."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest

from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from making import Maker


@pytest.fixture(scope="session", autouse=True)
def compiled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Where Python keeps no compiled modules, the programs that tests start keep theirs in a folder of the tests."""
    if not os.environ.get("PYTHONDONTWRITEBYTECODE"):
        yield
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("PYTHONDONTWRITEBYTECODE")
        patch.setenv("PYTHONPYCACHEPREFIX", str(tmp_path_factory.mktemp("compiled")))
        yield


@pytest.fixture(scope="session")
def book() -> Book:
    return load()


@pytest.fixture(scope="session")
def maker(book: Book) -> Maker:
    return Maker(book)
