"""What a compact tractor is: *Compact Tractor Selection, Use and Safety*, Louisiana State University AgCenter.

At second hand, year not given. It quotes ASABE S390.3: usually under 1814 kg [4000 lb] and under 29.8 kW [40 PTO hp].
The trade press says up to 60 hp. Words for size decide nothing in the program.
"""

from __future__ import annotations

import pytest

from firstfurrow.book.model import Book
from firstfurrow.quantities import convert

pytestmark = pytest.mark.published("Louisiana State University AgCenter quoting ASABE S390.3 (secondary)")


def is_compact(mass: float, power: float, horsepower: float = 40) -> bool:
    return convert(mass, "kg", "lb") < 4000 and convert(power, "kW", "hp") < horsepower


@pytest.mark.parametrize(("mass", "power", "compact"), [(1500, 25, True), (1900, 25, False), (1500, 31, False)])
def test_wording_of_the_standard(mass: float, power: float, compact: bool) -> None:
    assert is_compact(mass, power) is compact


def test_trade_press_is_wider() -> None:
    assert not is_compact(1700, 40)
    assert is_compact(1700, 40, horsepower=60)


@pytest.mark.parametrize(
    ("row", "compact"),
    [("subcompact", True), ("compact_small", True), ("compact_medium", True), ("compact_large", False)],
)
def test_our_large_compact_is_larger_than_the_standard_means(book: Book, row: str, compact: bool) -> None:
    """The usual large compact of the table, 1850 kg, is past 4000 lb."""
    figures = book.tables["size_classes"][row]
    assert is_compact(figures["mass"].planning, figures["pto_power"].planning) is compact
