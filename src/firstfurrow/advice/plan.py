"""Answers turned into a plan: typed facts about land, jobs and ground, and the implements as planned items."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from firstfurrow.advice.facts import Assumption, Fact, LeftOut, Pick
from firstfurrow.advice.say import say
from firstfurrow.asking.answers import Answers, Given, Units
from firstfurrow.book.model import Book, Kind, Question, Size, Variant
from firstfurrow.quantities import DIMENSIONS, QuantityError, parse, reader_unit, show


@dataclass(frozen=True, slots=True)
class Job:
    """One job with an area: how large, how long one pass may take, how often a year."""

    id: str
    area: Fact | None
    hours: Fact | None
    days: Fact | None = None  # weather-bound work: days and hours a day instead of hours
    hours_a_day: Fact | None = None
    times: Fact | None = None


@dataclass(frozen=True, slots=True)
class PlannedItem:
    """One implement of the plan. `size` is the sold size that describes it; `width` the working width in m."""

    id: str
    kind: Kind
    variant: Variant
    size: Size | None  # None: still to be chosen
    width: float | None
    size_origin: str  # said, chosen
    size_text: str | None
    when: str
    rank: str
    load: Fact | None = None
    depth: Fact | None = None
    mass: Fact | None = None
    stated_power: Fact | None = None
    options: tuple[str, ...] = ()
    links: tuple[str, ...] = ()
    variant_said: bool = True
    brakes: bool = False
    often: str = "seasonal"  # weekly, seasonal, rarely

    @property
    def name(self) -> str:
        """What to call it in a sentence."""
        return self.kind.name


@dataclass(frozen=True, slots=True)
class Tow:
    """The heaviest other thing on wheels."""

    mass: Fact
    axles: str
    brakes: str
    place: str


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything the advice reads."""

    units: Units
    jobs: tuple[str, ...]
    area_jobs: Mapping[str, Job]
    soil: Pick
    surface: Pick
    slope_up: Fact
    side_slope: Fact | None
    stones: Pick
    growth: Pick
    wood: Pick
    snow_kind: Pick
    altitude: Fact
    heat: Pick
    items: tuple[PlannedItem, ...]
    tow: Tow | None
    front_load: Fact | None
    drive: Pick
    quick_coupler: Pick
    driver: Pick
    road: Pick
    road_slope: Fact  # read only where something is pulled on a road
    gate_width: Fact | None
    door_width: Fact | None
    door_height: Fact | None
    shed_length: Fact | None
    turn_room: Fact | None
    bridge_limit: Fact | None
    hauled: bool
    haul_rating: Fact | None
    haul_trailer: Fact | None
    haul_tow_rating: Fact | None
    haul_with: Pick
    open_ceilings: tuple[str, ...]
    assumptions: tuple[Assumption, ...]
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...] = field(default=())


# Limits that are asked only of those who said that they have them.
_TIGHT = ("shed_length", "turn_room", "bridge_limit", "haul_rating", "haul_trailer", "haul_tow_rating")


def make_plan(book: Book, answers: Answers) -> Plan:
    """The plan of these answers. Only answers that apply may be given (see `Interview.applies`)."""
    return _Planner(book, answers).plan()


