"""What the book holds, as frozen objects: figures with grade and source, questions, implement kinds, tables.

Every number is in the fixed working unit of its dimension (see `firstfurrow.quantities`). Nothing here reads a file,
talks to anybody or knows any physics.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Literal

from firstfurrow.book.teaching import Teaching

Grade = Literal["read", "secondary", "memory", "derived", "practice"]
GRADES: tuple[str, ...] = ("read", "secondary", "memory", "derived", "practice")
SOURCED: tuple[str, ...] = ("read", "secondary", "memory")


@dataclass(frozen=True, slots=True)
class Source:
    """One outside source, named once in `sources.yaml`."""

    id: str
    title: str
    publisher: str
    year: int | None = None
    edition: str | None = None
    link: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of the trade with its range, unit, grade and source.

    `planning` is what the program plans with; for a band written with two numbers it is the upper end (ours).
    """

    low: float
    planning: float
    high: float
    unit: str
    grade: Grade
    source: str | None = None
    where: str | None = None
    derived_from: str | None = None
    note: str | None = None

    @property
    def exact(self) -> bool:
        """True when the figure has no range."""
        return self.low == self.high


# ---------------------------------------------------------------- conditions


@dataclass(frozen=True, slots=True)
class Leaf:
    """One test on one subject. `scope` answer (outer question), item (same item) or any_item (at least one item)."""

    scope: Literal["answer", "item", "any_item"]
    subject: str  # a question id; for the test `has` always "kind"
    test: Literal["is", "in", "includes", "at_least", "below", "not_sure", "has"]
    value: Any  # choice id, tuple of choice ids, number in the working unit, True, or a feature


@dataclass(frozen=True, slots=True)
class Condition:
    """`all`, `any` or `not` over leaves or further conditions; an empty `all` is always true."""

    op: Literal["all", "any", "not"]
    parts: tuple[Condition | Leaf, ...]


# ----------------------------------------------------------------- questions


@dataclass(frozen=True, slots=True)
class Choice:
    """One allowed answer: an id for the file, a label for the reader, words that may be typed for it."""

    id: str
    label: str
    note: str | None = None
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SizeBand:
    """A lettered suggestion under a quantity question, for people who cannot give a number."""

    label: str
    value: float
    text: str  # as written in the book, with its unit


@dataclass(frozen=True, slots=True)
class NotSure:
    """What happens on *not sure*.

    planned         plan with `planning` (choice id, tuple of ids or number), range `low` to `high`
    left_out        the job or thing is left out of the plan, and listed as left out
    not_determined  the ceiling stays open: measure it
    from_book       the book's own figure for this kind is used
    refused         the question needs an answer; `say` tells what to do instead
    """

    how: Literal["planned", "left_out", "not_determined", "from_book", "refused"]
    planning: Any = None
    low: Any = None
    high: Any = None
    say: str | None = None


@dataclass(frozen=True, slots=True)
class OtherAsk:
    """Other words for a question where a condition holds; `choose` False: the program may not be asked to choose."""

    when: Condition
    ask: str
    choose: bool = True


QuestionType = Literal["choice", "several", "quantity", "count", "kind", "variant", "size", "text"]


@dataclass(frozen=True, slots=True)
class Question:
    """One node of the decision graph."""

    id: str
    type: QuestionType
    ask: str
    why: str
    not_sure: NotSure
    how: str | None = None  # id of a measuring guide
    when: Condition | None = None
    moves: tuple[str, ...] = ()  # requirement ids
    shows: tuple[str, ...] = ()  # other things in the report that it moves (hours, cautions)
    choices: tuple[Choice, ...] = ()
    dimension: str | None = None  # quantity only
    bare_unit: Mapping[str, str] = field(default_factory=dict)  # {us: ft, metric: m}: what a number without unit means
    bands: tuple[SizeBand, ...] = ()
    plausible: tuple[float, float] | None = None  # outside: asked once more, may be kept
    possible: tuple[float, float] | None = None  # outside: refused
    asks: tuple[OtherAsk, ...] = ()  # the first one that holds takes the place of `ask`
    choose: bool = True  # size only: the list offers that the program chooses


@dataclass(frozen=True, slots=True)
class Group:
    """Questions repeated for each item. `closes` is an ordinary choice question: another, that_is_all."""

    id: str
    title: str
    questions: tuple[Question, ...]
    closes: Question
    most: int


@dataclass(frozen=True, slots=True)
class Section:
    """One file of the decision graph: plain questions, or one group."""

    id: str
    title: str
    intro: str
    questions: tuple[Question, ...] = ()
    group: Group | None = None


