"""Quantities: working units, typed text to them ("5 ft 6", "12 gpm"), and back to the reader's units.

Every dimension has one fixed working unit. Factors are exact ratios of whole numbers, so that a conversion is off by no
more than the last bit of a float. The expected dimension is always known, which is why `ac`, `in` and `'` are never
in doubt. No input or output happens here.
"""

from firstfurrow.quantities.figure_text import parse_figure_text
from firstfurrow.quantities.reading import Typed, parse
from firstfurrow.quantities.showing import (
    dimension_of,
    format_number,
    reader_unit,
    round_down,
    round_up,
    show,
)
from firstfurrow.quantities.units import DIMENSIONS, Dimension, QuantityError, Units, convert, factor

__all__ = [
    "DIMENSIONS", "Dimension", "QuantityError", "Typed", "Units", "convert", "dimension_of", "factor", "format_number",
    "parse", "parse_figure_text", "reader_unit", "round_down", "round_up", "show",
]  # fmt: skip