class _Planner:
    """Reads answers one by one, notes what was assumed and what was left out."""

    def __init__(self, book: Book, answers: Answers) -> None:
        self.book = book
        self.answers = answers
        self.assumptions: list[Assumption] = []
        self.left_out: list[LeftOut] = []
        self.open_ceilings: list[str] = []
        self.questions: dict[str, Question] = {}
        for section in book.sections:
            for question in section.questions:
                self.questions[question.id] = question
            if section.group is not None:
                self.questions |= {q.id: q for q in section.group.questions}

    # -- plain reading

    def fact(self, question_id: str, given: Given | None, item: str | None = None) -> Fact | None:
        """A quantity or count: as said, or as planned when unsure or not asked yet."""
        question = self.questions[question_id]
        key = question_id if item is None else f"{item}.{question_id}"
        dimension = question.dimension or "count"
        if given is not None and not given.unsure:
            return Fact(key, dimension, given.value, given.value, given.value, "said", given.text)
        how = question.not_sure
        if how.how == "planned":
            fact = Fact(
                key, dimension, how.planning, how.low, how.high, "assumed" if given is not None else "missing"
            )  # fmt: skip
            if given is not None:
                self._assume(question, item, self._shown(fact, fact.value), self._range(fact))
            return fact
        if how.how == "left_out" and given is not None:
            self.left_out.append(LeftOut(question_id, item, question.ask))
        if how.how == "not_determined":
            self.open_ceilings.append(question_id)
        return None

    def pick(self, question_id: str, default: str) -> Pick:
        """A choice: as said, or as planned; `default` where the question does not apply."""
        question = self.questions[question_id]
        given = self.answers.given.get(question_id)
        if given is not None and not given.unsure:
            return Pick(question_id, given.value, given.value, given.value, "said")
        how = question.not_sure
        if given is None:
            return Pick(question_id, default, default, default, "missing")
        labels = {choice.id: choice.label for choice in question.choices}
        if how.how != "planned":
            return Pick(question_id, default, default, default, "assumed")
        reach = sorted({how.low, how.high} - {how.planning}, key=list(labels).index)
        self._assume(question, None, labels[how.planning], "; ".join(labels[c] for c in reach) or None)
        return Pick(question_id, how.planning, how.low, how.high, "assumed")

    def chosen(self, question_id: str) -> tuple[str, ...]:
        """A question with several choices."""
        given = self.answers.given.get(question_id)
        if given is None:
            return ()
        if not given.unsure:
            return tuple(given.value)
        question = self.questions[question_id]
        if question.not_sure.how == "planned":
            planned = question.not_sure.planning
            taken = (planned,) if isinstance(planned, str) else tuple(planned)
            labels = {choice.id: choice.label for choice in question.choices}
            self._assume(question, None, "; ".join(labels[t] for t in taken), None)
            return taken
        self.left_out.append(LeftOut(question_id, None, question.ask))
        return ()

    def _assume(self, question: Question, item: str | None, text: str, reach: str | None) -> None:
        self.assumptions.append(Assumption(question.id, item, text, reach, question.moves, question.how))

    def _shown(self, fact: Fact, value: float) -> str:
        return show(value, DIMENSIONS[fact.dimension].working, self.answers.units, dimension=fact.dimension)

    def _range(self, fact: Fact) -> str | None:
        if not fact.ranged:
            return None
        return say(self.book, "range", low=self._shown(fact, fact.low), high=self._shown(fact, fact.high))

    # -- the parts

    def plan(self) -> Plan:
        """All of it, in the order in which it was asked."""
        given = self.answers.given
        get = given.get
        self.chosen("land_shape")  # read for what it assumes; the slope questions follow from it
        jobs = self.chosen("jobs")
        area_jobs = {job: self._job(job) for job in jobs if f"{job}_area" in self.questions}
        flat = Fact("slope_up", "slope", 0.0, 0.0, 0.0, "said" if get("land_shape") else "missing")
        soil = self.pick("soil", "loam")
        surface = self.pick("surface", "firm")
        slope_up = self._asked("slope_up") or flat
        side_slope = self._asked("side_slope")
        stones, growth = self.pick("stones", "some"), self.pick("growth", "usual")
        wood, snow_kind = self.pick("wood", "usual"), self.pick("snow_kind", "usual")
        altitude = self.fact("altitude", get("altitude"))
        road_slope = self.fact("road_slope", get("road_slope"))
        assert altitude is not None
        assert road_slope is not None
        heat = self.pick("heat", "mild")
        items = tuple(made for item in self.answers.items if (made := self._item(item.id, item.given)) is not None)
        tow = self._tow()
        front_load = self._asked("front_load")
        drive, quick_coupler = self.pick("drive", "gears"), self.pick("quick_coupler", "pins")
        driver, road = self.pick("driver", "experienced"), self.pick("road", "never")
        ceilings = {id_: self._ceiling(id_) for id_ in ("gate_width", "door_width", "door_height")}
        tight = self.chosen("tight_more")
        ceilings |= {id_: self._asked(id_) for id_ in _TIGHT}
        return Plan(
            units=self.answers.units, jobs=jobs, area_jobs=area_jobs, soil=soil, surface=surface, slope_up=slope_up,
            side_slope=side_slope, stones=stones, growth=growth, wood=wood, snow_kind=snow_kind, altitude=altitude,
            heat=heat, items=items, tow=tow, front_load=front_load, drive=drive, quick_coupler=quick_coupler,
            driver=driver, road=road, road_slope=road_slope, hauled="hauled" in tight,
            haul_with=self.pick("haul_with", "alone"), **ceilings,
            open_ceilings=tuple(self.open_ceilings), assumptions=tuple(self.assumptions),
            left_out=tuple(self.left_out), notes=self.answers.notes,
        )  # fmt: skip

    def _asked(self, question_id: str) -> Fact | None:
        """A quantity that counts only once its question was put."""
        given = self.answers.given.get(question_id)
        return None if given is None else self.fact(question_id, given)

    def _ceiling(self, question_id: str) -> Fact | None:
        return self.fact(question_id, self.answers.given.get(question_id))

    def _job(self, job: str) -> Job:
        return Job(
            job, self._asked(f"{job}_area"),
            self._asked(f"{job}_hours") if f"{job}_hours" in self.questions else None,
            self._asked(f"{job}_days") if f"{job}_days" in self.questions else None,
            self._asked(f"{job}_hours_a_day") if f"{job}_hours_a_day" in self.questions else None,
            self._asked(f"{job}_times"),
        )  # fmt: skip

    def _tow(self) -> Tow | None:
        other = self.answers.given.get("tow_other")
        if other is None or "tow_mass" not in self.answers.given:
            if other is not None and other.unsure and self.questions["tow_other"].not_sure.how == "left_out":
                self.left_out.append(LeftOut("tow_other", None, self.questions["tow_other"].ask))
            return None
        mass = self._asked("tow_mass")
        if mass is None:
            return None
        return Tow(
            mass, self.pick("tow_axles", "one_axle").value, self.pick("tow_brakes", "no_brakes").value,
            self.pick("tow_place", "both").value,
        )  # fmt: skip

    # -- one implement

    def _item(self, item: str, given: Mapping[str, Given]) -> PlannedItem | None:
        kind_given = given.get("kind")
        if kind_given is None or kind_given.unsure or kind_given.value not in self.book.kinds:
            return None
        kind = self.book.kinds[kind_given.value]
        variant_given = given.get("variant")
        size, width, text = self._size(kind, given.get("size"))
        variant, said = self._variant(kind, variant_given, size)
        when = self._item_pick("when", given.get("when"), item, "now")
        rank = self._item_pick("rank", given.get("rank"), item, "must")
        options = self._several(given.get("options"), "options", item)
        links = tuple(link for link in self._several(given.get("with"), "with", item) if link in self.book.links)
        return PlannedItem(
            item, kind, variant, size, width, "said" if size is not None else "chosen", text, when, rank,
            load=self._item_fact("load", given, item), depth=self._item_fact("depth", given, item),
            mass=self._item_fact("mass", given, item), stated_power=self._item_fact("stated_power", given, item),
            options=options, links=links, variant_said=said,
            brakes=self._item_pick("brakes", given.get("brakes"), item, "no_brakes") == "has_brakes",
            often=self._item_pick("often", given.get("often"), item, "seasonal"),
        )  # fmt: skip

    def _item_fact(self, question_id: str, given: Mapping[str, Given], item: str) -> Fact | None:
        one = given.get(question_id)
        if one is None:
            return None
        fact = self.fact(question_id, one, item)
        if fact is None and one.unsure and self.questions[question_id].not_sure.how == "from_book":
            self._assume(self.questions[question_id], item, say(self.book, "from_book"), None)
        return fact

    def _item_pick(self, question_id: str, given: Given | None, item: str, default: str) -> str:
        if given is None:
            return default
        if not given.unsure:
            return str(given.value)
        question = self.questions[question_id]
        planned = str(question.not_sure.planning or default)
        labels = {choice.id: choice.label for choice in question.choices}
        self._assume(question, item, labels[planned], None)
        return planned

    def _several(self, given: Given | None, question_id: str, item: str) -> tuple[str, ...]:
        if given is None:
            return ()
        if given.unsure:
            self.left_out.append(LeftOut(question_id, item, self.questions[question_id].ask))
            return ()
        return tuple(value for value in given.value if value != "none_of_these")

    def _variant(self, kind: Kind, given: Given | None, size: Size | None) -> tuple[Variant, bool]:
        fitting = [v for v in kind.variants if size is None or not size.variants or v.id in size.variants]
        if given is not None and not given.unsure:
            for variant in kind.variants:
                if variant.id == given.value:
                    return variant, True
        return (fitting or list(kind.variants))[0], len(kind.variants) == 1

    def _size(self, kind: Kind, given: Given | None) -> tuple[Size | None, float | None, str | None]:
        """The sold size that describes the answer, the working width in m, and the words as typed."""
        if given is None or given.unsure or given.value == "choose":
            if len(kind.sizes) == 1:
                return kind.sizes[0], kind.sizes[0].width or _width(kind, kind.sizes[0]), None
            return None, None, None
        if isinstance(given.value, str):
            for size in kind.sizes:
                if size.id == given.value:
                    return size, size.width or _width(kind, size), None
            return None, None, None
        number = float(given.value)
        if kind.size_is == "width":
            near = min(kind.sizes, key=lambda s: (abs((s.value or 0) - number), -(s.value or 0)))
            return near, number, given.text
        return smallest_at_least(kind, number), None, given.text


def smallest_at_least(kind: Kind, value: float) -> Size:
    """The smallest sold size that is not below `value`; the largest where none is."""
    sold = sorted(kind.sizes, key=lambda s: s.value or 0)
    return next((size for size in sold if (size.value or 0) >= value - 1e-9), sold[-1])


def _width(kind: Kind, size: Size) -> float | None:
    return size.value if kind.size_is == "width" else size.width


def typed_number(fact: Fact, units: Units) -> tuple[float, str]:
    """The number and unit that the buyer typed; in the working unit where the text cannot be read again."""
    typed = None if fact.text is None else _typed(fact.text, fact.dimension, units)
    return typed or (fact.value, DIMENSIONS[fact.dimension].working)


@lru_cache(maxsize=1024)
def _typed(text: str, dimension: str, units: Units) -> tuple[float, str] | None:
    """Read once, however often the road is run with the same answer."""
    try:
        typed = parse(text, dimension, reader_unit(dimension, units))
    except QuantityError:
        return None
    return typed.number, typed.unit
