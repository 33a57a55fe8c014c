"""All pictures of one plan, in the order in which a reader wants them."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.report.blocks import Picture
from firstfurrow.report.page import Page
from firstfurrow.report.pictures import balance, lift, power, rear, sets, slope


def every(page: Page) -> Iterator[Picture]:
    """Where to measure, then power and oil, then what hangs on the arms, what keeps the wheels down, and the slope."""
    for pictures in (rear, power, sets, lift, balance, slope):
        yield from pictures.pictures(page)
