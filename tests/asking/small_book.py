"""A tiny book for the tests of the asking and the talk: every type of question, three implements, real sentences."""

from __future__ import annotations

from firstfurrow.book.conditions import build
from firstfurrow.book.model import (
    Book,
    Choice,
    Family,
    Figure,
    Group,
    Guide,
    Kind,
    NotSure,
    OilFunction,
    Question,
    Section,
    ShaftDrive,
    Size,
    SizeBand,
    Variant,
)
from firstfurrow.book.places import book_folder
from firstfurrow.book.yaml_strict import read

PLANNED = NotSure("planned")
OPEN = NotSure("not_determined")
BOOK_FIGURE = NotSure("from_book")
REFUSED = NotSure("refused", say="Name one, or type none.")


def _choices(*ids: str) -> tuple[Choice, ...]:
    return tuple(Choice(i, i.replace("_", " ")) for i in ids)


def _oil(name: str, job: str, must: bool) -> OilFunction:
    return OilFunction(name, job, "double", "hold", "stopped", must)


CUTTER = Kind(
    kind="cutter",
    family="mowing",
    name="rotary cutter",
    plain="a spinning blade for weeds",
    sized_by="area",
    size_is="width",
    sizes=(
        Size("1.5 m", 1.5, 1.5, variants=("mounted",)),
        Size("1.8 m", 1.8, 1.8),
        Size("2.1 m", 2.1, 2.1, variants=("trailed",)),
    ),
    variants=(
        Variant("mounted", "carried on the three arms", "three_point"),
        Variant(
            "trailed",
            "pulled on its own wheels",
            "drawbar",
            oil=(_oil("wheels", "lift the wheels", True), _oil("fold", "fold the wings", False)),
        ),
    ),
    also=("topper", "slasher"),
    jobs=("mowing",),
    shaft=ShaftDrive((540,), "live", power=Figure(10, 15, 20, "kW", "practice")),
)
BLADE = Kind(
    kind="blade",
    family="grading",
    name="rear blade",
    plain="a long blade for gravel and snow",
    sized_by="track",
    size_is="width",
    sizes=(Size("1.5 m", 1.5, 1.5), Size("2.4 m", 2.4, 2.4)),
    variants=(
        Variant(
            "mounted",
            "mounted",
            "three_point",
            oil=(_oil("angle", "angle the blade", False), _oil("tilt", "tilt the blade", False)),
        ),
    ),
    jobs=("grading",),
)
TRAILER = Kind(
    kind="trailer",
    family="hauling",
    name="farm trailer",
    plain="a box on wheels",
    sized_by="none",
    size_is="load",
    sizes=(Size("500 kg", 500.0), Size("1500 kg", 1500.0)),
    variants=(Variant("plain", "plain", "drawbar"),),
    asks_load=True,
)
KINDS = (CUTTER, BLADE, TRAILER)

