"""A slope from board and level or from a phone, and an area from paces."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.advice.measuring.telling import Finding, Readings, Teller, both, limit
from firstfurrow.book.model import Book
from firstfurrow.mechanics.measuring import angle_of_slope, area_of_paces, slope_of_board
from firstfurrow.quantities import convert, format_number


def find_slope(book: Book, readings: Readings) -> Finding:
    """The slope, the steeper of two places."""
    tell = Teller(book)
    other, care = (tell("slope_else"),), (tell("slope_care"),)
    slopes = [round(slope, 1) for slope in (*_shown(readings), *_under_board(readings))]
    if not slopes:
        return Finding((tell("slope_none"),), other, (tell("slope_next_sides"),), care)
    steepest = max(slopes)
    what = [tell("slope_is", slope=_percent(steepest), angle=both(angle_of_slope(slope=steepest), "deg", "angle"))]
    if len(slopes) > 1:
        what.append(tell("slope_place", first=_percent(slopes[0]), second=_percent(slopes[1])))
    if steepest > limit(book, "wall"):
        what.append(tell("slope_wall"))
    return Finding(tuple(what), other, (tell("slope_next_more"), tell("slope_next_sides")), care)


def _shown(readings: Readings) -> Iterator[float]:
    """Slopes that were read off a phone, or typed as known."""
    for step in ("reading", "reading_again"):
        value = readings.get(step)
        if isinstance(value, float):
            yield value


def _under_board(readings: Readings) -> Iterator[float]:
    """Slopes from the gap under a level board."""
    board = readings.get("board")
    for step in ("gap", "gap_again"):
        gap = readings.get(step)
        if isinstance(board, float) and isinstance(gap, float):
            yield slope_of_board(gap=convert(gap, "cm", "m"), board=board)


def find_area(book: Book, readings: Readings) -> Finding:
    """The area of one piece."""
    tell = Teller(book)
    care = (tell("area_care"),)
    ten, along, across = (readings.get(step) for step in ("ten_steps", "along", "across"))
    open_ = {"area_next_steps": ten, "area_next_along": along, "area_next_across": across}
    next_ = tuple(tell(name) for name, value in open_.items() if value is None)
    known = isinstance(ten, float) and isinstance(along, int | float) and isinstance(across, int | float)
    if not known:
        return Finding((tell("area_none"),), (), next_, care)
    assert isinstance(ten, float)
    assert isinstance(along, int | float)
    assert isinstance(across, int | float)

    def area(part: float) -> str:
        paced = area_of_paces(part=part, paces=along, paces_across=across, pace=ten / 10)
        return both(paced, "ha", "area", 2)

    form = readings.get("form")
    what = [tell("area_is", area=area(0.5 if form == "triangle" else 1))]
    what.append(tell("area_off", share=_percent(limit(book, "pacing"))))
    other = () if form is not None else (tell("area_no_form", half=area(0.5)),)
    return Finding(tuple(what), other, (tell("area_next_map"),), care)


def _percent(value: float) -> str:
    return f"{format_number(value, 1)} %"