@dataclass(frozen=True, slots=True)
class MoreThan:
    """An answer that is more than `times` another answer, or than what the size of the implement carries."""

    times: Figure
    answer: str | None = None  # an outer question; None: what the size carries


@dataclass(frozen=True, slots=True)
class ContradictionRule:
    """Answers that do not go together: one of `when`, `more_than`, `no_job`, `no_tool` says how it is found.

    no_job
        The implement does none of the jobs; left out are the kinds named here.
    no_tool
        Nothing on the list does a job; left out are the jobs named here.
    """

    id: str
    asked_at: tuple[str, ...]  # asked as soon as one of these is answered; each one is looked at by itself
    others: tuple[str, ...]  # the other answers that it is about
    say: str
    when: Condition | None = None
    more_than: MoreThan | None = None
    no_job: tuple[str, ...] | None = None
    no_tool: tuple[str, ...] | None = None


# ---------------------------------------------------------------- implements


@dataclass(frozen=True, slots=True)
class OilFunction:
    """One thing that oil moves on an implement."""

    id: str
    job: str
    acting: Literal["single", "double", "motor"]
    duty: Literal["brief", "hold", "continuous"]
    moves: Literal["stopped", "working"]  # working: while the implement does its work
    must: bool
    supply: Literal["rear_set", "loader_valve", "tractor_lift", "own_pump", "power_beyond"] = "rear_set"
    shares: bool = False  # may share a set behind a selector valve
    floats: bool = False  # needs the float position
    is_link: Literal["top", "side"] | None = None  # this function is itself the hydraulic top or side link
    flow: Figure | None = None  # L/min
    pressure: Figure | None = None  # bar
    volume: Figure | None = None  # L out of the tractor's reservoir


@dataclass(frozen=True, slots=True)
class ShaftDrive:
    """What turns the implement. Exactly one of `power_per_width` and `power` unless every size has its own `power`."""

    speeds: tuple[int, ...]  # rev/min, any one of
    engagement: Literal["transmission", "live", "independent"]
    place: Literal["rear", "mid"] = "rear"
    power_per_width: Figure | None = None  # kW/m at the tractor PTO, installed, usual reserve inside
    power: Figure | None = None  # kW
    rotary_row: str | None = None  # row of the rotary-power table
    feed: Figure | None = None  # t/h of material, where the row has a c coefficient
    hard_by: Literal["growth", "soil", "wood", "snow_kind"] | None = None  # which answer says easy, normal or hard


@dataclass(frozen=True, slots=True)
class Pull:
    """The draft of a pulled tool: a row of the draft table, or a band per width, per tool or for the whole."""

    row: str | None = None
    depth: Figure | None = None  # cm, major tillage rows
    tools_per_width: Figure | None = None  # 1/m, where the row counts tools or rows and the size gives a width
    per: Literal["width", "tool", "whole"] | None = None
    force: Figure | None = None  # kN, or kN/m for per: width
    self_limiting: bool = False  # the operator sets the bite


@dataclass(frozen=True, slots=True)
class Size:
    """One size as sold. `value` is in the working unit of the kind's `size_is`; label sizes have none."""

    id: str  # as written in the book and in an answers file
    value: float | None = None
    width: float | None = None  # m, working width
    tools: int | None = None
    variants: tuple[str, ...] = ()  # empty: all
    categories: tuple[str, ...] = ()  # hitch categories in which this size is sold (three-point variants)
    load: Figure | None = None  # kg
    mass: Figure | None = None  # kg, empty
    tongue: Figure | None = None  # kg
    power: Figure | None = None  # kW at the shaft
    centre_behind_pins: Figure | None = None  # m


@dataclass(frozen=True, slots=True)
class Variant:
    """A build of a kind: how it is attached and what oil it wants. Fields left out fall back to the kind."""

    id: str
    name: str
    way: Literal["three_point", "drawbar", "loader", "mid_mount", "link"]
    oil: tuple[OilFunction, ...] = ()
    shaft: ShaftDrive | None = None
    no_shaft: bool = False  # this build has none although the kind has
    mass: Figure | None = None
    mass_per_width: Figure | None = None
    tongue: Figure | None = None
    tongue_share: Figure | None = None  # % of gross mass
    centre_behind_pins: Figure | None = None


@dataclass(frozen=True, slots=True)
class DoneWithout:
    """What does the work of a kind without a tractor, and up to which area or load; the limits are ours."""

    what: str
    area: float | None = None  # ha
    load: float | None = None  # kg


