"""Which hookup asks how much of the turning shaft: a bar for what is planned with, a line for how far it may be off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfurrow.advice.demands import Demand
from firstfurrow.advice.strictest import Strictest
from firstfurrow.quantities import factor, format_number
from firstfurrow.reasoning import ends
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Label, Line
from firstfurrow.report.page import Page
from firstfurrow.report.pictures.letters import width
from firstfurrow.report.pictures.scale import marks, unit_of
from firstfurrow.report.pictures.sheet import MARGIN, ROOM, WIDTH, Sheet, on_paper, rectangle
from firstfurrow.report.pictures.words import Say, begun, sayer

REQUIREMENT = "pto_power"
MOST = 10  # hookups on the drawing; the others are counted
_LONGEST = ROOM - 24  # of a bar; right of it is room for the arrow of a line without end
_BAR, _REACH = 15.0, 7.0  # how high


@dataclass(frozen=True, slots=True)
class Row:
    """One hookup: what is planned with, how far it may lie off, and what is said of it."""

    name: str
    value: float
    low: float | None
    high: float | None  # None: no power is enough at that end
    shown: str
    reach: str
    marks: tuple[str, ...]  # that it decides, that it may come later


def pictures(page: Page) -> Iterator[Picture]:
    """The picture, where anything asks for power."""
    outcome = page.profile.outcomes[REQUIREMENT]
    widest = outcome.widest
    if widest is None:
        return
    say = sayer(page.book)
    rows = tuple(_rows(page, say, widest))
    shown, more = rows[:MOST], rows[MOST:]
    unit = unit_of(outcome.requirement, page.profile.units)
    by = factor(outcome.requirement.unit, unit)
    greatest = max([widest.stated, *(row.high or row.value for row in shown), *(row.value for row in shown)]) or 1.0
    ticks = marks(greatest * by)
    sheet = Sheet()
    _key(sheet, say, widest)
    for row in shown:
        _draw(sheet, row, _LONGEST / greatest, widest.stated)
    if more:
        sheet.skip(4)
        sheet.words(say("power.more", count=len(more)), size="small")
    _axis(sheet, ticks, _LONGEST / (greatest * by), unit)
    said = [say("power.asked", shown=widest.shown)]
    said += [
        " ".join((say("power.line", name=row.name, shown=row.shown), *row.marks, row.reach)).strip() for row in shown
    ]
    said += [say("power.more", count=len(more))] if more else []
    said.append(say("power.scale", marks=", ".join(format_number(tick, 2) for tick in ticks), unit=unit))
    yield Picture("power", say("power.title"), sheet.drawing(), tuple(said))


# ------------------------------------------------------------------------- rows


def _rows(page: Page, say: Say, widest: Strictest) -> Iterator[Row]:
    """All hookups that ask for power, the greatest first."""
    profile = page.profile
    sure = profile.outcomes[REQUIREMENT].sure
    known = {(d.hookup, d.name) for d in profile.sure if d.requirement == REQUIREMENT}
    demands = [d for d in profile.demands if d.requirement == REQUIREMENT]
    for demand in sorted(demands, key=lambda d: -float(d.value)):
        later = (demand.hookup, demand.name) not in known
        marked = [say("power.decides")] if _is(demand, widest) else []
        if sure is not None and sure.shown != widest.shown and _is(demand, sure):
            marked.append(say("power.decides_sure", shown=sure.shown))
        if later:
            marked.append(say("later"))
        end = ends(demand.top)
        yield Row(
            begun(demand.name), float(demand.value), end.low, end.high, widest.told(demand.value),
            _reach(say, widest, demand, end.low, end.high), tuple(marked),
        )  # fmt: skip


def _is(demand: Demand, strictest: Strictest) -> bool:
    governing = strictest.governed_by
    return governing is not None and (governing.hookup, governing.name) == (demand.hookup, demand.name)


def _reach(say: Say, widest: Strictest, demand: Demand, low: float | None, high: float | None) -> str:
    least = widest.told(demand.value if low is None else low)
    if high is None:
        return say("power.reach_open", low=least)
    most = widest.told(high)
    return "" if least == most else say("power.reach", low=least, high=most)


# ---------------------------------------------------------------------- drawing


def _key(sheet: Sheet, say: Say, widest: Strictest) -> None:
    """What bar, line and dashed line stand for."""
    x, room = MARGIN + 40, ROOM - 40
    top = sheet.y
    sheet.add(rectangle(MARGIN, top + 4, 30, 11, "mid"))
    sheet.words(say("power.key_bar"), x=x, room=room, size="small", most=1)
    sheet.skip(3)
    _whisker(sheet, MARGIN, MARGIN + 30, sheet.y + 8)
    sheet.words(say("power.key_line"), x=x, room=room, size="small", most=1)
    sheet.skip(3)
    sheet.add(Line(MARGIN + 15, sheet.y, MARGIN + 15, sheet.y + 16, "dashed"))
    sheet.words(say("power.key_asked", shown=widest.shown), x=x, room=room, size="small", bold=True, most=1)
    sheet.skip(6)


def _draw(sheet: Sheet, row: Row, scale: float, asked: float) -> None:
    sheet.skip(9)
    sheet.words(row.name, bold=True)
    top = sheet.y + 3
    dashed = MARGIN + asked * scale
    sheet.add(Line(dashed, top - 1, dashed, top + _BAR + _REACH + 5, "dashed"))
    end = MARGIN + row.value * scale
    sheet.add(rectangle(MARGIN, top, row.value * scale, _BAR, "mid"))
    sheet.add(*on_paper(Label(_beside(end, dashed, width(row.shown, bold=True)), top + 12, row.shown, bold=True)))
    if row.reach:
        left = MARGIN + (row.value if row.low is None else row.low) * scale
        _whisker(sheet, left, None if row.high is None else MARGIN + row.high * scale, top + _BAR + 5)
    sheet.y = top + _BAR + _REACH + 2
    if row.marks:
        sheet.words(" ".join(row.marks), size="small", bold=True)
    if row.reach:
        sheet.words(row.reach, size="small")


def _beside(end: float, dashed: float, wide: float) -> float:
    """Where words of this width begin that stand at the end of a bar and not on the dashed line."""
    x = end + 7
    if x - 4 < dashed < x + wide + 4:
        x = dashed + 7
    return x if x + wide < WIDTH - MARGIN else end - 5 - wide


def _whisker(sheet: Sheet, left: float, right: float | None, y: float) -> None:
    """A line with an end at each side; an arrow where there is no end."""
    sheet.add(Line(left, y - _REACH / 2, left, y + _REACH / 2))
    if right is None:
        sheet.add(Line(left, y, WIDTH - MARGIN, y, arrow="end"))
    else:
        sheet.add(Line(left, y, right, y), Line(right, y - _REACH / 2, right, y + _REACH / 2))


def _axis(sheet: Sheet, ticks: Sequence[float], scale: float, unit: str) -> None:
    sheet.skip(12)
    y = sheet.y
    sheet.add(Line(MARGIN, y, MARGIN + _LONGEST, y, "thin"))
    for tick in ticks:
        x = MARGIN + tick * scale
        words = format_number(tick, 2) if tick != ticks[-1] else f"{format_number(tick, 2)} {unit}"
        sheet.add(Line(x, y, x, y + 5, "thin"))
        half = width(words, "small") / 2
        sheet.add(Label(min(max(x, MARGIN + half), WIDTH - MARGIN - half), y + 17, words, "middle", "small"))
    sheet.y = y + 18
