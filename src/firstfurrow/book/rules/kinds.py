"""Kinds of implement: everything is there that the advice needs to work them out."""

from __future__ import annotations

from collections.abc import Iterator

from firstfurrow.book.figures import number
from firstfurrow.book.files import Files, Placed
from firstfurrow.book.implements import LIMIT_DIMENSION
from firstfurrow.book.problems import Problem, Said
from firstfurrow.book.rules.figures import unreadable
from firstfurrow.quantities import QuantityError

Where = tuple[Placed, Placed, Placed]  # kind, variant, size: a field may stand on any of them

LIFT = "Without it nobody can work out what the arms must lift, and whether the front wheels stay down."
NO_POWER = "Without it the power at the shaft cannot be worked out."
NO_WIDTH = "The power grows with the width, and here the width is not known."
NO_PULL = "Without it the pull cannot be worked out."
AREA_JOB = Said(
    "a kind that is sized by area needs area_job.",
    "The width follows from the area and the hours of one job, and the program must know which.",
    "Add area_job: and the id of a job, such as area_job: hay.",
)
FIELD_RATE = Said(
    "a kind that is sized by area needs field_rate.",
    "Without it no width follows from area and hours, and the smallest size is taken for any land.",
    "Add field_rate: and a row of tables/field_rates.yaml, such as field_rate: mower_rotary.",
)
LOAD_OF_SIZE = Said(
    "a kind that carries a load needs the load of every size.",
    "Without it the load counts as nothing, and the tractor is planned too light to lift, pull and stop it.",
    "Add load: {value: 800 kg, grade: practice} to this size, or to the kind.",
)
TOOLS = Said(
    "a size counted in tools needs tools and width.",
    "Pull and width follow from them.",
    "Write {size: 3 furrows, tools: 3, width: 1.05 m}.",
)
SPEED = Said(
    "a kind that works or is towed as the tractor drives needs its working speed.",
    "Hours and width follow from the speed, and without it the power to drive and to climb is left out.",
    "Add speed: {low: 3 km/h, planning: 5 km/h, high: 8 km/h, grade: practice}.",
)
ROLLS = Said(
    "a kind that is only pulled, and has no pull of its own, rolls on wheels and must say so.",
    "Without it nobody is asked for its brakes, and the tractor is planned as if it had none.",
    "Add rolls: true, or say under pull what it takes to draw it through the ground.",
)
BOTH_POWERS = Said(
    "give power_per_width or power, not both.",
    "Two figures for one thing would disagree sooner or later.",
    "Keep power_per_width where it grows with the width, else power.",
)
SIZE_POWER = Said(
    "the shaft names no power, so every size needs its own.", NO_POWER,
    "Add power: {value: 20 kW, grade: practice} here, or power_per_width to the shaft.",
)  # fmt: skip
SIZE_WIDTH = Said(
    "power for each width needs the width of every size.", NO_WIDTH, "Add width: 1.5 m to this size.",
)  # fmt: skip
ROW_OR_PER = Said(
    "a pull has a row of the draft table, or per with force.", NO_PULL,
    "Write row: and an id of tables/draft.yaml, or per: width with force: {...}.",
)  # fmt: skip
PER_AND_FORCE = Said(
    "per and force belong together.", NO_PULL,
    "Write both, such as per: width and force: {value: 3 kN/m, grade: practice}.",
)  # fmt: skip
USUAL_DEPTH = Said(
    "a kind that asks for its depth needs the usual depth here.",
    "Who is not sure how deep it works is planned at the usual depth.",
    "Add depth: {low: 10 cm, planning: 15 cm, high: 20 cm, grade: practice}.",
)
UP_TO = Said(
    "done_without needs area or load: up to where it holds.",
    "Without a limit the reader would be told that no tractor is needed at all.",
    "Add area: 0.5 ha, or load: 150 kg.",
)
AREA_FOR_JOB = Said(
    "an area is for a kind with area_job.",
    "There is no area to compare it with.",
    "Write load: instead, or give the kind an area_job.",
)
LOAD_FOR_LOAD = Said(
    "a load is for a kind that is sized by its load.",
    "There is no load to compare it with.",
    "Write area: instead, or sized_by: load.",
)
CATEGORIES = Said(
    "a size that hangs on the three arms needs categories.",
    "The pins of the tool must fit the balls of the arms.",
    "Add categories: ['1'], or those in which this size is sold.",
)
CENTRE = Said(
    "a size that hangs on the three arms needs centre_behind_pins.", LIFT,
    "Add centre_behind_pins: {low: 600 mm, planning: 700 mm, high: 850 mm, grade: practice} to the kind or the size.",
)  # fmt: skip
AHEAD = Said(
    "a loader tool needs load_centre_ahead.",
    "A load further out in front feels heavier, and the loader must lift it there.",
    "Add load_centre_ahead: {low: 400 mm, planning: 500 mm, high: 600 mm, grade: practice} to the kind.",
)