@dataclass(frozen=True)  # no slots: what follows from a record is worked out once
class Kind:
    """What sort of implement."""

    kind: str
    family: str
    name: str
    plain: str
    sized_by: Literal["area", "load", "track", "none"]
    size_is: Literal["width", "tools", "load", "volume", "diameter", "label"]
    sizes: tuple[Size, ...]
    variants: tuple[Variant, ...]
    us_size_unit: str | None = None  # the trade's unit for these sizes where US units are used
    also: tuple[str, ...] = ()
    jobs: tuple[str, ...] = ()
    area_job: str | None = None  # job whose area and hours size this kind
    shaft: ShaftDrive | None = None
    pull: Pull | None = None
    rolls: bool = False  # towed on wheels: rolling resistance is added to the pull
    mass: Figure | None = None
    mass_per_width: Figure | None = None
    load: Figure | None = None
    centre_behind_pins: Figure | None = None  # m
    load_centre_ahead: Figure | None = None  # m, loader tools, ahead of the pins
    tongue: Figure | None = None
    tongue_share: Figure | None = None
    speed: Figure | None = None  # km/h; None for stationary work
    field_rate: str | None = None  # row of the field-rate table
    loader_functions: int = 0
    asks_load: bool = False
    asks_depth: bool = False
    never_tilted: bool = False  # hangs on the arms, and nobody tips it from the seat
    meets_stones: bool = False  # its blades, tines or knives can hit what lies in or on the ground
    draft_control: bool = False
    folds: bool = False  # narrower on the way than at work
    leads: tuple[str, ...] = ()  # kinds that usually run behind this one, in one train
    no_quick_coupler: bool = False  # a quick coupler on the arms does not take it
    guard: bool = False  # woodland work, where things fall on the driver
    tread: Literal["turf", "lug"] | None = None  # where the work settles the tread of the tyres
    done_without: DoneWithout | None = None
    needs: tuple[str, ...] = ()
    mistakes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @cached_property
    def features(self) -> frozenset[str]:
        """What conditions may ask with `has`; derived, so that a new implement needs no edit of a question."""
        found: set[str] = set()
        ways = {v.way for v in self.variants}
        found |= ways & {"three_point", "drawbar", "loader", "mid_mount"}
        if "three_point" in ways and not self.never_tilted:
            found.add("tilts")
        if self.shaft is not None or any(v.shaft is not None for v in self.variants):
            found.add("shaft")
        if any(v.oil for v in self.variants):
            found.add("oil")
        if any(not f.must for v in self.variants for f in v.oil if f.is_link is None):
            found.add("oil_options")
        if len(self.variants) > 1:
            found.add("variants")
        if len(self.sizes) > 1:
            found.add("sizes")
        if self.size_is == "width":
            found.add("width")
        if self.rolls and "three_point" not in ways:
            found.add("wheels")
        if self.asks_load:
            found.add("load")
        if self.asks_depth:
            found.add("depth")
        return frozenset(found)


@dataclass(frozen=True, slots=True)
class Family:
    """One file of implements: a shelf that a dealer or educator would recognise."""

    id: str
    title: str
    kinds: tuple[Kind, ...]


# -------------------------------------------------------------------- tables


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table. `figures` by column; `words` are labels; `numbers` are exact trade numbers without range."""

    id: str
    name: str
    figures: Mapping[str, Figure] = field(default_factory=dict)
    words: Mapping[str, Any] = field(default_factory=dict)

    def __getitem__(self, column: str) -> Figure:
        return self.figures[column]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of the trade: rows by id, in the order of the file."""

    id: str
    title: str
    rows: Mapping[str, Row]
    note: str | None = None

    def __getitem__(self, row: str) -> Row:
        return self.rows[row]


# -------------------------------------------------------------- requirements


@dataclass(frozen=True, slots=True)
class Requirement:
    """One requirement as the book describes it; its value is worked out in `advice`."""

    id: str
    group: str
    title: str
    what: str
    sense: Literal["at_least", "at_most", "one_of", "each_of", "level"]
    unit: str  # working unit; "" for words
    decides: Literal["planning", "unfavourable"]
    round_to: float | None
    offer_keys: tuple[str, ...]
    check: str  # how to check it at the tractor
    later: Literal["yes", "dealer", "no"]
    later_what: str
    levels: tuple[str, ...] = ()  # for sense level, weakest first
    caveats: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    class_column: str | None = None  # column of the size-class table that this compares with
    shown: Mapping[str, str] = field(default_factory=dict)  # {us: hp}: the reader's unit where not the default
    in_band: bool = False  # its figure is a usual one: within the range some tools do with less, so it is asked about
    stand_in: bool = False  # a figure for the size class that stands in: it moves whenever that class does