LAND = Section(
    "land",
    "The land",
    "First the land.",
    (
        Question(
            "area",
            "quantity",
            "How much land is there?",
            "It gives the width.",
            NotSure("left_out"),
            how="pace",
            dimension="area",
            bands=(SizeBand("a garden", 0.2, "0.2 ha"), SizeBand("some fields", 6.0, "6 ha")),
            plausible=(0.05, 200.0),
            possible=(0.001, 10000.0),
        ),
        Question(
            "shape",
            "several",
            "What is the land like?",
            "Slopes can tip a tractor.",
            NotSure("planned", planning=("slopes",)),
            choices=_choices("slopes", "wet_places", "trees", "none_of_these"),
        ),
        Question(
            "side_slope",
            "quantity",
            "How steep is it, sideways?",
            "On a side slope a tractor can roll over.",
            NotSure("planned", planning=20.0, low=5.0, high=30.0),
            when=build({"all": [{"answer": "shape", "includes": "slopes"}]}),
            dimension="slope",
            plausible=(0.0, 40.0),
            possible=(0.0, 100.0),
        ),
        Question(
            "steep_why",
            "choice",
            "Must you drive there?",
            "It may be refused.",
            NotSure("planned", planning="must"),
            when=build(
                {"all": [{"answer": "shape", "includes": "slopes"}, {"answer": "side_slope", "at_least": "25 %"}]}
            ),
            choices=_choices("must", "can_avoid"),
        ),
        Question(
            "jobs",
            "several",
            "Which jobs?",
            "Jobs bring implements.",
            NotSure("left_out"),
            choices=_choices("mowing", "grading", "snow"),
        ),
        Question(
            "times",
            "count",
            "How many times a year?",
            "It gives the hours.",
            NotSure("planned", planning=2),
            when=build({"all": [{"answer": "jobs", "includes": "mowing"}]}),
            plausible=(1, 30),
            possible=(0, 365),
        ),
    ),
)
GROUP = Group(
    "implements",
    "Implement",
    (
        Question("kind", "kind", "What implement is it?", "Everything follows.", REFUSED),
        Question(
            "when",
            "choice",
            "Do you own it?",
            "Now or later.",
            NotSure("planned", planning="now"),
            choices=_choices("owned", "now", "later"),
        ),
        Question(
            "variant",
            "variant",
            "How is it built?",
            "Lift or pull.",
            BOOK_FIGURE,
            when=build({"all": [{"item": "kind", "has": "variants"}]}),
        ),
        Question(
            "size",
            "size",
            "What size?",
            "Size moves power.",
            BOOK_FIGURE,
            when=build({"all": [{"item": "kind", "has": "sizes"}]}),
        ),
        Question(
            "load",
            "quantity",
            "How heavy is the load?",
            "It must be pulled.",
            BOOK_FIGURE,
            when=build({"all": [{"item": "kind", "has": "load"}]}),
            dimension="mass",
            plausible=(50.0, 6000.0),
            possible=(1.0, 30000.0),
        ),
        Question(
            "options",
            "several",
            "What shall oil move?",
            "Each takes a set.",
            NotSure("left_out"),
            when=build({"all": [{"item": "kind", "has": "oil_options"}]}),
        ),
        Question(
            "mass",
            "quantity",
            "How heavy is it?",
            "It must be lifted.",
            BOOK_FIGURE,
            when=build({"all": [{"item": "when", "is": "owned"}]}),
            dimension="mass",
            possible=(1.0, 30000.0),
        ),
    ),
    closes=Question(
        "complete",
        "choice",
        "Is there another implement?",
        "The list is what is planned.",
        NotSure("refused", say="Type another, or all."),
        choices=(Choice("another", "another one", also=("more",)), Choice("that_is_all", "that is all", also=("all",))),
    ),
    most=4,
)
ITEMS = Section("implements", "The implements", "Now the implements.", group=GROUP)
SPACE = Section(
    "space",
    "Tight places",
    "Last the gates.",
    (
        Question(
            "trailer_place",
            "choice",
            "Where do you pull?",
            "Roads need brakes.",
            NotSure("planned", planning="both"),
            when=build({"all": [{"any_item": "kind", "has": "drawbar"}]}),
            choices=_choices("fields", "roads", "both"),
        ),
        Question(
            "gate",
            "quantity",
            "How wide is the gate?",
            "The tractor must pass.",
            OPEN,
            dimension="length",
            possible=(0.5, 100.0),
        ),
        Question("words", "text", "Anything else?", "It is printed.", OPEN),
    ),
)


def small_book() -> Book:
    """The book, with the sentences of the shipped catalogue."""
    messages = read(book_folder() / "messages.yaml")["messages"]
    families = tuple(Family(k.family, k.family, (k,)) for k in KINDS)
    return Book(
        id="small",
        version=1,
        sections=(LAND, ITEMS, SPACE),
        families=families,
        kinds={k.kind: k for k in KINDS},
        links={},
        tables={},
        requirements={},
        groups={},
        sources={},
        guides={"pace": Guide("pace", "Pace it out", ("Walk two sides.", "Multiply."))},
        glossary={"drawbar": "A bar at the back.", "draft": "The pull of a tool in soil."},
        messages=messages,
        settings={"home": {"title": "What must it be able to do?", "intro": "One question at a time."}},
    )


BOOK = small_book()
