"""Measured draft in clay loam: *Iranian Journal of Biosystems Engineering*, article 20644, abstract. Read.

Fitted A, B, C of single units: mouldboard 256.26, 2.28, 12.11. The abstract gives no units; N, cm and km/h are assumed.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.mechanics.draft import tool_draft

pytestmark = pytest.mark.published("Iranian Journal of Biosystems Engineering, article 20644")


def test_measured_mouldboard_lies_within_the_range_of_our_row(book: Book) -> None:
    measured = tool_draft(soil_factor=1, A=256.26, B=2.28, C=12.11, speed=5, width=1, depth=1)
    row = book.tables["draft"]["mouldboard_plough"]
    ours = tool_draft(
        soil_factor=row["fine"].planning, A=row["A"].planning, B=row["B"].planning, C=row["C"].planning,
        speed=5, width=1, depth=1,
    )  # fmt: skip
    assert 1 - measured / ours == pytest.approx(0.27, abs=0.005)
    assert abs(1 - measured / ours) < row["range"].planning / 100
