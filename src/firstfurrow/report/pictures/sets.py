"""How many remote sets each hookup takes, two ports each: what it must have, and what more would be comfortable."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from firstfurrow.advice.demands import Demand
from firstfurrow.advice.plan import PlannedItem
from firstfurrow.report.blocks import Picture
from firstfurrow.report.drawing import Disc, Label, Shape
from firstfurrow.report.page import Page
from firstfurrow.report.pictures.letters import width
from firstfurrow.report.pictures.sheet import MARGIN, ROOM, Sheet, rectangle
from firstfurrow.report.pictures.words import Say, begun, sayer

MUST, COMFORT = "rear_sets", "rear_sets_comfortable"
MOST = 7  # hookups on the drawing; the others are counted
_PITCH, _WIDE, _HIGH = 54.0, 44.0, 26.0  # from set to set; one set


@dataclass(frozen=True, slots=True)
class Row:
    """One hookup: the sets that it must have, those for comfort, and what each of them is for."""

    name: str
    must: tuple[str, ...]  # what moves by each
    comfort: tuple[str, ...]  # what more could move from the seat
    marks: tuple[str, ...]

    @property
    def count(self) -> int:
        """All of them."""
        return len(self.must) + len(self.comfort)


def pictures(page: Page) -> Iterator[Picture]:
    """The picture, where anything takes a set."""
    say = sayer(page.book)
    rows = tuple(_rows(page, say))
    if not rows:
        return
    shown, more = rows[:MOST], rows[MOST:]
    must, asked = _count(page, MUST), _asked(page, say)
    without = [n.sized.item.name for n in page.profile.hookups if not (n.sets_must or n.sets_comfortable)]
    rest = [say("sets.more", count=len(more))] if more else []
    rest += [say("sets.without", names=", ".join(without))] if without else []
    sheet = Sheet()
    pitch = min(_PITCH, (ROOM - 4) / max([must, *(row.count for row in shown)]))
    _key(sheet, say, comfort=any(row.comfort for row in shown))
    sheet.skip(8)
    for line in asked:
        sheet.words(line, bold=True)
    if must:
        _symbols(sheet, must, 0, pitch, numbered=False)
    for row in shown:
        _draw(sheet, say, row, pitch)
    sheet.skip(6)
    rest.append(say("sets.one_at_a_time"))
    for line in rest:
        sheet.words(line, size="small", most=4)
    said = (*asked, *(_said(say, row) for row in shown), *rest)
    yield Picture("sets", say("sets.title"), sheet.drawing(), said)


def _asked(page: Page, say: Say) -> list[str]:
    """What the tractor must have, and what would be comfortable."""
    must, comfort = _count(page, MUST), _count(page, COMFORT)
    sure = page.profile.outcomes[MUST].sure
    sure_count = 0 if sure is None else int(sure.stated)
    found = [say("sets.asked", count=must) if must else say("sets.asked_none")]
    if sure_count != must:
        found.append(say("sets.asked_sure", count=sure_count))
    if comfort > must:
        found.append(say("sets.comfortable", count=comfort))
    return found


def _count(page: Page, id_: str) -> int:
    widest = page.profile.outcomes[id_].widest
    return 0 if widest is None else int(widest.stated)


# ------------------------------------------------------------------------- rows


def _rows(page: Page, say: Say) -> Iterator[Row]:
    """Every hookup that takes a set, most sets first."""
    items = {note.sized.item.id: note.sized.item for note in page.profile.hookups}
    by_hookup: dict[str, dict[str, Demand]] = {}
    for demand in page.profile.demands:
        if demand.requirement in (MUST, COMFORT):
            by_hookup.setdefault(demand.hookup, {})[demand.requirement] = demand
    rows = [_row(page, say, items[hookup], demands) for hookup, demands in by_hookup.items()]
    yield from sorted(rows, key=lambda row: (-len(row.must), -row.count))


def _row(page: Page, say: Say, item: PlannedItem, demands: Mapping[str, Demand]) -> Row:
    must, every = (_jobs(page, item, demands.get(id_)) for id_ in (MUST, COMFORT))
    comfort = tuple(job for id_, job in every.items() if id_ not in must)
    widest = page.profile.outcomes[MUST].widest
    governing = widest.governed_by if widest is not None else None
    marks = [say("sets.decides")] if governing is not None and governing.hookup == item.id else []
    marks += [say("later")] if item.when == "later" else []
    return Row(begun(item.name), tuple(must.values()), comfort, tuple(marks))


def _jobs(page: Page, item: PlannedItem, demand: Demand | None) -> dict[str, str]:
    """What moves by each set: a function of the hookup, or a link that takes a set."""
    functions = {function.id: function.job for function in item.variant.oil}
    links = {id_: link.name for id_, link in page.book.links.items()}
    inputs = {} if demand is None else demand.top.inputs or {}
    return {id_: functions.get(id_) or links[id_] for id_ in inputs}


def _said(say: Say, row: Row) -> str:
    parts = [say("sets.line", name=row.name, count=len(row.must)) if row.must else say("sets.line_none", name=row.name)]
    parts += [say("sets.job", number=number, job=job) for number, job in enumerate(row.must, 1)]
    if row.comfort:
        parts.append(say("sets.line_comfort", count=len(row.comfort)))
        parts += [say("sets.job", number=n, job=job) for n, job in enumerate(row.comfort, len(row.must) + 1)]
    return " ".join((*parts, *row.marks))


# ---------------------------------------------------------------------- drawing


def _key(sheet: Sheet, say: Say, *, comfort: bool) -> None:
    """What a set is, and how one for comfort looks."""
    for more, words in ((False, say("sets.key_must")), (True, say("sets.key_comfort"))):
        if comfort or not more:
            sheet.add(*_set(MARGIN, sheet.y, 30, 18, None, comfort=more))
            sheet.skip(1)
            sheet.words(words, x=MARGIN + 40, size="small", most=1)
            sheet.skip(5)


def _draw(sheet: Sheet, say: Say, row: Row, pitch: float) -> None:
    sheet.skip(10)
    sheet.words(row.name, bold=True)
    if row.marks:
        sheet.words(" ".join(row.marks), size="small", bold=True)
    _symbols(sheet, len(row.must), len(row.comfort), pitch, numbered=True)
    jobs = [say("sets.job", number=n, job=job) for n, job in enumerate(row.must, 1)]
    jobs += [say("sets.job_comfort", number=n, job=job) for n, job in enumerate(row.comfort, len(row.must) + 1)]
    for job in jobs:
        sheet.words(job, size="small")


def _symbols(sheet: Sheet, must: int, comfort: int, pitch: float, *, numbered: bool) -> None:
    """A row of sets; the first ones are those that it must have."""
    sheet.skip(4)
    wide = pitch * _WIDE / _PITCH
    for number in range(must + comfort):
        words = str(number + 1) if numbered else None
        sheet.add(*_set(MARGIN + number * pitch, sheet.y, wide, _HIGH, words, comfort=number >= must))
    sheet.skip(_HIGH + 2)


def _set(x: float, y: float, wide: float, high: float, number: str | None, *, comfort: bool) -> Sequence[Shape]:
    """Two ports in a frame: full where the set must be there, hatched in a dashed frame where it is for comfort."""
    r = min(high * 0.26, wide * 0.16)
    frame = rectangle(x, y, wide, high, "paper" if comfort else "light", "dashed" if comfort else "normal")
    ports = [Disc(x + wide * at, y + high / 2, r, "hatch" if comfort else "dark") for at in (0.21, 0.79)]
    if number is None or wide < width(number, "small") + 4 * r + 8:
        return frame, *ports
    return frame, *ports, Label(x + wide / 2, y + high / 2 + 4, number, "middle", "small")
