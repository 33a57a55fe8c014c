"""The slopes of the land, each as a triangle at its true angle with a tractor on it, and what the plan says of it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from firstfurrow.advice.pictured.slopes import Limit, Slope, across, across_is_open, climb, limit_across
from firstfurrow.advice.profile import Profile
from firstfurrow.quantities import Units, format_number, reader_unit
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Area, Label, Line, Path, Shape
from firstfurrow.report.page import Page
from firstfurrow.report.pictures import tractor_behind, tractor_side
from firstfurrow.report.pictures.letters import box, width
from firstfurrow.report.pictures.places import Place
from firstfurrow.report.pictures.sheet import MARGIN, WIDTH, Sheet, on_paper
from firstfurrow.report.pictures.spots import Spots
from firstfurrow.report.pictures.values import bare
from firstfurrow.report.pictures.words import Say, sayer

LEFT = 96.0  # where every slope begins; the angle stands before it
_LONG, _HIGH = 276.0, 150.0  # a triangle is no longer and no higher
_TALL = 100.0  # how high a tractor is drawn
_ARC = 56.0  # radius of the arc that marks the angle


def pictures(page: Page) -> Iterator[Picture]:
    """One picture with a part for the climb and one for the way across; nothing on level land."""
    say, profile = sayer(page.book), page.profile
    up, side, open_ = climb(profile), across(profile), across_is_open(profile)
    if up is None and side is None and not open_:
        return
    sheet = Sheet()
    says: list[str] = [] if up is None and side is None else [say("slope_says_intro")]
    if up is not None:
        notes = tuple(_notes_climb(say, up))
        _part(say, profile, sheet, say("slope_climb"), up, None, notes)
        says += (*_says_slope(say, profile, up, say("slope_says_climb")), *notes, *_reasons(up))
    if side is not None:
        limit = limit_across(profile)
        notes = tuple(_notes_across(say, profile, side, limit))
        _part(say, profile, sheet, say("slope_across"), side, limit, notes)
        says += (*_says_slope(say, profile, side, say("slope_says_across")), *notes, *_says_limit(say, limit))
        says += _reasons(side)
    elif open_:
        _open(say, profile, sheet)
        says += (say("slope_says_open"), say("slope_open_note"))
    says.append(say("slope_caution"))
    yield Picture("slope", say("slope_title"), sheet.drawing(), tuple(says))


# ------------------------------------------------------------------------- parts


def _part(
    say: Say, profile: Profile, sheet: Sheet, title: str, slope: Slope, limit: Limit | None, notes: Sequence[str]
) -> None:  # fmt: skip
    """The triangle with its tractor, and below it what is to be said."""
    _heading(sheet, title)
    rise_for_one = math.tan(math.radians(slope.angle))
    steepest = max(rise_for_one, math.tan(math.radians(limit.angle)) if limit is not None else 0.0)
    long = min(_LONG, _HIGH / steepest)
    rise = long * rise_for_one
    tall = _tall(slope, limit, long)
    foot = sheet.y + tall
    right, top = LEFT + long, foot - rise
    sheet.add(Area(((LEFT, foot), (right, foot), (right, top)), "light"))
    if limit is not None:
        end = foot - long * math.tan(math.radians(limit.angle))
        sheet.add(Line(LEFT, foot, right + 4, foot - (foot - end) * (long + 4) / long, "dashed"))
    sheet.add(*_arc(LEFT, foot, slope.angle, min(_ARC, long / 3)))
    sheet.add(*_tractor(profile, slope, limit, (LEFT + right) / 2, (foot + top) / 2))
    sheet.add(*_sides(say, profile.units, slope, limit, (foot, right, top)))
    sheet.y = foot + 26
    for number, note in enumerate((_rise(say, profile.units, slope), *notes)):
        sheet.skip(3)
        sheet.words(note, bold=number == 0, most=4)


def _heading(sheet: Sheet, title: str) -> None:
    if sheet.y > MARGIN:
        sheet.skip(12)
        sheet.add(Line(MARGIN, sheet.y, WIDTH - MARGIN, sheet.y, "thin"))
        sheet.skip(4)
    sheet.words(title, bold=True, size="large")
    sheet.skip(6)


def _tall(slope: Slope, limit: Limit | None, long: float) -> float:
    """Height of what is drawn above the foot of the slope: the tractor in the middle, or the end of a line."""
    turn = math.radians(slope.angle)
    tractor = long / 2 * math.tan(turn) + _TALL * math.cos(turn) + 0.7 * _TALL * math.sin(turn)
    steepest = max(slope.angle, 0 if limit is None else limit.angle)
    return max(tractor, long * math.tan(math.radians(steepest)) + 14) + 4


def _tractor(profile: Profile, slope: Slope, limit: Limit | None, x: float, y: float) -> Iterator[Shape]:
    """From the side on a climb, from behind across; crossed out where the plan refuses it."""
    row = profile.stand_in
    if limit is None:
        wheelbase = row["wheelbase"].planning
        tall = tractor_side.TALL * wheelbase
        middle = (tractor_side.AHEAD - tractor_side.REAR) * wheelbase / 2
        shapes, half = tractor_side.tractor(wheelbase), (tractor_side.AHEAD + tractor_side.REAR) * wheelbase / 2
    else:
        tall, middle, half = row["height"].planning, 0.0, row["width"].planning / 2
        shapes = tractor_behind.tractor(row["track"].planning, row["width"].planning, tall)
    scale = _TALL / tall
    turn = math.radians(slope.angle)
    place = Place(x - middle * scale * math.cos(turn), y + middle * scale * math.sin(turn), scale, slope.angle)
    yield from place.put(shapes)
    if slope.refusals:
        low, high = 0.06 * tall, 0.94 * tall
        yield Path((place.at(middle - half, low), place.at(middle + half, high)), "thick")
        yield Path((place.at(middle - half, high), place.at(middle + half, low)), "thick")


def _arc(x: float, y: float, angle: float, radius: float) -> Iterator[Shape]:
    turns = [math.radians(angle * step / 12) for step in range(13)]
    yield Path(tuple((x + radius * math.cos(t), y - radius * math.sin(t)) for t in turns), "normal")


def _sides(
    say: Say, units: Units, slope: Slope, limit: Limit | None, corners: tuple[float, float, float]
) -> Iterator[Shape]:
    """The angle before the slope, the rise behind it, the run below it, and the limit where one is drawn."""
    foot, right, top = corners
    yield Label(LEFT - 10, foot - 18, say("slope_percent", percent=_number(slope.percent)), "end", bold=True)
    yield Label(LEFT - 10, foot - 2, say("slope_degrees", degrees=_number(slope.angle)), "end")
    one, along = _one(units), say("slope_length", length=_along(slope), unit=reader_unit("length", units))
    run = Label((LEFT + right) / 2 - width(along) / 2, foot + 18, along)
    yield Line(LEFT, foot + 13, right, foot + 13, "thin", "both")
    yield from on_paper(run)
    spots = Spots((0.0, 0.0, WIDTH - 4, foot + 8))
    if limit is not None:
        end = foot - (right - LEFT) * math.tan(math.radians(limit.angle))
        words = Label(right + 10, min(end, foot) + 4.5, say("slope_limit", degrees=_number(limit.angle)))
        spots.take(box(words))
        yield words
    rises = [Label(right + 10, (foot + top) / 2 + down, one) for down in (4.5, 10, 0, 16, -6, 22, -12, -20)]
    yield rises[spots.best([box(label) for label in rises])]


def _open(say: Say, profile: Profile, sheet: Sheet) -> None:
    """Nobody knows how steep it is across: no triangle, and no tractor on it."""
    row = profile.stand_in
    _heading(sheet, say("slope_across"))
    foot = sheet.y + _TALL + 6
    tall = row["height"].planning
    place = Place(LEFT + _LONG / 2, foot, _TALL / tall)
    wide = row["width"].planning
    sheet.add(Line(LEFT, foot, LEFT + _LONG, foot, "dashed"))
    sheet.add(*place.put(tractor_behind.tractor(row["track"].planning, wide, tall)))
    for low, high in ((0.06, 0.94), (0.94, 0.06)):
        sheet.add(Path((place.at(-wide / 2, low * tall), place.at(wide / 2, high * tall)), "thick"))
    sheet.add(Label(LEFT - 10, foot - 2, say("slope_open_angle"), "end", bold=True))
    sheet.y = foot + 6
    sheet.words(say("slope_open_note"), bold=True, most=3)


# -------------------------------------------------------------------------- words


def _number(value: float) -> str:
    return format_number(value, 1)


def _one(units: Units) -> str:
    return f"1 {reader_unit('length', units)}"


def _along(slope: Slope) -> str:
    """How far along for one up, as many decimals as anybody would measure."""
    run = 100 / slope.percent
    return format_number(run, 0 if run >= 20 else 1)


def _rise(say: Say, units: Units, slope: Slope) -> str:
    return say("slope_rise", one=_one(units), along=_along(slope), unit=reader_unit("length", units))


def _notes_climb(say: Say, slope: Slope) -> Iterator[str]:
    yield from _assumed(say, slope)
    yield from _refused(say, slope)
    if not slope.refusals:
        yield say("slope_climb_note")


def _notes_across(say: Say, profile: Profile, slope: Slope, limit: Limit) -> Iterator[str]:
    yield from _assumed(say, slope)
    yield from _refused(say, slope)
    yield say("slope_limit_note", percent=_number(limit.percent), degrees=_number(limit.angle))
    track = profile.outcomes["track_least"].widest
    if track is not None:
        yield say("slope_track_note", track=bare(track.shown))


def _assumed(say: Say, slope: Slope) -> Iterator[str]:
    if not slope.said:
        yield say("slope_assumed", planned=_number(slope.percent), low=_number(slope.low), high=_number(slope.high))


def _refused(say: Say, slope: Slope) -> Iterator[str]:
    for refusal in slope.refusals:
        yield say("slope_refused", title=refusal.title)


def _reasons(slope: Slope) -> Iterator[str]:
    """Why it is refused, and what is said there against the danger."""
    for refusal in slope.refusals:
        yield from (refusal.reason, refusal.caution)


def _says_slope(say: Say, profile: Profile, slope: Slope, what: str) -> Iterator[str]:
    yield say("slope_says_slope", what=what, percent=_number(slope.percent), degrees=_number(slope.angle))
    yield _rise(say, profile.units, slope)


def _says_limit(say: Say, limit: Limit) -> Iterator[str]:
    if limit.because == "grip":
        yield say("slope_says_grip", surface=limit.name)
    else:
        yield say("slope_says_teaching", name=limit.name)
    if limit.grade == "memory":
        yield say("slope_says_memory")