def problems(files: Files) -> Iterator[Problem]:
    """What is missing or too much in the kinds."""
    for family, kind in files.kinds:
        yield from _sizing(kind)
        yield from _drive(kind)
        yield from _pull(kind)
        yield from _done_without(kind)
        if family != "links":
            yield from _builds(kind)


def hints(files: Files) -> Iterator[Problem]:
    """Kinds without cautions, without a time for their job, and towed builds without a load on the drawbar."""
    for family, kind in files.kinds:
        job = kind.data.get("area_job")
        asked = (f"{job}_hours",), (f"{job}_days", f"{job}_hours_a_day")
        if kind.data["sized_by"] == "area" and not any(all(id_ in files.question for id_ in ids) for ids in asked):
            said = Said(
                f"no question asks for the time of the job {job}, by which {kind.data['kind']} is sized.",
                "Without the hours no width follows from the area, and the smallest size is taken for any land.",
                f"Add a question {job}_hours behind {job}_area.",
            )
            yield kind.problem(said, "area_job")
        if not kind.data.get("cautions"):
            said = Said(
                f"{kind.data['kind']} has no cautions.",
                "They stand beside the figures, and every implement of the shipped book says what can hurt somebody.",
                "Add cautions: and a sentence, such as cautions: [Keep people away from the shaft.].",
            )
            yield kind.problem(said, "kind")
        for variant in kind.each("variants") if family != "links" else ():
            on_sizes = all(size.data.get("tongue") is not None for size in kind.each("sizes"))
            given = any(part.data.get(k) is not None for part in (kind, variant) for k in ("tongue", "tongue_share"))
            if variant.data["way"] == "drawbar" and not (on_sizes or given):
                said = Said(
                    f"nothing says what of {kind.data['kind']} as {variant.data['variant']} rests on the drawbar.",
                    "The usual share of our_choices is taken, and none of it is counted as grip.",
                    "Add tongue_share: {low: 10 %, planning: 12 %, high: 15 %, grade: practice}, or a load as tongue.",
                )
                yield variant.problem(said, "variant")


def _sizing(kind: Placed) -> Iterator[Problem]:
    data = kind.data
    if data["sized_by"] == "area" and data.get("area_job") is None:
        yield kind.problem(AREA_JOB, "sized_by")
    if data["sized_by"] == "area" and data.get("field_rate") is None:
        yield kind.problem(FIELD_RATE, "sized_by")
    if (data["sized_by"] == "load" or data.get("asks_load")) and data.get("load") is None:
        for size in kind.each("sizes"):
            if size.data.get("load") is None:
                yield size.problem(LOAD_OF_SIZE, "size")
    if data["size_is"] == "tools":
        for size in kind.each("sizes"):
            if size.data.get("tools") is None or size.data.get("width") is None:
                yield size.problem(TOOLS, "size")
    if data.get("speed") is None and _drives(kind):
        yield kind.problem(SPEED, "kind")


def _drives(kind: Placed) -> bool:
    """True when it does its work while the tractor drives; what stands still, such as a chipper, has no speed."""
    data = kind.data
    turned = any(part.get("shaft") is not None for part in (kind, *kind.each("variants")))
    return (
        data["sized_by"] != "none"
        or any(data.get(key) is not None for key in ("pull", "field_rate"))
        or (turned and data["size_is"] == "width")
        or (bool(data.get("rolls")) and not turned)
    )


