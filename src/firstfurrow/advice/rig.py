"""One hookup on the desk: an item with its links, and the quantities that several of its demands share."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from firstfurrow.advice.desk import Desk
from firstfurrow.advice.facts import Fact, decimals
from firstfurrow.advice.plan import PlannedItem
from firstfurrow.book.model import Figure, OilFunction, ShaftDrive, Size
from firstfurrow.mechanics.draft import band_draft, spread_draft, tool_draft, tools_draft, tools_on_width, towed_pull
from firstfurrow.mechanics.drawbar import tongue_load
from firstfurrow.mechanics.hitch import gross_mass, mass_of_width
from firstfurrow.reasoning import Step


@dataclass(frozen=True, slots=True, eq=False)
class Sized:
    """An item whose size is settled: said, or chosen for a reason."""

    item: PlannedItem
    size: Size
    width: float | None
    reason: str | None = None  # why this size was chosen
    reason_step: Step | None = None  # what that rests on
    next_size: Size | None = None
    too_small: bool = False  # even the largest sold does not do the job in its time


class Rig:
    """A hookup being worked out. Steps are made when first needed, once."""

    def __init__(self, desk: Desk, sized: Sized) -> None:
        self.desk = desk
        self.sized = sized
        self.item = sized.item
        self.kind = sized.item.kind
        self.variant = sized.item.variant
        self.id = sized.item.id
        self.key = (sized.item.id, sized.size.id, sized.width)  # leaves of another size of the same item stay apart
        self.name = sized.item.name

    # -- how it is attached

    @property
    def mounted(self) -> bool:
        """Carried on the three arms."""
        return self.variant.way == "three_point"

    @property
    def trailed(self) -> bool:
        """Pulled on a pin."""
        return self.variant.way == "drawbar"

    @cached_property
    def shaft(self) -> ShaftDrive | None:
        """What turns it in this build; None when nothing does."""
        if self.variant.no_shaft:
            return None
        return self.variant.shaft or self.kind.shaft

    @cached_property
    def oil(self) -> tuple[OilFunction, ...]:
        """What oil moves on it in this build."""
        return self.variant.oil

    @cached_property
    def rolls(self) -> bool:
        """Towed on wheels whose rolling is not in a draft figure."""
        return self.trailed and (self.kind.rolls or self.kind.pull is None)

    @property
    def on_road(self) -> bool:
        """Whether it is pulled along public roads: what rolls goes wherever the tractor goes."""
        return self.rolls and self.desk.plan.road.value == "along"

    # -- sizes and masses

    def title(self, id_: str, **slots: object) -> str:
        """A step title or note that names the implement; nobody reads those of a lean run."""
        return "" if self.desk.silent else self.desk.say(id_, item=self.name, **slots)

    @cached_property
    def width(self) -> Step | None:
        """Working width in m."""
        value = self.sized.width
        if value is None:
            return None
        typed = self.item.size_text
        if typed is not None and self.sized.width == self.item.width:
            fact = Fact(f"{self.id}.size", "length", value, value, value, "said", typed)
            return self.desk.fact(fact, self.title("width"))
        return self._sold("width" if self.item.size_origin == "said" else "width_chosen", value, "m")

    def _sold(self, title: str, value: float, unit: str) -> Step:
        """A number of the size as sold: said by the buyer, or chosen for a reason."""
        key = (self.key, title)
        kept = self.desk.kept(key)
        if kept is not None:
            return kept
        said = self.item.size_origin == "said"
        step = self.desk.ledger.leaf(
            "answer" if said else "table", self.title(title), value, unit, decimals(value), note=self.sized.reason,
            grade=None if said else "practice", question=f"{self.id}.size" if said else None,
        )  # fmt: skip
        return self.desk.keep(key, step)

    @cached_property
    def empty(self) -> Step | None:
        """Mass in kg without load."""
        if self.item.mass is not None:
            return self.desk.fact(self.item.mass, self.title("mass_said"))
        own = self.sized.size.mass or self.variant.mass
        per_width = None if own is not None else (self.variant.mass_per_width or self.kind.mass_per_width)
        if per_width is not None and self.width is not None:
            each = self.figure("mass_per_width", per_width)
            return self.desk.ledger.work(mass_of_width, self.title("mass"), mass_per_width=each, width=self.width)
        figure = own or self.kind.mass
        return None if figure is None else self.figure("mass", figure)

    @cached_property
    def load(self) -> Step | None:
        """Mass in kg of what it carries, full."""
        if self.item.load is not None:
            return self.desk.fact(self.item.load, self.title("load_said"))
        figure = self.sized.size.load or self.kind.load
        return None if figure is None else self.figure("load", figure)

    @cached_property
    def gross(self) -> Step | None:
        """Mass in kg, full."""
        if self.empty is None or self.load is None:
            return self.empty
        return self.desk.ledger.work(gross_mass, self.title("gross"), empty=self.empty, carried=self.load)

    @cached_property
    def hung(self) -> Step | None:
        """Mass in kg that hangs on the arms, full, with the quick coupler where there may be one."""
        coupler = self.desk.coupler("coupler_mass")
        if self.gross is None or coupler is None:
            return self.gross
        return self.desk.ledger.sum(self.title("hung"), {"tool": self.gross, "coupler": coupler})

    @cached_property
    def tongue(self) -> Step | None:
        """Vertical load in kg on the drawbar."""
        if not self.trailed:
            return None
        figure = self.sized.size.tongue or self.variant.tongue or self.kind.tongue
        share = self.variant.tongue_share or self.kind.tongue_share
        # A stated share follows a stated load; a band in kg is for the usual machine.
        stated = figure is None or self.item.load is not None or self.item.mass is not None
        if share is not None and stated and self.gross is not None:
            return self.desk.ledger.work(
                tongue_load, self.title("tongue"), mass=self.gross, share=self.figure("tongue_share", share)
            )
        if figure is not None:
            return self.figure("tongue", figure)
        if self.gross is None:
            return None
        return self.desk.ledger.work(
            tongue_load, self.title("tongue"), mass=self.gross, share=self.desk.choice("tongue_share")
        )

    @cached_property
    def speed(self) -> Step | None:
        """Working speed in km/h; None for work standing still."""
        if self.kind.speed is None:
            return None
        return self.desk.figure((self.kind.kind, "speed"), self.kind.speed, self.title("kind.speed"))

    @cached_property
    def climb_speed(self) -> Step | None:
        """Speed uphill in km/h: a tool in the ground keeps its speed, everything else may climb at the slow end.

        What only scratches over the ground, such as a rake, is pulled as slowly as the slope asks for.
        """
        pull = self.kind.pull
        in_ground = pull is not None and (pull.row is not None or pull.self_limiting)
        if self.kind.speed is None or in_ground:
            return self.speed
        return self.desk.must_to_comfortable((self.kind.kind, "climb"), self.kind.speed, self.title("climb_speed"))

    @cached_property
    def centre(self) -> Step | None:
        """Distance in m from the ball ends to the centre of the load."""
        figure = (
            self.sized.size.centre_behind_pins or self.variant.centre_behind_pins or self.kind.centre_behind_pins
        )  # fmt: skip
        if figure is None:
            return None
        own, coupler = self.figure("centre", figure), self.desk.coupler("coupler_back")
        if coupler is None:
            return own
        return self.desk.ledger.sum(self.title("centre_with_coupler"), {"tool": own, "coupler": coupler})

    def figure(self, column: str, figure: Figure) -> Step:
        """A figure of this kind as a leaf."""
        return self.desk.figure((self.key, column), figure, self.title(f"kind.{column}"))

    # -- pull

    @cached_property
    def draft(self) -> Step | None:
        """Draft in kN of the working tool; None for what only rolls or is carried."""
        pull = self.kind.pull
        if pull is None:
            return None
        if pull.row is not None:
            return self._row_draft(pull.row)
        assert pull.force is not None
        title = self.title(f"kind.force_{pull.per}")
        key = (self.key, "force")
        force = (
            self.desk.must_to_comfortable(key, pull.force, title, self.desk.title("note_self_limiting"))
            if pull.self_limiting
            else self.desk.figure(key, pull.force, title)
        )
        ledger = self.desk.ledger
        if pull.per == "width" and self.width is not None:
            return ledger.work(band_draft, self.title("draft"), force_per_width=force, width=self.width)
        if pull.per == "tool" and self.sized.size.tools:
            tools = self._tools()
            return ledger.work(tools_draft, self.title("draft"), force_per_tool=force, tools=tools)
        return force

    def _tools(self) -> Step:
        count = self.sized.size.tools
        per_width = self.kind.pull.tools_per_width if self.kind.pull is not None else None
        if count is None and per_width is not None and self.width is not None:
            each = self.figure("tools_per_width", per_width)
            return self.desk.ledger.work(tools_on_width, self.title("tools"), tools_per_width=each, width=self.width)
        return self._sold("tools", count or 1, "")

    def _row_draft(self, row_id: str) -> Step:
        desk, pull = self.desk, self.kind.pull
        assert pull is not None
        row = desk.book.tables["draft"].rows[row_id]
        soil = desk.plan.soil
        factors = {pick: row.figures[self._factor(pick)] for pick in {soil.value, soil.low, soil.high}}
        key = ("soil_factor", row_id)
        factor_step = desk.kept(key)
        if factor_step is None:
            planned = factors[soil.value]
            low, high = min(f.planning for f in factors.values()), max(f.planning for f in factors.values())
            factor_step = desk.keep(
                key,
                desk.ledger.leaf(
                    "table", desk.say("cell.draft.soil", row=row.name, soil=desk.book.tables["soils"][soil.value].name),
                    planned.planning, "", decimals(low, planned.planning, high), low=low, high=high,
                    grade=planned.grade, source=planned.source, where=planned.where, question="soil",
                ),
            )  # fmt: skip
        a, b, c = (desk.cell("draft", row_id, column) for column in ("A", "B", "C"))
        if row.words.get("width_unit") == "m":
            assert self.width is not None
            width = self.width
        else:
            width = self._tools()
        if row.words.get("depth") == "cm":
            depth = (
                desk.fact(self.item.depth, self.title("depth_said"))
                if self.item.depth is not None
                else self.figure("depth", pull.depth)
                if pull.depth is not None
                else desk.constant(desk.title("one_layer"), 1, "")
            )
        else:
            depth = desk.constant(desk.title("one_layer"), 1, "")
        assert self.speed is not None
        draft = desk.ledger.work(
            tool_draft, self.title("draft_row", row=row.name), soil_factor=factor_step, A=a, B=b, C=c,
            speed=self.speed, width=width, depth=depth,
        )  # fmt: skip
        reach = row.figures["range"]
        key = ("draft_range", row_id)
        spread = desk.kept(key) or desk.keep(
            key,
            desk.ledger.leaf(
                "table", desk.say("cell.draft.range", row=row.name, range=f"{reach.planning:g}"), 1, "", 2,
                low=1 - reach.planning / 100, high=1 + reach.planning / 100, grade=reach.grade, source=reach.source,
                where=reach.where,
            ),
        )  # fmt: skip
        return desk.ledger.work(spread_draft, self.title("draft"), draft=draft, spread=spread)

    def _factor(self, soil: str) -> str:
        return str(self.desk.book.tables["soils"].rows[soil].words["draft_factor"])

    @cached_property
    def towed(self) -> Step | None:
        """Pull in kN of the machine on its wheels, uphill where there is a slope; None when it is carried."""
        if not self.trailed or not (self.rolls or self.desk.steep) or self.gross is None:
            return None
        desk = self.desk
        rolling = (
            desk.pick_cell(desk.plan.surface, "surfaces", "rolling")
            if self.rolls
            else desk.constant(desk.title("rolling_in_draft"), 0, "")
        )
        return desk.ledger.work(towed_pull, self.title("towed"), mass=self.gross, rolling=rolling, angle=desk.angle())

    @cached_property
    def level_pull(self) -> Step | None:
        """Pull in kN of the machine on its wheels where the ground is level; None when it does not roll."""
        if not self.trailed or not self.rolls or self.gross is None:
            return None
        desk = self.desk
        return desk.ledger.work(
            towed_pull, self.title("towed_level"), mass=self.gross,
            rolling=desk.pick_cell(desk.plan.surface, "surfaces", "rolling"), angle=desk.flat(),
        )  # fmt: skip

    @cached_property
    def pull(self) -> Step | None:
        """Everything that the tractor must pull, in kN; None when it pulls nothing."""
        parts = {name: step for name, step in (("draft", self.draft), ("towed", self.towed)) if step is not None}
        if len(parts) < 2:
            return next(iter(parts.values()), None)
        return self.desk.ledger.sum(self.title("pull"), parts)


def rig_for(desk: Desk, sized: Sized) -> Rig:
    """The rig of an item on this desk: made once for each size and reason, so that its steps are not written twice."""
    key = (sized.item.id, sized.size.id, sized.width, sized.reason)
    found: Rig | None = desk.rigs.get(key)
    if found is None:
        found = desk.rigs[key] = Rig(desk, sized)
    return found
