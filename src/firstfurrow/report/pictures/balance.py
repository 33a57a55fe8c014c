"""The seesaw: a tractor about one of its axles, what lifts the wheels at the far end, and what is left on them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfurrow.advice.pictured.seesaws import Arm, Seesaw, load_in_front, tool_behind
from firstfurrow.advice.strictest import Strictest
from firstfurrow.quantities import Units, format_number
from firstfurrow.report.blocks import Picture
from firstfurrow.report.page import Page
from firstfurrow.report.pictures import tractor_side as side
from firstfurrow.report.pictures.seesaw import Press, Scene, drawn
from firstfurrow.report.pictures.values import arm, bare, mass
from firstfurrow.report.pictures.words import Say, sayer


def pictures(page: Page) -> Iterator[Picture]:
    """One for the tool behind, one for the loader: each where the plan has its numbers."""
    say, units = sayer(page.book), page.profile.units
    behind = tool_behind(page.profile)
    if behind is not None:
        yield Picture(
            "balance_behind", say("balance_behind_title", name=behind.name),
            drawn(_behind(say, units, behind)), tuple(_says_behind(page, say, units, behind)),
        )  # fmt: skip
    front = load_in_front(page.profile)
    if front is not None:
        yield Picture(
            "balance_front", say("balance_front_title", name=front.name),
            drawn(_front(say, units, front)), tuple(_says_front(page, say, units, front)),
        )  # fmt: skip


def _behind(say: Say, units: Units, found: Seesaw) -> Scene:
    b, tool = found.wheelbase, found.lifting
    reach = tool.distance - found.overhang
    shapes = [*side.raised_tool(b, found.overhang, reach), *side.tractor(b)]
    presses = [
        Press(-tool.distance, (side.HUNG + 0.16) * b, found.name, bare(mass(tool.mass, units))),
        Press(b, 0.72 * b, say("balance_standing_front"), bare(mass(found.standing, units))),
    ]
    arms = [(-tool.distance, bare(arm(tool.distance, units)), 0), (b, bare(arm(b, units)), 0)]
    sums = [(say("balance_sum_standing_front"), bare(mass(found.standing, units)))]
    right = side.AHEAD * b
    if found.helping is not None:
        ahead = found.helping.distance - b
        shapes += side.front_weights(b, ahead)
        words = say("balance_weights")
        presses.append(Press(b + ahead, 0.46 * b, words, bare(mass(found.helping.mass, units)), "right"))
        arms.append((found.helping.distance, bare(arm(found.helping.distance, units)), 1))
        sums.append(_sum(say, units, found, words, found.helping, presses_on=True))
        right = b + ahead + 0.06 * b
    sums.append(_sum(say, units, found, found.name, tool, presses_on=False))
    return Scene(
        tuple(shapes), -tool.distance - 0.62 * reach, right, side.TALL * b, 0.0, say("balance_turns"), tuple(presses),
        tuple(arms), tuple(sums), _results(say, units, found, say("balance_left_front")),
    )  # fmt: skip


def _front(say: Say, units: Units, found: Seesaw) -> Scene:
    b, load, weight = found.wheelbase, found.lifting, found.helping
    assert weight is not None
    shapes = (*side.weight_behind(b, found.overhang), *side.tractor(b), *side.loader(b, load.distance))
    presses = (
        Press(b + load.distance, 0.56 * b, say("balance_load"), bare(mass(load.mass, units))),
        Press(0.0, 0.8 * b, say("balance_standing_rear"), bare(mass(found.standing, units))),
        Press(-found.overhang, 0.62 * b, say("balance_counterweight"), bare(mass(weight.mass, units)), "left"),
    )  # fmt: skip
    arms = (
        (b + load.distance, bare(arm(load.distance, units)), 0), (0.0, bare(arm(b, units)), 0),
        (-found.overhang, bare(arm(weight.distance, units)), 1),
    )  # fmt: skip
    sums = (
        (say("balance_sum_standing_rear"), bare(mass(found.standing, units))),
        _sum(say, units, found, say("balance_counterweight"), weight, presses_on=True),
        _sum(say, units, found, say("balance_load"), load, presses_on=False),
    )
    return Scene(
        shapes, -found.overhang - 0.15 * b, b + load.distance + 0.26 * b, side.TALL * b, b, say("balance_turns"),
        presses, arms, sums, _results(say, units, found, say("balance_left_rear")),
    )  # fmt: skip


def _sum(say: Say, units: Units, found: Seesaw, name: str, one: Arm, *, presses_on: bool) -> tuple[str, str]:
    slots = {
        "name": name, "mass": bare(mass(one.mass, units)), "arm": bare(arm(one.distance, units)),
        "wheelbase": bare(arm(found.wheelbase, units)),
    }  # fmt: skip
    far = bare(mass(abs(round(one.far)), units))
    if presses_on:
        return say("balance_sum_on", **slots), say("balance_plus", mass=far)
    return say("balance_sum_off", **slots), say("balance_minus", mass=far)


def _results(say: Say, units: Units, found: Seesaw, words: str) -> tuple[tuple[str, str, float], ...]:
    must = say(
        "balance_must", share=format_number(100 * found.share, 0), mass=bare(mass(round(found.tractor), units))
    )  # fmt: skip
    return (
        (words, bare(mass(round(found.left), units)), found.left),
        (must, bare(mass(math.ceil(found.must), units)), found.must),
    )


# -------------------------------------------------------------------------- words


def _says_behind(page: Page, say: Say, units: Units, found: Seesaw) -> Iterator[str]:
    tool = found.lifting
    yield say("balance_says_behind", name=found.name)
    yield say(
        "balance_says_tractor", mass=mass(found.tractor, units), row=found.row.name,
        wheelbase=arm(found.wheelbase, units),
    )  # fmt: skip
    yield say("balance_says_standing_front", mass=mass(found.standing, units))
    yield say("balance_says_rule")
    if found.helping is not None:
        yield _said(say, units, found, say("balance_weights"), found.helping, "balance_says_on")
    yield _said(say, units, found, found.name, tool, "balance_says_off")
    yield from _says_results(say, units, found, say("balance_left_front"))
    yield from _says_rounded(say, units, say("balance_tractor"), found.tractor, found.asked)
    weights = page.profile.outcomes["front_ballast"].widest
    if found.helping is not None and weights is not None:
        yield from _says_rounded(say, units, say("balance_weights"), found.helping.mass, weights)
    if found.because == "uphill":
        slope = format_number(page.profile.plan.slope_up.high, 1)
        yield say("balance_says_uphill", slope=slope, shown=found.asked.shown)
    elif found.because == "class_below":
        yield say("balance_says_class_below", shown=found.asked.shown)
    yield say("balance_says_worst")
    yield say("balance_caution_behind")


def _says_front(page: Page, say: Say, units: Units, found: Seesaw) -> Iterator[str]:
    weight = found.helping
    assert weight is not None
    yield say("balance_says_front", name=found.name)
    yield say(
        "balance_says_loader", row=found.row.name, mass=mass(found.tractor, units),
        wheelbase=arm(found.wheelbase, units),
    )  # fmt: skip
    yield say("balance_says_standing_rear", mass=mass(found.standing, units))
    yield say("balance_says_rule")
    yield _said(say, units, found, say("balance_counterweight"), weight, "balance_says_on")
    yield _said(say, units, found, say("balance_load"), found.lifting, "balance_says_off")
    yield from _says_results(say, units, found, say("balance_left_rear"))
    yield from _says_rounded(say, units, say("balance_counterweight"), weight.mass, found.asked)
    if found.because == "downhill":
        slope = format_number(page.profile.plan.slope_up.high, 1)
        yield say("balance_says_downhill", slope=slope, shown=found.asked.shown)
    yield say("balance_says_worst")
    yield say("balance_caution_front")


def _said(say: Say, units: Units, found: Seesaw, name: str, one: Arm, id_: str) -> str:
    slots = {
        "name": name, "mass": mass(one.mass, units), "arm": arm(one.distance, units),
        "wheelbase": arm(found.wheelbase, units), "far": mass(abs(round(one.far)), units),
    }  # fmt: skip
    return say("balance_says_on", **slots) if id_ == "balance_says_on" else say("balance_says_off", **slots)


def _says_results(say: Say, units: Units, found: Seesaw, words: str) -> Iterator[str]:
    yield say("balance_says_left", what=words, mass=mass(round(found.left), units))
    share, tractor = format_number(100 * found.share, 0), mass(round(found.tractor), units)
    yield say("balance_says_must", share=share, tractor=tractor, mass=mass(math.ceil(found.must), units))
    yield verdict(say, found)


def verdict(say: Say, found: Seesaw) -> str:
    """Whether enough is left."""
    return say("balance_says_less") if found.left + 0.5 < found.must else say("balance_says_enough")


def _says_rounded(say: Say, units: Units, what: str, kg: float, asked: Strictest) -> Iterator[str]:
    """The requirement is rounded to the safe side once more in the reader's unit; a sum is not."""
    if kg == asked.stated and bare(mass(kg, units)) != bare(asked.shown):
        yield say("balance_says_rounded", what=what, mass=mass(kg, units), shown=bare(asked.shown))