def _drive(kind: Placed) -> Iterator[Problem]:
    for part in (kind, *kind.each("variants")):
        shaft = part.get("shaft")
        if shaft is None:
            continue
        given = [k for k in ("power_per_width", "power") if shaft.data.get(k) is not None]
        if len(given) == 2:
            yield shaft.problem(BOTH_POWERS)
        if not given and shaft.data.get("rotary_row") is None:
            for size in kind.each("sizes"):
                if size.data.get("power") is None:
                    yield size.problem(SIZE_POWER, "size")
        if "power_per_width" in given and kind.data["size_is"] not in ("width", "tools"):
            for size in kind.each("sizes"):
                if size.data.get("width") is None:
                    yield size.problem(SIZE_WIDTH, "size")


def _pull(kind: Placed) -> Iterator[Problem]:
    pull = kind.get("pull")
    if pull is None:
        return
    if (pull.data.get("row") is None) == (pull.data.get("per") is None):
        yield pull.problem(ROW_OR_PER)
    if (pull.data.get("per") is None) != (pull.data.get("force") is None):
        yield pull.problem(PER_AND_FORCE)
    if kind.data.get("asks_depth") and pull.data.get("depth") is None:
        yield pull.problem(USUAL_DEPTH)


def _done_without(kind: Placed) -> Iterator[Problem]:
    other = kind.get("done_without")
    if other is None:
        return
    if other.data.get("area") is None and other.data.get("load") is None:
        yield other.problem(UP_TO)
    if other.data.get("area") is not None and kind.data.get("area_job") is None:
        yield other.problem(AREA_FOR_JOB, "area")
    if other.data.get("load") is not None and kind.data["sized_by"] != "load":
        yield other.problem(LOAD_FOR_LOAD, "load")
    for key, dimension in LIMIT_DIMENSION.items():
        if other.data.get(key) is not None:
            try:
                number(other.data[key], dimension)
            except QuantityError as error:
                yield other.problem(unreadable(error), key)


def _builds(kind: Placed) -> Iterator[Problem]:
    for variant in kind.each("variants"):
        sizes = [s for s in kind.each("sizes") if variant.data["variant"] in _sold_as(kind, s)]
        if not sizes:
            name = variant.data["variant"]
            said = Said(
                f'no size is sold as "{name}".',
                "Who chooses this build could not choose a size.",
                f"Name {name} under variants of a size, or take this build out.",
            )
            yield variant.problem(said, "variant")
        for size in sizes:
            where = (kind, variant, size)
            if not _has(where, "mass") and not (_has(where, "mass_per_width") and _wide(where)):
                said = Said(
                    f"the mass of this size as {variant.data['variant']} is not known.",
                    "Lift, balance and the weight of the tractor follow from it.",
                    "Add mass: {low: ..., high: ..., grade: practice} here, or mass_per_width to the kind.",
                )
                yield size.problem(said, "size")
            if variant.data["way"] == "three_point":
                if not size.data.get("categories"):
                    yield size.problem(CATEGORIES, "size")
                if not _has(where, "centre_behind_pins"):
                    yield size.problem(CENTRE, "size")
        if variant.data["way"] == "loader" and kind.data.get("load_centre_ahead") is None:
            yield variant.problem(AHEAD, "way")
    # Of a kind that is carried in another build nobody is asked for brakes, and the figures know that it rolls.
    only_pulled = all(variant.data["way"] == "drawbar" for variant in kind.each("variants"))
    if only_pulled and not kind.data.get("rolls") and kind.get("pull") is None:
        yield kind.problem(ROLLS, "variants")


def _sold_as(kind: Placed, size: Placed) -> list[str]:
    return size.data.get("variants") or [v["variant"] for v in kind.data["variants"]]


def _has(where: Where, key: str) -> bool:
    return any(part.data.get(key) is not None for part in where)


def _wide(where: Where) -> bool:
    return where[0].data["size_is"] == "width" or where[2].data.get("width") is not None
