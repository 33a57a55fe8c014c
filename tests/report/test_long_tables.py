"""Tables of thousands of rows look exactly like short ones."""

from __future__ import annotations

import random

import pytest

from firstfurrow.report import text
from firstfurrow.report.blocks import Table
from firstfurrow.report.text import render

CELLS = (
    "ab", "a longer one of several words", "x" * 19, "x" * 20, "x" * 21, "x" * 22, "x" * 40, "", "-", "12 of 13",
    "über", "日本語", "two  spaces", " before", "after ", "a\tb", "a\nb",
)  # fmt: skip


@pytest.mark.parametrize("width", [64, 71, 80, 100])
@pytest.mark.parametrize("columns", [1, 2, 5])
@pytest.mark.parametrize("colour", [False, True])
def test_a_long_table_looks_like_a_short_one(
    monkeypatch: pytest.MonkeyPatch, width: int, columns: int, colour: bool
) -> None:
    draw = random.Random(width * columns)
    rows = tuple(
        tuple(draw.choice(CELLS) if draw.random() < 0.3 else f"row {number}" for _ in range(columns))
        for number in range(2 * text.LONG)
    )
    table = (Table(tuple(f"Column {n}" for n in range(columns)), rows),)
    quick = render(table, width, colour=colour)
    monkeypatch.setattr(text, "LONG", len(rows))
    assert render(table, width, colour=colour) == quick
