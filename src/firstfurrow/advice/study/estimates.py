"""Estimates of the book that stand in until somebody measures: mass, load, centre, depth, power, pull, ground."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace
from functools import partial
from typing import Any, TypeVar

from firstfurrow.advice.plan import PlannedItem
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.rig import Sized
from firstfurrow.advice.study.candidates import Candidate, Case, Made
from firstfurrow.advice.study.words import Words
from firstfurrow.book.model import Figure, Kind, Pull, Row, ShaftDrive, Size, Table, Variant
from firstfurrow.quantities import show

Part = TypeVar("Part", Kind, Variant, Size, ShaftDrive, Pull)
LOW, HIGH = "low", "high"


def estimates(profile: Profile, words: Words) -> tuple[Candidate, ...]:
    """Every estimate that was used and has a range, item by item."""
    return tuple(_Estimates(profile, words).all())


class _Estimates:
    def __init__(self, profile: Profile, words: Words) -> None:
        self.profile = profile
        self.book = profile.book
        self.plan = profile.plan
        self.words = words
        self.rows = profile.book.tables["estimates"].rows

    def all(self) -> Iterator[Candidate]:
        for note in self.profile.hookups:
            for row in self.rows.values():
                if "figures" in row.words:
                    yield from self._of_item(note.sized, row)
        yield from self._draft(self.rows["draft"])
        yield from self._grip(self.rows["grip"])

    # -- figures of an implement

    def _of_item(self, sized: Sized, row: Row) -> Iterator[Candidate]:
        item = sized.item
        instead = row.words.get("instead")
        if instead is not None and getattr(item, str(instead)) is not None:
            return  # the buyer said it
        used = used_figure(sized, row.id)
        if used is None or used[1].exact:
            return
        column, figure = used
        names = tuple(str(name) for name in row.words["figures"])
        cases = tuple(
            Case(self._shown(getattr(figure, end), figure, sized), partial(self._pinned, item, names, end))
            for end in (LOW, HIGH)
            if getattr(figure, end) != figure.planning
        )
        title = self.words.say(f"kind.{column}", item=item.name)
        unsure = (str(instead), item.id) in {(a.question, a.item) for a in self.plan.assumptions}
        what = self.words.say("about_item", item=item.name, what=row.name)
        taken = self._shown(figure.planning, figure, sized)
        yield Candidate(
            "unknown" if unsure else "estimate", str(instead) if unsure else row.id, item.id, what, taken, cases,
            _how(row), (title,), (figure.low, figure.high),
        )  # fmt: skip

    def _pinned(self, item: PlannedItem, names: Sequence[str], end: str) -> Made:
        kind = _kind(item.kind, names, end)
        variant = next(v for v in kind.variants if v.id == item.variant.id)
        size = None if item.size is None else next((s for s in kind.sizes if s.id == item.size.id), item.size)
        made = replace(item, kind=kind, variant=variant, size=size)
        return self.book, replace(
            self.plan, items=tuple(made if one.id == item.id else one for one in self.plan.items)
        )

    def _shown(self, value: float, figure: Figure, sized: Sized) -> str:
        """The figure for this reader; of a figure for each metre what it comes to over the width."""
        if figure.unit.endswith("/m") and sized.width is not None:
            value, figure = value * sized.width, replace(figure, unit=figure.unit.removesuffix("/m"))
        if figure.unit in ("kg", "kW", "m", "cm", "kN"):
            return show(value, figure.unit, self.words.units, dimension=_DIMENSION.get(figure.unit))
        return f"{value:g} {figure.unit}".strip()

    # -- figures of a table

    def _draft(self, row: Row) -> Iterator[Candidate]:
        """The published spread of each draft row that a tool of the plan uses."""
        table = self.book.tables["draft"]
        names: dict[str, list[PlannedItem]] = {}
        for item in self.plan.items:
            if item.kind.pull is not None and item.kind.pull.row is not None:
                names.setdefault(item.kind.pull.row, []).append(item)
        for id_, items in names.items():
            used = table.rows[id_]
            spread = used["range"].planning
            if not spread:
                continue
            less, more = (self.words.say(f"spread_{end}", spread=f"{spread:g}") for end in (LOW, HIGH))
            cases = (
                Case(less, partial(self._table, "draft", {id_: _spread(used, 1 - spread / 100)})),
                Case(more, partial(self._table, "draft", {id_: _spread(used, 1 + spread / 100)})),
            )
            title = self.words.say("cell.draft.range", row=used.name, range=f"{spread:g}")
            what = self.words.say("about_item", item=items[0].name, what=row.name)
            yield Candidate(
                "estimate", row.id, items[0].id, what, self.words.say("spread_middle"), cases, _how(row), (title,)
            )  # fmt: skip

    def _grip(self, row: Row) -> Iterator[Candidate]:
        """Grip of a surface that the buyer named; where he was not sure the surface itself is the doubt."""
        if self.plan.surface.origin == "assumed":
            return
        used = self.book.tables["surfaces"].rows[self.plan.surface.value]
        grip = used["grip"]
        if grip.exact:
            return
        cases = tuple(
            Case(
                self.words.say("ratio", value=f"{getattr(grip, end):g}"),
                partial(self._table, "surfaces", {used.id: _row(used, {"grip": _pin(grip, end)})}),
            )
            for end in (LOW, HIGH)
            if getattr(grip, end) != grip.planning
        )
        title = self.words.say("cell.surfaces.grip", row=used.name)
        what = self.words.say("about_item", item=used.name, what=row.name)
        taken = self.words.say("ratio", value=f"{grip.planning:g}")
        yield Candidate("estimate", row.id, None, what, taken, cases, _how(row), (title,))

    def _table(self, name: str, rows: Mapping[str, Row]) -> Made:
        table = self.book.tables[name]
        return replace(
            self.book, tables=_Patched(self.book.tables, name, replace(table, rows={**table.rows, **rows}))
        ), self.plan


# Where a working unit alone does not say what is measured.
_DIMENSION = {"cm": "depth", "m": "length", "kg": "mass", "kW": "power", "kN": "force"}


class _Patched(Mapping[str, Table]):
    """The tables of a book with one in another form; the others are read only when somebody asks for them."""

    def __init__(self, tables: Mapping[str, Table], name: str, table: Table) -> None:
        self._tables, self._name, self._table = tables, name, table

    def __getitem__(self, key: str) -> Table:
        return self._table if key == self._name else self._tables[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._tables)

    def __len__(self) -> int:
        return len(self._tables)


def _how(row: Row) -> str | None:
    how = row.words.get("how")
    return None if how is None else str(how)


def _spread(row: Row, times: float) -> Row:
    """A draft row at one end of its spread."""
    scaled = {name: _times(row[name], times) for name in ("A", "B", "C")}
    return _row(row, {**scaled, "range": replace(row["range"], low=0.0, planning=0.0, high=0.0)})


def _times(figure: Figure, times: float) -> Figure:
    return replace(figure, low=figure.low * times, planning=figure.planning * times, high=figure.high * times)


def _row(row: Row, figures: Mapping[str, Figure]) -> Row:
    return replace(row, figures={**row.figures, **figures})


def _pin(figure: Figure, end: str) -> Figure:
    value = getattr(figure, end)
    return replace(figure, low=value, planning=value, high=value)


# ------------------------------------------------------------- which figure was used


def used_figure(sized: Sized, what: str) -> tuple[str, Figure] | None:
    """The figure that the road used for an item, with the column that it stands in; None where it used none."""
    item, size, variant, kind = sized.item, sized.size, sized.item.variant, sized.item.kind
    shaft = None if variant.no_shaft else variant.shaft or kind.shaft
    pull = kind.pull
    mounted, trailed = variant.way == "three_point", variant.way == "drawbar"
    found: dict[str, Figure | None] = {}
    if what == "mass":
        own = size.mass or variant.mass
        per_width = None if own is not None else variant.mass_per_width or kind.mass_per_width
        wide = per_width is not None and sized.width is not None
        found = {"mass_per_width": per_width} if wide else {"mass": own or kind.mass}
    elif what == "load":
        found = {"load": size.load or kind.load}
    elif what == "centre" and mounted:
        found = {"centre": size.centre_behind_pins or variant.centre_behind_pins or kind.centre_behind_pins}
    elif what == "depth" and pull is not None:
        found = {"depth": pull.depth}
    elif what == "power" and shaft is not None:
        whole = size.power or shaft.power
        found = {"power_typical": whole or (shaft.power_per_width if sized.width is not None else None)}
    elif what == "tongue" and trailed:
        figure = size.tongue or variant.tongue or kind.tongue
        stated = figure is None or item.load is not None or item.mass is not None
        share = variant.tongue_share or kind.tongue_share
        found = {"tongue_share": share} if share is not None and stated else {"tongue": figure}
    elif what == "force" and pull is not None and not pull.self_limiting:
        found = {f"force_{pull.per}": pull.force}
    elif what == "feed" and shaft is not None:
        found = {"feed": shaft.feed if shaft.rotary_row is not None and item.stated_power is None else None}
    return next(((column, figure) for column, figure in found.items() if figure is not None), None)


# ------------------------------------------------------- a kind with figures at one end


def _kind(kind: Kind, names: Sequence[str], end: str) -> Kind:
    """The kind with the named figures at one end of their range, wherever they stand in it."""
    whole = _at(kind, names, end)
    changes: dict[str, Any] = {
        "sizes": tuple(_at(size, names, end) for size in kind.sizes),
        "variants": tuple(_variant(variant, names, end) for variant in kind.variants),
    }
    if kind.shaft is not None:
        changes["shaft"] = _at(kind.shaft, names, end)
    if kind.pull is not None:
        changes["pull"] = _at(kind.pull, names, end)
    return replace(whole, **changes)


def _variant(variant: Variant, names: Sequence[str], end: str) -> Variant:
    whole = _at(variant, names, end)
    return whole if variant.shaft is None else replace(whole, shaft=_at(variant.shaft, names, end))


def _at(part: Part, names: Sequence[str], end: str) -> Part:
    known = {field.name for field in fields(part)}
    changes: dict[str, Any] = {}
    for name in names:
        figure = getattr(part, name) if name in known else None
        if isinstance(figure, Figure) and not figure.exact:
            changes[name] = _pin(figure, end)
    return replace(part, **changes) if changes else part
