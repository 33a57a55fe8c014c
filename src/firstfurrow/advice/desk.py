"""The desk on which one profile is worked out: the ledger, and the leaves that several demands share.

A fact of the buyer, a table figure or one of our choices becomes one leaf however many demands read it, so that it
keeps one value throughout a case.
"""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

from firstfurrow.advice.facts import Fact, Pick, decimals
from firstfurrow.advice.plan import Plan, typed_number
from firstfurrow.advice.say import job_label
from firstfurrow.book.model import Book, Figure
from firstfurrow.mechanics.draft import angle_of
from firstfurrow.mechanics.driveline import after_drive
from firstfurrow.quantities import DIMENSIONS, factor
from firstfurrow.reasoning import Ends, Ledger, Memo, Step, ends, highest


class Desk:
    """Book, plan and ledger of one run.

    A `scratch` desk is for trying only: its steps get no titles. A `lean` one is for comparing whole profiles: of
    what is only read nothing is written down.
    """

    def __init__(self, book: Book, plan: Plan, *, scratch: bool = False, lean: bool = False) -> None:
        self.book = book
        self.plan = plan
        self.ledger = Ledger()
        self.scratch = scratch
        self.lean = lean
        self.silent = lean or scratch  # nobody reads the titles
        self._leaves: dict[Hashable, Step] = {}
        self._ends: dict[int, Ends] = {}
        self._memo: Memo = {}
        self._sentences: dict[str, str] = {}
        self.rigs: dict[Hashable, Any] = {}  # kept by `rig.rig_for`

    def say(self, id_: str, **slots: Any) -> str:
        """A sentence of the book."""
        if self.scratch:
            return ""
        text = self._sentences.get(id_)
        if text is None:
            text = self._sentences[id_] = self.book.messages[f"reason.{id_}"]
        return text.format(**slots)

    def title(self, id_: str, **slots: Any) -> str:
        """The title of a step, or a note beside it: nobody reads those of a lean run."""
        return "" if self.silent else self.say(id_, **slots)

    def job(self, id_: str) -> str:
        """The short name of a job inside a title; the label of its choice where the book has none, as of an own job."""
        if f"reason.job.{id_}" in self.book.messages:
            return self.title(f"job.{id_}")
        return "" if self.silent else job_label(self.book, id_)

    def clear(self) -> None:
        """Let go of the rigs at the end of a run: they hold the desk, and a ring of objects waits for the collector."""
        self.rigs.clear()

    def figure(self, key: Hashable, figure: Figure, title: str, *, at: str = "planning") -> Step:
        """A figure of the book as a leaf. `at="low"` plans at its low end, for what helps and must not be overrated."""
        found = self._leaves.get((key, at))
        if found is None:
            value = figure.low if at == "low" else figure.planning
            found = self.ledger.leaf(
                "table", title, value, figure.unit, decimals(figure.low, value, figure.high), low=figure.low,
                high=figure.high, grade=figure.grade, source=figure.source, where=figure.where,
                derived_from=figure.derived_from, note=figure.note,
            )  # fmt: skip
            self._leaves[key, at] = found
        return found

    def must_to_comfortable(self, key: Hashable, figure: Figure, title: str, note: str | None = None) -> Step:
        """A band whose low end is a must and whose middle is comfortable: planned at the must, high at the middle."""
        found = self._leaves.get((key, "must"))
        if found is None:
            middle = figure.planning if figure.low < figure.planning < figure.high else (figure.low + figure.high) / 2
            found = self.ledger.leaf(
                "table", title, figure.low, figure.unit, decimals(figure.low, middle), low=figure.low, high=middle,
                grade=figure.grade, source=figure.source, where=figure.where, derived_from=figure.derived_from,
                note=note or self.title("note_climb_speed"),
            )  # fmt: skip
            self._leaves[key, "must"] = found
        return found

    def choice(self, name: str) -> Step:
        """One of our own choices."""
        key = ("our_choices", name)
        found = self._leaves.get((key, "planning"))
        if found is None:
            row = self.book.tables["our_choices"].rows[name]
            found = self.figure(key, row.figures["value"], row.name)
        return found

    def cell(self, table: str, row: str, column: str) -> Step:
        """A figure of a table."""
        key = (table, row, column)
        found = self._leaves.get((key, "planning"))
        if found is None:
            whole = self.book.tables[table].rows[row]
            title = self.say(f"cell.{table}.{column}", row=whole.name)
            found = self.figure(key, whole.figures[column], title)
        return found

    def pick_cell(self, pick: Pick, table: str, column: str) -> Step:
        """A figure of the row that the buyer picked; where unsure, its ends are those of all rows it may be."""
        key = (table, pick.question, column)
        found = self._leaves.get(key)
        if found is None:
            rows = self.book.tables[table].rows
            planned = rows[pick.value].figures[column]
            reach = [rows[row].figures[column] for row in (pick.value, pick.low, pick.high)]
            low, high = min(f.low for f in reach), max(f.high for f in reach)
            found = self.ledger.leaf(
                "table", self.say(f"cell.{table}.{column}", row=rows[pick.value].name), planned.planning, planned.unit,
                decimals(low, planned.planning, high), low=low, high=high, grade=planned.grade, source=planned.source,
                where=planned.where, derived_from=planned.derived_from, note=planned.note, question=pick.question,
            )  # fmt: skip
            self._leaves[key] = found
        return found

    def fact(self, fact: Fact, title: str) -> Step:
        """What the buyer said, as typed and then in the working unit; or what was assumed, with its ends."""
        found = self._leaves.get(fact.question)
        if found is not None:
            return found
        working = DIMENSIONS[fact.dimension].working
        if fact.origin == "said":
            number, unit = typed_number(fact, self.plan.units)
            found = self.ledger.leaf("answer", title, number, unit, decimals(number), question=fact.question)
            if unit != working:
                text = "100 * tan(typed)" if unit == "deg" else f"typed * {factor(unit, working):.10g}"
                digits = {"m": 2, "cm": 1, "kg": 0, "kW": 1, "%": 1, "ha": 2}.get(working, 2)
                if abs(found.value) > 0 and round(fact.value, digits) == 0:
                    digits = 4
                title = self.title("in_working_unit", title=title, unit=working)
                found = self.ledger.convert(title, text, working, digits, typed=found)
        else:
            found = self.ledger.leaf(
                "assumption", title, fact.value, working, decimals(fact.low, fact.value, fact.high),
                low=fact.low, high=fact.high, question=fact.question,
            )  # fmt: skip
        self._leaves[fact.question] = found
        return found

    def coupler(self, name: str) -> Step | None:
        """What a quick coupler adds (`coupler_mass`, `coupler_back`); None where there surely is none."""
        pick = self.plan.quick_coupler
        if "coupler" not in (pick.value, pick.high):
            return None
        figure = self.book.choice(name)
        planned = figure.planning if pick.value == "coupler" else 0
        key = ("coupler", name)
        return self.kept(key) or self.keep(
            key,
            self.ledger.leaf(
                "table", self.title(name), planned, figure.unit, decimals(figure.low, planned, figure.high),
                low=figure.low if pick.low == "coupler" else 0, high=figure.high, grade=figure.grade,
                source=figure.source, where=figure.where, note=figure.note, question="quick_coupler",
            ),
        )  # fmt: skip

    def ratio(self) -> Step:
        """Share of the shaft power that reaches the drawbar, after the drive that the buyer wants."""
        table = self.pick_cell(self.plan.surface, "surfaces", "power_ratio_front_assist")
        pick = self.plan.drive
        if "hydrostatic" not in (pick.value, pick.high):
            return table
        found = self.kept("ratio")
        if found is None:
            figure = self.book.choice("hydrostatic_ratio")
            wanted = pick.value == "hydrostatic"
            title = self.title("drive_keeps" if wanted else "drive_gears")
            kept = self.ledger.leaf(
                "table", title, figure.planning if wanted else 1, "", 2,
                low=figure.low, high=figure.high if pick.low == "hydrostatic" else 1, grade=figure.grade,
                source=figure.source, where=figure.where, note=figure.note, question="drive",
            )  # fmt: skip
            found = self.keep(
                "ratio", self.ledger.work(after_drive, self.title("ratio_after_drive"), ratio=table, kept=kept)
            )
        return found

    def constant(self, title: str, value: float, unit: str) -> Step:
        """A number that is what it is: one layer, nothing pressed on."""
        key = ("constant", title, value, unit)
        found = self._leaves.get(key)
        if found is None:
            found = self._leaves[key] = self.ledger.leaf("constant", title, value, unit, decimals(value))
        return found

    def keep(self, key: Hashable, step: Step) -> Step:
        """Remember a computed step under a key."""
        self._leaves[key] = step
        return step

    def kept(self, key: Hashable) -> Step | None:
        """A step that was remembered."""
        return self._leaves.get(key)

    def ends(self, step: Step) -> Ends:
        """Low, planning and high of a step, worked out once."""
        found = self._ends.get(step.index)
        if found is None:
            found = self._ends[step.index] = ends(step, self._memo)
        return found

    def high(self, step: Step) -> float | None:
        """The high end of a step alone."""
        return highest(step, self._memo)

    def at_worst(self, step: Step, title: str) -> Step | None:
        """`step` written down a second time with every leaf at its unfavourable end; None where that has no answer."""
        return self.ledger.at_worst(step, title, self._memo)

    @property
    def steep(self) -> bool:
        """True when there may be a slope to climb."""
        return self.plan.slope_up.high > 0

    def flat(self) -> Step:
        """No slope, in degrees: for what must also move at its usual speed on the level parts."""
        return self.constant(self.title("flat"), 0, "deg")

    def angle(self) -> Step:
        """The steepest place to drive up, in degrees."""
        found = self._leaves.get("angle")
        if found is None:
            slope = self.fact(self.plan.slope_up, self.title("slope_up"))
            found = self._leaves["angle"] = self.ledger.work(angle_of, self.title("angle"), slope=slope)
        return found
