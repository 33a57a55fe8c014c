"""Figures of the book, such as "11 kW/m", to numbers in working units: fast, because there are thousands."""

from __future__ import annotations

import re

from firstfurrow.quantities.reading import NUMBER, parse
from firstfurrow.quantities.spelling import canonical, pattern_of
from firstfurrow.quantities.units import AT_HOME, DIMENSIONS, UNITS, QuantityError, ratio_of

_FIGURE = re.compile(r"(-?\d+(?:\.\d+)?) (\S.*)")


def _fast_table() -> dict[str | None, dict[str, tuple[float, float, str]]]:
    table: dict[str | None, dict[str, tuple[float, float, str]]] = {
        name: {u: (*ratio_of(u, d.working), d.working) for u in d.units if u and u != "deg"}
        for name, d in DIMENSIONS.items()
    }
    table["angle"] = {"deg": (1.0, 1.0, "deg")}
    home: dict[str, tuple[float, float, str]] = {}
    for unit, (family, _, _, _) in UNITS.items():
        if unit:
            name = AT_HOME.get(unit) or family
            home[unit] = table[name][unit]
    table[None] = home
    return table


_FAST = _fast_table()


def parse_figure_text(text: str, dimension: str | None = None) -> tuple[float, str]:
    """A figure of the book: the number in the working unit, and that unit.

    Without a dimension the written unit decides: `mm` stays a bore, `cm` a depth, every other length is in m.

    >>> parse_figure_text("11 kW/m")
    (11.0, 'kW/m')
    >>> parse_figure_text("1150 mm", "length")
    (1.15, 'm')

    Raises
    ------
    QuantityError
        When the text is not one quantity, or not one of that dimension.
    """
    found = _FIGURE.fullmatch(text)
    if found is not None:
        number, unit = found.groups()
        known = _FAST[dimension].get(unit)
        if known is not None:
            above, below, working = known
            value = float(number)
            if dimension is None or value >= 0:
                return value * above / below, working
    if dimension is not None:
        return parse(text, dimension).working, DIMENSIONS[dimension].working
    return _figure_of_any_dimension(text)


def _figure_of_any_dimension(text: str) -> tuple[float, str]:
    found = NUMBER.match(text)
    rest = text[found.end() :].strip() if found else text
    if found is not None and not rest:
        return parse(text, "ratio").working, ""
    unit = pattern_of("").match(rest)
    if found is None or unit is None:
        raise QuantityError(f'"{text}" is not a number with a unit I know.')
    symbol = canonical(unit[1])
    name = AT_HOME.get(symbol) or UNITS[symbol][0]
    return parse(text, name).working, DIMENSIONS[name].working