@dataclass(frozen=True, slots=True)
class Guide:
    """How to measure or find out something."""

    id: str
    title: str
    steps: tuple[str, ...]
    drawing: tuple[str, ...] = ()  # plain characters; the steps say the same


@dataclass(frozen=True, slots=True)
class MeasuringStep:
    """One thing to look at or measure. `only`: asked where an earlier step has one of these answers (not_sure too)."""

    question: Question
    tape: str  # where to put the tape, or where to look
    only: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    drawing: tuple[str, ...] = ()  # the same in characters, line by line


@dataclass(frozen=True, slots=True)
class Station:
    """Something to stand before and measure, with the cautions that go before it."""

    id: str
    label: str
    also: tuple[str, ...]
    cautions: tuple[str, ...]
    steps: tuple[MeasuringStep, ...]
    usual: tuple[str, ...] = ()  # rows of its table that are named first where several fit
    anytime: str | None = None  # the step whose answer is taken wherever it is typed


@dataclass(frozen=True, slots=True)
class Measuring:
    """Guided measuring: what to stand before, tolerances, things no table has, and the words of it."""

    stations: Mapping[str, Station]
    figures: Mapping[str, Figure]
    lookalikes: Mapping[str, Sequence[Row]]  # by station
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class OfferWord:
    """One word that an offer may write under a key."""

    id: str
    label: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class OfferKey:
    """One thing that an offer may say about a tractor: a measure, words (weakest first), or what is printed on it."""

    id: str
    name: str
    what: str
    where: str  # where to read it
    dimension: str | None = None
    unit: str = ""  # working unit
    words: tuple[OfferWord, ...] = ()
    many: bool = False  # several may be written
    zero: bool = False  # nothing at all is an answer
    bare: str | None = None  # what a number without a unit means; None: refused
    tolerance: float = 0.0  # how far a figure may be off and still fit
    printed: str = ""  # what sort of print it is, such as tyre_size; "": a measure or words


@dataclass(frozen=True, slots=True)
class Stop:
    """Where one stands on the walk around a tractor, with the keys of an offer that are filled in there."""

    id: str
    title: str
    look: str
    cautions: tuple[str, ...]
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Round:
    """The walk around a tractor: what to bring and to heed, the stops, and the unit behind each box."""

    bring: Sequence[str]
    cautions: Sequence[str]
    units: Sequence[tuple[str, str, str]]  # a dimension or a key; its unit in the United States, and elsewhere
    stops: Sequence[Stop]


@dataclass(frozen=True, slots=True)
class Edition:
    """A local edition: who made it, and the measures that it takes for granted where the reader names none."""

    id: str
    name: str
    version: int
    units: Literal["us", "metric"] | None = None


@dataclass(frozen=True, slots=True)
class Book:
    """Everything, checked. Made by `firstfurrow.book.load`."""

    id: str
    version: int
    sections: Sequence[Section]  # read when the walk comes to them
    families: Sequence[Family]
    kinds: Mapping[str, Kind]
    links: Mapping[str, Kind]  # hydraulic top and side link: kinds that are never items
    tables: Mapping[str, Table]
    requirements: Mapping[str, Requirement]
    groups: Mapping[str, str]  # requirement group id -> title, in order
    sources: Mapping[str, Source]
    guides: Mapping[str, Guide]
    glossary: Mapping[str, str]
    messages: Mapping[str, str]
    settings: Mapping[str, Any]
    contradictions: Sequence[ContradictionRule] = ()
    two_meanings: Sequence[str] = ()  # words of the glossary that a text may use in another sense
    offer_keys: Mapping[str, OfferKey] = field(default_factory=dict)  # what an offer may say
    offer_figures: Mapping[str, Figure] = field(default_factory=dict)  # figures of checking an offer
    measuring: Measuring | None = None
    teaching: Teaching = field(default_factory=Teaching)
    round: Round | None = None  # the walk around a tractor
    edition: Edition | None = None  # the local edition that lies over the shipped book
    retired: frozenset[str] = frozenset()  # ids of questions that it takes out: not put, they count as not sure

    def question(self, id_: str) -> Question | None:
        """The question with that id, wherever it is asked; None when the book has none."""
        for section in self.sections:
            group = () if section.group is None else (*section.group.questions, section.group.closes)
            for question in (*section.questions, *group):
                if question.id == id_:
                    return question
        return None

    def choice(self, name: str) -> Figure:
        """One of our own choices, from the table of that name.

        Raises
        ------
        KeyError
            When the book has no such choice.
        """
        return self.tables["our_choices"].rows[name].figures["value"]
