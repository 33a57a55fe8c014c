"""Rear wheel tracks: *Teaching Organic Farming and Gardening*, supplement 4, University of California, Santa Cruz.

In a copy (secondary, year not given): row tractors of 19 to 26 kW [25 to 35 hp] 1.22 to 1.52 m [48 to 60 in] from
middle to middle, 60 kW [80 hp] and more often 2.03 m [80 in].
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("Teaching Organic Farming and Gardening, University of California (secondary)")


@pytest.mark.parametrize(("row", "inches"), [("compact_small", 48), ("compact_medium", 48), ("utility_large", 80)])
def test_our_usual_tracks_are_narrower_than_row_crop_settings(book: Book, row: str, inches: float) -> None:
    """A narrower track tips earlier, so the classes err to the safe side of these settings."""
    assert book.tables["size_classes"][row]["track"].planning < convert(inches, "in", "m")
