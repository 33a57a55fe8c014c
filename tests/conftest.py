"""Shared by all tests: the shipped book, and the maker of answers and profiles."""

from __future__ import annotations

import pytest

from firstfurrow.book.load import load
from firstfurrow.book.model import Book
from making import Maker


@pytest.fixture(scope="session")
def book() -> Book:
    return load()


@pytest.fixture(scope="session")
def maker(book: Book) -> Maker:
    return Maker(book)
