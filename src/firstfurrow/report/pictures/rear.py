"""Where to measure at the rear of a tractor: every place with its number, and what this plan needs there."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from firstfurrow.advice.measuring.telling import length
from firstfurrow.book.model import Figure, Row
from firstfurrow.quantities import format_number
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Disc, Line, Shape
from firstfurrow.report.page import Page
from firstfurrow.report.pictures import nearer
from firstfurrow.report.pictures.sheet import MARGIN, ROOM, Sheet, numbered
from firstfurrow.report.pictures.tractor import (
    BALL,
    BAR,
    GROUND,
    MIDDLE,
    OUTLET,
    PORTS,
    SHAFT,
    TOP,
    TYRE_MIDDLE,
    TYRE_OUTSIDE,
    ports_right,
    rear,
)
from firstfurrow.report.pictures.words import Say, begun, sayer

MOST_SETS = 8  # that are drawn; the words count them all
# The places, and the requirements that are looked at there.
PLACES: dict[str, tuple[str, ...]] = {
    "arms": ("hitch_category",), "top": (), "span": (), "shaft": ("pto_speed", "pto_shaft_type"),
    "bar": ("drawbar_class", "drawbar_vertical"), "pin": ("shaft_to_pin",),
    "oil": ("rear_sets", "rear_sets_comfortable", "oil_features"), "brakes": ("trailer_brakes",),
    "tyres": ("tyre_tread",), "track": ("track_least",), "width": ("width_most",), "roll_bar": ("roll_bar",),
    "height": ("height_most",), "road": ("road_kit",),
}  # fmt: skip
# Sizes that follow from the hitch category: the place, and the column of the table.
SIZES: dict[str, str] = {"arms": "lower_ball_hole", "top": "upper_pin", "span": "span_tractor"}


@dataclass(frozen=True, slots=True)
class Place:
    """One place: its number, what it is called, and what the plan needs there."""

    id: str
    number: int
    name: str
    needs: tuple[str, ...]


def pictures(page: Page) -> Iterator[Picture]:
    """The picture, where the plan asks for anything that is seen there."""
    say = sayer(page.book)
    found = tuple(_places(page, say))
    if not found:
        return
    numbers = {place.id: place.number for place in found}
    sheet = Sheet()
    down = sheet.y - TOP + 6
    sets, splines = _sets(page), _splines(page)
    kit = _stated(page, "road_kit")
    drawn = rear(sets, splines, emblem=("emblem",) in kit, brake="brakes" in numbers)
    lowest, marks = _numbers(numbers, sets, lights=("lights",) in kit)
    sheet.add(*(nearer.moved(shape, 0, down) for shape in (*drawn, *marks)))
    sheet.y = down + lowest
    nearer.parts(sheet, say, numbers, splines)
    _key(sheet, found)
    sheet.skip(8)
    sheet.words(say("rear.care"), size="small", bold=True)
    none = [say(f"rear.place.{id_}") for id_ in PLACES if id_ not in numbers and id_ not in SIZES]
    last = [say("rear.none", places="; ".join(none))] if none else []
    said = [say("rear.view"), *nearer.said(say, numbers)]
    said += [say("rear.line", number=p.number, name=p.name, needs=" ".join(p.needs)) for p in found]
    yield Picture("rear", say("rear.title"), sheet.drawing(), (*said, *last, say("rear.care")))


def _key(sheet: Sheet, places: Sequence[Place]) -> None:
    """The places with their numbers in two columns, in order down the first one and then down the second."""
    top = sheet.y
    high = [_entry(Sheet(0), place, MARGIN) for place in places]
    first = min(range(1, len(places) + 1), key=lambda count: max(sum(high[:count]), sum(high[count:])))
    lowest = top
    for x, column in ((MARGIN, places[:first]), (MARGIN + ROOM / 2 + 4, places[first:])):
        sheet.y = top
        for place in column:
            _entry(sheet, place, x)
        lowest = max(lowest, sheet.y)
    sheet.y = lowest


def _entry(sheet: Sheet, place: Place, x: float) -> float:
    """One place of the list; how high it is."""
    top = sheet.y
    sheet.skip(6)
    sheet.add(*numbered(x + 10, sheet.y + 10, place.number))
    room = ROOM / 2 - 4 - 27
    sheet.words(place.name, x=x + 27, room=room, bold=True)
    for need in place.needs:
        sheet.words(need, x=x + 27, room=room, size="small", most=8)
    sheet.y = max(sheet.y, top + 27)
    return sheet.y - top


# ------------------------------------------------------------------------ needs


def _places(page: Page, say: Say) -> Iterator[Place]:
    number = 0
    for id_, requirements in PLACES.items():
        asked = {r: need for r in requirements if (need := _need(page, say, r)) is not None}
        needs = [begun(say(f"rear.need.{r}", need=need)) for r, need in asked.items()]
        needs += _more(page, say, id_)
        if needs:
            number += 1
            yield Place(id_, number, say(f"rear.place.{id_}"), tuple(needs))


def _need(page: Page, say: Say, id_: str) -> str | None:
    """What is asked for, and whether only by what may come."""
    outcome = page.profile.outcomes[id_]
    widest, sure = outcome.widest, outcome.sure
    if widest is None or (id_ == "rear_sets_comfortable" and not _more_for_comfort(page)):
        return None
    need = page.need(outcome, widest)
    if sure is None:
        return say("rear.only_later", need=need)
    if sure.shown != widest.shown:
        return say("rear.sure_and_later", need=need, sure=page.need(outcome, sure))
    return need


def _more_for_comfort(page: Page) -> bool:
    must, comfort = (page.profile.outcomes[id_].widest for id_ in ("rear_sets", "rear_sets_comfortable"))
    return comfort is not None and (must is None or comfort.stated > must.stated)


def _more(page: Page, say: Say, place: str) -> Iterator[str]:
    """Sizes that follow from a category or a class: they stand in tables of the book."""
    if place in SIZES:
        rows = page.book.tables["hitch_categories"].rows
        stated = [rows.get(str(word).replace(" ", "_")) for word in _stated(page, "hitch_category")]
        sizes = _sizes(page, say, [row for row in stated if row is not None], SIZES[place])
        if sizes:
            yield say(f"rear.size.{place}", sizes=sizes)
    widest = page.profile.outcomes["drawbar_class"].widest
    if place == "bar" and widest is not None:
        row = page.book.tables["drawbar_classes"].rows.get(format_number(widest.stated, 0))
        if row is not None and "pin" in row.figures:
            yield say("rear.size.bar", size=_size(page, say, row["pin"]))


def _sizes(page: Page, say: Say, rows: Sequence[Row], column: str) -> str:
    """A size for each row that has one; rows of the same size together."""
    names: dict[str, list[str]] = {}
    for row in rows:
        figure = row.figures.get(column)
        if figure is not None:
            names.setdefault(_size(page, say, figure), []).append(row.name)
    return "; ".join(say("rear.size", size=size, names=say("and").join(rows)) for size, rows in names.items())


def _size(page: Page, say: Say, figure: Figure) -> str:
    """A short length for this reader; where it is from memory it says so."""
    if figure.source is not None and figure.source not in page.sources:
        page.sources.append(figure.source)
    both = length(figure.planning)
    metric, _, inches = both.rstrip(")").partition(" (about ")
    shown = metric if page.profile.units == "metric" else say("rear.inches", inches=inches, metric=metric)
    return say("rear.memory", size=shown) if figure.grade == "memory" else shown


def _stated(page: Page, id_: str) -> tuple[object, ...]:
    widest = page.profile.outcomes[id_].widest
    return () if widest is None else tuple(widest.stated)


def _sets(page: Page) -> int:
    """How many sets are drawn: those that the plan must have."""
    widest = page.profile.outcomes["rear_sets"].widest
    return 0 if widest is None else min(int(widest.stated), MOST_SETS)


def _splines(page: Page) -> int:
    """As many grooves as the plan asks for; where it asks for none, the first type of the book."""
    rows = page.book.tables["shaft_types"].rows
    groups = [group for group in _stated(page, "pto_shaft_type") if isinstance(group, tuple)]
    asked = [row for group in groups for one in group if (row := rows.get(str(one))) is not None]
    row = asked[0] if asked else next(iter(rows.values()))
    return int(row["splines"].planning)


# ---------------------------------------------------------------------- numbers


def _numbers(numbers: dict[str, int], sets: int, *, lights: bool) -> tuple[float, list[Shape]]:
    """The rings with their leaders and arrows, and how far down they reach."""
    found: list[Shape] = []
    at: dict[str, Callable[[int], Sequence[Shape]]] = {
        "arms": lambda n: (*_to(205, 341, MIDDLE - BALL[0] + 6, BALL[1] + 1), *numbered(205, 341, n)),
        "top": lambda n: (*_to(281, 220, MIDDLE + 6, 220), *numbered(281, 220, n)),
        "shaft": lambda n: (*_to(196, SHAFT - 4, MIDDLE - 8, SHAFT), *numbered(196, SHAFT - 4, n)),
        "bar": lambda n: (*_to(276, 330, MIDDLE + 12, BAR + 1), *numbered(276, 330, n)),
        "oil": lambda n: (*_to(344, 140, ports_right(sets) - 4, PORTS[0] + PORTS[1] / 2), *numbered(344, 140, n)),
        "brakes": lambda n: (*_to(136, 132, OUTLET[0] - 4, OUTLET[1] - 2), *numbered(136, 132, n)),
        "tyres": lambda n: (*_to(50, 290, MIDDLE - TYRE_OUTSIDE + 8, 290), *numbered(50, 290, n)),
        "roll_bar": lambda n: (*_to(130, 84, MIDDLE - 72, 84), *numbered(130, 84, n)),
        "road": lambda n: (
            (*_to(50, 150, 110, 176), *numbered(50, 150, n)) if lights
            else (*_to(344, 96, MIDDLE + 20, 147), *numbered(344, 96, n))
        ),
        "height": lambda n: (
            Line(MIDDLE + 80, TOP, 446, TOP, "thin"), Line(438, TOP, 438, GROUND, "thin", "both"),
            *numbered(438, 216, n),
        ),
        "span": lambda n: _across(BALL[0], BALL[1] + 12, 357, n),
    }  # fmt: skip
    for id_, shapes in at.items():
        if id_ in numbers:
            found += shapes(numbers[id_])
    y = GROUND + 8
    for id_, half in (("track", TYRE_MIDDLE), ("width", TYRE_OUTSIDE)):
        if id_ in numbers:
            y += 18
            found += _across(half, GROUND + 4, y, numbers[id_])
            y += 8
    return y, found


def _to(x: float, y: float, there_x: float, there_y: float) -> tuple[Shape, ...]:
    """A leader from a ring to the place, with a dot at its end."""
    return Line(x, y, there_x, there_y, "thin"), Disc(there_x, there_y, 2.2, "dark", "none")


def _across(half: float, top: float, y: float, number: int) -> tuple[Shape, ...]:
    """An arrow across, as far on the left as on the right, with its number in the middle."""
    left, right = MIDDLE - half, MIDDLE + half
    return (
        Line(left, top, left, y + 5, "thin"), Line(right, top, right, y + 5, "thin"),
        Line(left, y, right, y, "thin", "both"), *numbered(MIDDLE, y, number),
    )  # fmt: skip
